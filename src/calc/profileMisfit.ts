import { InputError, requireNumber } from "./inputError.ts";
import type { PressurePoint, PressureProfile } from "./pressureProfile.ts";

/** Measured pressures against a profile. */
export interface Misfit {
  /** [n] profile less measured, Pa, in the order of the stops */
  readonly differences: readonly number[];
  /** their mean: what a wrong wellhead pressure shows as, Pa */
  readonly mean: number;
  /** root of the mean of their squares, Pa */
  readonly rootMeanSquare: number;
  /** the one farthest from 0, with its sign, Pa */
  readonly largest: number;
}

/**
 * How far a profile is off what was measured.
 *
 * @param stops [n], n >= 1: the stops of a pressure survey
 * @throws InputError for no stop, or as the profile
 * Source: plain differences.
 */
export function misfit(profile: PressureProfile, stops: readonly PressurePoint[]): Misfit {
  if (stops.length === 0) throw new InputError("stops", 0, "at least 1 measured pressure");
  const differences = stops.map(({ depth, pressure }, index) => {
    requireNumber(`stops[${index}].pressure`, pressure, "above 0 absolute", (p) => p > 0);
    return profile.at(depth).pressure - pressure;
  });
  const sum = differences.reduce((total, d) => total + d, 0);
  const squares = differences.reduce((total, d) => total + d * d, 0);
  return {
    differences,
    mean: sum / stops.length,
    rootMeanSquare: Math.sqrt(squares / stops.length),
    largest: differences.reduce((far, d) => (Math.abs(d) > Math.abs(far) ? d : far), 0),
  };
}
