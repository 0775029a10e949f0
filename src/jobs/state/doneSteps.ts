import type { EntryValue, EventBody, JobEvent } from "../log/event.ts";
import { hadSeen } from "../log/seen.ts";
import type { Sheet, Step } from "../sheet/sheet.ts";
import { stepById, stepOfField } from "../sheet/walk.ts";
import type { DoneApart } from "./jobState.ts";
import type { Readings } from "./readings.ts";

/**
 * Why an answer stops the work at a step, or undefined.
 *
 * @param values what a field of the step reads; several where two tablets differ
 */
export function stopAt(
  step: Pick<Step, "fields">,
  values: (field: string) => readonly EntryValue[],
): string | undefined {
  for (const field of step.fields) {
    if (field.kind !== "choice" || !field.choices.some(({ stop }) => stop !== undefined)) continue;
    for (const value of values(field.id)) {
      if (value.kind !== "choice") continue;
      const stop = field.choices.find((each) => each.value === value.choice)?.stop;
      if (stop !== undefined) return stop;
    }
  }
  return undefined;
}

/**
 * The steps that are done, while the log is read. A step is not done while an answer stands in it with which work
 * stops, whether that was recorded first, recorded again later, or came by a correction; nor while two tablets
 * differ on it. Once the answer is corrected or settled to a good one, the step is done as it was.
 */
export class DoneSteps {
  /** in the order they were done */
  readonly standing = new Map<string, JobEvent>();
  /** recorded as done, and stopped by an answer since */
  private readonly stopped = new Map<string, JobEvent>();
  /** stopped once since they were done: done anew, the later time counts */
  private readonly reopened = new Set<string>();
  /** whenever tablets that did not know of each other did one step, also of an attempt before */
  readonly apart: DoneApart[] = [];
  /** every time that a step was recorded as done */
  private readonly recorded = new Map<string, JobEvent[]>();

  /** Looks whether somebody else had done it without whoever writes now knowing of it. */
  lookApart(event: JobEvent, step: string): void {
    const before = this.recorded.get(step) ?? [];
    this.recorded.set(step, [...before, event]);
    const other = before.find((each) => !hadSeen(event, each));
    // Recorded again on its own tablet it is no third time.
    const isNamed = this.apart.some((each) => each.step === step && hadSeen(event, each.event));
    if (other && !isNamed) this.apart.push({ event, step, other });
  }

  record(event: JobEvent, step: string): void {
    if (this.stopped.has(step)) this.stopped.set(step, event);
    else if (!this.standing.has(step) || this.reopened.delete(step)) this.standing.set(step, event);
  }

  /** Looks again at the step that an event's readings are of. */
  lookAgain(body: EventBody, readings: Readings, sheet: Sheet | undefined): void {
    const step = sheet && stepOf(body, sheet);
    if (!step) return;
    const stop = stopAt(step, (field) => readings.latest(field).map(({ value }) => value));
    const [from, to] =
      stop === undefined ? [this.stopped, this.standing] : [this.standing, this.stopped];
    const done = from.get(step.id);
    if (!done) return;
    from.delete(step.id);
    to.set(step.id, done);
    if (stop !== undefined) this.reopened.add(step.id);
  }

  /** Opens a step that is worked again. @returns the event with which it had been done */
  open(step: string): JobEvent | undefined {
    const done = this.standing.get(step) ?? this.stopped.get(step);
    for (const each of [this.standing, this.stopped, this.reopened]) each.delete(step);
    return done;
  }
}

function stepOf(body: EventBody, sheet: Sheet): Step | undefined {
  switch (body.type) {
    case "readings taken":
      return stepById(sheet, body.step);
    case "correction":
    case "conflict settled":
      return stepOfField(sheet, body.field);
    default:
      return undefined;
  }
}
