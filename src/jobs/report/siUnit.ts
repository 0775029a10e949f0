import { type Dimension, dimensions } from "../quantity.ts";

/** The unit in which a dimension's SI values are counted, said so that nobody has to guess. */
export function siUnit(dimension: Dimension): string {
  return told[dimension] ?? (dimensions[dimension].si || "1");
}

/** Where the bare unit does not say it all. */
const told: Partial<Readonly<Record<Dimension, string>>> = {
  pressure: "Pa absolute",
  "absolute pressure": "Pa absolute",
  "partial pressure": "Pa absolute",
  "pressure difference": "Pa difference",
  "temperature difference": "K difference",
  // What is weighed on a scale acts as a force.
  weight: "N",
  "gas rate": "m^3/s at 14.7 psia and 60 degF",
};
