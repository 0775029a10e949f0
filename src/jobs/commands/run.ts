import type { Writer } from "../display.ts";
import type { Entry, EntryValue } from "../log/event.ts";
import type { Actor } from "../roles.ts";
import { fieldById, stepById } from "../sheet/walk.ts";
import type { ConditionState } from "../state/holdState.ts";
import type { JobState, Reading } from "../state/jobState.ts";
import { type Progress, progressOf } from "../state/progress.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import { type Typed, understand } from "./entry.ts";

/** What every decision on a run looks at. Time arrives from outside. */
export interface Situation {
  readonly state: JobState;
  readonly actor: Actor;
  readonly now: string;
  readonly writer: Writer;
}

const crew = ["wireline supervisor", "winch operator"] as const;

function isCrew(actor: Actor): boolean {
  return (crew as readonly string[]).includes(actor.role);
}

function notRunning(state: JobState): Decision | undefined {
  switch (state.stage) {
    case "running":
    case "sent back":
      return undefined;
    case "draft":
      return refuse("The programme has not been issued yet. The planner issues it first.");
    case "issued":
      return refuse("The run has not been started yet.");
    case "closed":
      return refuse(
        "The run is closed and with the engineer. Nothing more is entered unless it is sent back.",
      );
    case "approved":
      return refuse("The record is approved. It is not changed any more.");
  }
}

export function startRun({ state, actor }: Situation): Decision {
  if (state.stage !== "issued") return notRunning(state) ?? refuse("The run was started already.");
  if (actor.role !== "wireline supervisor") {
    return refuse(`A wireline supervisor starts the run; ${actor.name} is here as ${actor.role}.`);
  }
  return accept({ type: "run started" });
}

/** What was typed into a step's fields, by field. */
export type TypedFields = Readonly<Record<string, Typed | undefined>>;

/**
 * Records a step: its readings and that it is done, as one. A step that was done may be recorded again
 * when its gauges are read again; only the readings are written then.
 */
export function recordStep(
  situation: Situation,
  stepId: string,
  typed: TypedFields,
  takenAt: string,
): Decision {
  const { state, actor, writer, now } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (!isCrew(actor)) {
    return refuse(`The wireline crew enters readings; ${actor.name} is here as ${actor.role}.`);
  }
  const step = state.programme && stepById(state.programme.sheet, stepId);
  if (!step) return refuse(`There is no step "${stepId}" on this run sheet.`);
  const { current, items } = progressOf(state, now, writer);
  const done = state.done.has(stepId);
  if (!done && current?.id !== stepId) return refuse(whyNotYet({ current, items }));
  if (takenAt > now) return refuse("The readings were taken in the future. Correct the time.");
  const entries: Entry[] = [];
  for (const field of step.fields) {
    const understood = understand(field, typed[field.id], writer.atmosphere);
    if (!understood.ok) return refuse(understood.why, field.id);
    if (understood.value) entries.push({ field: field.id, value: understood.value });
  }
  const readings =
    entries.length > 0 ? [{ type: "readings taken" as const, step: stepId, entries, takenAt }] : [];
  if (done) {
    return readings.length > 0 ? accept(...readings) : refuse("The step is done already.");
  }
  return accept(...readings, { type: "step done", step: stepId });
}

function whyNotYet({ current }: Progress): string {
  if (!current) return "Every step is done.";
  return current.type === "hold"
    ? `The hold point "${current.hold.hold.title}" comes first.`
    : `The step "${current.step.title}" comes first.`;
}

/** Leaves out a step that this job does not need, with a reason. */
export function leaveOut(situation: Situation, stepId: string, reason: string): Decision {
  const { state, actor, now, writer } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (!isCrew(actor))
    return refuse(`The wireline crew decides that; ${actor.name} is here as ${actor.role}.`);
  const step = state.programme && stepById(state.programme.sheet, stepId);
  if (!step?.optional) return refuse("This step belongs to every job and cannot be left out.");
  const { current, items } = progressOf(state, now, writer);
  if (current?.id !== stepId) return refuse(whyNotYet({ current, items }));
  if (reason.trim() === "") return refuse("Say why the step is left out.", "reason");
  return accept({ type: "step left out", step: stepId, reason: reason.trim() });
}

function holdInReach(situation: Situation, holdId: string) {
  const stopped = notRunning(situation.state);
  if (stopped) return { stopped };
  const { items, current } = progressOf(situation.state, situation.now, situation.writer);
  const item = items.find((each) => each.id === holdId);
  if (item?.type !== "hold") return { stopped: refuse(`There is no hold point "${holdId}".`) };
  if (item.hold.waitsFor.length > 0) return { stopped: refuse(whyNotYet({ items, current })) };
  return { hold: item.hold };
}

