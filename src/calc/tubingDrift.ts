import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { fromInches, M_PER_IN } from "./units.ts";

export const tubingDriftMethod: Method = {
  name: "Drift diameter of tubing",
  formula:
    "inside diameter less 3/32 in up to 2-7/8 in outside, less 1/8 in from 3-1/2 to 8-5/8 in outside",
  source:
    "API Specification 5CT by its tabulated sizes. The bore may be wider than nominal, the drift is what is warranted; a mandrel's own drift may be less",
  validity: [],
};

const MICRON = 1e-6;

/** By how much a drift is below the bore, by outside diameter in inches, ends included. */
const rules = [
  { from: 1, to: 2.875, less: 3 / 32 },
  { from: 3.5, to: 8.625, less: 1 / 8 },
].map(({ from, to, less }) => ({
  from: fromInches(from) - MICRON,
  to: fromInches(to) + MICRON,
  less: fromInches(less),
}));

/**
 * Diameter that a gauge passes in new tubing.
 *
 * @param outside nominal outside diameter, m: 1 to 2-7/8 in or 3-1/2 to 8-5/8 in
 * @param inside  nominal inside diameter, m, below the outside one
 * @returns m
 * @throws InputError for a size between or outside those; an inside diameter that leaves no wall or no drift
 * @example driftDiameter(2-7/8 in, 2.441 in)  // 2.347 in
 * Source: see tubingDriftMethod.
 */
export function driftDiameter(outside: number, inside: number): number {
  requireNumber("outside_diameter", outside, "above 0", (d) => d > 0);
  const rule = rules.find(({ from, to }) => outside >= from && outside <= to);
  if (!rule) {
    throw new InputError(
      "outside_diameter",
      outside,
      "a size of 1 to 2-7/8 in or of 3-1/2 to 8-5/8 in",
    );
  }
  requireNumber(
    "inside_diameter",
    inside,
    `between ${(rule.less / M_PER_IN).toFixed(3)} in and the outside diameter`,
    (d) => d > rule.less && d < outside,
  );
  return inside - rule.less;
}
