import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { circle } from "./seat.ts";

export const shearPinsMethod: Method = {
  name: "Force that shears the pins",
  formula: "F = n m τ π d² / 4; n pins, m planes each",
  source:
    "statics; real pins spread by 10 to 15 percent, common practice: hold the certificate of the batch or the tool maker's figure. Steady pull only: a blow of the jars shears pins that the line could never pull in two",
  validity: [],
};

/**
 * Steady force that shears a set of equal pins.
 *
 *   F = n m τ π d² / 4
 *
 * @param diameter d, of a pin, m
 * @param count    n, pins that share the load, a whole number from 1
 * @param planes   m, 1 single shear, 2 double shear: the pin crosses two faces
 * @param strength τ, shear strength of the material, Pa
 * @returns N
 * @throws InputError for an impossible value
 * @example shearForce(0.1875 in, 1, 2, 32000 psi)  // 1767 lbf
 * Source: see shearPinsMethod.
 */
export function shearForce(
  diameter: number,
  count: number,
  planes: number,
  strength: number,
): number {
  requireNumber("diameter", diameter, "above 0", (d) => d > 0);
  requireNumber("count", count, "a whole number from 1", (n) => Number.isInteger(n) && n >= 1);
  requireNumber(
    "planes",
    planes,
    "1 (single shear) or 2 (double shear)",
    (m) => m === 1 || m === 2,
  );
  requireNumber("shear_strength", strength, "above 0", (s) => s > 0);
  return count * planes * strength * circle(diameter);
}
