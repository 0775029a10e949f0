import { requireNumber } from "./inputError.ts";
import type { AbsolutePa } from "./units.ts";

/**
 * Whether a bellows valve stands open or shut. Between its closing and its opening pressure it stays as
 * it was: nothing read at one moment tells which.
 */
export type Gate = "open" | "shut" | "as it was";

export interface GateState {
  readonly gate: Gate;
  /**
   * How far the acting pressure is from changing it, Pa: rise that opens a shut valve, fall that shuts an
   * open one. Between the two pressures: the smaller of the rise to opening and the fall to closing.
   */
  readonly toChange: number;
}

/**
 * State of a bellows valve by the pressure that acts on its bellows.
 *
 * @param acting  absolute, Pa
 * @param opening at the pressure that stands on the seat, absolute, Pa
 * @param closing absolute, Pa
 * @throws InputError when one of them is not finite: every comparison would be false, and read "as it was"
 * Source: force balance, see valveMethod. With the seat pressure above the closing pressure the opening
 * pressure lies below the closing one; the valve is then open from the opening pressure up.
 */
export function gateState(acting: AbsolutePa, opening: AbsolutePa, closing: AbsolutePa): GateState {
  requireNumber("acting_pressure", acting, "a pressure");
  requireNumber("opening_pressure", opening, "a pressure");
  requireNumber("closing_pressure", closing, "a pressure");
  if (acting >= opening) return { gate: "open", toChange: acting - Math.min(closing, opening) };
  if (acting <= closing) return { gate: "shut", toChange: opening - acting };
  return { gate: "as it was", toChange: Math.min(opening - acting, acting - closing) };
}
