import { InputError, requireNumber } from "./inputError.ts";
import { distinctWarnings, type Method, type Warning, warnOutside } from "./method.ts";
import type { WellPath } from "./path.ts";
import {
  type TemperaturePoint,
  type TemperatureProfile,
  temperatureProfile,
} from "./temperatureProfile.ts";
import {
  type AbsolutePa,
  type AlongHoleM,
  alongHoleM,
  KG_M3_PER_LB_FT3,
  KG_PER_LB,
  kelvin,
  M_PER_FT,
  M_PER_IN,
  STANDARD_ATMOSPHERE,
  toPsig,
  type VerticalM,
  verticalM,
} from "./units.ts";

const DEPTH = "true vertical depth";
const LONGEST_STEP = 100 * M_PER_FT;
/** Deeper than any hole drilled: it keeps the number of points in bounds. */
const DEEPEST = 20_000;

/**
 * Shiu and Beggs (1980), the set for a known wellhead pressure: A in ft from lb/s, lb/ft3, in, psig.
 * Source: Shiu and Beggs, J. Energy Resour. Technol. 102 (1980); coefficients from memory, met again beside worked values in public course material.
 */
const FACTOR = 0.0063;
const RATE = 0.4882;
const LIQUID = 2.915;
const DIAMETER = -0.3476;
const PRESSURE = 0.2219;
const OIL = 0.2519;
const GAS = 4.724;

/** What flows up the tubing, lift gas included. */
export interface FlowingStream {
  /** w, oil, water and all gas together, kg/s */
  readonly massRate: number;
  /** d, m */
  readonly tubingInnerDiameter: number;
  /** ρL, oil and water together at standard conditions, kg/m3 */
  readonly liquidDensity: number;
  /** of the oil, degrees API */
  readonly apiGravity: number;
  /** γg, of the gas that flows, air = 1 */
  readonly gasGravity: number;
  /** absolute, Pa */
  readonly wellheadPressure: AbsolutePa;
}

/** A temperature profile that a correlation made, and nobody measured. */
export interface FlowingTemperature extends TemperatureProfile {
  /** A, along hole, m */
  readonly relaxationDistance: number;
}

export const flowingTemperatureMethod: Method = {
  name: "Flowing temperature, Ramey (1962) with the relaxation distance of Shiu and Beggs (1980)",
  formula:
    "dT/dL = −(T − Te)/A up the hole from T = Te at the bottom; with one gradient g in a vertical well T = Te + g A (1 − exp(−L/A)); A = 0.0063 w^0.4882 ρL^2.9150 d^−0.3476 pwh^0.2219 API^0.2519 γg^4.7240 (ft; lb/s, lb/ft³, in, psig)",
  source:
    "Ramey, J. Pet. Tech. (April 1962) 427; Shiu and Beggs, J. Energy Resour. Technol. 102 (1980), coefficients from memory and as met again beside worked values",
  validity: [],
};

/**
 * Relaxation distance: how far up the hole a flowing stream goes before it has come near to the
 * slope of the rock beside it.
 *
 *   A = 0.0063 w^0.4882 ρL^2.9150 d^-0.3476 pwh^0.2219 API^0.2519 γg^4.7240   (ft; lb/s, lb/ft3, in, psig)
 *
 * @param stream see FlowingStream; the gauge of the formula is taken to stand in the standard atmosphere
 * @returns A, along hole, m
 * @throws InputError for a quantity that is not positive, or a wellhead pressure that is not above the atmosphere
 * Holds for oil wells that have flowed long enough to be steady. The range of the wells it was fitted to (270, from
 * memory) is not known here. It goes with the 4.7th power of γg: at 0.9 it is three times what it is at 0.7.
 * @example 2,230 STB/D of 24 API oil, 1.762 MMscf/D of gravity 0.7, 2.992 in, 150 psig  // 2,089 ft
 * Source: see flowingTemperatureMethod.
 */
