import canonicalize from "canonicalize";
import { Dexie, type Table } from "dexie";
import { inOrder } from "../log/order.ts";
import { picturesOf } from "../log/pictures.ts";
import { headOf, seal } from "../log/seal.ts";
import { Connection, type Opening } from "./connection.ts";
import type { Database } from "./database.ts";
import { emptyLibrary, type Library, recordKinds } from "./library.ts";
import { narrowed } from "./narrowed.ts";
import { type Picture, pictureProblem } from "./picture.ts";
import {
  BadPicture,
  Conflict,
  type HalfTyped,
  MOST_COPIES,
  Moved,
  Outdated,
  type Store,
} from "./store.ts";

/** ms for an arrival or a removal: a whole tablet with its pictures may be in it. */
const MUCH = 180_000;

/**
 * Opens the store of this browser.
 *
 * @param name of the database, for tests that want one of their own
 * @throws StoreFailed when the browser keeps nothing (private window, storage full), or when a newer Latchline has
 *         changed the store
 */
export async function openDexieStore(name = "latchline", opening: Opening = {}): Promise<Store> {
  const connection = await Connection.open(name, opening);
  const { device } = connection;
  /** What was typed last into each step: a put that is done again after a later key writes the later text. */
  const typedLast = new Map<string, HalfTyped>();
  /** What was read last of each step: it was on this window's screen when that step is recorded. */
  const readLast = new Map<string, HalfTyped>();
  const place = ({ job, step }: { job: string; step: string }) => `${job} ${step}`;
  const isMine = (kept: HalfTyped) =>
    kept.window === undefined ||
    kept.window === typedLast.get(place(kept))?.window ||
    alike(kept, readLast.get(place(kept)) ?? {});

  return {
    device,

    append: async (drafts, options = {}) => {
      const { recorded, seen, pictures = [] } = options;
      const [first] = drafts;
      if (!first) return [];
      pictures.forEach(refuseBad);
      const events = await connection.run((db) =>
        db.transaction("rw", db.events, db.halfTyped, db.pictures, async () => {
          const before = await ofJob(db, first.job);
          const ids = new Set(drafts.map((draft) => draft.id));
          const written = before.filter((event) => ids.has(event.id));
          // Written already by an attempt whose answer was lost: nothing is written twice.
          if (written.length === drafts.length) return written;
          if (seen !== undefined && before.length !== seen) throw new Moved("the log has grown");
          const sealed = seal(drafts, device, headOf(before, device));
          await db.events.bulkAdd(sealed);
          if (pictures.length > 0) await db.pictures.bulkPut([...pictures]);
          if (recorded) {
            const kept = await db.halfTyped.get([recorded.job, recorded.step]);
            if (kept && isMine(kept)) await db.halfTyped.delete([recorded.job, recorded.step]);
          }
          return sealed;
        }),
      );
      if (recorded) {
        typedLast.delete(place(recorded));
        readLast.delete(place(recorded));
      }
      return events;
    },

    eventsOf: (job) => connection.run((db) => ofJob(db, job).then(inOrder)),
    allEvents: () => connection.run((db) => db.events.toArray()),
    isEmpty: () =>
      connection.run(async (db) => {
        const counts = [await db.events.count(), await db.table("jobs").count()];
        return counts.every((count) => count === 0);
      }),
    picture: (sha256) => connection.run((db) => db.pictures.get(sha256)),
    lacking: async (pictures) => {
      const here = new Set(
        await connection.run((db) => db.pictures.where("sha256").anyOf(pictures).primaryKeys()),
      );
      return pictures.filter((each) => !here.has(each));
    },

    library: () =>
      connection.run((db) => db.transaction("r", recordTables(db), () => wholeLibrary(db))),

    recordsFor: (wanted) =>
      connection.run((db) =>
        db.transaction("r", recordTables(db), () =>
          narrowed(
            {
              read: (kind, ids) =>
                ids
                  ? db
                      .table(kind)
                      .bulkGet([...new Set(ids)].sort())
                      .then((found) => found.filter(Boolean))
                  : db.table(kind).toArray(),
              investigationsOf: (wells) =>
                db
                  .records("investigations")
                  .where("well")
                  .anyOf([...wells])
                  .sortBy("id"),
            },
            wanted,
          ),
        ),
      ),

    page: (kind, after, count) =>
      connection.run((db) => db.table(kind).where(":id").above(after).limit(count).toArray()),

    onRecords: (listener) => {
      const told = (changed: object) => {
        // As Dexie names what was changed in a table.
        for (const kind of recordKinds) if (`idb://${name}/${kind}/` in changed) listener(kind);
      };
      Dexie.on("storagemutated", told);
      return () => Dexie.on.storagemutated.unsubscribe(told);
    },

    put: (kind, record) =>
      connection.run((db) =>
        db.transaction("rw", db.table(kind), async () => {
          const known = await recordIn(db.table(kind), record.id);
          if (known && alike(known, record)) return;
          if (known && known.revision !== record.revision - 1) {
            throw new Outdated(
              "Somebody changed this record in the meantime (another tab?). Your entries are still here; reload to see theirs.",
            );
          }
          await db.table(kind).put(record);
        }),
      ),

    receive: async ({ records, events, pictures = [], copy }) => {
      pictures.forEach(refuseBad);
      await connection.run(
        (db) =>
          db.transaction("rw", everything(db), async () => {
            if (copy) await putAside(db, copy);
            for (const kind of recordKinds) {
              await putRecords(db.table(kind), records[kind] ?? []);
            }
            for (const event of events) {
              const at = [event.job, event.device, event.sequence];
              const taken = await db.events.where("[job+device+sequence]").equals(at).first();
              if (taken && taken.hash !== event.hash) {
                throw new Conflict(`event ${event.sequence} of job ${event.job}`);
              }
              if (!taken) await db.events.add(event);
            }
            await db.pictures.bulkPut([...pictures]);
          }),
        MUCH,
      );
    },

    remove: (records) =>
      connection.run(
        (db) =>
          db.transaction("rw", everything(db), async () => {
            for (const kind of recordKinds) {
              const leaving = records[kind];
              if (leaving) await db.table(kind).bulkDelete([...leaving]);
            }
            const jobs = [...(records.jobs ?? [])];
            const logs = db.events.where("job").anyOf(jobs);
            const named = picturesOf(await logs.toArray());
            await logs.delete();
            if (named.size > 0) {
              const kept = picturesOf(await db.events.toArray());
              await db.pictures.bulkDelete([...named].filter((picture) => !kept.has(picture)));
            }
            await db.exported.bulkDelete(jobs);
            for (const job of jobs) {
              await db.halfTyped
                .where("[job+step]")
                .between([job, Dexie.minKey], [job, Dexie.maxKey])
                .delete();
            }
          }),
        MUCH,
      ),

    halfTyped: async (job, step) => {
      const kept = await connection.run((db) => db.halfTyped.get([job, step]));
      if (kept) readLast.set(place(kept), kept);
      return kept;
    },
    keepHalfTyped: async (typed) => {
      typedLast.set(place(typed), typed);
      await connection.run((db) =>
        db.transaction("rw", db.halfTyped, async () => {
          const last = typedLast.get(place(typed));
          if (!last) return;
          const kept = await db.halfTyped.get([last.job, last.step]);
          // What one window has emptied does not take with it what another has typed there since.
          const isEmptied = Object.keys(last.fields).length === 0;
          if (!isEmptied || !kept || isMine(kept)) await db.halfTyped.put(last);
        }),
      );
    },

    exported: () => connection.run((db) => db.exported.toArray()),
    markExported: async (exported) => {
      await connection.run((db) => db.exported.bulkPut([...exported]));
    },
    copies: () => connection.run((db) => db.copies.reverse().toArray()),
    backupFile: async () => {
      const row = await connection.run((db) => db.device.get("backup file"));
      return row?.key === "backup file" ? row.file : undefined;
    },
    keepBackupFile: async (file) => {
      await connection.run((db) => db.device.put({ key: "backup file", file }));
    },

    standing: () => connection.standing(),
    onStanding: (listener) => connection.onStanding(listener),
    probe: () => connection.probe(),
  };
}

