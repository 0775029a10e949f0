import type { JobEvent } from "../log/event.ts";
import { logsByJob } from "../log/logsByJob.ts";
import type { Job } from "../records/job.ts";
import { foldJob, type Stage } from "../state/jobState.ts";
import type { Library } from "../store/library.ts";

/** What earlier jobs say to a plan: what was taken last, and which valves they hold. */

/** The stage of every job that has a log; one that has none is a draft. A log that cannot be read holds its valve. */
export type Stages = ReadonlyMap<string, Stage>;

export function stagesOf(events: readonly JobEvent[]): Stages {
  const byJob = logsByJob(events);
  return new Map(
    [...byJob].map(([job, of]): [string, Stage] => {
      try {
        return [job, foldJob(of).stage];
      } catch {
        return [job, "draft"];
      }
    }),
  );
}

/** The latest job for which something can be said, and that. */
export function lastSaid<T>(
  { jobs }: Pick<Library, "jobs">,
  own: string,
  say: (job: Job) => T | undefined,
): { readonly job: Job; readonly said: T } | undefined {
  let last: { readonly job: Job; readonly said: T } | undefined;
  for (const job of jobs) {
    if (job.id === own || (last && last.job.day >= job.day)) continue;
    const said = say(job);
    if (said !== undefined) last = { job, said };
  }
  return last;
}

/** Where a job stands, as the planner knows it: its well and day. */
export function jobName(job: Job, { wells }: Pick<Library, "wells">): string {
  const well = wells.find(({ id }) => id === job.well)?.name ?? "a well that is not here";
  return `the job on ${well} of ${job.day}`;
}

const valvesOf = ({ replacement, also = [] }: Job): (string | undefined)[] => [
  replacement,
  ...also.map((each) => each.replacement),
];

/**
 * Valves that another job takes, with the job. One that went in by an approved job is taken until its record says that
 * something befell it since.
 */
export function takenValves(library: Library, stages: Stages, own: string): Map<string, Job> {
  const taken = new Map<string, Job>();
  const records = new Map(library.valves.map((valve) => [valve.id, valve]));
  for (const job of library.jobs) {
    if (job.id === own) continue;
    const isOver = stages.get(job.id) === "approved";
    for (const id of valvesOf(job)) {
      if (id === undefined) continue;
      const since = records.get(id)?.history?.some(({ day }) => day > job.day) ?? false;
      if (!isOver || !since) taken.set(id, job);
    }
  }
  return taken;
}
