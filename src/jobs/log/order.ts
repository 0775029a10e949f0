import type { JobEvent } from "./event.ts";

/**
 * The one order in which a job's events are read, whatever order they arrived in and whatever the
 * clocks said: by tick, then by device for events that no device had seen of the other.
 */
export function inOrder(events: readonly JobEvent[]): JobEvent[] {
  return [...events].sort(
    (a, b) =>
      a.tick - b.tick ||
      (a.device < b.device ? -1 : a.device > b.device ? 1 : a.sequence - b.sequence),
  );
}

/** Events of two logs of one job, each once. */
export function union(mine: readonly JobEvent[], theirs: readonly JobEvent[]): readonly JobEvent[] {
  const known = new Set(mine.map((event) => event.hash));
  return inOrder([...mine, ...theirs.filter((event) => !known.has(event.hash))]);
}
