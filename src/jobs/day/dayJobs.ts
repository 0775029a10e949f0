import { assemble } from "../assemble.ts";
import { type BoardJob, boardJob, type UnreadJob, wellName } from "../board.ts";
import type { UnitSystem } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import { logsByJob } from "../log/logsByJob.ts";
import type { Programme } from "../records/programme.ts";
import type { WorkingDay } from "../records/workingDay.ts";
import type { Library } from "../store/library.ts";

/** A job of the day with what its crew works on: as issued, or as the library holds it now. */
export interface DayJob extends BoardJob {
  readonly programme: Programme;
}

export interface DayJobs {
  /** in the order they are driven */
  readonly jobs: readonly DayJob[];
  /** jobs of the day that cannot be read: the others are not lost with them */
  readonly unread: readonly UnreadJob[];
}

/** The jobs of a day, those that the record orders first; the rest by the names of their wells. */
export function dayJobs(
  day: string,
  library: Library,
  events: readonly JobEvent[],
  now: string,
  units: UnitSystem,
): DayJobs {
  const order = library.days.find(({ id }) => id === day)?.order ?? [];
  const place = (id: string) => {
    const at = order.indexOf(id);
    return at === -1 ? order.length : at;
  };
  const logs = logsByJob(events);
  const jobs: DayJob[] = [];
  const unread: UnreadJob[] = [];
  for (const job of library.jobs.filter((each) => each.day === day)) {
    try {
      const read = boardJob(job, library, logs.get(job.id) ?? [], now, units);
      jobs.push({ ...read, programme: read.state.programme ?? assemble(job, library) });
    } catch (error) {
      unread.push({ job, well: wellName(job, library), fault: String(error) });
    }
  }
  jobs.sort(
    (a, b) =>
      place(a.job.id) - place(b.job.id) ||
      a.well.localeCompare(b.well) ||
      a.job.id.localeCompare(b.job.id),
  );
  return { jobs, unread };
}

/**
 * The order with one job a place up or down; at either end it stays where it is.
 *
 * @param shown the day's jobs as they stand on the screen: those the record does not know yet get their place too
 */
export function movedJob(shown: readonly string[], id: string, by: -1 | 1): WorkingDay["order"] {
  const from = shown.indexOf(id);
  const to = from + by;
  if (from === -1 || to < 0 || to >= shown.length) return [...shown];
  return shown.toSpliced(from, 1).toSpliced(to, 0, id);
}
