import { alongHoleM } from "../../../calc/units.ts";
import { pocketsOf } from "../../pockets.ts";
import { type LineChart, lineChart, type Movement, type Purpose } from "../../results/lineChart.ts";
import { type LineReading, lineReadings } from "../../results/lineReadings.ts";
import type { Results } from "../../results/results.ts";
import { resultsAt } from "../../state/conditions.ts";
import { foldInOrder, latestReading } from "../../state/jobState.ts";
import { quantityAxis } from "../axis.ts";
import type { Block, Series } from "../document.ts";
import type { Reported } from "../reported.ts";
import { clockOf } from "../when.ts";

const movements: readonly {
  readonly movement: Movement;
  readonly name: string;
  readonly shape: Series["shape"];
}[] = [
  { movement: "runningIn", name: "Going in, expected", shape: "dashed line" },
  { movement: "hanging", name: "Hanging, expected", shape: "line" },
  { movement: "pullingOut", name: "Coming out, expected", shape: "dashed line" },
];

/** What the indicator showed with each string, beside what it should have shown from top to bottom. */
export function linePullBlocks(of: Reported): Block[] {
  return pocketsOf(of.programme.job).flatMap((pocket) =>
    (["gauge", "pull", "set"] as const).flatMap((purpose) => ofString(of, purpose, pocket)),
  );
}

function ofString(of: Reported, purpose: Purpose, pocket: string): Block[] {
  const { state, writer } = of;
  const now = resultsAt(state, pocket);
  if (!now) return [];
  const last = lineReadings(state, now).findLast((each) => each.purpose === purpose);
  const event = last && latestReading(state, last.field)?.event;
  if (!event) return [];
  // At the pressures that stood when the string was weighed last, not at those after it was out.
  const then = foldInOrder(state.events.slice(0, (state.position.get(event.hash) ?? 0) + 1));
  const results = resultsAt(then, pocket) ?? now;
  const readings = lineReadings(state, results).filter((each) => each.purpose === purpose);
  const chart = lineChart(results, purpose);
  const title = `Line pull, ${of.programme.strings[purpose]?.name ?? `${purpose} string`}${pocketInWords(of, pocket)}`;
  return [
    ...(chart.state === "known" ? [picture(of, title, chart, readings, results)] : []),
    {
      kind: "table",
      caption: `${title}, as read`,
      columns: [
        { title: "Read at", share: 0.9 },
        { title: "Reading", share: 3 },
        { title: "Depth", align: "right", share: 1.1 },
        { title: "Read", align: "right", share: 1 },
        { title: "Expected", align: "right", share: 1 },
        { title: "By", share: 1.4 },
      ],
      rows: readings.map(({ takenAt, label, at, depth, si, expected, overLimit, by }) => [
        clockOf(takenAt),
        overLimit ? { text: `${label} (over the limit)`, tone: "problem" } : label,
        at === "surface" ? "near surface" : writer.write("length", depth),
        writer.write("force", si),
        expected === undefined ? "" : { text: writer.write("force", expected), tone: "calculated" },
        by,
      ]),
    },
  ];
}

function pocketInWords({ programme }: Reported, pocket: string): string {
  if (pocketsOf(programme.job).length === 1) return "";
  const number = programme.well?.mandrels.find(({ id }) => id === pocket)?.number;
  return number === undefined ? "" : `, mandrel ${number}`;
}

function picture(
  { writer }: Reported,
  title: string,
  chart: LineChart,
  readings: readonly LineReading[],
  results: Results,
): Block {
  const { depths, limit } = chart;
  const most = Math.max(...chart.pullingOut, ...readings.map(({ si }) => si));
  // A limit far above everything that was read squeezes the rest together: the words say it then.
  const isNear = limit !== undefined && most > limit / 2;
  const x = quantityAxis("Indicator", "force", writer, [
    0,
    most,
    ...chart.runningIn,
    ...(isNear ? [limit] : []),
  ]);
  const y = quantityAxis("Depth along hole", "length", writer, [0, ...depths]);
  const target = results.value("target-depth");
  const line = movements.map(
    ({ movement, name, shape }): Series => ({
      name,
      shape,
      of: "calculated",
      points: depths.map((depth, index) => [x.shown(chart[movement][index] ?? 0), y.shown(depth)]),
    }),
  );
  const at = target === undefined ? -1 : depths.indexOf(alongHoleM(target));
  const expected = movements.flatMap(({ movement }): (readonly number[])[] => {
    const si = chart[movement][at];
    return si === undefined || target === undefined ? [] : [[x.shown(si), y.shown(target)]];
  });
  const foot = depths.at(-1) ?? 0;
  return {
    kind: "chart",
    chart: {
      title:
        limit === undefined || isNear
          ? title
          : `${title}. At most ${writer.write("force", limit)}, outside the picture`,
      x: x.axis,
      y: y.axis,
      ratio: 0.75,
      series: [
        ...line,
        ...(expected.length > 0
          ? [
              {
                name: "Expected at the mandrel",
                shape: "rings" as const,
                of: "calculated" as const,
                points: expected,
              },
            ]
          : []),
        {
          name: "Read",
          shape: "dots",
          of: "measured",
          points: readings.map(({ si, depth }) => [x.shown(si), y.shown(depth)]),
        },
        ...(isNear
          ? [
              {
                name: "At most",
                shape: "bar" as const,
                of: "limit" as const,
                points: [0, foot].map((depth) => [x.shown(limit), y.shown(depth)]),
              },
            ]
          : []),
      ],
    },
  };
}
