import type { PlotLevel, PlotMark, PlotPoint } from "./plot.ts";

/**
 * A line's value at a depth, straight between the two points around it.
 *
 * @param points  [n], from one end to the other, downwards or upwards
 * @returns undefined beyond the ends; where the value jumps, what holds from there on
 */
export function valueAt(points: readonly PlotPoint[], depth: number): number | undefined {
  for (let i = points.length - 1; i > 0; i -= 1) {
    const one = points[i - 1] as PlotPoint;
    const other = points[i] as PlotPoint;
    if ((one.depth - depth) * (other.depth - depth) > 0) continue;
    if (one.depth === other.depth) return other.si;
    return one.si + ((other.si - one.si) * (depth - one.depth)) / (other.depth - one.depth);
  }
  return points[0]?.depth === depth ? points[0].si : undefined;
}

/** A depth worth stopping at: a level with the marks at it, or a mark between levels. */
export interface Stop {
  readonly depth: number;
  readonly name: string | undefined;
  readonly marks: readonly PlotMark[];
}

/** Depths closer than this, m, are one place: they were worked out on two ways from one record. */
const SAME_PLACE = 0.5;

/** @returns downwards */
export function stopsOf(levels: readonly PlotLevel[], marks: readonly PlotMark[]): Stop[] {
  const stops: { depth: number; name: string | undefined; marks: PlotMark[] }[] = levels.map(
    ({ depth, label, name = `Mandrel ${label}` }) => ({ depth, name, marks: [] }),
  );
  for (const mark of marks) {
    const there = stops.find((stop) => Math.abs(stop.depth - mark.depth) < SAME_PLACE);
    if (there) there.marks.push(mark);
    else stops.push({ depth: mark.depth, name: undefined, marks: [mark] });
  }
  return stops.sort((one, other) => one.depth - other.depth);
}

export function nearestStop(stops: readonly Stop[], depth: number): Stop | undefined {
  const away = (stop: Stop) => Math.abs(stop.depth - depth);
  return stops.reduce<Stop | undefined>(
    (best, stop) => (best && away(best) <= away(stop) ? best : stop),
    undefined,
  );
}

/** From the top of the picture to its foot, m. */
export interface Reach {
  readonly top: number;
  readonly foot: number;
}

/**
 * From the surface, or above it where something is there, to the deepest thing drawn; a metre at least, for
 * a wellhead on its own.
 */
export function reachOf(depths: readonly number[]): Reach {
  return { top: Math.min(0, ...depths), foot: Math.max(1, ...depths) };
}

const STEPS = 50;

/** Where a key takes the reading line, or undefined for a key that does not move it. */
export function moved(
  key: string,
  depth: number,
  { top, foot }: Reach,
  stops: readonly Stop[],
): number | undefined {
  const step = (foot - top) / STEPS;
  switch (key) {
    case "ArrowDown":
    case "ArrowRight":
      return Math.min(depth + step, foot);
    case "ArrowUp":
    case "ArrowLeft":
      return Math.max(depth - step, top);
    case "PageDown":
      return stops.find((stop) => stop.depth > depth)?.depth ?? foot;
    case "PageUp":
      return stops.findLast((stop) => stop.depth < depth)?.depth ?? top;
    case "Home":
      return top;
    case "End":
      return foot;
    default:
      return undefined;
  }
}
