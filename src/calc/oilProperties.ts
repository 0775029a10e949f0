import { STANDARD_BASE } from "./gasPassage.ts";
import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import {
  type AbsolutePa,
  AIR_MOLAR_MASS,
  absolutePa,
  fromDegF,
  fromPsia,
  GAS_CONSTANT,
  type Kelvin,
  KG_M3_PER_LB_FT3,
  M_PER_FT,
  M_PER_IN,
  toDegF,
  toPsia,
} from "./units.ts";

/** One barrel of 42 US gallons of 231 in3, m3. Exact. */
export const M3_PER_BARREL = 42 * 231 * M_PER_IN ** 3;
/** A gas-oil ratio of one standard cubic foot a stock-tank barrel, m3/m3. Exact. */
export const M3_M3_PER_SCF_BARREL = M_PER_FT ** 3 / M3_PER_BARREL;
/** One barrel a day, m3/s. Exact. */
export const M3_S_PER_BARREL_DAY = M3_PER_BARREL / 86400;
/** Fresh water at 60 degF, kg/m3, which liquid gravities refer to: 62.37 lb/ft3, common practice. */
export const WATER_DENSITY = 62.37 * KG_M3_PER_LB_FT3;
/** Air at STANDARD_BASE as an ideal gas, kg/m3, which gas gravities refer to. */
export const AIR_DENSITY =
  (STANDARD_BASE.pressure * AIR_MOLAR_MASS) / (GAS_CONSTANT * STANDARD_BASE.temperature);
export const PA_S_PER_CP = 1e-3;

const TEMPERATURE = "temperature";
const PRESSURE = "pressure";
const API_GRAVITY = "oil gravity, API";
const GAS_GRAVITY = "gravity of the gas";
const RATIO = "solution gas-oil ratio, m3/m3";

/** What an oil is described by where nobody has measured it. */
export interface Oil {
  /** of the stock-tank oil, degrees API */
  readonly apiGravity: number;
  /** γg, of the gas that can dissolve in it, air = 1 */
  readonly gasGravity: number;
}

/** What of an oil counts in a stream at one pressure and temperature. */
export interface OilState {
  /** Rs, gas in solution, m3 standard a m3 of stock-tank oil */
  readonly dissolved: number;
  /** Bo, m3 in place a m3 of stock-tank oil */
  readonly formationVolume: number;
  /** kg/m3, with the gas in it */
  readonly density: number;
  /** Pa s, with the gas in it */
  readonly viscosity: number;
}

export const solutionGasMethod: Method = {
  name: "Gas in solution and volume of oil, Standing (1947)",
  formula:
    "Rs = γg [(p/18.2 + 1.4) 10^(0.0125 API − 0.00091 T)]^(1/0.83), not more than there is; Bo = 0.9759 + 0.00012 [Rs (γg/γo)^0.5 + 1.25 T]^1.2 (psia, degF, scf/STB); above the bubble point Bo exp(−c (p − pb)), c = (5 Rs + 17.2 T − 1180 γg + 12.61 API − 1433)/(10⁵ p), Vasquez and Beggs (1980)",
  source:
    "Standing, Drill. & Prod. Prac., API (1947) 275, equations as in Standing, Volumetric and Phase Behavior (1981), from memory; Vasquez and Beggs, J. Pet. Tech. (June 1980) 968, from memory",
  validity: [
    {
      quantity: TEMPERATURE,
      measure: "temperature",
      from: fromDegF(100),
      to: fromDegF(258),
      basis: "Standing's 105 points of Californian crudes, from memory",
    },
    {
      quantity: PRESSURE,
      measure: "absolute pressure",
      from: 0,
      to: fromPsia(7000),
      basis:
        "bubble points of 130 to 7,000 psia, from memory; below them it runs out to no gas at all",
    },
    {
      quantity: API_GRAVITY,
      measure: "pure number",
      from: 16.5,
      to: 63.8,
      basis: "Standing's data, from memory",
    },
    {
      quantity: GAS_GRAVITY,
      measure: "pure number",
      from: 0.59,
      to: 0.95,
      basis: "Standing's data, from memory",
    },
  ],
};

