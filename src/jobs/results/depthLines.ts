import { gasColumn } from "../../calc/gasColumn.ts";
import { InputError } from "../../calc/inputError.ts";
import { absolutePa, type VerticalM, verticalM } from "../../calc/units.ts";
import { mandrelResultId } from "./atMandrel.ts";
import type { Context } from "./context.ts";
import { injectionAtSurface } from "./onLift.ts";
import { productionProfile, surveyCounts } from "./productionOnLift.ts";
import type { Results } from "./results.ts";

/** A figure against true vertical depth, SI. */
export interface DepthPoint {
  readonly depth: VerticalM;
  readonly si: number;
}

/** What the well on lift looks like from top to bottom; a line that cannot be drawn is empty. */
export interface DepthLines {
  readonly injection: readonly DepthPoint[];
  readonly production: readonly DepthPoint[];
  readonly flowing: readonly DepthPoint[];
  readonly shutIn: readonly DepthPoint[];
}

/** Enough for a curve that bends as little as a gas column. */
const LEGS = 24;

/** Lines from surface to the deepest mandrel, through every mandrel's depth. */
export function depthLines(results: Results): DepthLines {
  const { context } = results;
  const mandrels = (context.programme.well?.mandrels ?? []).flatMap(({ number }) => {
    const tvd = results.value(mandrelResultId("tvd", number));
    return tvd === undefined ? [] : [tvd];
  });
  if (mandrels.length === 0) return { injection: [], production: [], flowing: [], shutIn: [] };
  const deepest = Math.max(...mandrels);
  const even = Array.from({ length: LEGS + 1 }, (_, leg) => (leg / LEGS) * deepest);
  const depths = [...new Set([...even, ...mandrels])].sort((a, b) => a - b).map(verticalM);
  const { gas, flowing, shutIn } = context;
  const surface = injectionAtSurface(context).si;
  return {
    injection: drawn(depths, () => {
      if (!gas.ok || !flowing.ok || surface === undefined) return undefined;
      const column = gasColumn(absolutePa(surface), verticalM(0), depths, gas.value, flowing.value);
      return (_, index) => column.pressures[index];
    }),
    production: surveyCounts(context)
      ? stopsOf(context)
      : drawn(depths, () => {
          const profile = productionProfile(context);
          return profile && ((depth) => profile.at(depth).pressure);
        }),
    flowing: drawn(depths, () => (flowing.ok ? flowing.value.at : undefined)),
    shutIn: drawn(depths, () => (shutIn.ok ? shutIn.value.at : undefined)),
  };
}

/** What was measured and nothing else: no point between the stops or beyond them. */
const stopsOf = ({ survey }: Context): DepthPoint[] =>
  survey.ok ? survey.value.points.map(({ depth, pressure }) => ({ depth, si: pressure })) : [];

/** A line through depths; empty where the core refuses its figures, which the figures themselves say. */
function drawn(
  depths: readonly VerticalM[],
  make: () => ((depth: VerticalM, index: number) => number | undefined) | undefined,
): DepthPoint[] {
  try {
    const at = make();
    if (!at) return [];
    return depths.flatMap((depth, index) => {
      const si = at(depth, index);
      return si === undefined ? [] : [{ depth, si }];
    });
  } catch (error) {
    if (error instanceof InputError) return [];
    throw error;
  }
}
