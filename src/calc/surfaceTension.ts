import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { type AbsolutePa, type Kelvin, toDegF, toPsia } from "./units.ts";

const N_M_PER_DYN_CM = 1e-3;
/** Where the forms run towards no tension at all they are no longer meant: 1 dyn/cm is the custom. */
const LEAST = 1;

export const surfaceTensionMethod: Method = {
  name: "Surface tension of oil and of water against gas, Baker and Swerdloff (1955, 1956)",
  formula:
    "oil: (39 at 68 degF, 37.5 at 100 degF) − 0.2571 API, straight between, × (1 − 0.024 p^0.45); water: 75 − 1.108 p^0.349 at 74 degF, 53 − 0.1048 p^0.637 at 280 degF, straight between (dyn/cm, psia); constant beyond the two temperatures, not below 1 dyn/cm",
  source:
    "Baker and Swerdloff, Oil & Gas J. (5 December 1955) 141 and (2 January 1956) 125, as fitted in wiki.pengtools.com, Gas/Oil and Gas/Water Interfacial Tension",
  validity: [],
};

const between = (x: number, x1: number, y1: number, x2: number, y2: number): number =>
  y1 + (Math.min(Math.max(x, x1), x2) - x1) * ((y2 - y1) / (x2 - x1));

/**
 * Surface tension of oil with gas above it.
 *
 * @param pressure absolute, Pa
 * @returns N/m, 0.001 at least
 * @throws InputError for a pressure or a gravity that cannot be
 * @example oilSurfaceTension(absolutePa(17.237e6), kelvin(366.48), 35)  // 5.37 dyn/cm
 * Another fit of the same chart has exp(-8.6306e-4 p) for the gas: within 12.5 percent up to 1,000 psia, 3.3 dyn/cm in
 * the example. A traverse hangs on its fourth root at most. Source: see surfaceTensionMethod.
 */
export function oilSurfaceTension(
  pressure: AbsolutePa,
  temperature: Kelvin,
  apiGravity: number,
): number {
  requireNumber("pressure", pressure, "above 0 absolute", (p) => p > 0);
  requireNumber("api_gravity", apiGravity, "above 0 and at most 100", (a) => a > 0 && a <= 100);
  const dead = between(toDegF(temperature), 68, 39, 100, 37.5) - 0.2571 * apiGravity;
  return N_M_PER_DYN_CM * Math.max(LEAST, dead * (1 - 0.024 * toPsia(pressure) ** 0.45));
}

/**
 * Surface tension of water with gas above it.
 *
 * @param pressure absolute, Pa
 * @returns N/m, 0.001 at least
 * @throws InputError for a pressure that is not positive
 * @example waterSurfaceTension(fromPsia(14.7), fromDegF(74))  // 72.2 dyn/cm
 * Source: see surfaceTensionMethod; another program has 1.018 for 1.108, which is 1 dyn/cm at 1,000 psia.
 */
export function waterSurfaceTension(pressure: AbsolutePa, temperature: Kelvin): number {
  requireNumber("pressure", pressure, "above 0 absolute", (p) => p > 0);
  const p = toPsia(pressure);
  return (
    N_M_PER_DYN_CM *
    Math.max(
      LEAST,
      between(toDegF(temperature), 74, 75 - 1.108 * p ** 0.349, 280, 53 - 0.1048 * p ** 0.637),
    )
  );
}