export const oilViscosityMethod: Method = {
  name: "Viscosity of oil, Beggs and Robinson (1975)",
  formula:
    "dead μ = 10^X − 1, X = T^−1.163 10^(3.0324 − 0.02023 API); live A μ^B, A = 10.715 (Rs + 100)^−0.515, B = 5.44 (Rs + 150)^−0.338 (cP, degF, scf/STB); above the bubble point × (p/pb)^m, m = 2.6 p^1.187 exp(−11.513 − 8.98·10⁻⁵ p), Vasquez and Beggs (1980)",
  source:
    "Beggs and Robinson, J. Pet. Tech. (September 1975) 1140; Vasquez and Beggs, J. Pet. Tech. (June 1980) 968, from memory",
  validity: [
    {
      quantity: TEMPERATURE,
      measure: "temperature",
      from: fromDegF(70),
      to: fromDegF(295),
      basis: "its data, from memory; between 100 and 150 degF it has been seen to come out high",
    },
    {
      quantity: API_GRAVITY,
      measure: "pure number",
      from: 16,
      to: 58,
      basis: "its data, from memory",
    },
    {
      quantity: RATIO,
      measure: "pure number",
      from: 20 * M3_M3_PER_SCF_BARREL,
      to: 2070 * M3_M3_PER_SCF_BARREL,
      basis: "20 to 2,070 scf/STB, from memory; below that it runs into the dead oil",
    },
  ],
};

/** γo = 141.5 / (131.5 + API), water = 1. Source: definition. */
export const oilGravity = (apiGravity: number): number => 141.5 / (131.5 + apiGravity);

function requireOil({ apiGravity, gasGravity }: Oil): void {
  requireNumber("api_gravity", apiGravity, "above 0 and at most 100", (a) => a > 0 && a <= 100);
  requireNumber("gas_gravity", gasGravity, "above 0 and at most 3", (g) => g > 0 && g <= 3);
}

/** 10^(0.0125 API − 0.00091 T) */
const standingPower = (oil: Oil, temperature: Kelvin): number =>
  10 ** (0.0125 * oil.apiGravity - 0.00091 * toDegF(temperature));

/**
 * Gas that an oil can hold in solution.
 *
 *   Rs = γg [(p/18.2 + 1.4) 10^(0.0125 API - 0.00091 T)]^(1/0.83)   (psia, degF, scf/STB)
 *
 * @param pressure    absolute, Pa
 * @returns m3 of standard gas a m3 of stock-tank oil
 * @throws InputError for a pressure, a temperature or an oil that cannot be
 * @example solutionGasRatio(fromPsia(2500), fromDegF(180), { apiGravity: 30, gasGravity: 0.8 })  // 547.7 scf/STB
 * An older form leaves the 1.4 out and has 18 for 18.2 (Takacs; Guo, Lyons and Ghalambor): at 2,500 psia 0.1 percent
 * more, at 350 psia 7 percent less. Source: see solutionGasMethod.
 */
export function solutionGasRatio(pressure: AbsolutePa, temperature: Kelvin, oil: Oil): number {
  requireOil(oil);
  requireNumber("pressure", pressure, "above 0 absolute", (p) => p > 0);
  requireNumber("temperature", temperature, "above absolute zero", (t) => t > 0);
  return (
    M3_M3_PER_SCF_BARREL *
    oil.gasGravity *
    ((toPsia(pressure) / 18.2 + 1.4) * standingPower(oil, temperature)) ** (1 / 0.83)
  );
}

/**
 * Pressure at which an oil with a given amount of gas in it lets the first gas go: the inverse of solutionGasRatio.
 *
 * @param ratio Rs, m3/m3, 0 or more
 * @returns absolute, Pa; 0 when so little gas is there that the correlation has no pressure for it
 * @throws InputError as solutionGasRatio
 * @example bubblePoint(350 scf/STB, fromDegF(200), { apiGravity: 30, gasGravity: 0.75 })  // 1,890 psia
 * Source: see solutionGasMethod.
 */
export function bubblePoint(ratio: number, temperature: Kelvin, oil: Oil): AbsolutePa {
  requireOil(oil);
  requireNumber("gas_oil_ratio", ratio, "0 or more", (r) => r >= 0);
  requireNumber("temperature", temperature, "above absolute zero", (t) => t > 0);
  const held =
    (ratio / M3_M3_PER_SCF_BARREL / oil.gasGravity) ** 0.83 / standingPower(oil, temperature);
  return absolutePa(Math.max(0, fromPsia(18.2 * (held - 1.4))));
}

