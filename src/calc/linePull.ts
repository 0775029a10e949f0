import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { buoyancyFactor, type StringWeight } from "./pushOut.ts";
import { GRAVITY, type VerticalM } from "./units.ts";

/** A round solid line. */
export interface Line {
  /** m */
  readonly diameter: number;
  /** mass per length, kg/m */
  readonly linearMass: number;
}

export const hangingPullMethod: Method = {
  name: "Line pull with the string hanging still, no drag",
  formula:
    "T = W (1 − ρ/ρs) cos θ + w g [(1 − ρg/ρl) hl + (1 − ρliq/ρl)(h − hl)] − F; ρ is the fluid at the string; going in reads less by drag and packing friction, coming out more",
  source:
    "statics of a frictionless line: along any path its weight counts by true vertical depth only",
  validity: [],
};

/** Fluids at rest round line and string: gas above, liquid below a level. */
export interface WellFluids {
  /** kg/m3 */
  readonly gasDensity: number;
  readonly liquidDensity: number;
  /** true vertical depth of the fluid level, m */
  readonly level: VerticalM;
}

/**
 * Pull above the packing with the string hanging still, without drag.
 *
 * @param line        its mass per length and diameter
 * @param string      weight in air and mean density
 * @param fluids      round line and string; the string counts as wholly in the fluid at its depth
 * @param depth       true vertical depth of the tool, m, 0 or more
 * @param inclination of the hole at the tool, rad
 * @param pushOut     at the packing, N
 * @returns N; a reading, never proof of what hangs below: a valve weighs less than the noise
 * @throws InputError for impossible values
 * @example hangingPull(wire, { 150 lbf, steel }, gas, 6000 ft, 0, 0)  // 31.18 lb per 1,000 ft: 337 lbf in air
 * Source: see hangingPullMethod.
 */
export function hangingPull(
  line: Line,
  string: StringWeight,
  fluids: WellFluids,
  depth: VerticalM,
  inclination: number,
  pushOut: number,
): number {
  requireNumber("depth", depth, "0 or more", (d) => d >= 0);
  const area = (Math.PI * line.diameter ** 2) / 4;
  const lineDensity = line.linearMass / area;
  const inGas = Math.min(depth, Math.max(0, fluids.level));
  const kept =
    inGas * buoyancyFactor(fluids.gasDensity, lineDensity) +
    (depth - inGas) * buoyancyFactor(fluids.liquidDensity, lineDensity);
  const atString = depth > fluids.level ? fluids.liquidDensity : fluids.gasDensity;
  const stringWeight =
    string.inAir * buoyancyFactor(atString, string.meanDensity) * Math.cos(inclination);
  return stringWeight + line.linearMass * GRAVITY * kept - pushOut;
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
