import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { M_PER_IN } from "./units.ts";

/** How the ball meets the seat. */
export type Seat =
  /** a square edge: the ball beds on a ring just outside the bore */
  | { readonly kind: "sharp-edged"; readonly bore: number }
  /** lapped or chamfered: the ball seals on a circle that the maker states or the shop measures */
  | { readonly kind: "lapped"; readonly bore: number; readonly sealDiameter: number };

/** By how much the seal circle of a square edge is wider than the bore, m. From memory: trade tables. */
const SHARP_EDGE_ALLOWANCE = 0.005 * M_PER_IN;

export const seatMethod: Method = {
  name: "Seat seal area",
  formula:
    "As = π/4 d²; d = bore + 0.005 in on a sharp edge, the stated seal diameter on a lapped seat",
  source:
    "geometry; the seal circle of a sharp edge from trade tables, from memory; that the outer seal diameter counts: Decker, SPE 186110 (2018)",
  validity: [],
};

/**
 * Area that the seat takes from the bellows: what R is made of. The flow area is the bore's, not this one.
 *
 * @param seat bore and seal diameter, m
 * @returns m2
 * @throws InputError when a lapped seat seals on a circle smaller than its bore, or more than twice as wide
 */
export function seatSealArea(seat: Seat): number {
  requireNumber("bore", seat.bore, "above 0", (d) => d > 0);
  if (seat.kind === "sharp-edged") return circle(seat.bore + SHARP_EDGE_ALLOWANCE);
  const { bore, sealDiameter } = seat;
  if (!(sealDiameter >= bore && sealDiameter <= 2 * bore)) {
    throw new InputError(
      "seal_diameter",
      sealDiameter,
      "at least the bore and at most twice the bore",
    );
  }
  return circle(sealDiameter);
}

/** Area of a circle from its diameter. */
export const circle = (diameter: number): number => (Math.PI / 4) * diameter ** 2;
