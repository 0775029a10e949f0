import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import type { AbsolutePa } from "./units.ts";

/** Partial pressure of hydrogen sulphide from which carbon and low-alloy steel is in sour service, Pa. */
export const SOUR_THRESHOLD = 300;

export const sourServiceMethod: Method = {
  name: "Partial pressure of hydrogen sulphide",
  formula: "pH2S = p × mole fraction, p absolute; sour from 0.3 kPa",
  source:
    "limit: ISO 15156-2 (NACE MR0175), as answered in its maintenance panel's MP2009-11 and MP2009-18. It is printed as 0.3 kPa and as 0.05 psi, which is 0.345 kPa: the lower counts. Below it very hard or cold-worked steel, as wire is, may still crack; for alloy wire there is no lower limit, and its maker wants to know of any",
  validity: [],
};

export interface SourService {
  /** absolute, Pa */
  readonly partialPressure: number;
  /** whether it is at the threshold or over, to a billionth: a product does not end in exact digits */
  readonly atOrOver: boolean;
}

/**
 * Whether gas is sour for the wire and the tools in it. It says nothing of breathing the gas.
 *
 * @param pressure the highest that the gas will have at the wire: annulus and shut in, absolute, Pa
 * @param h2s      mole fraction, 0 to 1
 * @throws InputError for a pressure that is not positive; a fraction outside 0 to 1
 * @example sourService(1000 psia, 55e-6)  // 379 Pa, at or over
 * Source: see sourServiceMethod.
 */
export function sourService(pressure: AbsolutePa, h2s: number): SourService {
  requireNumber("pressure", pressure, "above 0", (p) => p > 0);
  requireNumber("h2s", h2s, "between 0 and 1", (y) => y >= 0 && y <= 1);
  const partialPressure = pressure * h2s;
  return { partialPressure, atOrOver: partialPressure >= SOUR_THRESHOLD * (1 - 1e-9) };
}
