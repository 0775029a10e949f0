import { format, startOfMinute } from "date-fns";
import { fieldInWords } from "../entryInWords.ts";
import type { Entry, EntryValue, EventBody } from "../log/event.ts";
import { pocketsOf } from "../pockets.ts";
import { toSI } from "../quantity.ts";
import type { Actor } from "../roles.ts";
import type { Field, Step } from "../sheet/sheet.ts";
import { contingencyById, fieldById, stepById } from "../sheet/walk.ts";
import type { Strokes } from "../signature.ts";
import { isUnmet, resultsAt } from "../state/conditions.ts";
import { stopAt } from "../state/doneSteps.ts";
import type { HoldState } from "../state/holdState.ts";
import { type JobState, latestReading, type Reading } from "../state/jobState.ts";
import { type Progress, progressOf } from "../state/progress.ts";
import { accept, type Decision, type Doubt, refuse } from "./decision.ts";
import { doubtsOf } from "./doubts.ts";
import { type Typed, understand } from "./entry.ts";
import { secondRole } from "./onePerson.ts";
import { isCrew, notRunning, type Situation, waiting } from "./situation.ts";
import { MOST_LONG, MOST_WORDS, notSigned, samePerson, tidy, tooLong } from "./text.ts";

/** Starts the run on the programme that the crew has before it. */
export function startRun({ state, actor }: Situation): Decision {
  if (state.stage !== "issued" || !state.issued) {
    return notRunning(state) ?? refuse("The run was started already.");
  }
  if (actor.role !== "wireline supervisor") {
    return refuse(`A wireline supervisor starts the run; ${actor.name} is here as ${actor.role}.`);
  }
  const { programme } = state;
  const conventional = programme?.well?.mandrels.find(
    ({ id, construction }) =>
      construction === "conventional" && pocketsOf(programme.job).includes(id),
  );
  // It cannot be issued here; what comes in a pack may have been issued elsewhere.
  if (conventional) {
    return refuse(
      `Mandrel ${conventional.number} is conventional: wireline cannot serve it. Nothing is run; ask the planner.`,
    );
  }
  return accept({ type: "run started", programme: state.issued.hash });
}

/** What was typed into a step's fields, by field. */
export type TypedFields = Readonly<Record<string, Typed | undefined>>;

export type Entries =
  | { readonly ok: true; readonly entries: Entry[] }
  | { readonly ok: false; readonly why: string; readonly field: string };

/** Understands everything typed into a step, or says what cannot be and in which field. */
export function entriesOf(step: Step, typed: TypedFields, atmosphere: number): Entries {
  const entries: Entry[] = [];
  for (const field of step.fields) {
    const understood = understand(field, typed[field.id], atmosphere);
    if (!understood.ok) return { ok: false, why: understood.why, field: field.id };
    if (understood.value) entries.push({ field: field.id, value: understood.value });
  }
  return swapped(step.fields, entries, atmosphere) ?? { ok: true, entries };
}

/** Packing friction is half of what moving out pulls more than moving in: the other way round it measures nothing. */
function swapped(
  fields: readonly Field[],
  entries: readonly Entry[],
  atmosphere: number,
): Extract<Entries, { ok: false }> | undefined {
  const pull = (channel: string) => {
    const field = fields.find((each) => each.kind === "quantity" && each.channel === channel);
    const value = entries.find((entry) => entry.field === field?.id)?.value;
    if (!field || value?.kind !== "quantity") return undefined;
    return { field, si: toSI(value.dimension, value as never, atmosphere) };
  };
  const going = pull("pull going in");
  const coming = pull("pull coming out");
  if (!going || !coming || coming.si >= going.si) return undefined;
  return {
    ok: false,
    field: coming.field.id,
    why: "Moving out has to pull more than moving in. Are the two swapped?",
  };
}

/** How a note begins with which somebody stood by what was in doubt. */
export const STOOD_BY = "Recorded as typed.";

export interface Recording {
  readonly step: string;
  readonly typed: TypedFields;
  /** when the gauges were read */
  readonly takenAt: string;
  /** fields of a step done before that were shown as they stand and left so: nobody answered them again */
  readonly untouched?: readonly string[];
  /** fields that need not be answered, shown as they stand and left empty: they are taken back */
  readonly emptied?: readonly string[];
  /** somebody stands by what is in doubt, with a reason where one is asked for */
  readonly standBy?: { readonly reason: string };
}