const ofJob = (db: Database, job: string) => db.events.where("job").equals(job).toArray();

const recordTables = (db: Database) => recordKinds.map((kind) => db.table(kind));

const everything = (db: Database) => [
  ...recordTables(db),
  db.events,
  db.pictures,
  db.halfTyped,
  db.exported,
  db.copies,
];

async function wholeLibrary(db: Database): Promise<Library> {
  const library: Record<string, unknown> = { ...emptyLibrary };
  for (const kind of recordKinds) library[kind] = await db.table(kind).toArray();
  return library as unknown as Library;
}

/** Copies what is here aside. Pictures stay where they are: an arrival takes none away. */
async function putAside(db: Database, copy: { made: string; why: string }): Promise<void> {
  const records = await wholeLibrary(db);
  const events = await db.events.toArray();
  if (events.length === 0 && Object.values(records).every((kind) => kind.length === 0)) return;
  await db.copies.put({ ...copy, records, events });
  const old = await db.copies.reverse().offset(MOST_COPIES).primaryKeys();
  await db.copies.bulkDelete(old);
}

/** The record that is kept under an id. */
async function recordIn(table: Table, id: string): Promise<{ revision: number } | undefined> {
  return (await table.get(id)) as { revision: number } | undefined;
}

/** Keeps an arrival's records of one kind, in two requests: a table of an office has tens of thousands. */
async function putRecords(
  table: Table,
  records: readonly { readonly id: string; readonly revision: number }[],
): Promise<void> {
  const here = (await table.bulkGet(records.map(({ id }) => id))) as typeof records;
  const changed = records.filter((record, index) => {
    const known = here[index];
    if (known && alike(known, record)) return false;
    if (known && known.revision >= record.revision) {
      throw new Outdated(`${table.name} ${record.id} was changed in the meantime`);
    }
    return true;
  });
  await table.bulkPut(changed);
}

/** Written already, by an attempt whose answer was lost. */
const alike = (a: object, b: object) => canonicalize(a) === canonicalize(b);

function refuseBad(picture: Picture): void {
  const problem = pictureProblem(picture);
  if (problem) throw new BadPicture(`Picture ${picture.sha256.slice(0, 12)}: ${problem}.`);
}
