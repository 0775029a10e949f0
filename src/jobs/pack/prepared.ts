import { headsOf } from "../log/heads.ts";
import type { Exported, Store } from "../store/store.ts";
import { contentForDay, contentForJobs, picturesFor } from "./contents.ts";
import { dayPackName, jobPackName } from "./fileNames.ts";
import { makePack, packText } from "./pack.ts";

/** What a pack is made of: one job, or all the jobs of a day. */
export type PackOf = { readonly job: string } | { readonly day: string };

/** A pack that is made and has not left yet. */
export interface Prepared {
  /** of the file */
  readonly name: string;
  readonly text: string;
  readonly day: string;
  /** how many jobs of that day there are on this tablet */
  readonly jobsOfDay: number;
  readonly jobs: number;
  readonly records: number;
  readonly events: number;
  /** of the logs, and of the strings */
  readonly pictures: number;
  /** how far every job's log goes in it */
  readonly exported: readonly Exported[];
}

/**
 * Makes the pack of a job or of a day from what is in the store.
 *
 * @param at instant
 * @throws Error when there is nothing to make it of, or it would be larger than a tablet can read again
 */
export async function preparePack(store: Store, of: PackOf, at: string): Promise<Prepared> {
  const library = await store.recordsFor({ jobs: "all", whole: ["tools", "days"] });
  const isOfDay = "day" in of;
  const jobs = library.jobs.filter((job) => (isOfDay ? job.day === of.day : job.id === of.job));
  const [first] = jobs;
  if (!first) {
    throw new Error(
      isOfDay
        ? `there is no job on ${of.day} on this tablet`
        : "the job is not on this tablet any more",
    );
  }
  const { investigations } = await store.recordsFor({
    investigationsOf: [...new Set(jobs.map(({ well }) => well))],
  });
  const held = { ...library, investigations };
  const logs = (await Promise.all(jobs.map(({ id }) => store.eventsOf(id)))).flat();
  const content = isOfDay ? contentForDay(of.day, held, logs) : contentForJobs(jobs, held, logs);
  const pictures = await picturesFor(store, logs);
  const { records } = content;
  const well = records.wells[0]?.name ?? first.id;
  return {
    name: isOfDay ? dayPackName(of.day) : jobPackName(well, first.day),
    text: packText(makePack({ ...content, pictures }, at)),
    day: first.day,
    jobsOfDay: library.jobs.filter(({ day }) => day === first.day).length,
    jobs: jobs.length,
    records: Object.values(records).flat().length,
    events: logs.length,
    pictures:
      pictures.length + records.strings.flatMap((string) => string.photographs ?? []).length,
    exported: jobs.map(({ id: job }) => ({
      job,
      at,
      heads: headsOf(logs.filter((event) => event.job === job)),
      by: "pack",
    })),
  };
}
