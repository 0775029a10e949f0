import { type GravityAndImpurities, gasByGravity } from "./gasByGravity.ts";
import { STANDARD_BASE } from "./gasPassage.ts";
import { requireNumber } from "./inputError.ts";
import type { LiftedStream } from "./liftedStream.ts";
import type { GasState, Method } from "./method.ts";
import { oilGravity, WATER_DENSITY } from "./oilProperties.ts";
import {
  type AbsolutePa,
  AIR_MOLAR_MASS,
  absolutePa,
  GAS_CONSTANT,
  type Kelvin,
  kelvin,
} from "./units.ts";
import { saltOf } from "./waterProperties.ts";

/**
 * Ideal-gas heat capacity a + b T + c T² + d T³, J/(mol K), T in K.
 * Source: Reid, Prausnitz and Poling, The Properties of Gases and Liquids, 4th ed. (1987), appendix A, from memory; held
 * against reference equations in the tests, propane by way of a lean gas.
 */
const IDEAL = {
  methane: [19.25, 5.213e-2, 1.197e-5, -1.132e-8],
  propane: [-4.224, 0.3063, -1.586e-4, 3.215e-8],
  co2: [19.8, 7.344e-2, -5.602e-5, 1.715e-8],
  h2s: [31.94, 1.436e-3, 2.432e-5, -1.176e-8],
  n2: [31.15, -1.357e-2, 2.68e-5, -1.168e-8],
} as const;
const METHANE_MOLAR_MASS = 0.0160425;
const PROPANE_MOLAR_MASS = 0.0440956;
/** Gauss and Legendre, five points on 0 to 1. */
const GAUSS = [
  [0.046910077030668, 0.1184634425280945],
  [0.2307653449471584, 0.2393143352496832],
  [0.5, 0.2844444444444444],
  [0.7692346550528415, 0.2393143352496832],
  [0.953089922969332, 0.1184634425280945],
] as const;
const THROTTLE_STEPS = 8;
/** J/(kg K); water at 20 to 80 degC from memory, rock salt from memory. */
const WATER_HEAT = 4180;
const SALT_HEAT = 860;

export const gasHeatMethod: Method = {
  name: "Heat capacity and Joule-Thomson cooling of a gas from its own compressibility factor",
  formula:
    "μ = R T² (∂z/∂T)p / (p cp); cp = cp0 − R T ∫0..p (2 ∂z/∂T + T ∂²z/∂T²) dp/p; cp0 of the hydrocarbon part straight in its molar mass from methane to propane, mole-weighted with CO2, H2S and N2",
  source:
    "thermodynamics of a real gas; ideal-gas heat capacities of Reid, Prausnitz and Poling (1987), from memory",
  validity: [],
};

export const gasEntryMethod: Method = {
  name: "Dip of temperature where lift gas enters",
  formula: `T = Ts + Cg (Tg − Ts)/(Cg + Cs), Tg after throttling from casing to tubing pressure; above, × exp(−L/A); ${gasHeatMethod.formula}`,
  source: `balance of heat of two streams that mix; ${gasHeatMethod.source}; oil's heat (1685 + 3.4 t)/√γo J/(kg K), t in degC, Gambill (1957), from memory`,
  validity: [],
};

const polynomial = ([a, b, c, d]: readonly [number, number, number, number], t: number): number =>
  a + t * (b + t * (c + t * d));

/**
 * Heat capacity of a gas as an ideal one.
 *
 * @param gas         by gravity, with its CO2, H2S and N2 as mole fractions
 * @param temperature K
 * @returns cp0, J/(mol K)
 * @throws InputError as gasByGravity
 * Within 2 percent for a lean natural gas. Source: see gasHeatMethod.
 */