/**
 * Records a step: its readings and that it is done, as one. An answer that stops the work is recorded and leaves
 * the step open, or opens it again. A step that was done may be recorded again when its gauges are read again; only
 * the readings are written then.
 */
export function recordStep(situation: Situation, recording: Recording): Decision {
  const { state, actor, writer, now } = situation;
  const { takenAt } = recording;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (!isCrew(actor)) {
    return refuse(`The wireline crew enters readings; ${actor.name} is here as ${actor.role}.`);
  }
  const step = state.programme && stepById(state.programme.sheet, recording.step);
  if (!step) return refuse(`There is no step "${recording.step}" on this run sheet.`);
  const waits = waiting(situation);
  if (waits) return waits;
  const progress = progressOf(state, now, writer);
  const done = state.done.has(step.id);
  if (!done && progress.current?.id !== step.id) return refuse(whyNotYet(progress, state));
  if (takenAt > now) {
    return refuse(
      "The readings would have been taken in the future. Correct the time, or the tablet's clock.",
    );
  }
  const understood = entriesOf(step, recording.typed, writer.atmosphere);
  if (!understood.ok) return refuse(understood.why, understood.field);
  // Written once more, what nobody read again would seem to be of now.
  const isNew = (field: string) =>
    !(done && recording.untouched?.includes(field)) || state.conflicts.has(field);
  const entries = understood.entries.filter(({ field }) => isNew(field));
  const early = readTooEarly(situation, step, entries, takenAt);
  const doubts = [
    ...(early ? [early] : []),
    ...entryDoubts(situation, step, understood.entries, step.pocket).filter(({ field }) =>
      isNew(field),
    ),
  ];
  const back = takenBack(state, step, recording);
  const standBy = doubtBodies(step.id, doubts, recording.standBy, back);
  if (!standBy.ok) return standBy;
  const readings: EventBody[] =
    entries.length > 0 ? [{ type: "readings taken", step: step.id, entries, takenAt }] : [];
  const stop = stopAt(step, valuesOf(entries));
  if (stop !== undefined) {
    return { ok: true, bodies: [...readings, ...standBy.bodies], stopped: stop };
  }
  if (done) {
    return readings.length + back.length > 0
      ? accept(...readings, ...standBy.bodies)
      : refuse("The step is done already, and nothing of it was read again.");
  }
  return accept(...readings, ...standBy.bodies, { type: "step done", step: step.id });
}

/** What stood and was emptied, of what need not be answered. */
function takenBack(state: JobState, { fields }: Step, { emptied, typed }: Recording): TakenBack[] {
  return fields.flatMap((field): TakenBack[] => {
    const { id, optional } = field;
    const isEmptied = optional && emptied?.includes(id) && !typed[id]?.text.trim();
    const reading = isEmptied ? latestReading(state, id) : undefined;
    return reading ? [{ reading, field }] : [];
  });
}

interface TakenBack {
  readonly reading: Reading;
  readonly field: Field;
}

const takeBack = ({ reading: { event, field } }: TakenBack, reason: string): EventBody => ({
  type: "correction",
  corrects: event.hash,
  field,
  value: { kind: "none" },
  reason,
});

const valuesOf = (entries: readonly Entry[]) => (field: string) =>
  entries.flatMap((entry) => (entry.field === field ? [entry.value] : []));

/**
 * A gauge read before the step before was done says nothing of what that did. Times are typed to the minute, and what
 * is read just now is, whatever a clock said before.
 */
