import { InputError, requireNumber } from "./inputError.ts";
import { type Method, type Warning, warnOutside } from "./method.ts";
import { type Kelvin, kelvin, type VerticalM } from "./units.ts";

const DEPTH = "true vertical depth";

/** A measured or stated temperature at a depth. */
export interface TemperaturePoint {
  readonly depth: VerticalM;
  readonly temperature: Kelvin;
}

export interface TemperatureProfile {
  readonly method: Method;
  /** The points the profile goes through, depth rising. */
  readonly points: readonly TemperaturePoint[];
  /** Temperature at a true vertical depth, K: linear between points, the end slopes carried on beyond. */
  at(depth: VerticalM): Kelvin;
  /** A warning when the depth lies beyond the points, so that the answer there is carried on and not measured. */
  warningsAt(depth: VerticalM): Warning[];
}

export const temperatureLineMethod: Method = {
  name: "Temperature, straight lines between points",
  formula: "T = T1 + (h − h1)(T2 − T1)/(h2 − h1)",
  source: "the points given; beyond them the end slope is carried on",
  validity: [],
};

/**
 * Temperature against true vertical depth, straight lines between points.
 *
 * @param points [n], n >= 2, depths rising: { depth: m true vertical, temperature: K }
 * @throws InputError for fewer than two points or depths that do not rise
 * Whether the well is flowing or shut in is the caller's to keep apart: it changes the points, not the line.
 */
export function temperatureProfile(points: readonly TemperaturePoint[]): TemperatureProfile {
  if (points.length < 2) {
    throw new InputError("temperatures", points.length, "at least 2 points");
  }
  points.forEach((point, index) => {
    requireNumber(`temperatures[${index}].depth`, point.depth, "a depth");
    requireNumber(
      `temperatures[${index}].temperature`,
      point.temperature,
      "above absolute zero",
      (t) => t > 0,
    );
    const before = points[index - 1];
    if (before && point.depth <= before.depth) {
      throw new InputError(
        `temperatures[${index}].depth`,
        point.depth,
        "deeper than the point before it",
      );
    }
  });
  const first = points[0] as TemperaturePoint;
  const last = points[points.length - 1] as TemperaturePoint;
  const method: Method = {
    ...temperatureLineMethod,
    validity: [
      {
        quantity: DEPTH,
        measure: DEPTH,
        from: first.depth,
        to: last.depth,
        basis: "the points given; beyond them the end slope is carried on",
      },
    ],
  };
  return {
    points,
    method,
    at(depth) {
      let upper = first;
      let lower = points[1] as TemperaturePoint;
      for (let i = 2; i < points.length && depth > lower.depth; i += 1) {
        upper = lower;
        lower = points[i] as TemperaturePoint;
      }
      const share = (depth - upper.depth) / (lower.depth - upper.depth);
      return kelvin(upper.temperature + share * (lower.temperature - upper.temperature));
    },
    warningsAt: (depth) => warnOutside(method, { [DEPTH]: depth }),
  };
}
