import type { JobEvent } from "./event.ts";

/**
 * How many events of a job's log came after those that left this device in a file.
 *
 * @param events of one job
 * @param heads  the last event of each device that went along, by its hash; undefined when nothing left yet
 */
export function notYetExported(
  events: readonly JobEvent[],
  heads: Readonly<Record<string, string>> | undefined,
): number {
  if (!heads) return events.length;
  const gone = new Map(
    events
      .filter((event) => heads[event.device] === event.hash)
      .map((event) => [event.device, event.sequence]),
  );
  return events.filter(({ device, sequence }) => sequence > (gone.get(device) ?? 0)).length;
}
