import type { CheckContext } from "../checks/check.ts";
import { checks } from "../checks/checks.ts";
import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import { toSI } from "../quantity.ts";
import { siteAtmosphere } from "../results/context.ts";
import { type Results, resultsOf } from "../results/results.ts";
import type { ResultId } from "../results/traced.ts";
import type { Condition, HoldPoint } from "../sheet/sheet.ts";
import { itemId, itemsOf } from "../sheet/walk.ts";
import {
  type Exception,
  foldInOrder,
  type JobState,
  latestReading,
  type Release,
} from "./jobState.ts";
import { measurementsOf, quantitySI } from "./measurementsOf.ts";

export interface ConditionState {
  readonly condition: Condition;
  readonly state: "met" | "not met" | "not known" | "excepted";
  /** what was found, with its numbers */
  readonly says: string;
  readonly exception?: Exception;
  /** hashes of the events whose readings it stands on */
  readonly basis: readonly string[];
  readonly results: readonly ResultId[];
}

export type HoldStatus = "locked" | "ready" | "released" | "released under exception" | "voided";

/** A hold point's state, worked out from the log and the calculations, never stored. */
export interface HoldState {
  readonly hold: HoldPoint;
  readonly status: HoldStatus;
  readonly conditions: readonly ConditionState[];
  /** titles of steps before it that are not done */
  readonly waitsFor: readonly string[];
  /** the release that stands, or that was voided */
  readonly release?: Release;
  /** the event that broke what the release stood on */
  readonly voidedBy?: JobEvent;
  /** the step it guards is done */
  readonly served: boolean;
}

/** Results by programme and measurements, since many moments of a log share them. Bounded. */
const known = new Map<string, Results>();

/** Results on what was measured so far. */
export function resultsAt(state: JobState): Results | undefined {
  const { programme, issued } = state;
  if (!programme || !issued) return undefined;
  const measured = measurementsOf(state, siteAtmosphere(programme));
  const key = [
    issued.hash,
    ...Object.entries(measured).map(([channel, m]) => `${channel} ${m.si} ${m.at} ${m.event}`),
  ].join("\n");
  const before = known.get(key);
  if (before) return before;
  const results = resultsOf(programme, measured);
  if (known.size >= 200) known.clear();
  known.set(key, results);
  return results;
}

const isOpen = (condition: ConditionState) =>
  condition.state === "not met" || condition.state === "not known";

/**
 * The state of one hold point.
 *
 * @param now    instant at which the question is asked
 * @param writer units and atmosphere for the reasons
 */
export function holdState(
  hold: HoldPoint,
  state: JobState,
  now: string,
  writer: Writer,
): HoldState {
  const served = state.done.has(hold.guards);
  const base = { hold, served, waitsFor: openStepsBefore(hold, state) };
  const release = state.releases.findLast(
    (each) => each.hold === hold.id && isValid(each, hold, state, writer),
  );
  if (!release) {
    const conditions = conditionStates(hold, state, now, writer);
    const ready = base.waitsFor.length === 0 && !conditions.some(isOpen);
    return { ...base, status: ready ? "ready" : "locked", conditions };
  }
  const broken = firstBreak(release, hold, state, writer);
  if (broken) {
    // Until the guarded step is done the way out matters: what is open now. Afterwards, what broke.
    const conditions = served ? broken.conditions : conditionStates(hold, state, now, writer);
    return { ...base, status: "voided", conditions, release, voidedBy: broken.event };
  }
  // What it was released on, not what has been read since and still passes.
  const then = upTo(state, state.events.indexOf(release.event));
  const conditions = conditionStates(hold, then, release.event.at, writer);
  const excepted = conditions.some((condition) => condition.state === "excepted");
  return {
    ...base,
    status: excepted ? "released under exception" : "released",
    conditions,
    release,
  };
}

function openStepsBefore(hold: HoldPoint, state: JobState): string[] {
  if (!state.programme) return [];
  const items = itemsOf(state.programme.sheet);
  const own = items.findIndex((item) => itemId(item) === hold.id);
  return items
    .slice(0, own)
    .flatMap((item) =>
      item.type === "step" && !state.done.has(item.step.id) && !state.leftOut.has(item.step.id)
        ? [item.step.title]
        : [],
    );
}

/** The log up to and including an event, folded. */
function upTo(state: JobState, index: number): JobState {
  return index >= state.events.length - 1 ? state : foldInOrder(state.events.slice(0, index + 1));
}

function guardIndex(hold: HoldPoint, state: JobState): number {
  const done = state.done.get(hold.guards);
  return done ? state.events.indexOf(done) : state.events.length - 1;
}

/** Whether everything was fulfilled at the moment the release was written, by somebody who may release. */
function isValid(release: Release, hold: HoldPoint, state: JobState, writer: Writer): boolean {
  const { event } = release;
  if (!hold.releasedBy.includes(event.actor.role)) return false;
  const then = upTo(state, state.events.indexOf(event));
  return (
    openStepsBefore(hold, then).length === 0 &&
    !conditionStates(hold, then, event.at, writer).some(isOpen)
  );
}

/**
 * The first event after a release that broke a condition it stood on. Readings count until the guarded
 * step is done; a correction of a reading from before that counts whenever it comes.
 */