function readTooEarly(
  { state, now }: Situation,
  { fields }: Step,
  entries: readonly Entry[],
  takenAt: string,
): Doubt | undefined {
  const entry = entries.find(({ value }) => value.kind === "quantity");
  const field = fields.find(({ id }) => id === entry?.field);
  const place = ({ hash }: { readonly hash: string }) => state.position.get(hash) ?? -1;
  const [id, last] = [...state.done].sort(([, a], [, b]) => place(a) - place(b)).at(-1) ?? [];
  if (!field || !last || id === undefined || takenAt === now) return undefined;
  if (new Date(takenAt) >= startOfMinute(new Date(last.at))) return undefined;
  const title = (state.programme && stepById(state.programme.sheet, id)?.title) ?? id;
  const time = (at: string) => format(new Date(at), "d MMM HH:mm");
  const says = `Read ${time(takenAt)}, and "${title}" was done after that, ${time(last.at)}. Read the gauges again if they could have moved.`;
  return { field: field.id, says, needsReason: false };
}

function entryDoubts(
  { state, writer }: Situation,
  of: Pick<Step, "fields">,
  entries: readonly Entry[],
  pocket: string | undefined,
): Doubt[] {
  const results = resultsAt(state, pocket);
  if (!state.programme || !results) return [];
  return doubtsOf(of, entries, state.programme, results, writer);
}

/**
 * What is in doubt goes into the log as a note beside the readings, once somebody stands by it. What is taken back is so
 * by a correction, with its reason.
 *
 * @param step of the run sheet, or undefined where it is of none
 */
export function doubtBodies(
  step: string | undefined,
  doubts: readonly Doubt[],
  standBy: Recording["standBy"],
  back: readonly TakenBack[] = [],
): Decision {
  const all = [...doubts, ...back.map(emptyDoubt)];
  if (all.length === 0) return accept();
  const reason = tidy(standBy?.reason ?? "");
  const missing = all.some((doubt) => doubt.needsReason) && reason === "";
  if (!standBy || missing) {
    const says = all.map((doubt) => doubt.says).join(" ");
    const ask = back.length > 0 ? "Say why it is taken back." : "Say why it went over the limit.";
    return { ok: false, why: standBy ? ask : says, doubts: all };
  }
  const takes = back.map((each) => takeBack(each, reason));
  if (doubts.length === 0) return accept(...takes);
  const why = doubts.map((doubt) => doubt.says).join(" ");
  const long = tooLong("Reason", reason, MOST_LONG - why.length - 40);
  if (long) return { ok: false, why: long, doubts };
  const text = `${STOOD_BY} ${why}${reason ? ` ${reason}` : ""}`;
  return accept(...takes, { type: "note", text, ...(step !== undefined && { step }) });
}

const emptyDoubt = ({ field, reading }: TakenBack): Doubt => ({
  field: field.id,
  says: `${field.label}: ${fieldInWords(field, reading.value)} stood there and was emptied. It is taken back, and stays in the log.`,
  needsReason: true,
  asks: "Taken back: why?",
});

/** Why something is not in its turn: what comes first. */
export function whyNotYet({ current }: Pick<Progress, "current">, state: JobState): string {
  if (!current) return "Every step is done.";
  if (current.type === "hold") return `The hold point "${current.hold.hold.title}" comes first.`;
  const stop = stopAt(current.step, (field) => {
    const reading = latestReading(state, field);
    return reading ? [reading.value] : [];
  });
  return `The step "${current.step.title}" comes first.${stop === undefined ? "" : ` ${stop}`}`;
}

/** Leaves out a step that this job does not need, with a reason. */
export function leaveOut(situation: Situation, stepId: string, given: string): Decision {
  const { state, actor, now, writer } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (!isCrew(actor)) {
    return refuse(`The wireline crew decides that; ${actor.name} is here as ${actor.role}.`);
  }
  const waits = waiting(situation);
  if (waits) return waits;
  const step = state.programme && stepById(state.programme.sheet, stepId);
  if (!step?.optional) return refuse("This step belongs to every job and cannot be left out.");
  const progress = progressOf(state, now, writer);
  if (progress.current?.id !== stepId) return refuse(whyNotYet(progress, state));
  const reason = tidy(given);
  if (reason === "") return refuse("Say why the step is left out.", "reason");
  const long = tooLong("Reason", reason, MOST_LONG);
  if (long) return refuse(long, "reason");
  return accept({ type: "step left out", step: stepId, reason });
}

type Reach = { readonly hold: HoldState } | { readonly stopped: Decision };

