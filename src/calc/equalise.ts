import type { Gas } from "./gas.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { distinctWarnings, type Method, type Warning } from "./method.ts";
import {
  type PressureWithWarnings,
  type StandingLiquid,
  surfacePressureFor,
} from "./standingColumn.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import { type AbsolutePa, absolutePa, type VerticalM } from "./units.ts";

export const equaliseMethod: Method = {
  name: "Casing surface pressure that levels annulus and tubing at a mandrel",
  formula:
    "pa(h) = gas column from surface to the liquid (or to the valve) + gradient × height of liquid above the valve; solved for the surface pressure at pa(h) = ptubing(h)",
  source: "hydrostatics; gas column integrated upward from the valve with real z",
  validity: [],
};

export interface EqualisingBand {
  /** at which annulus and tubing are equal at the valve, absolute at surface, Pa */
  readonly level: AbsolutePa;
  /** with the annulus `below` under the tubing at the valve */
  readonly lowest: AbsolutePa;
  /** with the annulus `above` over the tubing at the valve */
  readonly highest: AbsolutePa;
  readonly warnings: readonly Warning[];
}

/**
 * Casing surface pressures between which the difference at a mandrel stays within a two-sided band.
 *
 * @param tubing absolute at the valve, Pa
 * @param depth  of the valve, true vertical, m
 * @param band   allowed difference at the valve: annulus `below` the tubing and `above` it, Pa, both 0 or more
 * @returns the three surface pressures. Where the low end lies below any that there can be, a vacuum at surface
 *          already being within the band, `lowest` is 0 absolute and a warning says so
 * @throws InputError when not even the level has a surface pressure (see surfacePressureFor)
 * Source: hydrostatics, see equaliseMethod. The band itself is policy.
 */
export function equalisingBand(
  tubing: AbsolutePa,
  depth: VerticalM,
  gas: Gas,
  temperatures: TemperatureProfile,
  band: { readonly below: number; readonly above: number },
  liquid?: StandingLiquid,
): EqualisingBand {
  requireNumber("band below", band.below, "0 or more", (b) => b >= 0);
  requireNumber("band above", band.above, "0 or more", (b) => b >= 0);
  const surface = (atValve: number) =>
    surfacePressureFor(absolutePa(atValve), depth, gas, temperatures, liquid);
  const level = surface(tubing);
  const lowest = band.below === 0 ? level : lowestWithin(() => surface(tubing - band.below));
  const highest = band.above === 0 ? level : surface(tubing + band.above);
  return {
    level: level.pressure,
    lowest: lowest.pressure,
    highest: highest.pressure,
    warnings: distinctWarnings([...level.warnings, ...lowest.warnings, ...highest.warnings]),
  };
}

const VACUUM: PressureWithWarnings = {
  pressure: absolutePa(0),
  warnings: [
    {
      kind: "note",
      text: "every casing surface pressure below the level is within the band: its low end is a vacuum",
    },
  ],
};

/** A pressure at the valve that no surface pressure is low enough for is reached by all of them. */
function lowestWithin(surface: () => PressureWithWarnings): PressureWithWarnings {
  try {
    return surface();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return VACUUM;
  }
}
