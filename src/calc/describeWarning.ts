import type { Measure, Warning } from "./method.ts";
import { type AbsolutePa, type Kelvin, M_PER_FT, toDegF, toPsia } from "./units.ts";

/** How a value of a measure is written: the number in some unit, and the unit. */
export type WriteMeasure = (measure: Measure, value: number) => string;

/** US oilfield units, as the command line uses. */
export const inFieldUnits: WriteMeasure = (measure, value) => {
  switch (measure) {
    case "absolute pressure":
      return `${digits(toPsia(value as AbsolutePa))} psia`;
    case "temperature":
      return `${digits(toDegF(value as Kelvin))} degF`;
    case "true vertical depth":
      return `${digits(value / M_PER_FT)} ft`;
    case "mole fraction":
    case "pure number":
      return digits(value);
  }
};

const digits = (value: number): string => String(Number(value.toPrecision(4)));

/** A warning in words. `write` chooses the units. */
export function describeWarning(warning: Warning, write: WriteMeasure = inFieldUnits): string {
  if (warning.kind === "note") return warning.text;
  const { quantity, measure, from, to, basis } = warning.validity;
  return `${quantity} ${write(measure, warning.value)} is outside ${write(measure, from)} to ${write(measure, to)} (${warning.method}: ${basis})`;
}