/**
 * Viscosity of oil without gas.
 *
 * @returns Pa s
 * @throws InputError for a temperature at or below 0 degF, where the form has no answer, or an oil that cannot be
 * @example deadOilViscosity(fromDegF(137), 22)  // 17.4 cP
 * Source: see oilViscosityMethod.
 */
export function deadOilViscosity(temperature: Kelvin, apiGravity: number): number {
  requireOil({ apiGravity, gasGravity: 1 });
  requireNumber(
    "temperature",
    temperature,
    "above 0 degF: the viscosity correlation ends there",
    (t) => toDegF(t as Kelvin) > 0,
  );
  const x = toDegF(temperature) ** -1.163 * 10 ** (3.0324 - 0.02023 * apiGravity);
  return PA_S_PER_CP * (10 ** x - 1);
}

/**
 * Viscosity of oil that is full of gas.
 *
 * @param dead  of the oil without gas, Pa s, above 0
 * @param ratio Rs, m3/m3, 0 or more
 * @returns Pa s, not above the dead oil's
 * @throws InputError outside these limits
 * @example saturatedOilViscosity(0.01744, 90 scf/STB)  // 8.24 cP
 * Source: see oilViscosityMethod.
 */
export function saturatedOilViscosity(dead: number, ratio: number): number {
  requireNumber("dead_oil_viscosity", dead, "above 0", (mu) => mu > 0);
  requireNumber("gas_oil_ratio", ratio, "0 or more", (r) => r >= 0);
  const scf = ratio / M3_M3_PER_SCF_BARREL;
  const live =
    PA_S_PER_CP *
    10.715 *
    (scf + 100) ** -0.515 *
    (dead / PA_S_PER_CP) ** (5.44 * (scf + 150) ** -0.338);
  // Without gas A and B are 1.000 and 1.000 only to their digits.
  return Math.min(live, dead);
}

/**
 * Oil at a pressure and temperature, with as much gas in it as it takes.
 *
 * @param pressure    absolute, Pa
 * @param available   gas there is for it, m3 standard a m3 of stock-tank oil; what it does not take is free
 * @returns dissolved gas, volume, density and viscosity; below and above the bubble point
 * @throws InputError as the functions above
 * The dissolved gas is counted with the gravity of all the gas; the gas that dissolves first is in truth the heavier part.
 * Source: see solutionGasMethod and oilViscosityMethod; density by the mass that is in the volume.
 */
export function oilState(
  pressure: AbsolutePa,
  temperature: Kelvin,
  oil: Oil,
  available: number,
): OilState {
  requireNumber("gas_oil_ratio", available, "0 or more", (r) => r >= 0);
  const canHold = solutionGasRatio(pressure, temperature, oil);
  const dissolved = Math.min(canHold, available);
  const scf = dissolved / M3_M3_PER_SCF_BARREL;
  const degF = toDegF(temperature);
  const gravity = oilGravity(oil.apiGravity);
  let formationVolume =
    0.9759 + 0.00012 * Math.max(0, scf * Math.sqrt(oil.gasGravity / gravity) + 1.25 * degF) ** 1.2;
  let viscosity = saturatedOilViscosity(deadOilViscosity(temperature, oil.apiGravity), dissolved);
  if (available < canHold) {
    const saturation = Math.max(toPsia(bubblePoint(available, temperature, oil)), 14.7);
    const p = Math.max(toPsia(pressure), saturation);
    const compressibility = Math.max(
      0,
      (5 * scf + 17.2 * degF - 1180 * oil.gasGravity + 12.61 * oil.apiGravity - 1433) / (1e5 * p),
    );
    formationVolume *= Math.exp(-compressibility * (p - saturation));
    viscosity *= (p / saturation) ** (2.6 * p ** 1.187 * Math.exp(-11.513 - 8.98e-5 * p));
  }
  return {
    dissolved,
    formationVolume,
    density: (WATER_DENSITY * gravity + AIR_DENSITY * oil.gasGravity * dissolved) / formationVolume,
    viscosity,
  };
}
