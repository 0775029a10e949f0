import type { JobEvent } from "../log/event.ts";
import { pocketsOf } from "../pockets.ts";
import { foldJob } from "../state/jobState.ts";
import { timesOf } from "../state/times.ts";
import type { Library } from "../store/library.ts";
import type { DayJob } from "./dayJobs.ts";

/** How long the day's jobs may take, by the runs that were closed on this tablet. */
export interface DayTime {
  /** runs it goes by */
  readonly runs: number;
  /** ms, the mean of those runs without their stand-by, for one pocket */
  readonly perPocket: number;
  /** pockets of the day that are not done */
  readonly pockets: number;
  /** ms, without the ways between the wells */
  readonly whole: number;
}

const HOUR = 3_600_000;
/** A day longer than this is asked about: common practice, a shift of 12 h. */
const SHIFT = 12 * HOUR;

/** @returns undefined as long as no run was closed whose clocks can be believed */
export function dayTime(
  jobs: readonly DayJob[],
  library: Pick<Library, "jobs">,
  events: readonly JobEvent[],
  now: string,
): DayTime | undefined {
  const earlier = library.jobs.flatMap((job) => {
    const time = timeOf(
      events.filter((event) => event.job === job.id),
      now,
    );
    return time === undefined ? [] : [{ time, pockets: pocketsOf(job).length }];
  });
  const pockets = earlier.reduce((sum, each) => sum + each.pockets, 0);
  if (pockets === 0) return undefined;
  const perPocket = earlier.reduce((sum, each) => sum + each.time, 0) / pockets;
  const ahead = jobs
    .filter(({ stage }) => stage !== "closed" && stage !== "approved")
    .reduce((sum, { programme }) => sum + pocketsOf(programme.job).length, 0);
  return { runs: earlier.length, perPocket, pockets: ahead, whole: perPocket * ahead };
}

function timeOf(events: readonly JobEvent[], now: string): number | undefined {
  if (events.length === 0) return undefined;
  try {
    const state = foldJob(events);
    if (state.stage !== "closed" && state.stage !== "approved") return undefined;
    const { whole, standby, clockMoved } = timesOf(state, now);
    return clockMoved || whole <= standby ? undefined : whole - standby;
  } catch {
    // A log that cannot be read says so on its own screens.
    return undefined;
  }
}

export const isLong = ({ whole }: DayTime): boolean => whole > SHIFT;

/** @example "3 h 20 min" */
export function inHours(time: number): string {
  const minutes = Math.round(time / 60_000);
  return minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
