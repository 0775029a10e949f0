import type { JobEvent } from "./event.ts";

/** The last event of each device. */
export function lastOfEach(events: readonly JobEvent[]): Map<string, JobEvent> {
  const last = new Map<string, JobEvent>();
  for (const event of events) {
    const known = last.get(event.device);
    if (!known || event.sequence > known.sequence) last.set(event.device, event);
  }
  return last;
}

/** The hash of the last event of each device: what a review signs. */
export function headsOf(events: readonly JobEvent[]): Record<string, string> {
  return Object.fromEntries([...lastOfEach(events)].map(([device, event]) => [device, event.hash]));
}
