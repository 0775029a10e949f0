import type { Programme } from "../records/programme.ts";
import type { Mandrel } from "../records/well.ts";
import { mandrelFigureOf } from "./atMandrel.ts";
import { benchResults } from "./benchResults.ts";
import { type Context, contextOf, type Scenario } from "./context.ts";
import { envelopeResults } from "./envelopeResults.ts";
import { hydrateResults } from "./hydrateResults.ts";
import { indicatorResults } from "./indicatorResults.ts";
import { levellingResults } from "./levelling.ts";
import { lineResults } from "./lineResults.ts";
import type { Measurements } from "./measurements.ts";
import { pinResults, pinsUnderPull } from "./pinResults.ts";
import { pocketForceResults } from "./pocketForceResults.ts";
import { recordResults } from "./recordResults.ts";
import { rushResults } from "./rushResults.ts";
import { hasBellows, setPressureResults } from "./setPressure.ts";
import { sourResults } from "./sourResults.ts";
import { stretchResults } from "./stretchResults.ts";
import {
  type AnyResultId,
  type Get,
  type MandrelFigure,
  type ResultId,
  resultIds,
  type Traced,
} from "./traced.ts";
import { wellheadBandResults } from "./wellheadBand.ts";
import { wellResults } from "./wellResults.ts";

const definitions = {
  ...recordResults,
  ...wellResults,
  ...setPressureResults,
  ...benchResults,
  ...levellingResults,
  ...wellheadBandResults,
  ...pocketForceResults,
  ...hydrateResults,
  ...indicatorResults,
  ...lineResults,
  ...stretchResults,
  ...pinResults,
  ...rushResults,
  ...sourResults,
  ...envelopeResults,
} satisfies Record<ResultId, unknown>;

/** Every number of a job, worked out from its programme and what was measured so far. */
export interface Results {
  readonly context: Context;
  /** All that apply to this job, in the order of the brief. */
  all(): Traced[];
  /** Undefined when the job has no such result, as a set pressure for a valve without a bellows. */
  get(id: AnyResultId): Traced | undefined;
  /** SI value, or undefined when it is missing or has no answer. */
  value(id: AnyResultId): number | undefined;
}

/** Works out a figure of one mandrel; left out where only the job's own numbers are asked for. */
export type MandrelFigures = (
  context: Context,
  get: Get,
  figure: MandrelFigure,
  mandrel: Mandrel,
) => Traced;

/**
 * Pure: the same programme and measurements give the same results. Each is worked out when it is first
 * asked for, since a hold point asks for a few of them at every reading.
 */
export function resultsOf(
  programme: Programme,
  measured: Measurements,
  scenario?: Scenario,
  ofMandrel?: MandrelFigures,
): Results {
  const context = contextOf(programme, measured, scenario);
  const known = new Map<AnyResultId, Traced>();
  const workOut = (id: AnyResultId): Traced => {
    if (isOfTheJob(id)) return definitions[id](context, get);
    const mandrel = mandrelOf(id);
    if (!mandrel || !ofMandrel) throw new Error(`${id}: not among these results; this is a defect`);
    return ofMandrel(context, get, mandrel.figure, mandrel.of);
  };
  const mandrelOf = (id: AnyResultId) => {
    const parts = mandrelFigureOf(id);
    const of = programme.well?.mandrels.find((each) => each.number === parts?.number);
    return parts && of && { figure: parts.figure, of };
  };
  const get: Get = (id) => {
    const before = known.get(id);
    if (before) return before;
    const traced = workOut(id);
    known.set(id, traced);
    return traced;
  };
  const applies = (id: AnyResultId) =>
    isOfTheJob(id)
      ? (hasBellows(context) || !(id in setPressureResults || id in benchResults)) &&
        (!(id in neighbours) || get(neighbours[id] ?? id).outcome.state === "known") &&
        (id !== "pulling-pins" || pinsUnderPull(context, "pull") !== undefined) &&
        (id !== "running-pins" || pinsUnderPull(context, "set") !== undefined)
      : ofMandrel !== undefined && mandrelOf(id) !== undefined;
  return {
    context,
    all: () => resultIds.filter(applies).map(get),
    get: (id) => (applies(id) ? get(id) : undefined),
    value: (id) => {
      const outcome = applies(id) ? get(id).outcome : undefined;
      return outcome?.state === "known" ? outcome.si : undefined;
    },
  };
}

/** What is known of a mandrel next to the target only where there is one. */
const neighbours: Readonly<Partial<Record<AnyResultId, ResultId>>> = {
  "mandrel-above": "mandrel-above",
  "mandrel-below": "mandrel-below",
  "counter-above": "mandrel-above",
  "counter-below": "mandrel-below",
};

const isOfTheJob = (id: AnyResultId): id is ResultId => id in definitions;

/** Results by programme and measurements: many moments of a log share them. */
const known = new Map<string, Results>();
const MOST_KNOWN = 500;

/**
 * resultsOf, remembered for the same programme and measurements.
 *
 * @param programmeKey names the programme for good, as the hash of the event that issued it does
 */
export function resultsFor(
  programmeKey: string,
  programme: Programme,
  measured: Measurements,
): Results {
  const key = [
    programmeKey,
    // One programme may be asked for several of its pockets.
    programme.job.mandrel,
    ...Object.entries(measured).map(([channel, m]) => `${channel} ${m.si} ${m.at} ${m.event}`),
  ].join("\n");
  const before = known.get(key);
  if (before) {
    // Moves to the end: what was not asked for longest is forgotten first.
    known.delete(key);
    known.set(key, before);
    return before;
  }
  const results = resultsOf(programme, measured);
  known.set(key, results);
  const [oldest] = known.keys();
  if (known.size > MOST_KNOWN && oldest !== undefined) known.delete(oldest);
  return results;
}

/** Numbers by programme and what was read. */
const values = new Map<string, number | undefined>();
const MOST_VALUES = 20_000;

/**
 * One number of resultsFor, remembered by what was read and not by when or by whom: whoever watches two gauges reads
 * the same pressures many times, and every reading of the watch is looked at again with the next.
 */
export function valueFor(
  programmeKey: string,
  programme: Programme,
  measured: Measurements,
  id: ResultId,
): number | undefined {
  const read = Object.entries(measured).map(([channel, { si }]) => `${channel} ${si}`);
  const key = [programmeKey, programme.job.mandrel, id, ...read].join("\n");
  if (values.has(key)) return values.get(key);
  if (values.size >= MOST_VALUES) values.clear();
  const value = resultsOf(programme, measured).value(id);
  values.set(key, value);
  return value;
}
