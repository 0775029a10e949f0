import type { EntryValue, EventBody, JobEvent } from "../log/event.ts";
import { inOrder } from "../log/order.ts";
import type { Programme } from "../records/programme.ts";
import type { Actor } from "../roles.ts";
import type { Strokes } from "../signature.ts";
import { LogReader } from "./logReader.ts";

/** One entry of a readings event, with every correction made to it. */
export interface Reading {
  readonly field: string;
  readonly step: string;
  /** as it stands: the last correction, or what was entered */
  readonly value: EntryValue;
  readonly original: EntryValue;
  readonly corrections: readonly { readonly event: JobEvent; readonly reason: string }[];
  /** the event that carries it */
  readonly event: JobEvent;
  readonly takenAt: string;
  /** hash of the event that last said something of it: itself, its last correction, or what settled it */
  readonly standsOn: string;
  /** The event with which its step is done again: it was read, and proves nothing for the new attempt. */
  readonly setAside?: JobEvent;
}

interface Signed {
  readonly event: JobEvent;
}
/** Given at a hold point, for the attempt that is being made or for one before. */
interface OfAnAttempt extends Signed {
  /** the event with which the hold point is worked again */
  readonly setAside?: JobEvent;
}
export interface Signature extends OfAnAttempt {
  readonly hold: string;
  readonly by: Actor;
  readonly drawn: Strokes | undefined;
  /** its place in the log */
  readonly index: number;
}
export interface Release extends Signed {
  readonly hold: string;
  readonly basis: readonly string[];
}
export interface Exception extends OfAnAttempt {
  readonly hold: string;
  readonly condition: string;
  readonly reason: string;
  readonly authoriser: Actor;
  readonly basis: readonly string[];
  readonly covers: string;
}
export interface Note extends Signed {
  readonly step: string | undefined;
  readonly text: string;
}
/** Something that went wrong, and what was done about it. */
export interface Branch extends Signed {
  readonly contingency: string;
  /** step or hold point at which it happened */
  readonly at: string | undefined;
  readonly closed?: {
    readonly event: JobEvent;
    readonly option: string | undefined;
    readonly outcome: string;
  };
}
/** The sheet was worked again from here on. */
export interface GoneBack extends Signed {
  readonly to: string;
  readonly reason: string;
}
export interface Standby extends Signed {
  readonly reason: string;
  readonly ended?: JobEvent;
}
export interface CrewChange extends Signed {
  readonly by: Actor;
  readonly to: Actor;
  readonly state: string;
  readonly drawn: { readonly by?: Strokes | undefined; readonly to?: Strokes | undefined };
}
export interface Photograph extends Signed {
  readonly picture: string;
  readonly width: number;
  readonly height: number;
  readonly caption: string | undefined;
  readonly at: string | undefined;
}
/** A step as it was done before it was done again. */
export interface DoneBefore extends Signed {
  readonly step: string;
  /** with which it was opened again */
  readonly again: JobEvent;
}
/** A step that was recorded as done on a tablet that did not know that another had done it. */
export interface DoneApart extends Signed {
  readonly step: string;
  /** with which the other had recorded it, before in the log */
  readonly other: JobEvent;
}
/** What the well did on lift after the change-out, as somebody read it. */
export interface LiftObserved extends Signed {
  readonly observed: Extract<EventBody, { type: "lift observed" }>;
  /** the reading that stands in its place; without it, this one stands */
  readonly corrected?: {
    readonly event: JobEvent;
    readonly reason: string;
    /** Both correct one reading, on two tablets that did not know of each other: the later in the log stands. */
    readonly apart: boolean;
  };
}
/** What the engineer asks about a line of the record, with every answer to it. */
export interface Question extends Signed {
  readonly about: Extract<EventBody, { type: "question asked" }>["about"];
  readonly text: string;
  readonly answers: readonly { readonly event: JobEvent; readonly text: string }[];
}
export type ReviewDecision = Extract<EventBody, { type: "review" }>["decision"];
export interface Review extends Signed {
  readonly decision: ReviewDecision;
  readonly remark: string | undefined;
  readonly heads: Readonly<Record<string, string>>;
}

