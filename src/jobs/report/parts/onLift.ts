import { mandrelResultId } from "../../results/atMandrel.ts";
import { type DepthPoint, depthLines } from "../../results/depthLines.ts";
import { wholeWellOf } from "../../results/mandrelResults.ts";
import { surveyCounts } from "../../results/productionOnLift.ts";
import type { MandrelFigure } from "../../results/traced.ts";
import { mandrelStates } from "../../results/wholeWell.ts";
import { quantityAxis } from "../axis.ts";
import { bellowsFigure } from "../bellowsFigure.ts";
import type { Block, Cell, Series } from "../document.ts";
import type { Reported } from "../reported.ts";
import { whenInFull } from "../when.ts";

/** The well on lift with what was set: pressures over depth, and where each valve opens and shuts. */
export function onLiftBlocks({ programme, writer, verdict }: Reported): Block[] {
  const { well } = programme;
  if (!well) return [];
  const results =
    verdict?.well?.results ??
    wholeWellOf(programme, { lift: "as planned", pocket: "with the replacement" });
  const states = new Map(mandrelStates(results).map((each) => [each.mandrel.number, each]));
  const lines = depthLines(results);
  const figure = (of: MandrelFigure, number: number) => results.value(mandrelResultId(of, number));
  const marks = (of: MandrelFigure): DepthPoint[] =>
    well.mandrels.flatMap(({ number }) => {
      const [depth, si] = [figure("tvd", number), figure(of, number)];
      return depth === undefined || si === undefined
        ? []
        : [{ depth: depth as DepthPoint["depth"], si }];
    });
  const opening = marks("opening");
  const all = [...lines.injection, ...lines.production, ...opening];
  if (lines.injection.length === 0 || all.length < 2) return [];
  const x = quantityAxis(
    "Pressure",
    "pressure",
    writer,
    all.map(({ si }) => si),
  );
  const y = quantityAxis("True vertical depth", "length", writer, [
    0,
    ...all.map(({ depth }) => depth),
  ]);
  const series = (
    name: string,
    shape: Series["shape"],
    kind: Series["of"],
    points: readonly DepthPoint[],
  ): Series[] =>
    points.length === 0
      ? []
      : [
          {
            name,
            shape,
            of: kind,
            points: points.map(({ depth, si }) => [x.shown(si), y.shown(depth)]),
          },
        ];
  const surveyed = surveyCounts(results.context);
  const read = verdict?.well && verdict.read;
  const when = read ? `as read ${whenInFull(read.takenAt)}` : "as planned";
  return [
    {
      kind: "chart",
      chart: {
        title: `Pressures on lift, ${when}, ${read ? "well as left" : "with what is to be set"}`,
        x: x.axis,
        y: y.axis,
        ratio: 0.75,
        series: [
          ...series("Injection", "line", "calculated", lines.injection),
          ...series(
            surveyed ? "Production, surveyed" : "Production",
            "dashed line",
            surveyed ? "measured" : "calculated",
            lines.production,
          ),
          ...series("Valve opens", "rings", "calculated", opening),
        ],
      },
    },
    {
      kind: "table",
      caption: `Mandrels on lift, ${when}`,
      columns: [
        { title: "Mandrel" },
        { title: "True vertical depth", align: "right" },
        { title: "Injection", align: "right" },
        { title: "Production", align: "right" },
        { title: "Opens at", align: "right" },
        { title: "Shuts at", align: "right" },
      ],
      rows: [...well.mandrels]
        .sort((one, other) => one.number - other.number)
        .map(({ number }): Cell[] => {
          const cell = (of: MandrelFigure, dimension: "length" | "pressure"): Cell => {
            const si = figure(of, number);
            return si === undefined
              ? "not known"
              : { text: writer.write(dimension, si), tone: "calculated" };
          };
          const state = states.get(number);
          const ofBellows = (of: MandrelFigure): Cell =>
            state ? bellowsFigure(state, figure(of, number), writer) : "not known";
          return [
            String(number),
            cell("tvd", "length"),
            cell("injection", "pressure"),
            cell("production", "pressure"),
            ofBellows("opening"),
            ofBellows("closing"),
          ];
        }),
    },
  ];
}
