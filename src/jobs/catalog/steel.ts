import type { Quantity } from "../quantity.ts";

/** lb/in3. Source: 0.2836 lb/in3 (7,850 kg/m3), as in published bar tables. */
const STEEL = 0.2836;

const IN_PER_FT = 12;

const areaIn2 = (inches: number) => (Math.PI / 4) * inches ** 2;

export const barWeightSource =
  "by geometry, a solid round bar of steel at 0.2836 lb/in³; turned necks make it some percent less";

/** Weight of a solid round bar, to a tenth of a pound. */
export function barWeight(inches: number, feet: number): Quantity<"weight"> {
  const weight = areaIn2(inches) * feet * IN_PER_FT * STEEL;
  return { value: Number(weight.toFixed(1)), unit: "lb" };
}

export const wireWeightSource = "by geometry, solid steel at 0.2836 lb/in³";

/** Weight of a solid round wire over its length. */
export function wireWeight(inches: number): Quantity<"mass per length"> {
  const weight = areaIn2(inches) * IN_PER_FT * 1000 * STEEL;
  return { value: Number(weight.toFixed(2)), unit: "lb/1000 ft" };
}
