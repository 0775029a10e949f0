import { requireNumber } from "./inputError.ts";
import { distinctWarnings, type Method, type Warning } from "./method.ts";
import { domeMethod, domePressure } from "./nitrogen.ts";
import { type AbsolutePa, absolutePa, type Kelvin, kelvin } from "./units.ts";
import {
  domeFromTestRack,
  openingPressure,
  TEST_RACK_TEMPERATURE,
  type ValveBody,
} from "./valve.ts";

export const openingBandMethod: Method = {
  name: "Band of the opening pressure",
  formula:
    "s² = (∂po/∂ptro · a/√3)² + (∂po/∂T · u/√3)²; widest = |∂po/∂ptro| a + |∂po/∂T| u, for ± a on the set pressure and ± u on the temperature",
  source:
    "JCGM 100:2008 (GUM), 4.3.7 for a limit without a shape, 5.1.2 for the sum; sampled after JCGM 101:2008",
  validity: domeMethod.validity,
};

/** What a valve was set to, and how well its setting and its temperature are known. */
export interface Setting {
  readonly body: ValveBody;
  /** test-rack opening at 60 degF, absolute, Pa, read in the shop's atmosphere */
  readonly testRack: AbsolutePa;
  readonly shopAtmosphere: AbsolutePa;
  /** ± Pa on the test-rack opening */
  readonly setTolerance: number;
  readonly temperature: Kelvin;
  /** ± K at the valve */
  readonly temperatureUncertainty: number;
  /** pressure on the seat, absolute, Pa */
  readonly other: AbsolutePa;
}

export interface OpeningBand {
  /** as set and at the stated temperature, absolute, Pa */
  readonly opening: AbsolutePa;
  /** ∂opening/∂test rack, dimensionless */
  readonly perSetPressure: number;
  /** ∂opening/∂temperature, Pa/K */
  readonly perKelvin: number;
  /** standard uncertainty, Pa */
  readonly standard: number;
  /** ± Pa when both are at their limits the same way, first order */
  readonly widest: number;
  readonly warnings: readonly Warning[];
}

function requireSetting({ setTolerance, temperatureUncertainty }: Setting): void {
  requireNumber("set_tolerance", setTolerance, "0 or more", (a) => a >= 0);
  requireNumber("temperature_uncertainty", temperatureUncertainty, "0 or more", (u) => u >= 0);
}

/**
 * Whether the spring carries the valve alone: its dome holds no more than what the tolerance may add or take.
 * The tolerance then lies in the spring; taken from the dome it could leave less than nothing there.
 */
export function isSetBySpring({
  body,
  testRack,
  shopAtmosphere,
  setTolerance,
}: Pick<Setting, "body" | "testRack" | "shopAtmosphere" | "setTolerance">): boolean {
  const charge = domeFromTestRack(body, testRack, shopAtmosphere) - shopAtmosphere;
  return body.springPressure > 0 && charge <= setTolerance * (1 - body.areaRatio);
}

/** Opening pressure of a valve whose set pressure and temperature are off by so much, Pa and K. */
function openingOf(
  setting: Setting,
  offSet: number,
  offTemperature: number,
): { readonly opening: AbsolutePa; readonly warnings: readonly Warning[] } {
  const { body, testRack, shopAtmosphere, temperature, other } = setting;
  const bySpring = isSetBySpring(setting);
  const set = bySpring ? testRack : absolutePa(testRack + offSet);
  const dome60 = domeFromTestRack(body, set, shopAtmosphere);
  const dome = domePressure(dome60, TEST_RACK_TEMPERATURE, kelvin(temperature + offTemperature));
  const spring = body.springPressure + (bySpring ? offSet : 0);
  return {
    opening: openingPressure({ ...body, springPressure: spring }, dome.pressure, other),
    warnings: dome.warnings,
  };
}

/** Steps of the difference quotients: small against any band, large against the solver's last digits. */
const PRESSURE_STEP = 10_000; // Pa
const TEMPERATURE_STEP = 0.5; // K

/**
 * What the tolerance of the setting and the doubt about the temperature do to the opening pressure at depth.
 *
 * First order: slopes by central differences at the nominal point. The tolerance of the setting lies in the
 * charge; in a valve that has next to none, in the spring.
 *
 * @throws InputError for a negative tolerance, or a setting that leaves no charge
 * The area ratio is taken as known; its own doubt is not in the band.
 */
export function openingBand(setting: Setting): OpeningBand {
  requireSetting(setting);
  const { setTolerance: a, temperatureUncertainty: u } = setting;
  const off = (set: number, kelvins: number) => openingOf(setting, set, kelvins).opening;
  const { opening, warnings } = openingOf(setting, 0, 0);
  const perSetPressure = (off(PRESSURE_STEP, 0) - off(-PRESSURE_STEP, 0)) / (2 * PRESSURE_STEP);
  const perKelvin = (off(0, TEMPERATURE_STEP) - off(0, -TEMPERATURE_STEP)) / (2 * TEMPERATURE_STEP);
  return {
    opening,
    perSetPressure,
    perKelvin,
    standard: Math.hypot(perSetPressure * a, perKelvin * u) / Math.sqrt(3),
    widest: Math.abs(perSetPressure) * a + Math.abs(perKelvin) * u,
    warnings: distinctWarnings(warnings),
  };
}

export interface SampledBand {
  readonly draws: number;
  /** absolute, Pa */
  readonly mean: AbsolutePa;
  /** standard deviation, Pa */
  readonly standard: number;
  /** between which 95 in 100 draws lie, absolute, Pa */
  readonly low: AbsolutePa;
  readonly high: AbsolutePa;
}

/**
 * The same by sampling: set pressure and temperature drawn evenly between their limits, the whole
 * calculation done for each draw.
 *
 * @param draws  at least 100
 * @param random uniform in [0, 1), e.g. pseudoRandom(1)
 * @throws InputError as openingBand
 */
export function sampledOpeningBand(
  setting: Setting,
  draws: number,
  random: () => number,
): SampledBand {
  requireSetting(setting);
  requireNumber("draws", draws, "a whole number of at least 100", (n) => n >= 100 && n % 1 === 0);
  const between = (limit: number) => (2 * random() - 1) * limit;
  const openings = Array.from(
    { length: draws },
    (): number =>
      openingOf(setting, between(setting.setTolerance), between(setting.temperatureUncertainty))
        .opening,
  ).sort((a, b) => a - b);
  const mean = openings.reduce((sum, each) => sum + each, 0) / draws;
  const squares = openings.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  const tail = Math.floor(0.025 * draws);
  return {
    draws,
    mean: absolutePa(mean),
    standard: Math.sqrt(squares / (draws - 1)),
    low: absolutePa(openings[tail] as number),
    high: absolutePa(openings[draws - 1 - tail] as number),
  };
}
