import {
  criticalPressureRatio,
  gasPassage,
  gasPassageMethod,
  type Opening,
  type PassageGas,
} from "./gasPassage.ts";
import { requireNumber } from "./inputError.ts";
import type { Method, Warning } from "./method.ts";
import { circle } from "./seat.ts";
import { type AbsolutePa, GAS_CONSTANT, type Kelvin } from "./units.ts";

export const gasRushMethod: Method = {
  name: "Gas rush when the packing leaves its bore, an estimate under lower and upper assumptions",
  formula:
    "most: F = Δp A, Δp what is left between annulus and tubing, A the largest cross-section of the string in the tubing; least: F = ṁ v, ṁ the rate through the pocket's ports, v = √(2k/(k − 1) (R T/M) (1 − r^((k − 1)/k))), r = p2/p1, not below rc; never above the most",
  source: `an estimate, worked from statics and ${gasPassageMethod.name}. Most: below the string the gas cannot press harder than the annulus, above it not less than the tubing, so no more than their difference can act on the widest part; reached only if the string fills the tubing. Least: what the jet itself carries, turned along the string; reached if the gas then goes by freely. Not in it, so neither is a bound that the well keeps to: drag of the gas in the gap along the string, the time the rush lasts, liquid thrown up with the gas, friction along the string`,
  validity: gasPassageMethod.validity,
};

export interface GasRush {
  /** N */
  readonly least: number;
  /** N */
  readonly most: number;
  /** whether the gas comes into the tubing, where it lifts the string; else it leaves it, and nothing lifts */
  readonly intoTubing: boolean;
  readonly warnings: readonly Warning[];
}

/** Speed of the gas in the narrowest place of the ports, m/s. */
function jetSpeed(
  upstream: AbsolutePa,
  downstream: AbsolutePa,
  temperature: Kelvin,
  { molarMass, heatCapacityRatio: k }: PassageGas,
): number {
  const ratio = Math.max(downstream / upstream, criticalPressureRatio(k));
  const w = (k - 1) / k;
  const heat = (GAS_CONSTANT * temperature) / molarMass / w;
  // 1 - r^w by expm1, which keeps the digits of a drop that is a small part of the pressure.
  return Math.sqrt(2 * heat * ratio ** w * Math.expm1(w * Math.log(1 / ratio)));
}

/**
 * Estimates of the force with which gas takes a string along when a packing stack clears its bore while annulus and
 * tubing still differ, under lower and upper assumptions: for comparison with the string's buoyed weight, never a promise.
 *
 * @param annulus     at the pocket, absolute, Pa
 * @param tubing      at the pocket, absolute, Pa
 * @param temperature of the gas before the ports, K
 * @param ports       of the pocket: flow area of all together, and discharge coefficient
 * @param gas         M and k
 * @param diameter    of the widest part of the string in the tubing, m
 * @returns N, least <= most; both 0 without a difference
 * @throws InputError for a state, an opening or a gas that cannot be; a diameter that is not positive
 * Source: see gasRushMethod.
 */
export function gasRush(
  annulus: AbsolutePa,
  tubing: AbsolutePa,
  temperature: Kelvin,
  ports: Opening,
  gas: PassageGas,
  diameter: number,
): GasRush {
  requireNumber("annulus_pressure", annulus, "above 0", (p) => p > 0);
  requireNumber("tubing_pressure", tubing, "above 0", (p) => p > 0);
  requireNumber("string_diameter", diameter, "above 0", (d) => d > 0);
  const intoTubing = annulus > tubing;
  const [upstream, downstream] = intoTubing ? [annulus, tubing] : [tubing, annulus];
  const { rate, warnings } = gasPassage(upstream, downstream, temperature, ports, gas);
  const most = (upstream - downstream) * circle(diameter);
  const momentum = rate * gas.molarMass * jetSpeed(upstream, downstream, temperature, gas);
  return { least: Math.min(momentum, most), most, intoTubing, warnings };
}
