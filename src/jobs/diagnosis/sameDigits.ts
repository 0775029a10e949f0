import { displayUnit, formatNumber, type Writer } from "../display.ts";
import { type Dimension, fromSI } from "../quantity.ts";

/** A number in the writer's units with as many digits after the point as another of its kind has: the two stand side by side. */
export function numberLike(dimension: Dimension, si: number, like: number, writer: Writer): string {
  const digits = writer.parts(dimension, like).number.split(".")[1]?.length ?? 0;
  const unit = displayUnit(writer.system, dimension);
  return formatNumber(fromSI(dimension, si, unit, writer.atmosphere), digits);
}
