import type { JobEvent } from "./event.ts";

/** Each job's log out of the events of many, in the order they came. */
export function logsByJob(events: readonly JobEvent[]): ReadonlyMap<string, readonly JobEvent[]> {
  const logs = new Map<string, JobEvent[]>();
  for (const event of events) {
    const log = logs.get(event.job);
    if (log) log.push(event);
    else logs.set(event.job, [event]);
  }
  return logs;
}
