import { requireNumber } from "./inputError.ts";
import { type AbsolutePa, absolutePa, type VerticalM } from "./units.ts";

/**
 * Pressure at the foot of a liquid column at rest.
 *
 *   p2 = p1 + gradient (h2 - h1)
 *
 * @param pressure absolute at `from`, Pa
 * @param from     true vertical depth, m
 * @param to       true vertical depth, m, above or below
 * @param gradient Pa/m of true vertical depth, 0 or more
 * @returns absolute pressure at `to`, Pa; it may come out negative when the column is longer than the
 *          pressure can carry, and the caller says what that means
 * @throws InputError for a negative gradient
 * Holds for a liquid of one density; compressibility neglected (common practice). Source: hydrostatics.
 */
export function liquidColumn(
  pressure: AbsolutePa,
  from: VerticalM,
  to: VerticalM,
  gradient: number,
): AbsolutePa {
  requireNumber("gradient", gradient, "0 or more", (g) => g >= 0);
  return absolutePa(pressure + gradient * (to - from));
}
