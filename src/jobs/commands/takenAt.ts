import { parse, subDays } from "date-fns";

const HALF_A_DAY = 12 * 60 * 60 * 1000;

/**
 * The instant at which gauges were read, from the time of day somebody typed.
 *
 * @param time HH:mm on the tablet's clock, or undefined: read just now
 * @param now  instant, ISO 8601
 * @returns today's instant of that time; yesterday's when that is nearer, as 23:50 typed at ten past midnight. A time
 *          a little ahead of now stays ahead, and recording it is refused. `now` for a time that is none
 */
export function takenAt(time: string | undefined, now: string): string {
  if (!time) return now;
  const today = parse(time, "HH:mm", new Date(now));
  if (Number.isNaN(today.getTime())) return now;
  const ahead = today.getTime() - new Date(now).getTime();
  return (ahead > HALF_A_DAY ? subDays(today, 1) : today).toISOString();
}
