import { GRAVITY, PSI } from "./units.ts";

/**
 * Hydrocarbon gas by gravity: pseudocritical point by Standing (1977, natural gas), deviation factor by Papay (1968) as
 * given in Takacs, "Comparing methods for calculating z factor" (Oil & Gas Journal, 15 May 1989).
 */
export function deviation(pressure: number, temperature: number, gravity: number): number {
  const critical = pseudocritical(gravity);
  const reducedPressure = pressure / critical.pressure;
  const reducedTemperature = temperature / critical.temperature;
  return (
    1 -
    (3.53 * reducedPressure) / 10 ** (0.9813 * reducedTemperature) +
    (0.274 * reducedPressure ** 2) / 10 ** (0.8157 * reducedTemperature)
  );
}

function pseudocritical(gravity: number): { pressure: number; temperature: number } {
  return {
    pressure: (677 + 15 * gravity - 37.5 * gravity ** 2) * PSI,
    temperature: (168 + 325 * gravity - 12.5 * gravity ** 2) / 1.8,
  };
}

/** J/(kg K) */
export const specificGasConstant = (gravity: number) => 8.314463 / (0.0289625 * gravity);

/** kg/m3 */
export function gasDensity(pressure: number, temperature: number, gravity: number): number {
  return (
    pressure /
    (deviation(pressure, temperature, gravity) * specificGasConstant(gravity) * temperature)
  );
}

/**
 * Pressure at a depth in a column at rest by average temperature and deviation factor, in one step from the surface:
 *
 *   p2 = p1 exp(g H / (z R T)), z at the mean of p1 and p2
 *
 * Source: the average-temperature-and-z method, e.g. Katz et al., Handbook of Natural Gas Engineering (1959), ch. 8.
 */
export function columnPressure(
  top: number,
  height: number,
  averageTemperature: number,
  gravity: number,
): number {
  let bottom = top;
  for (let i = 0; i < 6; i += 1) {
    const z = deviation((top + bottom) / 2, averageTemperature, gravity);
    bottom =
      top * Math.exp((GRAVITY * height) / (z * specificGasConstant(gravity) * averageTemperature));
  }
  return bottom;
}