function firstBreak(
  release: Release,
  hold: HoldPoint,
  state: JobState,
  writer: Writer,
): { event: JobEvent; conditions: ConditionState[] } | undefined {
  const from = state.events.indexOf(release.event);
  const guard = guardIndex(hold, state);
  const before = new Set(state.events.slice(0, guard + 1).map((event) => event.hash));
  const counted = state.events.filter((event, index) => {
    if (index <= from) return false;
    if (index <= guard)
      return event.body.type === "readings taken" || event.body.type === "correction";
    return event.body.type === "correction" && before.has(event.body.corrects);
  });
  const head = state.events.slice(0, guard + 1);
  for (const event of counted) {
    const index = state.events.indexOf(event);
    const then =
      index <= guard
        ? upTo(state, index)
        : foldInOrder([
            ...head,
            ...counted.filter(
              (each) => state.events.indexOf(each) <= index && !before.has(each.hash),
            ),
          ]);
    const conditions = conditionStates(hold, then, release.event.at, writer);
    // A signature was given before the new reading by its nature; the numbers decide here.
    if (conditions.some((c) => isOpen(c) && c.condition.kind !== "signature")) {
      return { event, conditions };
    }
  }
  return undefined;
}

function conditionStates(
  hold: HoldPoint,
  state: JobState,
  now: string,
  writer: Writer,
): ConditionState[] {
  const results = resultsAt(state);
  if (!state.programme || !results) return [];
  const context = { programme: state.programme, state, results, now, writer };
  const plain = hold.conditions
    .filter((condition) => condition.kind !== "signature")
    .map((condition) => withException(conditionState(condition, context), hold, state));
  const basis = plain.flatMap((each) => each.basis);
  const signed = hold.conditions.flatMap((condition) =>
    condition.kind === "signature" ? [signatureState(condition, hold, state, basis)] : [],
  );
  const byId = new Map([...plain, ...signed].map((each) => [each.condition.id, each]));
  return hold.conditions.flatMap((condition) => byId.get(condition.id) ?? []);
}

function conditionState(
  condition: Exclude<Condition, { kind: "signature" }>,
  context: Omit<CheckContext, "reading">,
): ConditionState {
  const { state } = context;
  if (condition.kind === "check") {
    const fields = condition.fields ?? {};
    const found = checks[condition.check]({
      ...context,
      reading: (part) => {
        const field = fields[part];
        return field === undefined ? undefined : latestReading(state, field);
      },
    });
    return {
      condition,
      state: found.state === "passes" ? "met" : found.state === "fails" ? "not met" : "not known",
      says: found.says,
      basis: found.basis,
      results: found.results,
    };
  }
  const reading = latestReading(state, condition.field);
  if (!reading) {
    return { condition, state: "not known", says: "Not entered yet.", basis: [], results: [] };
  }
  const found = (met: boolean, otherwise: string): ConditionState => ({
    condition,
    state: met ? "met" : "not met",
    says: met ? "" : otherwise,
    basis: [reading.standsOn],
    results: [],
  });
  switch (condition.kind) {
    case "reading":
      return found(true, "");
    case "answer": {
      const { value } = reading;
      return found(
        value.kind === "choice" && condition.oneOf.includes(value.choice),
        condition.otherwise,
      );
    }
    case "at most": {
      const { atmosphere } = context.results.context;
      const si = quantitySI(reading, atmosphere);
      const dimension = reading.value.kind === "quantity" ? reading.value.dimension : undefined;
      if (si === undefined || !dimension) return found(false, condition.otherwise);
      const limit = toSI(
        dimension,
        { value: condition.value, unit: condition.unit } as never,
        atmosphere,
      );
      // The limit itself passes, to the digits a conversion keeps.
      return found(si <= limit + Math.abs(limit) * 1e-9, condition.otherwise);
    }
  }
}

function withException(found: ConditionState, hold: HoldPoint, state: JobState): ConditionState {
  if (!isOpen(found)) return found;
  const exception = state.exceptions.findLast(
    (each) => each.hold === hold.id && each.condition === found.condition.id,
  );
  // An exception covers the readings it was given on and no others.
  const same =
    exception !== undefined &&
    exception.basis.length === found.basis.length &&
    found.basis.every((hash) => exception.basis.includes(hash)) &&
    (found.condition.exceptionBy?.includes(exception.authoriser.role) ?? false);
  return same ? { ...found, state: "excepted", exception } : found;
}

function signatureState(
  condition: Extract<Condition, { kind: "signature" }>,
  hold: HoldPoint,
  state: JobState,
  basis: readonly string[],
): ConditionState {
  const position = new Map(state.events.map((event, index) => [event.hash, index]));
  const newest = Math.max(-1, ...basis.map((hash) => position.get(hash) ?? -1));
  const signature = state.signatures.findLast(
    (each) => each.hold === hold.id && each.by.role === condition.role,
  );
  const base = { condition, basis: [], results: [] };
  if (!signature)
    return { ...base, state: "not known", says: `The ${condition.role} has not signed yet.` };
  const onTheseNumbers = (position.get(signature.event.hash) ?? -1) > newest;
  return onTheseNumbers
    ? { ...base, state: "met", says: `Signed by ${signature.by.name}.` }
    : {
        ...base,
        state: "not met",
        says: `${signature.by.name} signed on earlier readings; the ${condition.role} signs again on these.`,
      };
}
