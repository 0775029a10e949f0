import type { EntryValue, JobEvent } from "../log/event.ts";
import { inOrder } from "../log/order.ts";
import type { Programme } from "../records/programme.ts";
import type { Actor } from "../roles.ts";

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
  /** hash of the event that last said something of it: itself, or its last correction */
  readonly standsOn: string;
}

interface Signed {
  readonly event: JobEvent;
}
export interface Signature extends Signed {
  readonly hold: string;
  readonly by: Actor;
}
export interface Release extends Signed {
  readonly hold: string;
}
export interface Exception extends Signed {
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
export interface Review extends Signed {
  readonly decision: "approved" | "sent back";
  readonly remark: string | undefined;
  readonly heads: Readonly<Record<string, string>>;
}

export type Stage = "draft" | "issued" | "running" | "closed" | "sent back" | "approved";

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
  readonly done: ReadonlyMap<string, JobEvent>;
  readonly leftOut: ReadonlyMap<string, { readonly reason: string; readonly event: JobEvent }>;
  readonly signatures: readonly Signature[];
  readonly releases: readonly Release[];
  readonly exceptions: readonly Exception[];
  readonly notes: readonly Note[];
  readonly reviews: readonly Review[];
  /** events that came into the log after the approval that stands, and that it does not cover */
  readonly afterApproval: readonly JobEvent[];
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
  let stage: Stage = "draft";
  let issued: JobEvent | undefined;
  let programme: Programme | undefined;
  let revision = 0;
  let started: JobEvent | undefined;
  let closed: JobEvent | undefined;
  const readings: Reading[] = [];
  const done = new Map<string, JobEvent>();
  const leftOut = new Map<string, { reason: string; event: JobEvent }>();
  const signatures: Signature[] = [];
  const releases: Release[] = [];
  const exceptions: Exception[] = [];
  const notes: Note[] = [];
  const reviews: Review[] = [];

  for (const event of events) {
    const { body } = event;
    switch (body.type) {
      case "programme issued":
        issued = event;
        programme = body.programme;
        revision = body.revision;
        if (stage === "draft") stage = "issued";
        break;
      case "run started":
        started ??= event;
        if (stage === "issued") stage = "running";
        break;
      case "readings taken":
        for (const { field, value } of body.entries) {
          readings.push({
            field,
            step: body.step,
            value,
            original: value,
            corrections: [],
            event,
            takenAt: body.takenAt,
            standsOn: event.hash,
          });
        }
        break;
      case "correction": {
        const index = readings.findIndex(
          (reading) => reading.event.hash === body.corrects && reading.field === body.field,
        );
        const reading = readings[index];
        if (!reading) break;
        readings[index] = {
          ...reading,
          value: body.value,
          corrections: [...reading.corrections, { event, reason: body.reason }],
          standsOn: event.hash,
        };
        break;
      }
      case "step done":
        if (!done.has(body.step)) done.set(body.step, event);
        break;
      case "step left out":
        leftOut.set(body.step, { reason: body.reason, event });
        break;
      case "hold signed":
        signatures.push({ event, hold: body.hold, by: body.by });
        break;
      case "hold released":
        releases.push({ event, hold: body.hold });
        break;
      case "exception granted":
        exceptions.push({ event, ...body });
        break;
      case "note":
        notes.push({ event, step: body.step, text: body.text });
        break;
      case "run closed":
        closed = event;
        if (stage === "running" || stage === "sent back") stage = "closed";
        break;
      case "review":
        reviews.push({ event, decision: body.decision, remark: body.remark, heads: body.heads });
        if (stage === "closed") stage = body.decision;
        break;
    }
  }
  return {
    events,
    stage,
    programme,
    revision,
    issued,
    started,
    closed,
    readings,
    done,
    leftOut,
    signatures,
    releases,
    exceptions,
    notes,
    reviews,
    afterApproval: stage === "approved" ? uncovered(events, reviews) : [],
  };
}

/** Events that the last review did not see, the review's own event aside. */
function uncovered(events: readonly JobEvent[], reviews: readonly Review[]): JobEvent[] {
  const review = reviews.at(-1);
  if (!review) return [];
  const covered = new Map<string, number>();
  for (const [device, hash] of Object.entries(review.heads)) {
    covered.set(device, events.find((event) => event.hash === hash)?.sequence ?? 0);
  }
  return events.filter(
    (event) =>
      event.hash !== review.event.hash && event.sequence > (covered.get(event.device) ?? 0),
  );
}

/** The last event of each device: what a review signs. */
export function headsOf(events: readonly JobEvent[]): Record<string, string> {
  const last = new Map<string, JobEvent>();
  for (const event of events) {
    const known = last.get(event.device);
    if (!known || event.sequence > known.sequence) last.set(event.device, event);
  }
  return Object.fromEntries([...last].map(([device, event]) => [device, event.hash]));
}

/** The latest reading of a field. */
export function latestReading(state: JobState, field: string): Reading | undefined {
  return state.readings.findLast((reading) => reading.field === field);
}
