import type { JobEvent } from "../log/event.ts";
import { picturesOf } from "../log/pictures.ts";
import type { Job } from "../records/job.ts";
import type { Library } from "../store/library.ts";
import type { Picture } from "../store/picture.ts";
import type { Store } from "../store/store.ts";
import type { Carried } from "./pack.ts";

/** Everything that jobs need on another tablet, but for the pictures of their logs. */
export function contentForJobs(
  jobs: readonly Job[],
  library: Library,
  events: readonly JobEvent[],
): Carried {
  const ids = new Set(jobs.map(({ id }) => id));
  const named = (...names: (string | undefined)[]) => new Set(names);
  const wanted = named(...jobs.map(({ well }) => well));
  const wells = library.wells.filter(({ id }) => wanted.has(id));
  const valves = named(
    ...jobs.flatMap((job) => [
      job.replacement,
      ...(job.also ?? []).map((each) => each.replacement),
    ]),
    ...wells.flatMap((well) => well.mandrels.map(({ valve }) => valve)),
  );
  const stringIds = named(...jobs.flatMap((job) => Object.values(job.strings)));
  const strings = library.strings.filter(({ id }) => stringIds.has(id));
  // A tool of the office keeps its id in the strings it is put into.
  const tools = named(...strings.flatMap((string) => string.tools.map(({ id }) => id)));
  const lines = named(...jobs.map(({ line }) => line));
  const stacks = named(...jobs.map(({ stack }) => stack));
  const policies = named(...jobs.map(({ policy }) => policy));
  return {
    records: {
      wells,
      valves: library.valves.filter(({ id }) => valves.has(id)),
      tools: library.tools.filter(({ id }) => tools.has(id)),
      strings,
      lines: library.lines.filter(({ id }) => lines.has(id)),
      stacks: library.stacks.filter(({ id }) => stacks.has(id)),
      policies: library.policies.filter(({ id }) => policies.has(id)),
      jobs: [...jobs],
      days: [],
    },
    events: events.filter(({ job }) => ids.has(job)),
  };
}

/** All the jobs of a day with everything they need, and the day's own record. */
export function contentForDay(day: string, library: Library, events: readonly JobEvent[]): Carried {
  const jobs = library.jobs.filter((job) => job.day === day);
  const content = contentForJobs(jobs, library, events);
  const days = library.days.filter(({ id }) => id === day);
  return { ...content, records: { ...content.records, days } };
}

/** The pictures that events name, as far as they are here. */
export async function picturesFor(
  store: Pick<Store, "picture">,
  events: readonly JobEvent[],
): Promise<Picture[]> {
  const found = await Promise.all([...picturesOf(events)].map((sha256) => store.picture(sha256)));
  return found.filter((picture) => picture !== undefined);
}
