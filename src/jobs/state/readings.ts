import canonicalize from "canonicalize";
import type { Entry, EntryValue, EventBody, JobEvent } from "../log/event.ts";
import { hadSeen } from "../log/seen.ts";
import type { Sheet } from "../sheet/sheet.ts";
import { fieldById } from "../sheet/walk.ts";
import type { Reading } from "./jobState.ts";

type BodyOf<T extends EventBody["type"]> = Extract<EventBody, { type: T }>;

/** What one event says that a field reads: the reading as it stood then. */
interface Said {
  readonly event: JobEvent;
  readonly reading: Reading;
}

/** The readings of a job while its log is read. Each method answers why an event does not fit, or undefined. */
export class Readings {
  /** in the order they were taken into the log */
  readonly all: Reading[] = [];
  /** by field, where two tablets differ without having known of each other */
  readonly conflicts = new Map<string, readonly Reading[]>();
  /** by field, what nobody who spoke of it since had seen */
  private readonly newest = new Map<string, readonly Said[]>();
  /** everything that was ever said, by event and field */
  private readonly said = new Map<string, Reading>();

  take(
    event: JobEvent,
    { step, takenAt }: BodyOf<"readings taken">,
    { field, value }: Entry,
    sheet: Sheet | undefined,
    setAside: JobEvent | undefined,
  ): string | undefined {
    const misfit = misfitOf(field, value, sheet);
    if (misfit) return misfit;
    const reading: Reading = {
      field,
      step,
      value,
      original: value,
      corrections: [],
      event,
      takenAt,
      standsOn: event.hash,
      ...(setAside && { setAside }),
    };
    this.all.push(reading);
    this.say(event, reading);
    return undefined;
  }

  correct(
    event: JobEvent,
    { corrects, field, value, reason }: BodyOf<"correction">,
    sheet: Sheet | undefined,
  ): string | undefined {
    const index = this.indexOf(corrects, field);
    const reading = this.all[index];
    if (!reading) return "It corrects a reading that is not there.";
    const isTakenBack = value.kind === "none" && sheet && fieldById(sheet, field)?.optional;
    const misfit = isTakenBack ? undefined : misfitOf(field, value, sheet);
    if (misfit) return misfit;
    const corrected = {
      ...reading,
      value,
      corrections: [...reading.corrections, { event, reason }],
      standsOn: event.hash,
    };
    this.all[index] = corrected;
    this.say(event, corrected);
    return undefined;
  }

  /** The reading that stands comes after those it stands over: the latest counts. */
  settle(event: JobEvent, { field, stands, over }: BodyOf<"conflict settled">): string | undefined {
    const index = this.indexOf(stands, field);
    const reading = this.all[index];
    const value = this.said.get(keyOf(stands, field))?.value;
    const last = Math.max(...over.map((hash) => this.indexOf(hash, field)));
    if (!reading || !value || last === -1) return "It settles readings that are not there.";
    const settled = { ...reading, value, standsOn: event.hash };
    this.all.splice(Math.max(index, last) + 1, 0, settled);
    this.all.splice(index, 1);
    this.say(event, settled);
    return undefined;
  }

  /** What a field reads in the attempt that is being made: several values where two tablets differ. */
  latest(field: string): readonly Reading[] {
    const differing = this.conflicts.get(field);
    if (differing) return differing;
    const latest = this.all.findLast((each) => each.field === field && !each.setAside);
    return latest ? [latest] : [];
  }

  setAside(steps: ReadonlySet<string>, event: JobEvent): void {
    for (const [index, reading] of this.all.entries()) {
      if (!steps.has(reading.step) || reading.setAside) continue;
      this.all[index] = { ...reading, setAside: event };
      this.newest.delete(reading.field);
      this.conflicts.delete(reading.field);
    }
  }

  /** Place of the reading that an event took, corrected or settled. */
  private indexOf(hash: string, field: string): number {
    const of = this.said.get(keyOf(hash, field))?.event;
    return of ? this.all.findLastIndex((each) => each.event === of && each.field === field) : -1;
  }

  /** What a field reads by events that had not seen each other: more than one value is a conflict. */
  private say(event: JobEvent, reading: Reading): void {
    const { field } = reading;
    this.said.set(keyOf(event.hash, field), reading);
    if (reading.setAside) return;
    const unseen = (this.newest.get(field) ?? []).filter((each) => !hadSeen(event, each.event));
    const newest = [...unseen, { event, reading }];
    this.newest.set(field, newest);
    const values = new Set(newest.map((each) => canonicalize(each.reading.value)));
    if (values.size > 1) {
      this.conflicts.set(
        field,
        newest.map((each) => each.reading),
      );
    } else this.conflicts.delete(field);
  }
}

const keyOf = (hash: string, field: string) => `${hash} ${field}`;

/** Why a value is not one of its field, e.g. a length where a pressure is asked for. */
function misfitOf(field: string, value: EntryValue, sheet: Sheet | undefined): string | undefined {
  if (!sheet) return "No programme had been issued.";
  const known = fieldById(sheet, field);
  if (!known) return `The run sheet has no field "${field}".`;
  const fits =
    known.kind === value.kind &&
    (known.kind !== "quantity" ||
      (value.kind === "quantity" && value.dimension === known.dimension)) &&
    (known.kind !== "choice" ||
      (value.kind === "choice" && known.choices.some((each) => each.value === value.choice)));
  return fits ? undefined : `What was entered does not fit the field "${known.label}".`;
}