function holdInReach(situation: Situation, holdId: string): Reach {
  const stopped = notRunning(situation.state) ?? waiting(situation);
  if (stopped) return { stopped };
  const { items, current } = progressOf(situation.state, situation.now, situation.writer);
  const item = items.find((each) => each.id === holdId);
  if (item?.type !== "hold") return { stopped: refuse(`There is no hold point "${holdId}".`) };
  if (item.hold.waitsFor.length > 0) {
    return { stopped: refuse(whyNotYet({ current }, situation.state)) };
  }
  return { hold: item.hold };
}

/** A second person signs a hold point, on the readings that stand. */
export function signHold(
  situation: Situation,
  holdId: string,
  by: Actor,
  drawn?: Strokes,
): Decision {
  const reach = holdInReach(situation, holdId);
  if ("stopped" in reach) return reach.stopped;
  const asked = reach.hold.conditions.some(
    (each) => each.condition.kind === "signature" && each.condition.role === by.role,
  );
  if (!asked) return refuse(`This hold point does not ask for the ${by.role}.`);
  const name = tidy(by.name);
  if (name === "") return refuse(`Enter the name of the ${by.role}.`, by.role);
  const long = tooLong("Name", name, MOST_WORDS);
  if (long) return refuse(long, by.role);
  if (samePerson(name, situation.actor.name) && by.role !== situation.actor.role) {
    return refuse(
      `${name} holds the tablet as ${situation.actor.role}. The ${by.role} is a second person.`,
      by.role,
    );
  }
  const second = secondRole(situation.state, { name, role: by.role }, holdId);
  if (second) return refuse(second, by.role);
  const drawing = notSigned(drawn, name);
  if (drawing) return refuse(drawing, by.role);
  return accept({
    type: "hold signed",
    hold: holdId,
    by: { name, role: by.role },
    ...(drawn && { drawn }),
  });
}

/** Releases a hold point. Refused while anything it asks for is open: there is no way round the rules. */
export function releaseHold(situation: Situation, holdId: string): Decision {
  const reach = holdInReach(situation, holdId);
  if ("stopped" in reach) return reach.stopped;
  const { hold } = reach;
  const { actor } = situation;
  if (!hold.hold.releasedBy.includes(actor.role)) {
    return refuse(
      `The ${hold.hold.releasedBy.join(" or ")} releases this hold point; ${actor.name} is here as ${actor.role}.`,
    );
  }
  if (hold.stands) return refuse("It is released already.");
  if (hold.served) return refuse("The step it guards is done; it cannot be released afterwards.");
  if (hold.unmet.length > 0) {
    return refuse(hold.unmet.map((each) => each.says || each.condition.text).join(" "));
  }
  const second = secondRole(situation.state, actor, holdId);
  if (second) return refuse(second);
  const basis = [...new Set(hold.conditions.flatMap((each) => each.basis))];
  return accept({ type: "hold released", hold: holdId, basis });
}

/** Lets one condition pass with a written reason, by somebody who may. It covers the readings that stand now. */
export function grantException(
  situation: Situation,
  holdId: string,
  conditionId: string,
  given: string,
  authoriser: Actor,
): Decision {
  const reach = holdInReach(situation, holdId);
  if ("stopped" in reach) return reach.stopped;
  const found = reach.hold.conditions.find((each) => each.condition.id === conditionId);
  if (!found) return refuse(`This hold point has no condition "${conditionId}".`);
  if (!isUnmet(found)) return refuse("The condition is met; it needs no exception.");
  const may = found.condition.exceptionBy;
  if (!may) return refuse("This condition admits no exception.");
  if (!may.includes(authoriser.role)) {
    return refuse(`Only the ${may.join(" or the ")} may authorise this exception.`);
  }
  const reason = tidy(given);
  if (reason.length < 10) {
    return refuse("Give the reason in words, at least ten letters.", "reason");
  }
  const name = tidy(authoriser.name);
  if (name === "") return refuse("Enter who authorises it.", "authoriser");
  const long = tooLong("Reason", reason, MOST_LONG) ?? tooLong("Name", name, MOST_WORDS);
  if (long) return refuse(long, "reason");
  if (samePerson(name, situation.actor.name) && authoriser.role !== situation.actor.role) {
    return refuse(
      `${name} holds the tablet as ${situation.actor.role}. The ${authoriser.role} who authorises it is another person.`,
      "authoriser",
    );
  }
  const second = secondRole(situation.state, { name, role: authoriser.role }, holdId);
  if (second) return refuse(second, "authoriser");
  return accept({
    type: "exception granted",
    hold: holdId,
    condition: conditionId,
    reason,
    authoriser: { name, role: authoriser.role },
    basis: [...found.basis],
    covers: (found.says || found.condition.text).slice(0, MOST_LONG),
  });
}

