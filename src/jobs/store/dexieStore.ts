import { Dexie, type EntityTable, type Table } from "dexie";
import type { JobEvent } from "../log/event.ts";
import { inOrder } from "../log/order.ts";
import { headOf, seal } from "../log/seal.ts";
import {
  emptyLibrary,
  type Library,
  type RecordKind,
  type RecordTypes,
  recordKinds,
} from "./library.ts";
import {
  type Arrival,
  Conflict,
  type HalfTyped,
  Moved,
  Outdated,
  type Store,
  StoreFailed,
} from "./store.ts";

type RecordTables = { [K in RecordKind]: EntityTable<RecordTypes[K], "id"> };

/** The browser's database. Its versions only ever add. */
class Database extends Dexie {
  declare readonly events: Table<JobEvent, string>;
  declare readonly halfTyped: Table<HalfTyped, [string, string]>;
  declare readonly device: Table<{ key: "device"; id: string }, string>;

  constructor(name: string) {
    // Strict: the promise settles after the data is on the disk, not only with the operating system.
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({
      wells: "id",
      valves: "id",
      strings: "id",
      lines: "id",
      stacks: "id",
      policies: "id",
      jobs: "id",
      events: "hash, job, &id, &[job+device+sequence]",
      halfTyped: "[job+step]",
      device: "key",
    });
  }

  records<K extends RecordKind>(kind: K): RecordTables[K] {
    return this.table(kind) as unknown as RecordTables[K];
  }
}

/**
 * Opens the store of this browser.
 *
 * @param name of the database, for tests that want one of their own
 * @throws when the browser refuses to keep anything (private window, storage full)
 */
export async function openDexieStore(name = "latchline"): Promise<Store> {
  const db = new Database(name);
  await db.open();
  const device = await db.transaction("rw", db.device, async () => {
    const known = await db.device.get("device");
    if (known) return known.id;
    const id = crypto.randomUUID();
    await db.device.add({ key: "device", id });
    return id;
  });
  const everything = [...recordKinds.map((kind) => db.table(kind)), db.events, db.halfTyped];
  const ofJob = (job: string) => db.events.where("job").equals(job).toArray();

  /** The database's own complaints become the port's; the port's pass as they are. */
  const guarded = async <T>(work: () => PromiseLike<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      if (error instanceof Outdated || error instanceof Moved || error instanceof Conflict)
        throw error;
      throw new StoreFailed(error);
    }
  };

  return {
    device,

    append: (drafts, options = {}) =>
      guarded(async () => {
        const [first] = drafts;
        if (!first) return [];
        return db.transaction("rw", db.events, db.halfTyped, async () => {
          const before = await ofJob(first.job);
          const ids = new Set(drafts.map((draft) => draft.id));
          const written = before.filter((event) => ids.has(event.id));
          // Written already by an attempt whose answer was lost: nothing is written twice.
          if (written.length === drafts.length) return written;
          if (options.seen !== undefined && before.length !== options.seen) {
            throw new Moved("the log has grown");
          }
          const sealed = seal(drafts, device, headOf(before, device));
          await db.events.bulkAdd(sealed);
          const { recorded } = options;
          if (recorded) await db.halfTyped.delete([recorded.job, recorded.step]);
          return sealed;
        });
      }),

    eventsOf: (job) => guarded(async () => inOrder(await ofJob(job))),
    allEvents: () => guarded(() => db.events.toArray()),

    library: () =>
      guarded(() =>
        db.transaction(
          "r",
          recordKinds.map((kind) => db.table(kind)),
          async () => {
            const library: Record<string, unknown> = { ...emptyLibrary };
            for (const kind of recordKinds) library[kind] = await db.table(kind).toArray();
            return library as unknown as Library;
          },
        ),
      ),

    put: (kind, record) =>
      guarded(() =>
        db.transaction("rw", db.table(kind), async () => {
          const known = await revisionOf(db.table(kind), record.id);
          if (known !== undefined && known !== record.revision - 1) {
            throw new Outdated(
              "Somebody changed this record in the meantime (another tab?). Your entries are still here; reload to see theirs.",
            );
          }
          await db.table(kind).put(record);
        }),
      ),

    receive: ({ records, events }: Arrival) =>
      guarded(() =>
        db.transaction("rw", everything, async () => {
          for (const kind of recordKinds) {
            for (const record of records[kind] ?? []) {
              const known = await revisionOf(db.table(kind), record.id);
              if (known !== undefined && known >= record.revision) {
                throw new Outdated(`${kind} ${record.id} was changed in the meantime`);
              }
              await db.table(kind).put(record);
            }
          }
          for (const event of events) {
            const place = [event.job, event.device, event.sequence];
            const taken = await db.events.where("[job+device+sequence]").equals(place).first();
            if (taken && taken.hash !== event.hash) {
              throw new Conflict(`event ${event.sequence} of job ${event.job}`);
            }
            if (!taken) await db.events.add(event);
          }
        }),
      ),

    remove: (records) =>
      guarded(() =>
        db.transaction("rw", everything, async () => {
          for (const kind of recordKinds) {
            const leaving = records[kind];
            if (leaving) await db.table(kind).bulkDelete([...leaving]);
          }
          const jobs = [...(records.jobs ?? [])];
          await db.events.where("job").anyOf(jobs).delete();
          for (const job of jobs) {
            await db.halfTyped
              .where("[job+step]")
              .between([job, Dexie.minKey], [job, Dexie.maxKey])
              .delete();
          }
        }),
      ),

    halfTyped: (job, step) => guarded(() => db.halfTyped.get([job, step])),
    keepHalfTyped: (typed) =>
      guarded(async () => {
        await db.halfTyped.put(typed);
      }),
  };
}

/** The revision of the record that is kept under an id. */
async function revisionOf(table: Table, id: string): Promise<number | undefined> {
  const known = (await table.get(id)) as { revision: number } | undefined;
  return known?.revision;
}
