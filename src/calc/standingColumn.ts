import type { Gas } from "./gas.ts";
import { gasColumn, gasColumnMethod } from "./gasColumn.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { liquidColumn } from "./liquidColumn.ts";
import type { Method, Warning } from "./method.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import { type AbsolutePa, type VerticalM, verticalM } from "./units.ts";

/** Liquid standing in an annulus or a tubing, gas above it. */
export interface StandingLiquid {
  /** true vertical depth of its top, m */
  readonly top: VerticalM;
  /** Pa/m of true vertical depth */
  readonly gradient: number;
}

export interface PressureWithWarnings {
  readonly pressure: AbsolutePa;
  readonly warnings: readonly Warning[];
}

export const standingColumnMethod: Method = {
  name: "Fluids at rest: gas over liquid",
  formula: "p(h) = gas column from surface to the liquid + gradient × height of liquid above h",
  source: `hydrostatics; ${gasColumnMethod.source}`,
  validity: [],
};

const SURFACE = verticalM(0);

/**
 * Pressure at a depth in a shut-in annulus or tubing, from what its gauge at surface says.
 *
 * @param surface absolute at surface, Pa
 * @param depth   true vertical, m
 * @param liquid  its top and gradient; undefined: gas all the way to `depth`
 * @returns absolute at `depth`, Pa
 * @throws InputError as gasColumn
 * Holds for fluids at rest. Source: hydrostatics.
 */
export function pressureAtDepth(
  surface: AbsolutePa,
  depth: VerticalM,
  gas: Gas,
  temperatures: TemperatureProfile,
  liquid?: StandingLiquid,
): PressureWithWarnings {
  const foot = liquid && liquid.top < depth ? liquid.top : depth;
  const { pressures, warnings } = gasColumn(surface, SURFACE, [foot], gas, temperatures);
  const atFoot = pressures[0] as AbsolutePa;
  const pressure =
    liquid && foot < depth ? liquidColumn(atFoot, foot, depth, liquid.gradient) : atFoot;
  return { pressure, warnings };
}

/**
 * Surface pressure that gives a pressure at a depth: pressureAtDepth turned round.
 *
 * @param atDepth absolute, at `depth`, Pa
 * @param depth   true vertical, m, above 0
 * @param liquid  its top and gradient; undefined: gas all the way
 * @returns absolute at surface, Pa
 * @throws InputError when the liquid alone weighs more than the pressure at depth: no surface pressure gives it
 * Source: hydrostatics; the gas column is integrated upward, so no search is needed.
 */
export function surfacePressureFor(
  atDepth: AbsolutePa,
  depth: VerticalM,
  gas: Gas,
  temperatures: TemperatureProfile,
  liquid?: StandingLiquid,
): PressureWithWarnings {
  requireNumber("depth", depth, "above 0", (d) => d > 0);
  let pressure = atDepth;
  let foot = depth;
  if (liquid && liquid.top < depth) {
    requireNumber("liquid.top", liquid.top, "0 or deeper", (d) => d >= 0);
    pressure = liquidColumn(atDepth, depth, liquid.top, liquid.gradient);
    foot = liquid.top;
    if (pressure <= 0) {
      throw new InputError(
        "liquid",
        { top: liquid.top, gradient: liquid.gradient },
        "shorter or lighter: its weight alone is more than the pressure that is wanted at the valve",
      );
    }
  }
  const { pressures, warnings } = gasColumn(pressure, foot, [SURFACE], gas, temperatures);
  return { pressure: pressures[0] as AbsolutePa, warnings };
}
