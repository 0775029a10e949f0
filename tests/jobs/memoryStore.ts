import type { JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder } from "../../src/jobs/log/order.ts";
import { picturesOf } from "../../src/jobs/log/pictures.ts";
import { headOf, seal } from "../../src/jobs/log/seal.ts";
import type { Investigation } from "../../src/jobs/records/investigation.ts";
import { type Library, type RecordKind, recordKinds } from "../../src/jobs/store/library.ts";
import { narrowed } from "../../src/jobs/store/narrowed.ts";
import { type Picture, pictureProblem } from "../../src/jobs/store/picture.ts";
import {
  BadPicture,
  Conflict,
  type Copy,
  type Exported,
  type HalfTyped,
  MOST_COPIES,
  Moved,
  Outdated,
  type Store,
} from "../../src/jobs/store/store.ts";

/** A store in memory: the second implementation of the port, and as strict as the first. */
export function memoryStore(device = crypto.randomUUID()): Store {
  const tables = new Map(
    recordKinds.map((kind) => [kind, new Map<string, { id: string; revision: number }>()]),
  );
  const events = new Map<string, JobEvent>();
  const typed = new Map<string, HalfTyped>();
  const pictures = new Map<string, Picture>();
  const exported = new Map<string, Exported>();
  let copies: Copy[] = [];
  const listeners = new Set<(kind: RecordKind) => void>();
  const tell = (kinds: readonly string[]) => {
    for (const listener of listeners) for (const kind of kinds) listener(kind as RecordKind);
  };
  let backupFile: unknown;
  const table = (kind: RecordKind) => {
    const found = tables.get(kind);
    if (!found) throw new Error(kind);
    return found;
  };
  const inIdOrder = (kind: RecordKind) =>
    [...table(kind).values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  const library = () =>
    Object.fromEntries(
      recordKinds.map((kind) => [kind, [...table(kind).values()]]),
    ) as unknown as Library;
  const refuseBad = (picture: Picture) => {
    const problem = pictureProblem(picture);
    if (problem) throw new BadPicture(`Picture ${picture.sha256.slice(0, 12)}: ${problem}.`);
  };
  const alike = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);
  const ofJob = (job: string) => [...events.values()].filter((event) => event.job === job);
  return {
    device,
    async append(drafts, options = {}) {
      const [first] = drafts;
      if (!first) return [];
      options.pictures?.forEach(refuseBad);
      const before = ofJob(first.job);
      const written = before.filter((event) => drafts.some((draft) => draft.id === event.id));
      if (written.length === drafts.length) return written;
      if (options.seen !== undefined && options.seen !== before.length) throw new Moved("grown");
      const sealed = seal(drafts, device, headOf(before, device));
      for (const { id } of sealed) {
        if ([...events.values()].some((event) => event.id === id)) throw new Error(`${id} twice`);
      }
      for (const event of sealed) events.set(event.hash, event);
      for (const each of options.pictures ?? []) pictures.set(each.sha256, each);
      if (options.recorded) typed.delete(`${options.recorded.job} ${options.recorded.step}`);
      return sealed;
    },
    eventsOf: async (job) => inOrder(ofJob(job)),
    allEvents: async () => [...events.values()],
    isEmpty: async () => events.size === 0 && table("jobs").size === 0,
    picture: async (sha256) => pictures.get(sha256),
    lacking: async (of) => of.filter((each) => !pictures.has(each)),
    library: async () => library(),
    recordsFor: (wanted) =>
      narrowed(
        {
          read: async (kind, ids) =>
            inIdOrder(kind).filter(({ id }) => !ids || ids.includes(id)) as never,
          investigationsOf: async (wells) =>
            (inIdOrder("investigations") as unknown as Investigation[]).filter(({ well }) =>
              wells.includes(well),
            ),
        },
        wanted,
      ),
    page: async (kind, after, count) =>
      [...table(kind).values()]
        .filter(({ id }) => id > after)
        .sort((a, b) => (a.id < b.id ? -1 : 1))
        .slice(0, count) as never,
    onRecords: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async put(kind, record) {
      const known = table(kind).get(record.id);
      if (known && alike(known, record)) return;
      if (known && known.revision !== record.revision - 1) throw new Outdated("changed meanwhile");
      table(kind).set(record.id, record);
      tell([kind]);
    },
    async receive(arrival) {
      arrival.pictures?.forEach(refuseBad);
      for (const kind of recordKinds) {
        for (const record of arrival.records[kind] ?? []) {
          const known = table(kind).get(record.id);
          if (!known || alike(known, record)) continue;
          if (known.revision >= record.revision) throw new Outdated(`${kind} ${record.id}`);
        }
      }
      for (const event of arrival.events) {
        const place = (each: JobEvent) => `${each.job} ${each.device} ${each.sequence}`;
        const taken = [...events.values()].find((each) => place(each) === place(event));
        if (taken && taken.hash !== event.hash) throw new Conflict(place(event));
      }
      const isEmpty = events.size === 0 && Object.values(library()).flat().length === 0;
      if (arrival.copy && !isEmpty) {
        const copy = { ...arrival.copy, records: library(), events: [...events.values()] };
        copies = [copy, ...copies].slice(0, MOST_COPIES);
      }
      for (const kind of recordKinds) {
        for (const record of arrival.records[kind] ?? []) table(kind).set(record.id, record);
      }
      for (const event of arrival.events) events.set(event.hash, event);
      for (const each of arrival.pictures ?? []) pictures.set(each.sha256, each);
      tell(Object.keys(arrival.records));
    },
    async remove(records) {
      for (const kind of recordKinds) {
        for (const id of records[kind] ?? []) table(kind).delete(id);
      }
      for (const event of [...events.values()]) {
        if (records.jobs?.includes(event.job)) events.delete(event.hash);
      }
      const kept = picturesOf([...events.values()]);
      for (const sha256 of pictures.keys()) if (!kept.has(sha256)) pictures.delete(sha256);
      for (const [key, each] of typed) if (records.jobs?.includes(each.job)) typed.delete(key);
      for (const job of records.jobs ?? []) exported.delete(job);
      tell(Object.keys(records));
    },
    halfTyped: async (job, step) => typed.get(`${job} ${step}`),
    async keepHalfTyped(given) {
      typed.set(`${given.job} ${given.step}`, given);
    },
    exported: async () => [...exported.values()],
    async markExported(given) {
      for (const each of given) exported.set(each.job, each);
    },
    copies: async () => copies,
    backupFile: async () => backupFile,
    async keepBackupFile(file) {
      backupFile = file;
    },
    standing: () => ({ is: "open", handles: 1 }),
    onStanding: () => () => {},
    probe: async () => {},
  };
}
