import type { Writer } from "../display.ts";
import type { EventBody, JobEvent } from "../log/event.ts";
import type { HoldPoint, Sheet } from "../sheet/sheet.ts";
import { holdPointsOf, itemId, itemsOf } from "../sheet/walk.ts";
import { wasAgainBy } from "./attempts.ts";
import { type ConditionState, conditionStates, isUnmet } from "./conditions.ts";
import { isOpen, type JobState, type Reading, type Release } from "./jobState.ts";
import { LogReader } from "./logReader.ts";

export type HoldStatus = "locked" | "ready" | "released" | "released under exception" | "voided";

/** A release as it was given, and what became of it. */
export interface GivenRelease {
  readonly release: Release;
  /** what was found when it was given */
  readonly conditions: readonly ConditionState[];
  /** why it never counted, e.g. given by somebody who may not */
  readonly rejected: string | undefined;
  /** the event that broke what it stood on, with what was found then */
  readonly brokenBy: JobEvent | undefined;
  /** the sheet was worked again from before this hold point: it belongs to the attempt before */
  readonly again?: JobEvent;
  readonly foundBroken: readonly ConditionState[];
}

/** A hold point's state, worked out from the log and the calculations, never stored. */
export interface HoldState {
  readonly hold: HoldPoint;
  readonly status: HoldStatus;
  readonly conditions: readonly ConditionState[];
  /** what keeps it locked */
  readonly unmet: readonly ConditionState[];
  /** titles of steps before it that are not done */
  readonly waitsFor: readonly string[];
  /** the release that stands, or that was voided last */
  readonly release: Release | undefined;
  readonly voidedBy: JobEvent | undefined;
  /** every release there was, in log order */
  readonly history: readonly GivenRelease[];
  /** released, with or without exception, and still so */
  readonly stands: boolean;
  /** it was released, and its readings grew old before the guarded step was done */
  readonly lapsed: boolean;
  /** the step it guards is done */
  readonly served: boolean;
  /** its turn has come and it can be worked on */
  readonly inReach: boolean;
}

/** One hold point while the log is read: its releases, and the readings that still count for it. */
interface Watch {
  readonly hold: HoldPoint;
  readonly history: GivenRelease[];
  /** the step it guards was recorded: the readings as they stood then, corrected since */
  served: Reading[] | undefined;
}

/** The release that stands while the log is read: one that never counted takes nothing from it. */
function standing({ history }: Watch): GivenRelease | undefined {
  const last = history.findLast(counts);
  return last?.brokenBy === undefined ? last : undefined;
}

/** Whether a release was one, and of the attempt that is being made. */
const counts = ({ rejected, again }: GivenRelease) => rejected === undefined && !again;

/**
 * The state of every hold point of a job's sheet, in one pass over its log.
 *
 * A release counts if somebody gave it who may, and if everything was fulfilled then. It is voided by the first
 * reading or correction, before the guarded step is done, with which a condition is not fulfilled any more or a
 * step before it is open again; a correction of a reading from before that counts whenever it comes. Where two
 * logs were joined, a reading that the releaser had not seen voids the release, visibly. A crew change or a stand-by
 * takes the release back, where the sheet says so: conditions may still be fulfilled, and are looked at again.
 *
 * @param now    instant at which the question is asked
 * @param writer units and atmosphere for the reasons
 */
export function holdStates(
  state: JobState,
  now: string,
  writer: Writer,
): ReadonlyMap<string, HoldState> {
  return new Map(
    watchesOf(state, writer).map(
      (watch) => [watch.hold.id, conclude(watch, state, now, writer)] as const,
    ),
  );
}

/** Hold points followed through a log: by state, since the time at which one asks changes nothing of it. */
const followed = new WeakMap<JobState, { readonly writer: Writer; readonly watches: Watch[] }>();

function watchesOf(state: JobState, writer: Writer): readonly Watch[] {
  const { programme } = state;
  if (!programme) return [];
  const before = followed.get(state);
  if (before?.writer === writer) return before.watches;
  const watches = holdPointsOf(programme.sheet).map(
    (hold): Watch => ({ hold, history: [], served: undefined }),
  );
  const reader = new LogReader();
  for (const event of state.events) {
    reader.read(event);
    const then = reader.state;
    for (const watch of watches) follow(watch, event, then, writer);
  }
  followed.set(state, { writer, watches });
  return watches;
}