export function relaxationDistance(stream: FlowingStream): number {
  requireNumber(
    "mass_rate",
    stream.massRate,
    "above 0: a well that does not flow has the temperature of the rock",
    (w) => w > 0,
  );
  requireNumber("tubing_inner_diameter", stream.tubingInnerDiameter, "above 0", (d) => d > 0);
  requireNumber("liquid_density", stream.liquidDensity, "above 0", (d) => d > 0);
  requireNumber("api_gravity", stream.apiGravity, "above 0", (api) => api > 0);
  requireNumber("gas_gravity", stream.gasGravity, "above 0", (g) => g > 0);
  requireNumber(
    "wellhead_pressure",
    stream.wellheadPressure,
    "above the standard atmosphere: the correlation takes its gauge pressure",
    (p) => p > STANDARD_ATMOSPHERE,
  );
  return (
    M_PER_FT *
    FACTOR *
    (stream.massRate / KG_PER_LB) ** RATE *
    (stream.liquidDensity / KG_M3_PER_LB_FT3) ** LIQUID *
    (stream.tubingInnerDiameter / M_PER_IN) ** DIAMETER *
    toPsig(stream.wellheadPressure, STANDARD_ATMOSPHERE) ** PRESSURE *
    stream.apiGravity ** OIL *
    stream.gasGravity ** GAS
  );
}

/**
 * Temperature in the tubing of a flowing well, by correlation.
 *
 * The stream enters at the temperature of the rock at the bottom and is followed up the hole in legs
 * of at most 100 ft; on each leg the rock's temperature is taken as straight, for which Ramey's
 * equation has an exact answer. The rock is a temperatureProfile of its own: two points, surface and
 * bottom, are the geothermal line, more of them a measured static survey.
 *
 * @param stream     what flows
 * @param geothermal temperature of the undisturbed rock, against true vertical depth
 * @param path       from the wellhead down; the heat is lost along hole, the rock warms with vertical depth
 * @param bottom     where the stream enters, along hole, m, above 0 and at most 20,000
 * @returns a profile through its legs' ends, wellhead to bottom, straight between them (within 0.1 K of Ramey's curve
 *          for gradients up to 1.8 degF/100 ft). Every depth carries a note that it is a correlation.
 * @throws InputError as relaxationDistance, for a bottom out of bounds, or for a hole that runs level or upward, where
 *         one true vertical depth has no single temperature
 * Holds for steady flow; the heat of expansion of gas is left out, as the correlation leaves it out.
 * Source: see flowingTemperatureMethod.
 */
export function flowingTemperature(
  stream: FlowingStream,
  geothermal: TemperatureProfile,
  path: WellPath,
  bottom: AlongHoleM,
): FlowingTemperature {
  const distance = relaxationDistance(stream);
  requireNumber(
    "bottom",
    bottom,
    `above 0 and at most ${DEEPEST} m along hole`,
    (d) => d > 0 && d <= DEEPEST,
  );
  const legs = Math.ceil(bottom / LONGEST_STEP);
  const length = bottom / legs;
  const cooled = Math.exp(-length / distance);
  const foot = verticalAt(path, bottom);
  let depth = foot;
  let rock = geothermal.at(foot);
  let aboveRock = 0;
  const points: TemperaturePoint[] = [{ depth: foot, temperature: rock }];
  for (let leg = legs - 1; leg >= 0; leg -= 1) {
    const higher = verticalAt(path, alongHoleM(leg * length));
    if (higher >= depth) {
      throw new InputError(
        "bottom",
        bottom,
        "above the part of the hole that runs level or upward: one true vertical depth has no single temperature there",
      );
    }
    const rockHigher = geothermal.at(higher);
    const held = ((rock - rockHigher) / length) * distance;
    aboveRock = held + (aboveRock - held) * cooled;
    points.push({ depth: higher, temperature: kelvin(rockHigher + aboveRock) });
    depth = higher;
    rock = rockHigher;
  }
  const profile = temperatureProfile(points.reverse());
  const method: Method = {
    ...flowingTemperatureMethod,
    validity: [
      {
        quantity: DEPTH,
        measure: DEPTH,
        from: depth,
        to: foot,
        basis: "wellhead to where the stream enters; beyond them the end slope is carried on",
      },
    ],
  };
  const everywhere: Warning[] = [
    {
      kind: "note",
      text: "flowing temperature by the Shiu and Beggs (1980) correlation, not measured; the range it was fitted to is not known here, and it is sensitive to gas gravity",
    },
    ...geothermal.warningsAt(depth),
    ...geothermal.warningsAt(foot),
  ];
  return {
    method,
    points: profile.points,
    relaxationDistance: distance,
    at: profile.at,
    warningsAt: (at) => distinctWarnings([...everywhere, ...warnOutside(method, { [DEPTH]: at })]),
  };
}

/** True vertical depth at a depth along hole; above the first station the well is vertical. */
function verticalAt(path: WellPath, along: AlongHoleM): VerticalM {
  const first = path.points[0];
  return first && along < first.depth ? verticalM(along) : path.at(along).vertical;
}
