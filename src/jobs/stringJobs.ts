import type { JobEvent } from "./log/event.ts";
import type { ToolString } from "./records/equipment.ts";
import type { Job } from "./records/job.ts";
import type { Programme } from "./records/programme.ts";
import { foldJob, type JobState } from "./state/jobState.ts";
import type { Library } from "./store/library.ts";

/** How the jobs stand that a string is used in: what is changed of it does not reach every one of them. */

/** A job with its log, as far as it can be read. */
interface Standing {
  readonly job: Job;
  readonly state: JobState;
}

export function standingsOf(
  string: ToolString,
  { jobs }: Library,
  events: readonly JobEvent[],
): Standing[] {
  return jobs.flatMap((job) => {
    try {
      const state = foldJob(events.filter((event) => event.job === job.id));
      const strings = state.programme?.strings ?? {};
      const isUsed =
        Object.values(job.strings).includes(string.id) ||
        Object.values(strings).some((each) => each?.id === string.id);
      return isUsed ? [{ job, state }] : [];
    } catch {
      // A log that cannot be read says so on its own screens.
      return [];
    }
  });
}

/** Whether nothing goes into the hole for the job any more. */
export const isOver = ({ state: { stage } }: Standing): boolean =>
  stage === "closed" || stage === "approved";

/** Which jobs keep the string as it was when they were issued, in words. */
export function keepsOld(string: ToolString, standings: readonly Standing[]): string[] {
  return standings.flatMap(({ job, state }) => {
    const { programme, stage, revision } = state;
    const isIn = Object.values(programme?.strings ?? {}).some((each) => each?.id === string.id);
    if (!isIn) return [];
    const well = programme?.well?.name ?? job.well;
    if (stage === "issued") {
      return [
        `${well} is issued as revision ${revision} and keeps the old string until the planner issues again.`,
      ];
    }
    return stage === "running" || stage === "sent back"
      ? [`${well} runs on revision ${revision} and keeps the string as it was issued.`]
      : [];
  });
}

/** The tools of an issued string are no longer those on its record. Photographs are: they are taken at rig up. */
export function changedSinceIssue(issued: ToolString, { strings }: Library): boolean {
  const record = strings.find(({ id }) => id === issued.id);
  return record !== undefined && JSON.stringify(record.tools) !== JSON.stringify(issued.tools);
}

/** The job with another string in the place of one, or in that of its purpose. */
export function withString(job: Job, string: ToolString, inPlaceOf: string): Job {
  const taken = Object.entries(job.strings).filter(([, id]) => id === inPlaceOf);
  const places = taken.length > 0 ? taken.map(([place]) => place) : [string.purpose];
  return {
    ...job,
    revision: job.revision + 1,
    strings: { ...job.strings, ...Object.fromEntries(places.map((place) => [place, string.id])) },
  };
}

/** Another string with the same tools, for one job. */
export function copyFor(
  string: ToolString,
  { well }: Pick<Programme, "well">,
  id: string,
): ToolString {
  const { photographs: _, ...rest } = string;
  return { ...rest, id, revision: 1, name: `${string.name}, ${well?.name ?? "another well"}` };
}
