import { scaleLinear } from "@visx/scale";
import { displayUnit, formatNumber, type Writer } from "../../jobs/display.ts";
import { type Dimension, fromSI } from "../../jobs/quantity.ts";

/** A quantity along an edge of the picture. Ticks are round in the unit shown, so the scale counts in that. */
export interface PlotAxis {
  readonly unit: string;
  /** an SI value in that unit */
  readonly shown: (si: number) => number;
  /** pixels, for an SI value */
  readonly at: (si: number) => number;
  /** pixels, for a value in the unit shown */
  readonly scale: ReturnType<typeof scaleLinear<number>>;
  readonly ticks: number[];
  readonly format: (value: number) => string;
}

interface AxisOptions {
  readonly dimension: Dimension;
  readonly writer: Writer;
  /** SI, least and most that has to fit */
  readonly ends: readonly [number, number];
  /** pixels */
  readonly range: readonly [number, number];
  /** about this many */
  readonly ticks: number;
  /** with air at both ends, and ends that are round */
  readonly loose?: boolean;
}

export function plotAxis(options: AxisOptions): PlotAxis {
  const { dimension, writer, ends, range, ticks, loose = false } = options;
  const unit = displayUnit(writer.system, dimension);
  const shown = (si: number) => fromSI(dimension, si, unit, writer.atmosphere);
  const [least, most] = [shown(ends[0]), shown(ends[1])];
  const scale = scaleLinear<number>({
    domain: loose ? withAir(least, most) : [least, most],
    range: [...range],
    nice: loose ? 10 : false,
  });
  const values = scale.ticks(ticks);
  const [one = 0, next = one + 1] = values;
  const digits = decimals(next - one);
  return {
    unit,
    shown,
    at: (si) => scale(shown(si)),
    scale,
    ticks: values,
    format: (value) => formatNumber(value, digits),
  };
}

/** What is never negative keeps its zero: air does not turn into a vacuum. */
export function withAir(least: number, most: number): [number, number] {
  const air = (most - least || Math.abs(most) || 1) * 0.04;
  return [least >= 0 ? Math.max(0, least - air) : least - air, most + air];
}

/** Digits after the point that tell ticks this far apart from one another. */
function decimals(step: number): number {
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}
