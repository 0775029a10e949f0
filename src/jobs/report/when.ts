import { format, parseISO } from "date-fns";

/** An instant as a report writes it: the day as well, since a run may go past midnight. */
export const when = (at: string) => format(parseISO(at), "d MMM HH:mm");

/** With the year, where it stands alone. */
export const whenInFull = (at: string) => format(parseISO(at), "d MMM yyyy, HH:mm");

export const clockOf = (at: string) => format(parseISO(at), "HH:mm");

/** Said once in a report: the zone that its times are in. */
export function zoneInWords(at: string): string {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return zone === "UTC" ? zone : `${zone}, UTC${format(parseISO(at), "xxx")} at the last entry`;
}
