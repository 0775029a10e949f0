import type { EntryValue, JobEvent } from "../log/event.ts";
import { inOrder } from "../log/order.ts";
import type { Programme } from "../records/programme.ts";
import type { Actor } from "../roles.ts";
import { fieldById } from "../sheet/walk.ts";

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
  /** its place in the log */
  readonly index: number;
}
export interface Release extends Signed {
  readonly hold: string;
  readonly basis: readonly string[];
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
  readonly done: ReadonlyMap<string, JobEvent>;
  readonly leftOut: ReadonlyMap<string, { readonly reason: string; readonly event: JobEvent }>;
  readonly signatures: readonly Signature[];
  readonly releases: readonly Release[];
  readonly exceptions: readonly Exception[];
  readonly notes: readonly Note[];
  readonly reviews: readonly Review[];
  /** the review that set the present stage */
  readonly decidedBy: Review | undefined;
  readonly unfollowed: readonly Unfollowed[];
  /** place in the log of the event with a hash */
  readonly position: ReadonlyMap<string, number>;
}

/**
 * A log being read, event by event. `state` is a live view: it shows what was read so far and changes with
 * the next event, so that a whole log costs one pass.
 */
export class LogReader {
  private readonly events: JobEvent[] = [];
  private readonly issues: JobEvent[] = [];
  private readonly readings: Reading[] = [];
  private readonly done = new Map<string, JobEvent>();
  private readonly leftOut = new Map<string, { reason: string; event: JobEvent }>();
  private readonly signatures: Signature[] = [];
  private readonly releases: Release[] = [];
  private readonly exceptions: Exception[] = [];
  private readonly notes: Note[] = [];
  private readonly reviews: Review[] = [];
  private readonly unfollowed: Unfollowed[] = [];
  private readonly position = new Map<string, number>();
  private stage: Stage = "draft";
  private issued: JobEvent | undefined;
  private started: JobEvent | undefined;
  private closed: JobEvent | undefined;
  private decidedBy: Review | undefined;

  get state(): JobState {
    const body = this.issued?.body;
    const issue = body?.type === "programme issued" ? body : undefined;
    return {
      events: this.events,
      stage: this.stage,
      programme: issue?.programme,
      revision: issue?.revision ?? 0,
      issued: this.issued,
      started: this.started,
      closed: this.closed,
      readings: this.readings,
      done: this.done,
      leftOut: this.leftOut,
      signatures: this.signatures,
      releases: this.releases,
      exceptions: this.exceptions,
      notes: this.notes,
      reviews: this.reviews,
      decidedBy: this.decidedBy,
      unfollowed: this.unfollowed,
      position: this.position,
    };
  }

  /** Takes in the next event in log order. */
  read(event: JobEvent): void {
    const { body } = event;
    const index = this.events.length;
    this.events.push(event);
    this.position.set(event.hash, index);
    switch (body.type) {
      case "programme issued":
        this.issues.push(event);
        if (this.started) {
          this.unfollowed.push({
            event,
            why: `Revision ${body.revision} was issued without knowing that the run had been started. The crew works on the revision it started with.`,
          });
          return;
        }
        this.issued = event;
        if (this.stage === "draft") this.stage = "issued";
        return;
      case "run started":
        this.start(event, body.programme);
        return;
      case "readings taken":
        for (const { field, value } of body.entries) this.take(event, body.step, field, value);
        return;
      case "correction":
        this.correct(event, body.corrects, body.field, body.value, body.reason);
        return;
      case "step done":
        if (!this.done.has(body.step)) this.done.set(body.step, event);
        return;
      case "step left out":
        this.leftOut.set(body.step, { reason: body.reason, event });
        return;
      case "hold signed":
        this.signatures.push({ event, hold: body.hold, by: body.by, index });
        return;
      case "hold released":
        this.releases.push({ event, hold: body.hold, basis: body.basis });
        return;
      case "exception granted":
        this.exceptions.push({ event, ...body });
        return;
      case "note":
        this.notes.push({ event, step: body.step, text: body.text });
        return;
      case "run closed":
        this.closed = event;
        if (this.stage === "running" || this.stage === "sent back") this.stage = "closed";
        return;
      case "review": {
        const review = { event, decision: body.decision, remark: body.remark, heads: body.heads };
        this.reviews.push(review);
        if (this.stage === "closed") {
          this.stage = body.decision;
          this.decidedBy = review;
        } else {
          this.unfollowed.push({
            event,
            why: `${event.actor.name} decided "${body.decision}" on a record that was ${this.stage} by then.`,
          });
        }
        return;
      }
    }
  }

  /** The crew names the programme it works on; one that another device issued meanwhile does not count. */
  private start(event: JobEvent, programme: string): void {
    if (this.started) {
      this.unfollowed.push({ event, why: "The run had been started on another tablet." });
      return;
    }
    this.started = event;
    const chosen = this.issues.find((issue) => issue.hash === programme);
    if (chosen && chosen !== this.issued && this.issued) {
      this.unfollowed.push({
        event: this.issued,
        why: "This revision had not reached the crew when it started. It works on the revision it had.",
      });
    }
    this.issued = chosen ?? this.issued;
    if (this.stage === "issued") this.stage = "running";
  }

  private take(event: JobEvent, step: string, field: string, value: EntryValue): void {
    const misfit = this.misfit(field, value);
    if (misfit) {
      this.unfollowed.push({ event, why: misfit });
      return;
    }
    this.readings.push({
      field,
      step,
      value,
      original: value,
      corrections: [],
      event,
      takenAt: event.body.type === "readings taken" ? event.body.takenAt : event.at,
      standsOn: event.hash,
    });
  }

  private correct(
    event: JobEvent,
    corrects: string,
    field: string,
    value: EntryValue,
    reason: string,
  ): void {
    const index = this.readings.findIndex(
      (reading) => reading.event.hash === corrects && reading.field === field,
    );
    const reading = this.readings[index];
    const misfit = reading ? this.misfit(field, value) : "It corrects a reading that is not there.";
    if (!reading || misfit) {
      this.unfollowed.push({ event, why: misfit ?? "" });
      return;
    }
    this.readings[index] = {
      ...reading,
      value,
      corrections: [...reading.corrections, { event, reason }],
      standsOn: event.hash,
    };
  }

  /** Why a value is not one of its field, e.g. a length where a pressure is asked for. */
  private misfit(field: string, value: EntryValue): string | undefined {
    const body = this.issued?.body;
    if (body?.type !== "programme issued") return "No programme had been issued.";
    const known = fieldById(body.programme.sheet, field);
    if (!known) return `The run sheet has no field "${field}".`;
    const fits =
      known.kind === value.kind &&
      (known.kind !== "quantity" ||
        (value.kind === "quantity" && value.dimension === known.dimension)) &&
      (known.kind !== "choice" ||
        (value.kind === "choice" && known.choices.some((each) => each.value === value.choice)));
    return fits ? undefined : `What was entered does not fit the field "${known.label}".`;
  }
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

/** The latest reading of a field. */
export function latestReading(state: JobState, field: string): Reading | undefined {
  return state.readings.findLast((reading) => reading.field === field);
}
