import canonicalize from "canonicalize";
import { addDays, differenceInCalendarDays, format, parseISO } from "date-fns";
import type { JobEvent } from "../log/event.ts";
import { picturesOf } from "../log/pictures.ts";
import { type Library, type RecordKind, type RecordTypes, recordKinds } from "../store/library.ts";
import type { Picture } from "../store/picture.ts";
import type { Arrival, Store } from "../store/store.ts";
import type { Carried, Pack, PackContent } from "./pack.ts";
import { unpack } from "./packedPictures.ts";

/** A record of a pack, named for a person. */
export interface Named {
  readonly kind: RecordKind;
  readonly id: string;
  readonly name: string;
}

/** What importing a pack would do, known before anything is written. */
export interface Preview {
  readonly fresh: readonly Named[];
  readonly same: readonly Named[];
  /** here and in the pack, and not alike */
  readonly different: readonly Named[];
  readonly newEvents: number;
  /** pictures that come with the logs */
  readonly pictures: number;
  /** pictures that the logs name and the pack does not carry */
  readonly missingPictures: number;
}

/** What to do where a record is here and in the pack, and not alike. */
export type Preference = "keep mine" | "take theirs";

type AnyRecord = RecordTypes[RecordKind];

function nameOf(kind: RecordKind, record: AnyRecord): string {
  if ("name" in record) return record.name;
  if ("serial" in record) return `valve ${record.serial}`;
  return `${kind.slice(0, -1)} ${record.id}`;
}

/** Alike but for the revision count. */
function alike(a: AnyRecord, b: AnyRecord): boolean {
  return canonicalize({ ...a, revision: 0 }) === canonicalize({ ...b, revision: 0 });
}

export function previewPack(
  { content }: Pack,
  library: Library,
  events: readonly JobEvent[],
): Preview {
  const fresh: Named[] = [];
  const same: Named[] = [];
  const different: Named[] = [];
  for (const kind of recordKinds) {
    const mine = new Map<string, AnyRecord>(library[kind].map((record) => [record.id, record]));
    for (const record of content.records[kind] as readonly AnyRecord[]) {
      const known = mine.get(record.id);
      const list = !known ? fresh : alike(known, record) ? same : different;
      list.push({ kind, id: record.id, name: nameOf(kind, record) });
    }
  }
  const known = new Set(events.map((event) => event.hash));
  const carried = new Set(content.pictures.map(({ sha256 }) => sha256));
  const named = [...picturesOf(content.events)];
  return {
    fresh,
    same,
    different,
    newEvents: content.events.filter((event) => !known.has(event.hash)).length,
    pictures: carried.size,
    missingPictures: named.filter((sha256) => !carried.has(sha256)).length,
  };
}

/** What is written for a pack: what is new here, and of what differs what the person chose. */
export function arrivalOf(
  { content }: Pack,
  preview: Preview,
  library: Library,
  preference: Preference,
): Arrival {
  const wanted = new Set(
    [...preview.fresh, ...(preference === "take theirs" ? preview.different : [])].map(
      ({ kind, id }) => `${kind} ${id}`,
    ),
  );
  const records: { [K in RecordKind]?: AnyRecord[] } = {};
  for (const kind of recordKinds) {
    records[kind] = (content.records[kind] as readonly AnyRecord[])
      .filter((record) => wanted.has(`${kind} ${record.id}`))
      .map((record) => {
        const mine = library[kind].find((each) => each.id === record.id);
        // Counts on from what was here, so that an open editor of the old one notices.
        return mine
          ? { ...record, revision: Math.max(mine.revision, record.revision) + 1 }
          : record;
      });
  }
  return {
    records: records as Arrival["records"],
    events: content.events,
    pictures: content.pictures.map(unpack),
  };
}

/**
 * Moves the days of jobs that have not been started so that a pack made on one day can be shown on
 * another. For the demonstration only: its jobs are always for today and tomorrow.
 */
export function redate(content: PackContent, madeOn: string, today: string): PackContent {
  const started = new Set(
    content.events.filter((event) => event.body.type === "run started").map((event) => event.job),
  );
  const shift = differenceInCalendarDays(parseISO(today), parseISO(madeOn));
  const jobs = content.records.jobs.map((job) =>
    started.has(job.id)
      ? job
      : { ...job, day: format(addDays(parseISO(job.day), shift), "yyyy-MM-dd") },
  );
  return { ...content, records: { ...content.records, jobs } };
}

/** Everything that one job needs on another tablet, but for the pictures of its log. */
export function contentForJob(
  job: RecordTypes["jobs"],
  library: Library,
  events: readonly JobEvent[],
): Carried {
  const well = library.wells.find((each) => each.id === job.well);
  const valves = new Set([
    job.replacement,
    ...(job.also ?? []).map((each) => each.replacement),
    ...(well?.mandrels.map((each) => each.valve) ?? []),
  ]);
  const strings = new Set<string | undefined>(Object.values(job.strings));
  return {
    records: {
      wells: well ? [well] : [],
      valves: library.valves.filter((each) => valves.has(each.id)),
      tools: [],
      strings: library.strings.filter((each) => strings.has(each.id)),
      lines: library.lines.filter((each) => each.id === job.line),
      stacks: library.stacks.filter((each) => each.id === job.stack),
      policies: library.policies.filter((each) => each.id === job.policy),
      jobs: [job],
      days: [],
    },
    events: [...events],
  };
}

/** The pictures that events name, as far as they are here. */
export async function picturesFor(
  store: Pick<Store, "picture">,
  events: readonly JobEvent[],
): Promise<Picture[]> {
  const found = await Promise.all([...picturesOf(events)].map((sha256) => store.picture(sha256)));
  return found.filter((picture) => picture !== undefined);
}
