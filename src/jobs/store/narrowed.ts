import type { Investigation } from "../records/investigation.ts";
import type { Job } from "../records/job.ts";
import {
  emptyLibrary,
  type Library,
  type RecordKind,
  type RecordTypes,
  recordKinds,
} from "./library.ts";

/** Which records are wanted of a library of thousands. */
export interface Wanted {
  /** jobs by their ids, or all of them, with everything they name */
  readonly jobs?: readonly string[] | "all";
  /** wells by their ids, with the jobs on them and everything those name */
  readonly wells?: readonly string[];
  /** further records by their ids; a well brings the valves in its pockets */
  readonly records?: { readonly [K in Exclude<RecordKind, "jobs">]?: readonly string[] };
  /** kinds that are wanted whole: those of which there are few, and all of them where something is chosen among all */
  readonly whole?: readonly Exclude<RecordKind, "jobs">[];
  /** wells by their ids of which the investigations are wanted: one may hold days of two pens, so they come only here */
  readonly investigationsOf?: readonly string[];
}

type Names = { readonly [K in RecordKind]?: readonly (string | undefined)[] };

/** What a job names in the library, by kind; the valves in its well's pockets are named by the well. */
export const namedByJob = (job: Job): Names => ({
  wells: [job.well],
  valves: [job.replacement, ...(job.also ?? []).map(({ replacement }) => replacement)],
  strings: Object.values(job.strings),
  lines: [job.line],
  stacks: [job.stack],
  policies: [job.policy],
});

/** How records are read, those of a kind in the order of their ids, each once. */
export interface Reading {
  /** all of them without ids */
  read<K extends RecordKind>(
    kind: K,
    ids: readonly string[] | undefined,
  ): PromiseLike<RecordTypes[K][]>;
  investigationsOf(wells: readonly string[]): PromiseLike<Investigation[]>;
}

/** The part of a library that is wanted: as the whole one, with less in it. */
export async function narrowed(
  { read, investigationsOf }: Reading,
  { jobs = [], wells = [], records = {}, whole = [], investigationsOf: looked = [] }: Wanted,
): Promise<Library> {
  const asked = await read("jobs", jobs === "all" || wells.length > 0 ? undefined : jobs);
  const taken = asked.filter(
    ({ id, well }) => jobs === "all" || jobs.includes(id) || wells.includes(well),
  );
  const names: Names[] = [{ wells }, records, ...taken.map(namedByJob)];
  const found: Record<RecordKind, readonly unknown[]> = { ...emptyLibrary, jobs: taken };
  // Wells come first in the list of kinds: what they hold is read after them.
  for (const kind of recordKinds) {
    if (kind === "jobs") continue;
    const ids = names.flatMap((of) => of[kind] ?? []).filter((id) => id !== undefined);
    const isWhole = whole.includes(kind as never);
    if (isWhole || ids.length > 0) found[kind] = await read(kind, isWhole ? undefined : ids);
    if (kind === "wells") {
      const named = new Set(ids);
      for (const { id, mandrels } of found.wells as Library["wells"]) {
        if (named.has(id)) names.push({ valves: mandrels.map(({ valve }) => valve) });
      }
    }
  }
  if (looked.length > 0 && !whole.includes("investigations")) {
    const named = found.investigations as Library["investigations"];
    const ofWells = await investigationsOf(looked);
    const known = new Set(ofWells.map(({ id }) => id));
    found.investigations = [...ofWells, ...named.filter(({ id }) => !known.has(id))];
  }
  return found as unknown as Library;
}