/** A second person signs a hold point, on the readings that stand. */
export function signHold(situation: Situation, holdId: string, by: Actor): Decision {
  const { hold, stopped } = holdInReach(situation, holdId);
  if (!hold) return stopped;
  const asked = hold.conditions.some(
    (each) => each.condition.kind === "signature" && each.condition.role === by.role,
  );
  if (!asked) return refuse(`This hold point does not ask for the ${by.role}.`);
  if (by.name.trim() === "") return refuse(`Enter the name of the ${by.role}.`, by.role);
  return accept({ type: "hold signed", hold: holdId, by: { name: by.name.trim(), role: by.role } });
}

/** Releases a hold point. Refused while anything it asks for is open: there is no way round the rules. */
export function releaseHold(situation: Situation, holdId: string): Decision {
  const { hold, stopped } = holdInReach(situation, holdId);
  if (!hold) return stopped;
  const { actor } = situation;
  if (!hold.hold.releasedBy.includes(actor.role)) {
    return refuse(
      `The ${hold.hold.releasedBy.join(" or ")} releases this hold point; ${actor.name} is here as ${actor.role}.`,
    );
  }
  if (hold.status === "released" || hold.status === "released under exception") {
    return refuse("It is released already.");
  }
  const open = hold.conditions.filter(isOpen);
  if (open.length > 0) {
    return refuse(open.map((each) => each.says || each.condition.text).join(" "));
  }
  const basis = [...new Set(hold.conditions.flatMap((each) => each.basis))];
  return accept({ type: "hold released", hold: holdId, basis });
}

const isOpen = ({ state }: ConditionState) => state === "not met" || state === "not known";

/** Lets one condition pass with a written reason, by somebody who may. It covers the readings that stand now. */
export function grantException(
  situation: Situation,
  holdId: string,
  conditionId: string,
  reason: string,
  authoriser: Actor,
): Decision {
  const { hold, stopped } = holdInReach(situation, holdId);
  if (!hold) return stopped;
  const found = hold.conditions.find((each) => each.condition.id === conditionId);
  if (!found) return refuse(`This hold point has no condition "${conditionId}".`);
  if (!isOpen(found)) return refuse("The condition is fulfilled; it needs no exception.");
  const may = found.condition.exceptionBy;
  if (!may) return refuse("This condition admits no exception.");
  if (!may.includes(authoriser.role)) {
    return refuse(`Only the ${may.join(" or the ")} may authorise this exception.`);
  }
  if (reason.trim().length < 10)
    return refuse("Give the reason in words, at least ten letters.", "reason");
  if (authoriser.name.trim() === "") return refuse("Enter who authorises it.", "authoriser");
  return accept({
    type: "exception granted",
    hold: holdId,
    condition: conditionId,
    reason: reason.trim(),
    authoriser: { name: authoriser.name.trim(), role: authoriser.role },
    basis: [...found.basis],
    covers: found.says || found.condition.text,
  });
}

/** Corrects one entry: the old one stays in the log, the reason beside it. */
export function correct(
  situation: Situation,
  reading: Reading,
  typed: Typed,
  reason: string,
): Decision {
  const { state, actor, writer } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (!isCrew(actor))
    return refuse(`The wireline crew corrects readings; ${actor.name} is here as ${actor.role}.`);
  const field = state.programme && fieldById(state.programme.sheet, reading.field);
  if (!field) return refuse("This field is not on the run sheet any more.");
  const understood = understand({ ...field, optional: false }, typed, writer.atmosphere);
  if (!understood.ok) return refuse(understood.why, field.id);
  if (reason.trim() === "") return refuse("Say why it is corrected.", "reason");
  if (sameValue(understood.value, reading.value))
    return refuse("That is what stands there already.");
  return accept({
    type: "correction",
    corrects: reading.event.hash,
    field: reading.field,
    value: understood.value as EntryValue,
    reason: reason.trim(),
  });
}

function sameValue(a: EntryValue | undefined, b: EntryValue): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

export function addNote({ state }: Situation, text: string, step?: string): Decision {
  if (state.stage === "draft") return refuse("The programme has not been issued yet.");
  if (state.stage === "approved")
    return refuse("The record is approved. It is not changed any more.");
  if (text.trim() === "") return refuse("Write the note first.", "note");
  return accept({ type: "note", text: text.trim(), ...(step !== undefined && { step }) });
}

/** Closes the run: everything is done, the record goes to the engineer. */
export function closeRun(situation: Situation, remark: string): Decision {
  const { state, actor, now, writer } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (actor.role !== "wireline supervisor") {
    return refuse(
      `The wireline supervisor closes the run; ${actor.name} is here as ${actor.role}.`,
    );
  }
  const { current, items } = progressOf(state, now, writer);
  if (current) return refuse(whyNotYet({ current, items }));
  return accept({ type: "run closed", ...(remark.trim() !== "" && { remark: remark.trim() }) });
}