export function idealHeatCapacity(gas: GravityAndImpurities, temperature: Kelvin): number {
  const { hydrocarbonGravity } = gasByGravity(gas).critical;
  const share =
    (hydrocarbonGravity * AIR_MOLAR_MASS - METHANE_MOLAR_MASS) /
    (PROPANE_MOLAR_MASS - METHANE_MOLAR_MASS);
  const hydrocarbons =
    (1 - share) * polynomial(IDEAL.methane, temperature) +
    share * polynomial(IDEAL.propane, temperature);
  return (
    (1 - gas.co2 - gas.h2s - gas.n2) * hydrocarbons +
    gas.co2 * polynomial(IDEAL.co2, temperature) +
    gas.h2s * polynomial(IDEAL.h2s, temperature) +
    gas.n2 * polynomial(IDEAL.n2, temperature)
  );
}

export interface GasHeat {
  /** cp, J/(mol K) */
  readonly heatCapacity: number;
  /** μ = (∂T/∂p)h, K/Pa; positive where expansion cools */
  readonly jouleThomson: number;
}

/**
 * Heat capacity and Joule-Thomson coefficient of a gas at a state.
 *
 * @param state pressure above 0, temperature at least 3 K above where the gas's compressibility factor ends
 * @throws InputError as gasByGravity and its z
 * Against reference equations of methane and of a lean gas, 280 to 400 K up to 10 MPa, μ comes out 4 to 11 percent low, as its
 * z does not know how steep it is; cp within 2 percent (tested).
 * @example gasHeat(methane by its gravity 0.554, { 5 MPa, 300 K })  // 41.1 J/(mol K), 3.71 K/MPa
 * Source: see gasHeatMethod.
 */
export function gasHeat(given: GravityAndImpurities, state: GasState): GasHeat {
  const gas = gasByGravity(given);
  const { pressure, temperature: t } = state;
  requireNumber("pressure", pressure, "above 0 absolute", (p) => p > 0);
  // z is solved to 1e-9: over 2 K its first slope keeps six digits and its second three.
  const d = 2;
  const slopes = (p: number): readonly [first: number, second: number] => {
    const [low, mid, high] = [t - d, t, t + d].map((temperature) =>
      gas.z({ pressure: absolutePa(p), temperature: kelvin(temperature) }),
    ) as [number, number, number];
    return [(high - low) / (2 * d), (high - 2 * mid + low) / (d * d)];
  };
  const departure = GAUSS.reduce((sum, [at, weight]) => {
    const [first, second] = slopes(at * pressure);
    return sum + (weight * (2 * first + t * second)) / at;
  }, 0);
  const heatCapacity = idealHeatCapacity(given, t) - GAS_CONSTANT * t * departure;
  const [first] = slopes(pressure);
  return {
    heatCapacity,
    jouleThomson: (GAS_CONSTANT * t * t * first) / (pressure * heatCapacity),
  };
}

/**
 * Temperature of a gas that is throttled from one pressure to another, gaining no heat and no speed.
 *
 * @param from state upstream
 * @param to   absolute, downstream, Pa
 * @throws InputError as gasHeat
 * Source: dT/dp = μ, eight midpoint steps.
 */
export function throttledTemperature(
  gas: GravityAndImpurities,
  from: GasState,
  to: AbsolutePa,
): Kelvin {
  requireNumber("downstream_pressure", to, "above 0 absolute", (p) => p > 0);
  const step = (to - from.pressure) / THROTTLE_STEPS;
  const coefficient = (pressure: number, temperature: number) =>
    gasHeat(gas, { pressure: absolutePa(pressure), temperature: kelvin(temperature) }).jouleThomson;
  let temperature: number = from.temperature;
  if (step === 0) return from.temperature;
  for (let i = 0; i < THROTTLE_STEPS; i += 1) {
    const pressure = from.pressure + i * step;
    const middle = temperature + (step / 2) * coefficient(pressure, temperature);
    temperature += step * coefficient(pressure + step / 2, middle);
  }
  return kelvin(temperature);
}

/**
 * Heat that the stream from below takes for a kelvin: its oil, its water, and its gas.
 *
 * @param stream see LiftedStream
 * @param lift   lift gas already in it from deeper entries, m3/s standard
 * @param state  pressure and temperature of the tubing at the entry
 * @returns W/K
 * @throws InputError as gasHeat
 * Gas in solution is counted as gas. Source: see gasEntryMethod; masses at surface.
 */
