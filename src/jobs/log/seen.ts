import type { JobEvent } from "./event.ts";

/** What an event's device had seen of others, where the event says so: device and last sequence. */
export function seenOf(event: JobEvent): [device: string, sequence: number][] {
  return event.format === 2 ? Object.entries(event.seen) : [];
}

/**
 * Whether whoever wrote `later` had `earlier` before them. Events of format 1 do not say; there a lower tick is
 * taken as seen, which is right whenever the two devices met in between.
 */
export function hadSeen(later: JobEvent, earlier: JobEvent): boolean {
  if (later.device === earlier.device) return earlier.sequence < later.sequence;
  if (later.format === 1) return earlier.tick < later.tick;
  return (later.seen[earlier.device] ?? 0) >= earlier.sequence;
}
