import type { JobEvent } from "./event.ts";

/**
 * How many events of a device have not left it in a file.
 *
 * @param events of one job, or of several
 * @param heads  the last event of each device that went along, by its hash; undefined when nothing left yet
 */
export function notYetExported(
  events: readonly JobEvent[],
  device: string,
  heads: Readonly<Record<string, string>> | undefined,
): number {
  const own = events.filter((event) => event.device === device);
  const gone = own.find((event) => event.hash === heads?.[device])?.sequence ?? 0;
  return own.filter(({ sequence }) => sequence > gone).length;
}
