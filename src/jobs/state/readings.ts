import canonicalize from "canonicalize";
import type { Entry, EntryValue, EventBody, JobEvent } from "../log/event.ts";
import { hadSeen } from "../log/seen.ts";
import type { Sheet } from "../sheet/sheet.ts";
import { fieldById } from "../sheet/walk.ts";
import type { Reading } from "./jobState.ts";

type BodyOf<T extends EventBody["type"]> = Extract<EventBody, { type: T }>;

/** The readings of a job while its log is read. Each method answers why an event does not fit, or undefined. */
export class Readings {
  /** in the order they were taken into the log */
  readonly all: Reading[] = [];
  /** by field, where two tablets differ without having known of each other */
  readonly conflicts = new Map<string, readonly Reading[]>();
  private readonly devices = new Set<string>();
  /** the events that readings stand on, by hash */
  private readonly spoke = new Map<string, JobEvent>();

  take(
    event: JobEvent,
    { step, takenAt }: BodyOf<"readings taken">,
    { field, value }: Entry,
    sheet: Sheet | undefined,
    setAside: JobEvent | undefined,
  ): string | undefined {
    const misfit = misfitOf(field, value, sheet);
    if (misfit) return misfit;
    this.all.push({
      field,
      step,
      value,
      original: value,
      corrections: [],
      event,
      takenAt,
      standsOn: event.hash,
      ...(setAside && { setAside }),
    });
    this.said(event, field);
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
    const misfit = misfitOf(field, value, sheet);
    if (misfit) return misfit;
    this.all[index] = {
      ...reading,
      value,
      corrections: [...reading.corrections, { event, reason }],
      standsOn: event.hash,
    };
    this.said(event, field);
    return undefined;
  }

  /** The reading that stands comes after those it stands over: the latest counts. */
  settle(event: JobEvent, { field, stands, over }: BodyOf<"conflict settled">): string | undefined {
    const index = this.indexOf(stands, field);
    const reading = this.all[index];
    const last = Math.max(...over.map((hash) => this.indexOf(hash, field)));
    if (!reading || last === -1) return "It settles readings that are not there.";
    this.all.splice(Math.max(index, last) + 1, 0, { ...reading, standsOn: event.hash });
    this.all.splice(index, 1);
    this.said(event, field);
    return undefined;
  }

  setAside(steps: ReadonlySet<string>, event: JobEvent): void {
    for (const [index, reading] of this.all.entries()) {
      if (!steps.has(reading.step) || reading.setAside) continue;
      this.all[index] = { ...reading, setAside: event };
      this.conflicts.delete(reading.field);
    }
  }

  private indexOf(hash: string, field: string): number {
    return this.all.findIndex((each) => each.event.hash === hash && each.field === field);
  }

  private said(event: JobEvent, field: string): void {
    this.spoke.set(event.hash, event);
    this.devices.add(event.device);
    if (this.devices.size > 1) this.compare(field);
  }

  /** Readings of a field that no later one had seen: more than one, and they differ, is a conflict. */
  private compare(field: string): void {
    const own = this.all.filter((each) => each.field === field && !each.setAside);
    const unseen = own.filter((each) => !own.some((other) => this.knows(other, each)));
    const values = new Set(unseen.map(({ value }) => canonicalize(value)));
    if (values.size > 1) this.conflicts.set(field, unseen);
    else this.conflicts.delete(field);
  }

  private knows(later: Reading, earlier: Reading): boolean {
    const [a, b] = [this.spoke.get(later.standsOn), this.spoke.get(earlier.standsOn)];
    return later !== earlier && a !== undefined && b !== undefined && hadSeen(a, b);
  }
}

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
