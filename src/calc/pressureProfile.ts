import { InputError, requireNumber } from "./inputError.ts";
import { liquidColumn } from "./liquidColumn.ts";
import { type Method, warnOutside } from "./method.ts";
import type { PressureWithWarnings } from "./standingColumn.ts";
import { type AbsolutePa, absolutePa, type VerticalM, verticalM } from "./units.ts";

/** Pressure against true vertical depth in one space of the well, whatever it was made from. */
export interface PressureProfile {
  readonly method: Method;
  at(depth: VerticalM): PressureWithWarnings;
}

/** A pressure measured at a depth. */
export interface PressurePoint {
  readonly depth: VerticalM;
  readonly pressure: AbsolutePa;
}

export interface SurveyedPressure extends PressureProfile {
  /** the stops, depths rising */
  readonly points: readonly PressurePoint[];
}

const DEPTH = "true vertical depth";

export const surveyMethod: Method = {
  name: "Pressure survey, straight lines between stops",
  formula: "p = p1 + (h − h1)(p2 − p1)/(h2 − h1)",
  source: "the stops of the survey",
  validity: [],
};

/**
 * Pressures of a survey, straight lines between the stops.
 *
 * @param points [n], n >= 2, depths rising: true vertical m, absolute Pa
 * @throws InputError for fewer than two points, depths that do not rise, or a pressure that cannot be; from `at`,
 *         where the end slope carried on comes to no pressure at all
 * Beyond the stops the end slope is carried on, with a warning.
 */
export function surveyedPressure(points: readonly PressurePoint[]): SurveyedPressure {
  if (points.length < 2) throw new InputError("survey", points.length, "at least 2 points");
  points.forEach(({ depth, pressure }, index) => {
    requireNumber(`survey[${index}].pressure`, pressure, "above 0 absolute", (p) => p > 0);
    const before = points[index - 1];
    requireNumber(
      `survey[${index}].depth`,
      depth,
      before ? "deeper than the point before it" : "a depth",
      (d) => before === undefined || d > before.depth,
    );
  });
  const first = points[0] as PressurePoint;
  const last = points[points.length - 1] as PressurePoint;
  const method: Method = {
    ...surveyMethod,
    validity: [
      {
        quantity: DEPTH,
        measure: DEPTH,
        from: first.depth,
        to: last.depth,
        basis: "the stops given; beyond them the end slope is carried on",
      },
    ],
  };
  return {
    method,
    points,
    at(depth) {
      const next = points.findIndex((point) => point.depth >= depth);
      const lower = next === -1 ? points.length - 1 : Math.max(1, next);
      const a = points[lower - 1] as PressurePoint;
      const b = points[lower] as PressurePoint;
      const share = (depth - a.depth) / (b.depth - a.depth);
      const pressure = absolutePa(a.pressure + share * (b.pressure - a.pressure));
      requireNumber(
        "depth",
        depth,
        "nearer to the stops of the survey: carried on to there its pressure is gone",
        () => pressure > 0,
      );
      return {
        pressure,
        warnings: warnOutside(method, { [DEPTH]: depth }),
      };
    },
  };
}

/** Flow up a tubing: one gradient down to where gas enters, another below. */
export interface FlowingGradients {
  /** Pa/m of true vertical depth, with lift gas */
  readonly lifted: number;
  /** Pa/m below the depth where gas enters */
  readonly below: number;
  /** true vertical, m, where gas enters */
  readonly entry: VerticalM;
}

export const flowingGradientMethod: Method = {
  name: "Flowing gradients",
  formula: "p(h) = pwh + glifted min(h, he) + gbelow max(0, h − he)",
  source:
    "common practice: a straight line for each stretch; the gradients are stated, from a survey or a correlation elsewhere",
  validity: [],
};

/**
 * Tubing pressure of a flowing well by gradients that somebody has stated.
 *
 * @param wellhead absolute, Pa
 * @throws InputError for a negative gradient, gas that enters above the surface, or a wellhead pressure that cannot be
 */
export function flowingPressure(
  wellhead: AbsolutePa,
  { lifted, below, entry }: FlowingGradients,
): PressureProfile {
  requireNumber("wellhead_pressure", wellhead, "above 0 absolute", (p) => p > 0);
  requireNumber("lifted_gradient", lifted, "0 or more", (g) => g >= 0);
  requireNumber("gradient_below", below, "0 or more", (g) => g >= 0);
  requireNumber("entry_depth", entry, "0 or deeper", (d) => d >= 0);
  return {
    method: flowingGradientMethod,
    at(depth) {
      const corner = verticalM(Math.min(depth, entry));
      const atCorner = liquidColumn(wellhead, verticalM(0), corner, lifted);
      return { pressure: liquidColumn(atCorner, corner, depth, below), warnings: [] };
    },
  };
}
