import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { fromDegF, type Kelvin } from "./units.ts";
import { TEST_RACK_TEMPERATURE } from "./valve.ts";

/** Per degree Fahrenheit above 60, of the trade's straight-line factor. From memory. */
const PER_DEG_F = 0.00215;

export const chartFactorMethod: Method = {
  name: "Straight-line temperature factor of the trade's charts",
  formula: "Ct = 1 / (1 + 0.00215 (T − 60)), T in degF; p60 = Ct p, gauge",
  source:
    "common practice, from memory; beside the equation of state, 60 to 300 degF, it is within 0.5 percent for a dome of 300 to 500 psig at 60 degF and gives up to 2 percent too much for 1,000 psig, 6 percent for 2,000 psig",
  validity: [
    {
      quantity: "temperature",
      measure: "temperature",
      from: fromDegF(60),
      to: fromDegF(300),
      basis: "compared with the equation of state from 60 to 300 degF",
    },
  ],
};

/**
 * The factor by which a chart user brings a dome pressure at temperature to 60 degF.
 *
 * Never the method of a result: it stands beside the equation of state, so that a crew used to charts
 * sees where the difference comes from. It knows no pressure, and real nitrogen does: the denser the charge,
 * the faster its pressure rises with temperature, so that the line leaves too much of a high pressure.
 *
 * @param temperature of the valve, K
 * @returns p60 / p, gauge over gauge, dimensionless
 * @throws InputError at or below the temperature where the factor has no value (-405 degF)
 */
export function chartFactor(temperature: Kelvin): number {
  const rise = (temperature - TEST_RACK_TEMPERATURE) * 1.8;
  requireNumber(
    "temperature",
    temperature,
    "above 30.3 K (-405 degF)",
    () => 1 + PER_DEG_F * rise > 0,
  );
  return 1 / (1 + PER_DEG_F * rise);
}