/** The hold points whose release was broken by what was written just now. */
export function brokenBy(
  written: readonly { readonly hash: string }[],
  state: JobState,
  now: string,
  writer: Writer,
): HoldPoint[] {
  const hashes = new Set(written.map(({ hash }) => hash));
  return [...holdStates(state, now, writer).values()].flatMap(({ hold, history }) =>
    history.some((each) => each.brokenBy && hashes.has(each.brokenBy.hash)) ? [hold] : [],
  );
}

function follow(watch: Watch, event: JobEvent, state: JobState, writer: Writer): void {
  const { hold, history } = watch;
  const { body } = event;
  if (body.type === "hold released" && body.hold === hold.id) {
    history.push(given(watch, event, state, writer));
    return;
  }
  if (body.type === "step done" && body.step === hold.guards && !watch.served) {
    if (state.done.has(body.step)) watch.served = [...state.readings];
    return;
  }
  if (body.type === "went back") {
    if (state.goneBack.at(-1)?.event !== event) return;
    workedAgain(watch, event, body.to, state);
  } else if (workStopped(body)) {
    if (hold.releasedAnewAfterStop && !watch.served) takeBack(watch, event, state, writer);
    return;
  } else if (!changesReadings(body)) return;
  else openedOrDone(watch, state);
  const release = standing(watch);
  const readings = watch.served ? mendServed(watch.served, event, state) : state.readings;
  if (!release || !readings) return;
  const then = readings === state.readings ? state : { ...state, readings };
  const conditions = conditionStates(hold, then, release.release.event.at, writer);
  // A signature was given before a new reading by its nature; the numbers decide here.
  const broken = conditions.some((each) => isUnmet(each) && each.condition.kind !== "signature");
  if (!broken && !waitsAgain(watch, state)) return;
  history[history.indexOf(release)] = { ...release, brokenBy: event, foundBroken: conditions };
}

/** An answer that stops the work opens the guarded step again; corrected to a good one, that is done as it was. */
function openedOrDone(watch: Watch, state: JobState): void {
  const done = state.done.has(watch.hold.guards);
  if (!done) watch.served = undefined;
  else watch.served ??= [...state.readings];
}

/** A step before it is open again, with an answer that stops the work, and what it guards is not done yet. */
function waitsAgain({ hold, served }: Watch, state: JobState): boolean {
  const sheet = state.programme?.sheet;
  return !served && sheet !== undefined && stepsBefore(sheet, hold, state).length > 0;
}

/** The crew went, or stood by: what was looked at before is looked at again. */
const workStopped = ({ type }: EventBody) => type === "crew changed" || type === "standby started";

function takeBack(watch: Watch, event: JobEvent, state: JobState, writer: Writer): void {
  const release = standing(watch);
  if (!release) return;
  const foundBroken = conditionStates(watch.hold, state, event.at, writer);
  watch.history[watch.history.indexOf(release)] = { ...release, brokenBy: event, foundBroken };
}

const changesReadings = ({ type }: EventBody) =>
  type === "readings taken" || type === "correction" || type === "conflict settled";

/** What a hold point at or after the place gone back to was released on belongs to the attempt before. */
function workedAgain(watch: Watch, event: JobEvent, to: string, state: JobState): void {
  const ids = state.programme ? itemsOf(state.programme.sheet).map(itemId) : [];
  if (ids.indexOf(watch.hold.id) < ids.indexOf(to)) {
    // It stands before that place; the step it guards may be open again, and what was read anew since counts.
    if (!state.done.has(watch.hold.guards)) watch.served = undefined;
    return;
  }
  watch.served = undefined;
  for (const [index, release] of watch.history.entries()) {
    watch.history[index] = { again: event, ...release };
  }
}

/**
 * The readings of a served hold point after one of them was corrected, or another tablet's was settled over it;
 * undefined when neither touches any.
 */
function mendServed(
  served: Reading[],
  event: JobEvent,
  state: JobState,
): readonly Reading[] | undefined {
  const { body } = event;
  if (body.type !== "correction" && body.type !== "conflict settled") return undefined;
  const said = state.readings.find((each) => each.standsOn === event.hash);
  const touched = body.type === "correction" ? [body.corrects] : [body.stands, ...body.over];
  const touches = (each: Reading) =>
    each.field === body.field &&
    (touched.includes(each.event.hash) || touched.includes(each.standsOn));
  if (!said || !served.some(touches)) return undefined;
  const index = served.findIndex((each) => each.field === body.field && each.event === said.event);
  if (body.type === "correction" && index !== -1) served[index] = said;
  else {
    if (index !== -1) served.splice(index, 1);
    served.push(said);
  }
  return served;
}

