import { type Dimension, fromSI, type Quantity } from "../../../src/jobs/quantity.ts";
import { ATMOSPHERE } from "./units.ts";

/** In which units an office writes, and to how many digits its gauges and tapes read. */
type Writing = Readonly<Partial<Record<Dimension, readonly [unit: string, digits: number]>>>;

export const field: Writing = {
  pressure: ["psig", 0],
  temperature: ["degF", 0],
  length: ["ft", 0],
  diameter: ["in", 4],
  area: ["in2", 4],
  density: ["lb/ft3", 1],
  "pressure gradient": ["psi/ft", 3],
  "load rate": ["psi/in", 0],
  "gas rate": ["Mscf/d", 0],
  "liquid rate": ["bbl/d", 0],
  fraction: ["%", 1],
  duration: ["min", 0],
};

export const metric: Writing = {
  pressure: ["barg", 1],
  temperature: ["degC", 1],
  length: ["m", 1],
  diameter: ["mm", 2],
  area: ["mm2", 1],
  density: ["kg/m3", 0],
  "pressure gradient": ["kPa/m", 2],
  "load rate": ["kPa/mm", 0],
  "gas rate": ["1000 Sm3/d", 2],
  "liquid rate": ["m3/d", 1],
  fraction: ["%", 1],
  duration: ["min", 0],
};

export type Write = <D extends Dimension>(dimension: D, si: number) => Quantity<D>;

export function writing(in_: Writing): Write {
  return <D extends Dimension>(dimension: D, si: number) => {
    const [unit, digits] = in_[dimension] ?? ["", 3];
    const value = Number(fromSI(dimension, si, unit, ATMOSPHERE).toFixed(digits));
    return { value, unit } as Quantity<D>;
  };
}
