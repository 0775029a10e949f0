import { parse, subDays } from "date-fns";

/**
 * The instant at which gauges were read, from the time of day somebody typed.
 *
 * @param time HH:mm on the tablet's clock, or undefined: read just now
 * @param now  instant, ISO 8601
 * @returns the last instant at or before `now` at which the clock showed that time; `now` for a time that is none
 */
export function takenAt(time: string | undefined, now: string): string {
  if (!time) return now;
  const today = parse(time, "HH:mm", new Date(now));
  if (Number.isNaN(today.getTime())) return now;
  const instant = today.toISOString();
  return instant > now ? subDays(today, 1).toISOString() : instant;
}
