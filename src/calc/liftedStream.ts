import { gasDensity, gasMassRate, gasViscosity } from "./annulusFlow.ts";
import type { Gas } from "./gas.ts";
import { type GravityAndImpurities, gasByGravity } from "./gasByGravity.ts";
import { requireNumber } from "./inputError.ts";
import { distinctWarnings, type GasState, type Warning, warnOutside } from "./method.ts";
import {
  M3_M3_PER_SCF_BARREL,
  oilGravity,
  oilState,
  oilViscosityMethod,
  solutionGasMethod,
  WATER_DENSITY,
} from "./oilProperties.ts";
import { oilSurfaceTension, waterSurfaceTension } from "./surfaceTension.ts";
import type { TwoPhaseStream } from "./twoPhaseFlow.ts";
import { waterMethod, waterState } from "./waterProperties.ts";

/** What a well on gas lift brings up, the lift gas's rate apart. Rates and ratios at standard conditions. */
export interface LiftedStream {
  /** oil and water together, m3/s, above 0 */
  readonly liquidRate: number;
  /** share of water in it, 0 to 1 */
  readonly waterCut: number;
  /** of the oil, degrees API */
  readonly apiGravity: number;
  /** of the water, fresh = 1 */
  readonly waterGravity: number;
  /** gas from the formation, m3 a m3 of liquid, 0 or more */
  readonly formationGasRatio: number;
  readonly formationGas: GravityAndImpurities;
  readonly liftGas: GravityAndImpurities;
}

/** Space the stream rises in. */
export interface Conduit {
  /** inside diameter of the tubing; of the casing where production comes up the annulus, m */
  readonly outer: number;
  /** outside diameter of a pipe within it, m; 0 for a tubing with nothing in it */
  readonly inner: number;
  /** absolute, of the walls, m */
  readonly roughness: number;
}

/** A stretch of the conduit with one amount of gas in it. */
export interface StreamSection {
  /** at a pressure and temperature: what two-phase flow asks for */
  at(state: GasState): TwoPhaseStream;
  warningsAt(state: GasState): Warning[];
}

/**
 * Share of water in a liquid whose density was measured at surface.
 *
 *   fw = (ρL - ρo) / (ρw - ρo)
 *
 * @param density      of oil and water together at standard conditions, kg/m3
 * @param apiGravity   of the oil
 * @param waterGravity of the water, fresh = 1
 * @returns 0 to 1
 * @throws InputError for a density that is not between that of the oil and that of the water
 * @example waterCutOfDensity(934.4, 35, 1.07)  // 0.388
 * Source: volumes add up.
 */
export function waterCutOfDensity(
  density: number,
  apiGravity: number,
  waterGravity: number,
): number {
  const oil = WATER_DENSITY * oilGravity(apiGravity);
  const water = WATER_DENSITY * waterGravity;
  requireNumber(
    "liquid_density",
    density,
    `between that of the oil and that of the water, ${oil.toFixed(0)} and ${water.toFixed(0)} kg/m3`,
    (d) => d >= oil && d <= water,
  );
  return (density - oil) / (water - oil);
}

/** Area open to flow, m2. */
const areaOf = ({ outer, inner }: Conduit): number => (Math.PI / 4) * (outer ** 2 - inner ** 2);

/** @throws InputError naming what of the stream or of the conduit cannot be. */
export function requireLifted(stream: LiftedStream, conduit: Conduit): void {
  requireNumber("liquid_rate", stream.liquidRate, "above 0: the well has to flow", (q) => q > 0);
  requireNumber("water_cut", stream.waterCut, "between 0 and 1", (f) => f >= 0 && f <= 1);
  requireNumber(
    "formation_gas_ratio",
    stream.formationGasRatio,
    "0 or more, at most 100,000 m3/m3",
    (r) => r >= 0 && r <= 1e5,
  );
  requireNumber("outer_diameter", conduit.outer, "above 0", (d) => d > 0);
  requireNumber(
    "inner_diameter",
    conduit.inner,
    `0 or more, and less than the outer one (${conduit.outer})`,
    (d) => d >= 0 && d < conduit.outer,
  );
  requireNumber("roughness", conduit.roughness, "0 or more", (r) => r >= 0);
}

