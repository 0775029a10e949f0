import type { Gas } from "./gas.ts";
import { gasColumn, gasColumnMethod } from "./gasColumn.ts";
import { requireNumber } from "./inputError.ts";
import { distinctWarnings, type Method, type Warning } from "./method.ts";
import { domePressure } from "./nitrogen.ts";
import { isSetBySpring } from "./openingBand.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import { type AbsolutePa, absolutePa, kelvin, type VerticalM, verticalM } from "./units.ts";
import {
  closingPressure,
  domeFromTestRack,
  TEST_RACK_TEMPERATURE,
  type ValveBody,
} from "./valve.ts";

export const closingAtSurfaceMethod: Method = {
  name: "Closing pressure brought to surface by the gas at rest",
  formula:
    "pc = Pd + Ps (1 − R) at the valve; d ln p / dh = M g / (z R T) from there to the wellhead",
  source: `force balance of the valve; ${gasColumnMethod.source}`,
  validity: [],
};

export const closingBandMethod: Method = {
  name: "Band of the closing pressure at surface",
  formula:
    "widest = |∂pc/∂ptro| a + |∂pc/∂T| u, for ± a on the set pressure and ± u on every temperature, of the valve and of the gas above it alike",
  source: "JCGM 100:2008 (GUM), 5.1.2; first order, both limits the same way",
  validity: [],
};

/** A valve that injection shuts, how well its setting and its temperature are known, and the gas above it. */
export interface ClosingSetting {
  readonly body: ValveBody;
  /** test-rack opening at 60 degF, absolute, Pa, read in the shop's atmosphere */
  readonly testRack: AbsolutePa;
  readonly shopAtmosphere: AbsolutePa;
  /** ± Pa on the test-rack opening */
  readonly setTolerance: number;
  /** ± K, at the valve and of the gas above it */
  readonly temperatureUncertainty: number;
  /** of the valve, true vertical, m */
  readonly depth: VerticalM;
  readonly gas: Gas;
  readonly temperatures: TemperatureProfile;
}

export interface ClosingBand {
  /** injection pressure at surface at which the valve shuts, absolute, Pa */
  readonly atSurface: AbsolutePa;
  /** ∂/∂test rack, dimensionless */
  readonly perSetPressure: number;
  /** ∂/∂temperature, Pa/K */
  readonly perKelvin: number;
  /** ± Pa when both are at their limits the same way, first order */
  readonly widest: number;
  readonly warnings: readonly Warning[];
}

/** Steps of the difference quotients: small against any band, large against the solvers' last digits. */
const PRESSURE_STEP = 10_000; // Pa
const TEMPERATURE_STEP = 0.5; // K

/**
 * Injection pressure at surface at which a valve shuts, with what its setting and the temperatures leave open.
 *
 * @throws InputError for a negative tolerance, a setting that leaves no charge, or where nitrogen or gas have no answer
 * The spring, the area ratio and the gas itself are taken as known; their own doubt is not in the band.
 */
export function closingBand(setting: ClosingSetting): ClosingBand {
  const { setTolerance: a, temperatureUncertainty: u } = setting;
  requireNumber("set_tolerance", a, "0 or more", (each) => each >= 0);
  requireNumber("temperature_uncertainty", u, "0 or more", (each) => each >= 0);
  const { pressure, warnings } = closingAtSurface(setting, 0, 0);
  const off = (set: number, kelvins: number) => closingAtSurface(setting, set, kelvins).pressure;
  const perSetPressure = (off(PRESSURE_STEP, 0) - off(-PRESSURE_STEP, 0)) / (2 * PRESSURE_STEP);
  const perKelvin = (off(0, TEMPERATURE_STEP) - off(0, -TEMPERATURE_STEP)) / (2 * TEMPERATURE_STEP);
  return {
    atSurface: pressure,
    perSetPressure,
    perKelvin,
    widest: Math.abs(perSetPressure) * a + Math.abs(perKelvin) * u,
    warnings,
  };
}

function closingAtSurface(setting: ClosingSetting, offSet: number, offTemperature: number) {
  const { body, testRack, shopAtmosphere, depth, gas } = setting;
  const temperatures = warmer(setting.temperatures, offTemperature);
  const bySpring = isSetBySpring(setting);
  const set = bySpring ? testRack : absolutePa(testRack + offSet);
  const dome60 = domeFromTestRack(body, set, shopAtmosphere);
  const dome = domePressure(dome60, TEST_RACK_TEMPERATURE, temperatures.at(depth));
  const spring = body.springPressure + (bySpring ? offSet : 0);
  const closing = closingPressure({ ...body, springPressure: spring }, dome.pressure);
  const column = gasColumn(closing, depth, [verticalM(0)], gas, temperatures);
  return {
    pressure: column.pressures[0] as AbsolutePa,
    warnings: distinctWarnings([...dome.warnings, ...column.warnings]),
  };
}

function warmer(profile: TemperatureProfile, by: number): TemperatureProfile {
  if (by === 0) return profile;
  return {
    ...profile,
    points: profile.points.map(({ depth, temperature }) => ({
      depth,
      temperature: kelvin(temperature + by),
    })),
    at: (depth) => kelvin(profile.at(depth) + by),
  };
}
