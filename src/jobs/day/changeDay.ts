import { type WorkingDay, workingDay } from "../records/workingDay.ts";
import type { Actor } from "../roles.ts";
import { Outdated, type Store } from "../store/store.ts";
import { type LoadLine, reads } from "./loadLine.ts";

/** What can be changed of a day. Each is the day without its revision, as it is to be. */
type Change = (day: WorkingDay) => WorkingDay;

const TRIES = 4;

/**
 * Changes the record of a day as it is in the store at that moment: two hands that tick at once both count.
 *
 * Settles when the change is durable.
 */
export async function changeDay(
  store: Pick<Store, "recordsFor" | "put">,
  id: string,
  change: Change,
): Promise<void> {
  for (let tries = 1; ; tries++) {
    const { days } = await store.recordsFor({ records: { days: [id] } });
    const [before] = days;
    const after = change(before ?? { id, revision: 0, order: [], loaded: [], extras: [] });
    const record = workingDay.parse({ ...after, revision: (before?.revision ?? 0) + 1 });
    try {
      await store.put("days", record);
      return;
    } catch (error) {
      if (!(error instanceof Outdated) || tries === TRIES) throw error;
    }
  }
}

/** A line is on the truck, as it reads now. */
export function tick(line: LoadLine, { name }: Actor, at: string): Change {
  return (day) => ({
    ...day,
    loaded: [
      ...day.loaded.filter((each) => each.line !== line.key),
      { line: line.key, at, by: name, read: reads(line) },
    ],
  });
}

/** A line is off the truck again, or what nothing asks for is off the list. */
export function untick(key: string): Change {
  return (day) => ({ ...day, loaded: day.loaded.filter((each) => each.line !== key) });
}

/** What the record takes; a job beyond it stands after the others. */
const MOST_ORDERED = 50;

export function order(jobs: readonly string[]): Change {
  return (day) => ({ ...day, order: jobs.slice(0, MOST_ORDERED) });
}

/** What the record takes. */
export const MOST_EXTRAS = 200;
const MOST_OF_ONE = 999;

/** Why something cannot be added by hand as it was typed, by what to mend; undefined when it can. */
export function extraProblem(name: string, count: string, extras: number): string | undefined {
  if (extras >= MOST_EXTRAS) return `There are ${MOST_EXTRAS} lines by hand already: take one off.`;
  if (name.trim() === "") return "Say what is to be taken along.";
  if (name.trim().length > 400) return `${name.trim().length} characters; at most 400.`;
  return /^\s*\d{1,3}\s*$/.test(count) && Number(count) > 0
    ? undefined
    : `"${count.trim().slice(0, 20)}" is no count: a whole number from 1 to ${MOST_OF_ONE}.`;
}

export function addExtra(id: string, name: string, count: string): Change {
  return (day) => ({
    ...day,
    // Pressed again after a write that seemed to fail, it is the same line.
    extras: [
      ...day.extras.filter((each) => each.id !== id),
      { id, name: name.trim(), count: Number(count) },
    ],
  });
}

/** A line by hand that is ticked stays on the list as no longer needed. */
export function takeOffExtra(id: string): Change {
  return (day) => ({ ...day, extras: day.extras.filter((each) => each.id !== id) });
}