function given(watch: Watch, event: JobEvent, state: JobState, writer: Writer): GivenRelease {
  const { hold } = watch;
  const release = state.releases.at(-1) as Release;
  const conditions = conditionStates(hold, state, event.at, writer);
  const base = { release, conditions, foundBroken: conditions };
  const sheet = state.programme?.sheet;
  const waits = sheet ? stepsBefore(sheet, hold, state) : [];
  const again = wasAgainBy(event, hold.id, state);
  if (again) return { ...base, rejected: undefined, brokenBy: undefined, again };
  if (!hold.releasedBy.includes(event.actor.role)) {
    const why = `${event.actor.name} released it as ${event.actor.role}, who may not.`;
    return { ...base, rejected: why, brokenBy: undefined };
  }
  if (waits.length > 0) {
    return { ...base, rejected: `"${waits[0]}" was not done yet.`, brokenBy: undefined };
  }
  // Another tablet did the step without having heard of it: what that was done on is for the release before.
  if (watch.served) {
    const why = "The step it guards had been done on another tablet.";
    return { ...base, rejected: why, brokenBy: undefined };
  }
  if (!conditions.some(isUnmet)) return { ...base, rejected: undefined, brokenBy: undefined };
  // What was found does not fit what the release says it stands on: a reading it had not seen came between.
  const unseen = conditions
    .flatMap((each) => each.basis)
    .filter((hash) => !release.basis.includes(hash))
    .map((hash) => state.events[state.position.get(hash) ?? -1])
    .find((each) => each !== undefined);
  return unseen
    ? { ...base, rejected: undefined, brokenBy: unseen }
    : { ...base, rejected: "Its conditions were not fulfilled.", brokenBy: undefined };
}

function stepsBefore(sheet: Sheet, hold: HoldPoint, state: JobState): string[] {
  const items = itemsOf(sheet);
  const own = items.findIndex((item) => itemId(item) === hold.id);
  return items
    .slice(0, own)
    .flatMap((item) =>
      item.type === "step" && !state.done.has(item.step.id) && !state.leftOut.has(item.step.id)
        ? [item.step.title]
        : [],
    );
}

/** A release that grew old stands no more, and what it asks for is open again. */
const LAPSED = { stands: false, lapsed: true, inReach: true } as const;

/** Whether readings that have to be fresh have grown old since, and the guarded step has not been done. */
function hasLapsed(hold: HoldPoint, state: JobState, now: string, writer: Writer): boolean {
  const asksFresh = hold.conditions.some(
    (condition) => condition.kind === "check" && condition.check === "fresh",
  );
  if (!asksFresh || !isOpen(state)) return false;
  return conditionStates(hold, state, now, writer).some(
    (each) => each.condition.kind === "check" && each.condition.check === "fresh" && isUnmet(each),
  );
}

function conclude(watch: Watch, state: JobState, now: string, writer: Writer): HoldState {
  const { hold, history } = watch;
  const served = watch.served !== undefined;
  const waitsFor = state.programme ? stepsBefore(state.programme.sheet, hold, state) : [];
  const release = standing(watch);
  const last = history.findLast(counts);
  const result = (status: HoldStatus, conditions: readonly ConditionState[]): HoldState => ({
    hold,
    status,
    conditions,
    unmet: conditions.filter(isUnmet),
    waitsFor,
    release: last?.release,
    voidedBy: last?.brokenBy,
    history,
    stands: release !== undefined,
    lapsed: false,
    served,
    inReach: waitsFor.length === 0 && !served && !release && isOpen(state),
  });
  if (release && !served && hasLapsed(hold, state, now, writer)) {
    return { ...result("voided", conditionStates(hold, state, now, writer)), ...LAPSED };
  }
  if (release) {
    // What it was released on, not what has been read since and still passes.
    const excepted = release.conditions.some((each) => each.state === "excepted");
    return result(excepted ? "released under exception" : "released", release.conditions);
  }
  if (served && last) return result("voided", last.foundBroken);
  // Until the guarded step is done the way out matters: what is open now.
  const conditions = conditionStates(hold, state, now, writer);
  if (last) return result("voided", conditions);
  const ready = waitsFor.length === 0 && !conditions.some(isUnmet);
  return result(ready ? "ready" : "locked", conditions);
}
