import { useMemo } from "react";
import { mandrelResultId } from "../../jobs/results/atMandrel.ts";
import { depthLines } from "../../jobs/results/depthLines.ts";
import { surveyCounts } from "../../jobs/results/productionOnLift.ts";
import type { MandrelFigure } from "../../jobs/results/traced.ts";
import { DepthPlot } from "../DepthPlot/DepthPlot.tsx";
import type { PlotLevel, PlotLine, PlotMark } from "../DepthPlot/plot.ts";
import type { Looked } from "./looked.ts";

/** A line, or none where nothing of it is known. */
const named = (
  name: string,
  points: PlotLine["points"],
  more: Partial<PlotLine> = {},
): PlotLine[] => (points.length > 0 ? [{ name, ink: "calculated", points, ...more }] : []);

const figureAt = ({ results }: Looked, figure: MandrelFigure, mandrel: number) =>
  results.value(mandrelResultId(figure, mandrel));

function levelsOf(looked: Looked): PlotLevel[] {
  return looked.states.flatMap(({ mandrel }): PlotLevel[] => {
    const depth = figureAt(looked, "tvd", mandrel.number);
    return depth === undefined ? [] : [{ depth, label: String(mandrel.number) }];
  });
}

/** Where each valve opens, with its band, and where it shuts. */
function marksOf(looked: Looked): PlotMark[] {
  return looked.states.flatMap(({ mandrel }): PlotMark[] => {
    const [depth, opening, closing, widest] = (
      ["tvd", "opening", "closing", "opening-band"] as const
    ).map((figure) => figureAt(looked, figure, mandrel.number));
    if (depth === undefined) return [];
    const emphasis = mandrel.id === looked.target;
    const marks: PlotMark[] = [];
    if (opening !== undefined) {
      const band = widest !== undefined && { band: [opening - widest, opening + widest] as const };
      marks.push({ depth, si: opening, name: "Opening", shape: "ring", emphasis, ...band });
    }
    if (closing !== undefined) {
      marks.push({ depth, si: closing, name: "Closing", shape: "bar", emphasis });
    }
    return marks;
  });
}

export function PressurePlot(looked: Looked) {
  const { results, writer } = looked;
  const lines = useMemo(() => depthLines(results), [results]);
  const production = surveyCounts(results.context)
    ? named("Production, surveyed", lines.production, { ink: "measured" })
    : named("Production", lines.production, { dashed: true });
  return (
    <DepthPlot
      title="Pressure on lift"
      dimension="pressure"
      writer={writer}
      lines={[...named("Injection", lines.injection), ...production]}
      marks={marksOf(looked)}
      levels={levelsOf(looked)}
      shapes={{ ring: "opens at", bar: "shuts at" }}
    />
  );
}

export function TemperaturePlot(looked: Looked) {
  const { results, writer } = looked;
  const lines = useMemo(() => depthLines(results), [results]);
  return (
    <DepthPlot
      title="Temperature"
      dimension="temperature"
      writer={writer}
      lines={[
        ...named("On lift", lines.flowing),
        ...named("Shut in", lines.shutIn, { dashed: true }),
      ]}
      marks={[]}
      levels={levelsOf(looked)}
    />
  );
}
