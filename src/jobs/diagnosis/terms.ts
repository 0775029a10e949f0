import { PA_PER_PSI } from "../../calc/units.ts";
import type { Dimension } from "../quantity.ts";
import type { EvidenceKind } from "../records/investigation.ts";
import type { Condition } from "./conditions.ts";
import { chokeSize, type LiftedWell } from "./liftedWell.ts";
import type { Figure, Found, Observations } from "./observations.ts";
import type { Fault } from "./ranking.ts";
import { surveyFit } from "./surveyFit.ts";
import { uncertain } from "./uncertain.ts";

/** One line of evidence as the ranking weighs it. */
export interface Term {
  readonly evidence: string;
  readonly kind: EvidenceKind;
  /** ln of its likelihood where a hypothesis puts the well in this condition */
  readonly logOf: (condition: Condition, fault: Fault) => number;
  /** the same where none of the hypotheses is true: a broad spread */
  readonly logOfNone: number;
  /** a term that is one figure, beside what the condition makes of it */
  readonly figure?: {
    readonly label: string;
    readonly dimension: Dimension;
    readonly read: number;
    /** of reading and model together */
    readonly spread: number;
    readonly of: (condition: Condition) => number;
  };
  /** a term that is none, in words */
  readonly says?: string;
}

const LOG_HEAVY = -0.9684;

/**
 * ln density of a reading's error by Student's t with 5 degrees of freedom: near a normal in the middle, with
 * tails that one wild reading does not break.
 */
export const logHeavy = (deviation: number, spread: number) =>
  LOG_HEAVY - Math.log(spread) - 3 * Math.log1p((deviation / spread) ** 2 / 5);

/** Several readings of one thing count as little more than one: what the model has wrong is the same for all. */
const counting = (readings: number) => (1 + (0.5 * (readings - 1)) / readings) / readings;

/** ln of how likely somebody reports a thing at the choke or the meter. Chosen by Latchline, no source. */
function logOfFound(found: Found, fault: Fault): number {
  const supply = fault.kind === "supply" ? fault.what : undefined;
  const likely: Readonly<Record<Found, number>> =
    supply === "supply pressure fell"
      ? {
          "in order": 0.15,
          "choke changed": 0.05,
          frozen: 0.05,
          "supply fell": 0.7,
          "not looked at": 1,
        }
      : supply === "choke smaller"
        ? {
            "in order": 0.2,
            "choke changed": 0.35,
            frozen: 0.35,
            "supply fell": 0.05,
            "not looked at": 1,
          }
        : supply === "choke larger"
          ? {
              "in order": 0.25,
              "choke changed": 0.6,
              frozen: 0.02,
              "supply fell": 0.02,
              "not looked at": 1,
            }
          : {
              "in order": 0.8,
              "choke changed": 0.08,
              frozen: 0.04,
              "supply fell": 0.06,
              "not looked at": 1,
            };
  return Math.log(likely[found]);
}

export function termsOf(lifted: LiftedWell, seen: Observations): Term[] {
  const figureTerms = (
    figures: readonly Figure[],
    label: string,
    dimension: Dimension,
    range: number,
    model: (value: number) => number,
    of: (condition: Condition) => number,
  ): Term[] =>
    figures.map(({ evidence, kind, value, spread }) => {
      const all = Math.hypot(spread, model(value));
      const count = counting(figures.length);
      return {
        evidence,
        kind,
        logOf: (condition) => count * logHeavy(value - of(condition), all),
        logOfNone: -count * Math.log(range),
        figure: { label, dimension, read: value, spread: all, of },
      };
    });
  return [
    ...figureTerms(
      seen.injection,
      "Injection pressure at surface",
      "pressure",
      0.6 * lifted.operating,
      (p) => uncertain.modelPressure.spread * p,
      ({ state }) => state.surface,
    ),
    ...figureTerms(
      seen.wellhead,
      "Wellhead pressure",
      "pressure",
      400 * PA_PER_PSI,
      () => 5 * PA_PER_PSI,
      ({ surface }) => surface.wellhead,
    ),
    ...figureTerms(
      seen.rate,
      "Injection rate",
      "gas rate",
      2 * lifted.rate,
      (q) => uncertain.modelRate.spread * Math.max(q, 0.3 * lifted.rate),
      ({ state }) => state.rate,
    ),
    ...figureTerms(
      seen.supplyPressure,
      "Supply pressure",
      "pressure",
      0.6 * lifted.supply.pressure,
      () => 5 * PA_PER_PSI,
      ({ surface }) => surface.supply,
    ),
    ...figureTerms(
      seen.choke,
      "Injection choke",
      "diameter",
      0.01,
      (d) => 0.06 * d,
      ({ surface }) => Math.sqrt(surface.choke / chokeSize(1)),
    ),
    ...seen.found.map(
      ({ evidence, found }): Term => ({
        evidence,
        kind: "supply",
        logOf: (_, fault) => logOfFound(found, fault),
        logOfNone: Math.log(0.25),
        says: `At choke and meter: ${found}`,
      }),
    ),
    ...seen.surveys.map((run): Term => {
      const fit = surveyFit(lifted, run);
      const count = counting(seen.surveys.length);
      return {
        evidence: run.evidence,
        kind: "survey",
        logOf: (condition) => count * fit.logOf(condition),
        logOfNone: count * fit.logOfNone,
        says: "Survey: breaks of gradient and dips of temperature",
      };
    }),
  ];
}
