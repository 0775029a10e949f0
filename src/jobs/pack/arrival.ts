import canonicalize from "canonicalize";
import { addDays, differenceInCalendarDays, format, parseISO } from "date-fns";
import { placesOf, pocketInWords } from "../library/places.ts";
import type { JobEvent } from "../log/event.ts";
import { picturesOf } from "../log/pictures.ts";
import { plainSerial, plainWell } from "../serial.ts";
import { type Library, type RecordKind, type RecordTypes, recordKinds } from "../store/library.ts";
import type { Arrival } from "../store/store.ts";
import { differencesOf, type FieldDifference } from "./differences.ts";
import { type JoinedLog, joinLogs } from "./joinedLogs.ts";
import type { Pack, PackContent } from "./pack.ts";
import { unpack } from "./packedPictures.ts";
import { type AnyRecord, nameOf, namesIn } from "./recordNames.ts";

/** A record of a pack, named for a person. */
export interface Named {
  readonly kind: RecordKind;
  readonly id: string;
  readonly name: string;
}

/** A record that is here and in the pack, and not alike. */
export interface Differing extends Named {
  readonly fields: readonly FieldDifference[];
  /** revisions */
  readonly mine: number;
  readonly theirs: number;
}

/** One thing under two ids: both stand in the library when the pack is imported. */
export interface Twofold extends Named {
  /** the id under which it is here, or in the pack a second time */
  readonly also: string;
}

/** What importing a pack would do, known before anything is written. */
export interface Preview {
  readonly fresh: readonly Named[];
  readonly same: readonly Named[];
  readonly different: readonly Differing[];
  readonly twofold: readonly Twofold[];
  /** valves that the pack's wells have in another pocket than the wells here */
  readonly inTwoPockets: readonly { readonly valve: string; readonly pockets: readonly string[] }[];
  readonly newEvents: number;
  /** job by job */
  readonly logs: readonly (JoinedLog & { readonly name: string })[];
  /** why the logs cannot be joined: nothing can be imported then */
  readonly clashes: readonly string[];
  /** pictures that come with the logs */
  readonly pictures: number;
  /** pictures that the logs name and the pack does not carry */
  readonly missingPictures: number;
}

/** What to do where a record is here and in the pack, and not alike. */
export type Preference = "keep mine" | "take theirs";

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
  const different: Differing[] = [];
  const names = namesIn(library, content.records as Library);
  for (const kind of recordKinds) {
    const mine = new Map<string, AnyRecord>(library[kind].map((record) => [record.id, record]));
    for (const record of content.records[kind] as readonly AnyRecord[]) {
      const known = mine.get(record.id);
      const named = { kind, id: record.id, name: nameOf(kind, record, names) };
      if (!known) fresh.push(named);
      else if (alike(known, record)) same.push(named);
      else {
        const fields = differencesOf(known, record, (id) => names.get(id));
        different.push({ ...named, fields, mine: known.revision, theirs: record.revision });
      }
    }
  }
  const { logs, clashes } = joinLogs(content.events, events);
  const carried = new Set(content.pictures.map(({ sha256 }) => sha256));
  const wanted = [...picturesOf(content.events)];
  return {
    fresh,
    same,
    different,
    twofold: twofoldOf(content, library),
    inTwoPockets: inTwoPockets(content, library, (id) => names.get(id) ?? `valve ${id}`),
    newEvents: logs.reduce((sum, log) => sum + log.newEvents, 0),
    logs: logs.map((log) => ({ ...log, name: names.get(log.job) ?? log.job })),
    clashes,
    pictures: carried.size,
    missingPictures: wanted.filter((sha256) => !carried.has(sha256)).length,
  };
}

/** By what a thing is told from others of its kind, whatever its record's id. */
const marks = {
  wells: ({ name, field }: RecordTypes["wells"]) => `${plainSerial(field)} ${plainWell(name)}`,
  valves: ({ serial }: RecordTypes["valves"]) => plainSerial(serial),
  tools: ({ serial }: RecordTypes["tools"]) => plainSerial(serial),
};

/** What two sides made a record of without knowing of each other. */
function twofoldOf({ records }: PackContent, library: Library): Twofold[] {
  return (Object.keys(marks) as (keyof typeof marks)[]).flatMap((kind) => {
    const mark = marks[kind] as (record: AnyRecord) => string;
    const known = new Map<string, string>();
    for (const each of library[kind]) known.set(mark(each), each.id);
    const mine = new Set<string>(library[kind].map(({ id }) => id));
    return (records[kind] as readonly AnyRecord[]).flatMap((record) => {
      const also = known.get(mark(record));
      known.set(mark(record), also ?? record.id);
      // What is here under both ids already is not the pack's doing.
      if (also === undefined || also === record.id || mine.has(record.id)) return [];
      return [{ kind, id: record.id, name: nameOf(kind, record, new Map()), also }];
    });
  });
}

/** Valves for which the wells here and the pack's together name more than one pocket, and the wells here did not. */
function inTwoPockets({ records }: PackContent, library: Library, called: (id: string) => string) {
  const here = placesOf(library.wells);
  return [...placesOf([...library.wells, ...records.wells])].flatMap(([id, both]) => {
    const pockets = new Map(
      both.map(({ well, wellName, mandrel, number }) => [
        `${well} ${mandrel}`,
        pocketInWords(wellName, number),
      ]),
    );
    const known = here.get(id)?.length ?? 0;
    return pockets.size > 1 && pockets.size > known
      ? [{ valve: called(id), pockets: [...pockets.values()] }]
      : [];
  });
}

/** What is written for a pack: what is new here, and of what differs what the person chose. */
export function arrivalOf(
  { content }: Pack,
  preview: Preview,
  library: Library,
  choice: Preference | ((of: Named) => Preference),
): Arrival {
  const prefer = typeof choice === "function" ? choice : () => choice;
  const taken = preview.different.filter((each) => prefer(each) === "take theirs");
  const wanted = new Set([...preview.fresh, ...taken].map(({ kind, id }) => `${kind} ${id}`));
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
