import type { JobEvent } from "../log/event.ts";
import { lastOfEach } from "../log/heads.ts";
import type { Library } from "./library.ts";

/** What a tablet held, as far as it is worth remembering outside its store: enough to know what is gone. */
export interface Held {
  /** instant */
  readonly at: string;
  readonly jobs: readonly HeldJob[];
}

export interface HeldJob {
  readonly job: string;
  /** in words, for a person */
  readonly name: string;
  /** where the log of each device stood: its closing hash */
  readonly heads: Readonly<Record<string, { readonly sequence: number; readonly hash: string }>>;
}

/** Everything that is in the store, as it is remembered. */
export function heldOf(library: Library, events: readonly JobEvent[], at: string): Held {
  return {
    at,
    jobs: library.jobs.map(({ id, well, day }) => ({
      job: id,
      name: `${library.wells.find((each) => each.id === well)?.name ?? well}, ${day}`,
      heads: headsIn(events.filter((event) => event.job === id)),
    })),
  };
}

function headsIn(events: readonly JobEvent[]): HeldJob["heads"] {
  return Object.fromEntries(
    [...lastOfEach(events)].map(([device, { sequence, hash }]) => [device, { sequence, hash }]),
  );
}

/** Remembers what was written into one log; undefined when that job was not remembered before. */
export function withAppended(
  held: Held,
  events: readonly JobEvent[],
  at: string,
): Held | undefined {
  const [first] = events;
  if (!held.jobs.some(({ job }) => job === first?.job)) return undefined;
  const jobs = held.jobs.map((each) =>
    each.job === first?.job ? { ...each, heads: { ...each.heads, ...headsIn(events) } } : each,
  );
  return { at, jobs };
}

/** What is here now, and what was here before and nobody took away: of each log the place furthest on. */
export function joined(now: Held, before: Held | undefined): Held {
  const known = new Map(before?.jobs.map((each) => [each.job, each]));
  const here = now.jobs.map((each) => {
    const heads = { ...each.heads };
    for (const [device, head] of Object.entries(known.get(each.job)?.heads ?? {})) {
      if (head.sequence > (heads[device]?.sequence ?? 0)) heads[device] = head;
    }
    known.delete(each.job);
    return { ...each, heads };
  });
  return { ...now, jobs: [...here, ...known.values()] };
}

export function without(held: Held, jobs: readonly string[]): Held {
  return { ...held, jobs: held.jobs.filter(({ job }) => !jobs.includes(job)) };
}

/** How many events of a job were held. */
export function countOf({ heads }: HeldJob): number {
  return Object.values(heads).reduce((sum, { sequence }) => sum + sequence, 0);
}

/** How a job stands beside what was remembered of it. */
export interface Compared {
  readonly held: HeldJob;
  readonly is: "the same" | "further" | "behind" | "another log" | "not here";
  /** events of it that were held and are not here */
  readonly missing: number;
}

/** Holds what is in the store against what was remembered, log by log. */
export function compared(
  before: Held,
  library: Library,
  events: readonly JobEvent[],
): readonly Compared[] {
  const here = new Set(library.jobs.map(({ id }) => id));
  const hashes = new Set(events.map(({ hash }) => hash));
  return before.jobs.map((held): Compared => {
    const known = countOf(held);
    if (!here.has(held.job)) return { held, is: "not here", missing: known };
    const log = events.filter((event) => event.job === held.job);
    const last = lastOfEach(log);
    const heads = Object.entries(held.heads);
    if (heads.every(([, { hash }]) => hashes.has(hash))) {
      return { held, is: log.length > known ? "further" : "the same", missing: 0 };
    }
    const missing = heads.reduce(
      (sum, [device, { sequence }]) =>
        sum + Math.max(0, sequence - (last.get(device)?.sequence ?? 0)),
      0,
    );
    return { held, is: missing > 0 ? "behind" : "another log", missing };
  });
}
