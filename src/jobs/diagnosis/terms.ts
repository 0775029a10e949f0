import { liftedPressures } from "../../calc/liftNetwork.ts";
import { PA_PER_PSI } from "../../calc/units.ts";
import type { Writer } from "../display.ts";
import type { Dimension } from "../quantity.ts";
import { belowEntry, type Condition, injectionRead } from "./conditions.ts";
import { chokeSize, type LiftedWell } from "./liftedWell.ts";
import type { Figure, Found, Observations } from "./observations.ts";
import type { Fault } from "./ranking.ts";
import { type SurveyFit, surveyFit } from "./surveyFit.ts";
import { logHeavy, type Term } from "./term.ts";
import { timedTerms } from "./timedTerms.ts";
import { uncertain } from "./uncertain.ts";

/** Several readings of one thing count as little more than one: what the model has wrong is the same for all. */
const counting = (readings: number) => (1 + (0.5 * (readings - 1)) / readings) / readings;

type Likely = Readonly<Record<Found, number>>;

/**
 * How often each thing is found at choke and meter, by what is wrong there. Chosen by Latchline, no source: a choke is found
 * frozen four times in a hundred in a well whose fault is elsewhere, since any of them may freeze in a cold night.
 */
const FOUND: Readonly<
  Record<Extract<Fault, { kind: "supply" }>["what"] | "shut" | "none", Likely>
> = {
  "supply pressure fell": {
    "in order": 0.15,
    "choke changed": 0.05,
    frozen: 0.05,
    "supply fell": 0.7,
    "not looked at": 1,
  },
  "choke smaller": {
    "in order": 0.2,
    "choke changed": 0.35,
    frozen: 0.35,
    "supply fell": 0.05,
    "not looked at": 1,
  },
  // What has shut by itself is ice or dirt more often than somebody's hand, and is seldom overlooked.
  shut: {
    "in order": 0.1,
    "choke changed": 0.2,
    frozen: 0.6,
    "supply fell": 0.05,
    "not looked at": 1,
  },
  "choke larger": {
    "in order": 0.25,
    "choke changed": 0.6,
    frozen: 0.02,
    "supply fell": 0.02,
    "not looked at": 1,
  },
  none: {
    "in order": 0.8,
    "choke changed": 0.08,
    frozen: 0.04,
    "supply fell": 0.06,
    "not looked at": 1,
  },
};

/** ln of how likely somebody reports a thing at the choke or the meter. */
function logOfFound(found: Found, fault: Fault, { surface }: Condition): number {
  const at = surface.isShut ? "shut" : fault.kind === "supply" ? fault.what : "none";
  return Math.log(FOUND[at][found]);
}

/** Of a finding that blames something: how often it is met where it is not to blame. */
const saidOfFound = (found: Found) =>
  found === "in order" || found === "not looked at"
    ? `At choke and meter: ${found}`
    : `At choke and meter: ${found}; so it is found in ${Math.round(100 * FOUND.none[found])} of 100 wells where it is not the cause`;

/** Of the depth of the well: a survey that leaves more than that open names no place. Chosen by Latchline, no source. */
const NAMES_A_PLACE = 0.15;

function saidOfSurvey(
  lifted: LiftedWell,
  { entersBy: by, colder }: SurveyFit,
  writer: Writer,
): string {
  const at =
    colder &&
    (colder.mandrel === undefined
      ? `by ${writer.write("length", lifted.alongHoleAt(colder.depth))}`
      : `at mandrel ${colder.mandrel}`);
  const step = colder
    ? `${writer.write("temperature difference", colder.by)} colder ${at} than the run of it; `
    : "";
  const says = `Survey: ${step}breaks of gradient and dips of temperature`;
  if (!by || by.spread > NAMES_A_PLACE * lifted.bottom) return `${says} name no one place`;
  return `${says} go best with gas entering by ${writer.write("length", lifted.alongHoleAt(by.mean))}`;
}

export function termsOf(lifted: LiftedWell, seen: Observations, writer: Writer): Term[] {
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
  const planned = plannedAtEntry(lifted);
  return [
    ...figureTerms(
      seen.injection,
      "Injection pressure at surface",
      "pressure",
      0.6 * lifted.operating,
      (p) => uncertain.dayPressure.spread * p,
      injectionRead,
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
    ...figureTerms(
      lifted.stream ? seen.producedGas : [],
      "Gas at the separator",
      "gas rate",
      2 * lifted.rate,
      (q) => Math.hypot(0.1 * q, 0.25 * (lifted.stream?.ownGas ?? 0)),
      ({ state }) => state.rate + (lifted.stream?.ownGas ?? 0),
    ),
    ...figureTerms(
      planned === undefined ? [] : seen.liquid,
      "Liquid at the separator",
      "liquid rate",
      1.5 * (lifted.stream?.liquidRate ?? 1),
      (q) => Math.max(0.3 * q, 0.2 * (lifted.stream?.liquidRate ?? 0)),
      (condition) =>
        (lifted.stream?.liquidRate ?? 0) * producedShare(lifted, condition, planned ?? 1),
    ),
    ...timedTerms(lifted, seen, writer),
    ...seen.found.map(
      ({ evidence, found }): Term => ({
        evidence,
        kind: "supply",
        logOf: (condition, fault) => logOfFound(found, fault, condition),
        logOfNone: Math.log(0.25),
        says: saidOfFound(found),
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
        says: saidOfSurvey(lifted, fit, writer),
        shows: "where gas enters",
      };
    }),
  ];
}

/** Pressure where the well's fluids come in as planned, absolute, Pa; undefined without a stream. */
function plannedAtEntry(lifted: LiftedWell): number | undefined {
  const { stream, gradients, rate, wellhead, pockets } = lifted;
  const operating = pockets.findLast(({ size }) => size > 0);
  if (!stream || !operating) return undefined;
  const depths = [operating.depth, Math.max(stream.entersAt, operating.depth)];
  return liftedPressures(depths, [rate, 0], wellhead, { ...gradients, design: rate })[1];
}

/**
 * What the well produces over what is planned, from how much the pressure has risen where its fluids come in.
 *
 * How much a rise costs is not known without an inflow: one and a half percent a percent is taken, and the
 * spread beside it is wide. Chosen by Latchline, no source.
 */
function producedShare(
  lifted: LiftedWell,
  { state, paths, draw, inflow }: Condition,
  planned: number,
): number {
  const entersAt = lifted.stream?.entersAt ?? 0;
  const last = lifted.pockets.length - 1;
  const below = belowEntry(lifted, draw);
  const there =
    (state.production[last] as number) + below * Math.max(0, entersAt - (paths[last]?.depth ?? 0));
  // Of a formation that gives less or more the liquid says so itself.
  if (inflow !== 1) return inflow;
  return Math.min(1.3, Math.max(0.05, 1 - 1.5 * (there / planned - 1)));
}
