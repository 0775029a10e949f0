import type { Writer } from "../../jobs/display.ts";
import { unitLabel } from "../../jobs/display.ts";
import type { Dimension } from "../../jobs/quantity.ts";
import type { DepthCount, PlotLine, PlotMark } from "./plot.ts";
import { type Reach, type Stop, valueAt } from "./reading.ts";

/** A picture's words, for the readout, for who listens instead of looking, and for print. */
export interface PlotWords {
  readonly value: (si: number) => string;
  /** `970 to 1014 psig` */
  readonly band: (band: readonly [number, number]) => string;
  readonly depth: (depth: number) => string;
}

export function plotWords(dimension: Dimension, writer: Writer): PlotWords {
  const write = (of: Dimension, si: number) => {
    const { number, unit } = writer.parts(of, si);
    return `${number} ${unitLabel(unit)}`.trim();
  };
  return {
    value: (si) => write(dimension, si),
    band: ([from, to]) => `${writer.parts(dimension, from).number} to ${write(dimension, to)}`,
    depth: (depth) => write("length", depth),
  };
}

export function stopName({ name, depth }: Stop, words: PlotWords): string {
  return name === undefined ? words.depth(depth) : `${name}, ${words.depth(depth)}`;
}

function markWords({ name, si, band }: PlotMark, words: PlotWords): string {
  const spread = band ? `, ${words.band(band)}` : "";
  return `${name} ${words.value(si)}${spread}`;
}

/** The reading line in one breath. */
export function spoken(
  depth: number,
  lines: readonly PlotLine[],
  near: Stop | undefined,
  words: PlotWords,
): string {
  const values = lines.map(({ name, points }) => {
    const si = valueAt(points, depth);
    return `${name} ${si === undefined ? "has no value here" : words.value(si)}`;
  });
  const parts = [words.depth(depth), ...values];
  if (near) {
    const marks = near.marks.map((mark) => markWords(mark, words));
    parts.push(`nearest ${[stopName(near, words), ...marks].join(", ")}`);
  }
  return parts.join("; ");
}

/** The whole picture in words. */
export function described(
  title: string,
  lines: readonly PlotLine[],
  stops: readonly Stop[],
  reach: Reach,
  words: PlotWords,
  count: DepthCount,
): string {
  const drawn = lines.map(({ name, ink, points }) => {
    const ends = [points[0], points.at(-1)].filter((point) => point !== undefined);
    const values = ends.map(({ depth, si }) => `${words.value(si)} at ${words.depth(depth)}`);
    return `${name}, ${ink}: ${values.join(" and ") || "no values"}.`;
  });
  const marked = stops
    .filter(({ marks }) => marks.length > 0)
    .map((stop) => {
      const marks = stop.marks.map((mark) => markWords(mark, words));
      return `${stopName(stop, words)}: ${marks.join("; ")}.`;
    });
  const counted = count === "true vertical" ? "True vertical depth" : "Depth along hole";
  const from = `${counted} runs down, from ${words.depth(reach.top)} to ${words.depth(reach.foot)}.`;
  return [`${title}.`, from, ...drawn, ...marked].join(" ");
}
