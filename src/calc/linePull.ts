import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import type { VerticalM } from "./units.ts";

/** A round solid line. */
export interface Line {
  /** m */
  readonly diameter: number;
  /** mass per length, kg/m */
  readonly linearMass: number;
}

/** Fluids at rest round line and string: gas above, liquid below a level. */
export interface WellFluids {
  /** kg/m3 */
  readonly gasDensity: number;
  readonly liquidDensity: number;
  /** true vertical depth of the fluid level, m */
  readonly level: VerticalM;
}

export const largestPullMethod: Method = {
  name: "Largest permitted line pull at surface",
  formula: "Tmax = smaller of (fraction × breaking strength as it is now) and rope socket strength",
  source: "policy value; 50 to 60 percent of breaking strength is common practice",
  validity: [],
};

/**
 * Largest pull that may be put on a line at surface.
 *
 * @param breakingStrength   of the line as it is now, N
 * @param fraction           of it that policy allows, above 0 to 1
 * @param ropeSocketStrength N, or undefined when not stated
 * @returns N
 * @throws InputError for a fraction outside 0 to 1
 */
export function largestPull(
  breakingStrength: number,
  fraction: number,
  ropeSocketStrength?: number,
): number {
  requireNumber("breaking_strength", breakingStrength, "above 0", (f) => f > 0);
  requireNumber("allowed_fraction", fraction, "above 0 and at most 1", (f) => f > 0 && f <= 1);
  return Math.min(breakingStrength * fraction, ropeSocketStrength ?? Number.POSITIVE_INFINITY);
}
