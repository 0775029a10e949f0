import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { circle } from "./seat.ts";

export const pocketForceMethod: Method = {
  name: "Force on a seated valve from unequal pressure",
  formula:
    "F = Δp (Aupper − Alower) while both packing stacks seal; F = Δp Aupper once the lower one has left its bore; Δp = annulus − tubing; up and out is positive",
  source:
    "statics: annulus pressure stands between the stacks, tubing pressure above the upper and below the lower one, and acts on both ends of the valve",
  validity: [],
};

export interface PocketForce {
  /** N, up and out positive: both stacks in their bores */
  readonly seated: number;
  /** N, up and out positive: the lower stack clear, the upper one still sealing */
  readonly lowerStackClear: number;
}

/**
 * What is left of a pressure difference pushes on the valve by its net seal area only, until a stack
 * leaves its bore; then by the whole bore at most, and the gas that rushes past adds drag that no area
 * captures. The latch holds against it until it is unlocked; the weight of the valve is not in it.
 *
 * @param difference annulus less tubing at the pocket, Pa
 * @param upperBore  seal bore of the upper stack, m
 * @param lowerBore  seal bore of the lower stack, m, not wider than the upper one
 * @throws InputError when a bore is not above 0 or the lower one is the wider
 * Source: statics, see pocketForceMethod. Bores come from the mandrel's drawing.
 */
export function pocketForce(difference: number, upperBore: number, lowerBore: number): PocketForce {
  requireNumber("difference", difference, "a pressure difference");
  requireNumber("lower_bore", lowerBore, "above 0", (d) => d > 0);
  requireNumber(
    "upper_bore",
    upperBore,
    "at least as wide as the lower bore",
    (d) => d >= lowerBore,
  );
  const upper = circle(upperBore);
  return {
    seated: difference * (upper - circle(lowerBore)),
    lowerStackClear: difference * upper,
  };
}