/** The gas that `lift` m3/s make with that of the formation; shares by standard volume. */
export function mixedGas(stream: LiftedStream, lift: number): GravityAndImpurities {
  const formation = stream.formationGasRatio * stream.liquidRate;
  const share = lift > 0 ? lift / (formation + lift) : 0;
  const mix = (key: keyof GravityAndImpurities) =>
    (1 - share) * stream.formationGas[key] + share * stream.liftGas[key];
  return {
    specificGravity: mix("specificGravity"),
    co2: mix("co2"),
    h2s: mix("h2s"),
    n2: mix("n2"),
  };
}

/**
 * The stream of a well with so much lift gas in it.
 *
 * Oil takes of all the gas what it can hold; the rest flows free. Oil and water move as one liquid with the density,
 * viscosity and surface tension of their volumes (common practice; an emulsion is thicker).
 *
 * @param stream see LiftedStream
 * @param lift   lift gas, m3/s standard, 0 or more
 * @throws InputError for a stream, a conduit or a rate that cannot be; from `at` where a correlation has no answer
 * Source: mass balance over oilProperties, waterProperties, surfaceTension and the gas's own z.
 */
export function streamSection(stream: LiftedStream, conduit: Conduit, lift: number): StreamSection {
  requireLifted(stream, conduit);
  requireNumber("lift_gas_rate", lift, "0 or more", (q) => q >= 0);
  const given = mixedGas(stream, lift);
  const gas: Gas = gasByGravity(given);
  const surfaceDensity = gasMassRate(1, gas);
  const area = areaOf(conduit);
  const oilRate = stream.liquidRate * (1 - stream.waterCut);
  const waterRate = stream.liquidRate * stream.waterCut;
  const gasRate = stream.formationGasRatio * stream.liquidRate + lift;
  const oil = { apiGravity: stream.apiGravity, gasGravity: given.specificGravity };
  return {
    at(state) {
      const { pressure, temperature } = state;
      const water = waterState(pressure, temperature, stream.waterGravity);
      const waterVolume = waterRate * water.formationVolume;
      let oilVolume = 0;
      let free = gasRate;
      let density = water.density;
      let viscosity = water.viscosity;
      let tension = waterSurfaceTension(pressure, temperature);
      if (oilRate > 0) {
        const held = oilState(pressure, temperature, oil, gasRate / oilRate);
        oilVolume = oilRate * held.formationVolume;
        free = Math.max(0, gasRate - held.dissolved * oilRate);
        const share = oilVolume / (oilVolume + waterVolume);
        density += share * (held.density - density);
        viscosity += share * (held.viscosity - viscosity);
        tension += share * (oilSurfaceTension(pressure, temperature, oil.apiGravity) - tension);
      }
      const dense = gasDensity(gas, state);
      return {
        liquidVelocity: (oilVolume + waterVolume) / area,
        gasVelocity: (free * surfaceDensity) / dense / area,
        liquidDensity: density,
        gasDensity: dense,
        liquidViscosity: viscosity,
        gasViscosity: gasViscosity(gas.molarMass, dense, temperature),
        surfaceTension: tension,
      };
    },
    warningsAt(state) {
      const asked = { pressure: state.pressure, temperature: state.temperature };
      const ofOil =
        oilRate > 0
          ? [
              ...warnOutside(solutionGasMethod, {
                ...asked,
                "oil gravity, API": oil.apiGravity,
                "gravity of the gas": oil.gasGravity,
              }),
              ...warnOutside(oilViscosityMethod, {
                ...asked,
                "oil gravity, API": oil.apiGravity,
                "solution gas-oil ratio, m3/m3": Math.max(
                  oilState(state.pressure, state.temperature, oil, gasRate / oilRate).dissolved,
                  20 * M3_M3_PER_SCF_BARREL,
                ),
              }),
            ]
          : [];
      const ofWater =
        waterRate > 0
          ? warnOutside(waterMethod, { ...asked, "gravity of the water": stream.waterGravity })
          : [];
      return distinctWarnings([...ofOil, ...ofWater, ...gas.warningsAt(state)]);
    },
  };
}
