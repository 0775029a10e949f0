import { displayUnit, type Writer } from "./display.ts";
import { type Dimension, type Quantity, toSI } from "./quantity.ts";

/** What was entered in other units, in those of whoever reads it; undefined where it was entered in them. */
export function inReadersUnits<D extends Dimension>(
  dimension: D,
  quantity: Quantity<D>,
  { system, atmosphere, write }: Writer,
): string | undefined {
  if (quantity.unit === displayUnit(system, dimension)) return undefined;
  return write(dimension, toSI(dimension, quantity, atmosphere));
}
