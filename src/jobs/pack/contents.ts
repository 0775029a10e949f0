import type { JobEvent } from "../log/event.ts";
import { picturesOf } from "../log/pictures.ts";
import type { Job } from "../records/job.ts";
import type { Library, RecordKind, RecordTypes } from "../store/library.ts";
import { namedByJob } from "../store/narrowed.ts";
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
  const names = jobs.map(namedByJob);
  const pick = <K extends RecordKind>(
    kind: K,
    further: readonly (string | undefined)[] = [],
  ): RecordTypes[K][] => {
    const named = new Set([...names.flatMap((each) => each[kind] ?? []), ...further]);
    return library[kind].filter(({ id }) => named.has(id));
  };
  const wells = pick("wells");
  const strings = pick("strings");
  return {
    records: {
      wells,
      valves: pick(
        "valves",
        wells.flatMap(({ mandrels }) => mandrels.map(({ valve }) => valve)),
      ),
      // A tool of the office keeps its id in the strings it is put into.
      tools: pick(
        "tools",
        strings.flatMap((string) => string.tools.map(({ id }) => id)),
      ),
      strings,
      lines: pick("lines"),
      stacks: pick("stacks"),
      policies: pick("policies"),
      jobs: [...jobs],
      days: [],
      investigations: library.investigations.filter(
        ({ agreed }) => agreed?.job !== undefined && ids.has(agreed.job),
      ),
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
