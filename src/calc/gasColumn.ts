import type { Gas } from "./gas.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { distinctWarnings, type GasState, type Method, type Warning } from "./method.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import {
  type AbsolutePa,
  absolutePa,
  GAS_CONSTANT,
  GRAVITY,
  M_PER_FT,
  type VerticalM,
  verticalM,
} from "./units.ts";

export const gasColumnMethod: Method = {
  name: "Static gas column, integrated",
  formula: "d ln p / dh = M g / (z R T), z at the pressure and temperature of each depth",
  source:
    "hydrostatics of a real gas; fourth-order Runge-Kutta, steps of at most 500 ft, no average z or T",
  validity: [],
};

/** With steps of 100 ft the pressure at 15,000 ft differs by less than 1e-8 of itself. */
const LONGEST_STEP = 500 * M_PER_FT;

/** d ln p / dh of a gas at a state and true vertical depth, 1/m; positive where pressure rises downward. */
export type LogPressureSlope = (state: GasState, depth: VerticalM) => number;

export interface GasPressures {
  /** [n] absolute, Pa, in the order of the depths asked */
  readonly pressures: AbsolutePa[];
  readonly warnings: Warning[];
}

/** M g / (z R T): the slope in gas at rest. */
export function slopeAtRest(gas: Gas): LogPressureSlope {
  return (state) => (gas.molarMass * GRAVITY) / (gas.z(state) * GAS_CONSTANT * state.temperature);
}

/**
 * Pressure of gas at rest, from one depth to others.
 *
 * It goes down or up equally well, so that the pressure needed at surface for a pressure at depth
 * comes from one integration and not from a search.
 *
 * @param pressure     absolute at `from`, Pa
 * @param from         true vertical depth where it is known, m
 * @param to           [n] true vertical depths wanted, m, in any order
 * @param gas          molar mass and z(p, T)
 * @param temperatures against true vertical depth
 * @returns [n] absolute pressures in the order of `to`, Pa, with warnings of the gas model at the ends
 *          and of temperatures carried on beyond the points given
 * @throws InputError when the pressure is not positive, or where the gas model has no answer
 * Source: hydrostatics, see gasColumnMethod.
 */
export function gasColumn(
  pressure: AbsolutePa,
  from: VerticalM,
  to: readonly VerticalM[],
  gas: Gas,
  temperatures: TemperatureProfile,
): GasPressures {
  return gasPressures(pressure, from, to, gas, temperatures, slopeAtRest(gas));
}

/**
 * Pressure of gas along a well whose slope is given: gasColumn with the slope at rest, moving gas with its own.
 *
 * @param slope d ln p / dh, 1/m; it may throw where there is no answer
 * Everything else as gasColumn.
 */
export function gasPressures(
  pressure: AbsolutePa,
  from: VerticalM,
  to: readonly VerticalM[],
  gas: Gas,
  temperatures: TemperatureProfile,
  slope: LogPressureSlope,
): GasPressures {
  requireNumber("pressure", pressure, "above 0 absolute", (p) => p > 0);
  const warnings: Warning[] = [...gas.warningsAt({ pressure, temperature: temperatures.at(from) })];
  const answers = new Map<number, AbsolutePa>();
  for (const direction of [1, -1]) {
    const onThisSide = to
      .filter((depth) => (depth - from) * direction >= 0)
      .sort((a, b) => (a - b) * direction);
    let logP = Math.log(pressure);
    let depth: number = from;
    for (const target of onThisSide) {
      logP = integrate(logP, depth, target, temperatures, slope);
      depth = target;
      answers.set(target, absolutePa(Math.exp(logP)));
    }
  }
  const pressures = to.map((depth, index) => {
    const answer = answers.get(depth);
    if (answer === undefined || !Number.isFinite(answer)) {
      throw new InputError(`to[${index}]`, depth, "a finite depth");
    }
    warnings.push(...gas.warningsAt({ pressure: answer, temperature: temperatures.at(depth) }));
    return answer;
  });
  for (const depth of [from, ...to]) warnings.push(...temperatures.warningsAt(depth));
  return { pressures, warnings: distinctWarnings(warnings) };
}

/** ln p at `to`, by Runge-Kutta, stopping at every corner of the temperature profile. */
function integrate(
  start: number,
  from: number,
  to: number,
  temperatures: TemperatureProfile,
  slope: LogPressureSlope,
): number {
  if (from === to) return start;
  const slopeAt = (logP: number, depth: number): number => {
    const temperature = temperatures.at(verticalM(depth));
    return slope({ pressure: absolutePa(Math.exp(logP)), temperature }, verticalM(depth));
  };
  const rising = to > from;
  const corners = temperatures.points
    .map((point): number => point.depth)
    .filter((depth) => depth > Math.min(from, to) && depth < Math.max(from, to));
  if (!rising) corners.reverse();
  let logP = start;
  let depth = from;
  for (const end of [...corners, to]) {
    const steps = Math.max(1, Math.ceil(Math.abs(end - depth) / LONGEST_STEP));
    const h = (end - depth) / steps;
    const legStart = depth;
    for (let i = 0; i < steps; i += 1) {
      const at = legStart + i * h;
      const k1 = slopeAt(logP, at);
      const k2 = slopeAt(logP + (h / 2) * k1, at + h / 2);
      const k3 = slopeAt(logP + (h / 2) * k2, at + h / 2);
      const k4 = slopeAt(logP + h * k3, at + h);
      logP += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    depth = end;
  }
  return logP;
}