export function heatCapacityRate(stream: LiftedStream, lift: number, state: GasState): number {
  const gravity = oilGravity(stream.apiGravity);
  const oil = stream.liquidRate * (1 - stream.waterCut) * WATER_DENSITY * gravity;
  const oilHeat = (1685 + 3.4 * (state.temperature - 273.15)) / Math.sqrt(gravity);
  const water = stream.liquidRate * stream.waterCut * WATER_DENSITY * stream.waterGravity;
  const salt = saltOf(stream.waterGravity) / 100;
  return (
    oil * oilHeat +
    water * ((1 - salt) * WATER_HEAT + salt * SALT_HEAT) +
    moles(stream.formationGasRatio * stream.liquidRate) *
      gasHeat(stream.formationGas, state).heatCapacity +
    (lift > 0 ? moles(lift) * gasHeat(stream.liftGas, state).heatCapacity : 0)
  );
}

/** mol/s of a standard rate. */
const moles = (standardRate: number): number =>
  (standardRate * STANDARD_BASE.pressure) / (GAS_CONSTANT * STANDARD_BASE.temperature);

/** Lift gas on its way into the tubing. */
export interface EnteringGas {
  readonly gas: GravityAndImpurities;
  /** m3/s standard, 0 or more */
  readonly rate: number;
  /** in the annulus, before the port */
  readonly upstream: GasState;
}

export interface GasEntryDip {
  readonly method: Method;
  /** of the gas behind the port */
  readonly gasTemperature: Kelvin;
  /** of the mixture where both have met */
  readonly mixed: Kelvin;
  /** by how much the mixture is colder than the stream from below, K; negative where the gas warms it */
  readonly dip: number;
  /**
   * What is left of the dip so far above the entry, along hole, K. Below the entry (negative) none: no heat goes against
   * a stream but what the wall conducts, over centimetres.
   */
  dipAt(above: number): number;
}

/**
 * Dip of the stream's temperature where lift gas enters it.
 *
 * The gas cools as it is throttled through the port, then mixes with what comes from below; above the entry the stream
 * takes the dip up again over the relaxation distance of the flowing temperature.
 *
 * @param entering      the gas, its rate, and its state in the annulus
 * @param tubing        pressure at the entry and temperature of the stream just below it
 * @param heatRate      of the stream from below, W/K, see heatCapacityRate
 * @param relaxation    A, along hole, m, see relaxationDistance
 * @throws InputError for a rate, a heat rate or a distance that cannot be; as gasHeat
 * Holds for steady flow; the gas's own speed behind the port, which is lost to heat again, is left out. A gauge a few metres
 * above the entry is beside gas and liquid that have not met yet and may read less than this.
 * Source: see gasEntryMethod.
 */
export function gasEntryDip(
  entering: EnteringGas,
  tubing: GasState,
  heatRate: number,
  relaxation: number,
): GasEntryDip {
  requireNumber("lift_gas_rate", entering.rate, "0 or more", (q) => q >= 0);
  requireNumber("heat_rate", heatRate, "above 0", (c) => c > 0);
  requireNumber("relaxation_distance", relaxation, "above 0", (a) => a > 0);
  const gasTemperature = throttledTemperature(entering.gas, entering.upstream, tubing.pressure);
  const gasHeatRate =
    moles(entering.rate) *
    gasHeat(entering.gas, { pressure: tubing.pressure, temperature: gasTemperature }).heatCapacity;
  const dip = (gasHeatRate * (tubing.temperature - gasTemperature)) / (gasHeatRate + heatRate);
  return {
    method: gasEntryMethod,
    gasTemperature,
    mixed: kelvin(tubing.temperature - dip),
    dip,
    dipAt: (above) => (above < 0 ? 0 : dip * Math.exp(-above / relaxation)),
  };
}