/**
 * Corrects one entry: the old one stays in the log, the reason beside it. What would be asked of it at its entry is
 * asked again.
 */
export function correct(
  situation: Situation,
  which: Pick<Reading, "field"> & { readonly event: { readonly hash: string } },
  typed: Typed,
  given: string,
  standBy?: Recording["standBy"],
): Decision {
  const { state, actor, writer } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (!isCrew(actor)) {
    return refuse(`The wireline crew corrects readings; ${actor.name} is here as ${actor.role}.`);
  }
  const reading = state.readings.find(
    (each) => each.event.hash === which.event.hash && each.field === which.field,
  );
  const field = state.programme && fieldById(state.programme.sheet, which.field);
  if (!reading || !field) return refuse("The entry to correct is not in the log.");
  const understood = understand(field, typed, writer.atmosphere);
  if (!understood.ok) return refuse(understood.why, field.id);
  // What need not be answered may be left empty again.
  const value: EntryValue = understood.value ?? { kind: "none" };
  const reason = tidy(given);
  if (reason === "") return refuse("Say why it is corrected.", "reason");
  const long = tooLong("Reason", reason, MOST_LONG);
  if (long) return refuse(long, "reason");
  if (JSON.stringify(value) === JSON.stringify(reading.value)) {
    return refuse("That is what stands there already.", field.id);
  }
  const doubted = doubtsOfCorrection(situation, reading, value);
  if ("why" in doubted) return refuse(doubted.why, field.id);
  const stoodBy = doubtBodies(reading.step, doubted.doubts, standBy);
  if (!stoodBy.ok) return stoodBy;
  const correction: EventBody = {
    type: "correction",
    corrects: reading.event.hash,
    field: reading.field,
    value,
    reason,
  };
  // Only what stands stops the work: an answer that was read again since, or in an attempt before, does not.
  const stop =
    latestReading(state, field.id) === reading
      ? stopAt({ fields: [field] }, () => [value])
      : undefined;
  return { ...accept(correction, ...stoodBy.bodies), ...(stop !== undefined && { stopped: stop }) };
}

/** What a corrected value brings up among the entries it was recorded with; what was in doubt before is not asked again. */
function doubtsOfCorrection(
  situation: Situation,
  { step: id, field, event }: Reading,
  value: EntryValue,
): { readonly doubts: Doubt[] } | { readonly why: string } {
  const { state, writer } = situation;
  const sheet = state.programme?.sheet;
  const step = sheet && stepById(sheet, id);
  const of = step ?? (sheet && contingencyById(sheet, id));
  if (!of) return { doubts: [] };
  const before = state.readings.filter((each) => each.event.hash === event.hash);
  const after = before.flatMap((each): Entry[] => {
    if (each.field !== field) return [each];
    return value.kind === "none" ? [] : [{ field, value }];
  });
  const wrong = swapped(of.fields, after, writer.atmosphere);
  if (wrong) return { why: wrong.why };
  const known = entryDoubts(situation, of, before, step?.pocket).map(({ says }) => says);
  const doubts = entryDoubts(situation, of, after, step?.pocket);
  return { doubts: doubts.filter(({ says }) => !known.includes(says)) };
}

export function addNote({ state }: Situation, given: string, step?: string): Decision {
  if (state.stage === "draft") return refuse("The programme has not been issued yet.");
  if (state.stage === "approved") {
    return refuse("The record is approved. It is not changed any more.");
  }
  const text = tidy(given);
  if (text === "") return refuse("Write the note first.", "note");
  const long = tooLong("Note", text, MOST_LONG);
  if (long) return refuse(long, "note");
  return accept({ type: "note", text, ...(step !== undefined && { step }) });
}