export type Stage = "draft" | "issued" | "running" | "closed" | "sent back" | "approved";

/** An event that the fold does not follow, and why: shown in the review, never dropped in silence. */
export interface Unfollowed extends Signed {
  readonly why: string;
}

/** What a job's log says, all of it. */
export interface JobState {
  /** in log order */
  readonly events: readonly JobEvent[];
  readonly stage: Stage;
  readonly programme: Programme | undefined;
  readonly revision: number;
  readonly issued: JobEvent | undefined;
  readonly started: JobEvent | undefined;
  readonly closed: JobEvent | undefined;
  /** in the order they were taken into the log */
  readonly readings: readonly Reading[];
  /** without those in which an answer stands that stops the work */
  readonly done: ReadonlyMap<string, JobEvent>;
  readonly leftOut: ReadonlyMap<string, { readonly reason: string; readonly event: JobEvent }>;
  readonly signatures: readonly Signature[];
  readonly releases: readonly Release[];
  readonly exceptions: readonly Exception[];
  readonly notes: readonly Note[];
  readonly branches: readonly Branch[];
  readonly goneBack: readonly GoneBack[];
  readonly doneBefore: readonly DoneBefore[];
  readonly doneApart: readonly DoneApart[];
  readonly standbys: readonly Standby[];
  readonly crewChanges: readonly CrewChange[];
  readonly photographs: readonly Photograph[];
  /** readings of one field that two tablets took without knowing of each other and that differ, by field */
  readonly conflicts: ReadonlyMap<string, readonly Reading[]>;
  /** in log order, with those that were corrected: what goes by them leaves these out */
  readonly observed: readonly LiftObserved[];
  readonly questions: readonly Question[];
  readonly reviews: readonly Review[];
  /** the review that set the present stage */
  readonly decidedBy: Review | undefined;
  readonly unfollowed: readonly Unfollowed[];
  /** place in the log of the event with a hash */
  readonly position: ReadonlyMap<string, number>;
}

/**
 * The fold: a job's state from its events. It does not depend on the order they are handed over in, on
 * any clock, or on anything but the events.
 */
export function foldJob(events: readonly JobEvent[]): JobState {
  return foldInOrder(inOrder(events));
}

/** foldJob for events that already are in log order. */
export function foldInOrder(events: readonly JobEvent[]): JobState {
  const reader = new LogReader();
  for (const event of events) reader.read(event);
  return reader.state;
}

/** Whether the crew may still enter something. */
export function isOpen({ stage }: JobState): boolean {
  return stage === "running" || stage === "sent back";
}

/** Events that came into the log after the approval that stands, and that it does not cover. */
export function afterApproval({ stage, events, decidedBy }: JobState): JobEvent[] {
  if (stage !== "approved" || !decidedBy) return [];
  const { heads, event: approval } = decidedBy;
  const covered = new Map<string, number>();
  for (const event of events) {
    if (heads[event.device] === event.hash) covered.set(event.device, event.sequence);
  }
  return events.filter(
    (event) => event !== approval && event.sequence > (covered.get(event.device) ?? 0),
  );
}

/** The latest reading of a field, of the attempt that is being made. */
export function latestReading(state: JobState, field: string): Reading | undefined {
  const last = state.readings.findLast((reading) => reading.field === field && !reading.setAside);
  return last?.value.kind === "none" ? undefined : last;
}

/** The contingency that keeps the sheet waiting. */
export function openBranch({ branches }: JobState): Branch | undefined {
  return branches.findLast(({ closed }) => !closed);
}

/** The standby that has not ended. */
export function openStandby({ standbys }: JobState): Standby | undefined {
  return standbys.findLast(({ ended }) => !ended);
}
