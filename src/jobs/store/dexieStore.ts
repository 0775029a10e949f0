import { Dexie, type EntityTable, type Table } from "dexie";
import type { JobEvent } from "../log/event.ts";
import { inOrder } from "../log/order.ts";
import { type EventDraft, headOf, seal } from "../log/seal.ts";
import {
  emptyLibrary,
  type Library,
  type RecordKind,
  type RecordTypes,
  recordKinds,
} from "./library.ts";
import { type Arrival, type HalfTyped, Outdated, type Store } from "./store.ts";

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

  return {
    device,

    async append(drafts: readonly EventDraft[]) {
      const [first] = drafts;
      if (!first) return [];
      return db.transaction("rw", db.events, async () => {
        const ids = drafts.map((draft) => draft.id);
        const written = await db.events.where("id").anyOf(ids).toArray();
        const known = new Set(written.map((event) => event.id));
        const head = headOf(await ofJob(first.job), device);
        const sealed = seal(
          drafts.filter((draft) => !known.has(draft.id)),
          device,
          head,
        );
        await db.events.bulkAdd(sealed);
        return [...written, ...sealed];
      });
    },

    eventsOf: async (job) => inOrder(await ofJob(job)),
    allEvents: () => db.events.toArray(),

    library: () =>
      db.transaction(
        "r",
        recordKinds.map((kind) => db.table(kind)),
        async () => {
          const library: Record<string, unknown> = { ...emptyLibrary };
          for (const kind of recordKinds) library[kind] = await db.table(kind).toArray();
          return library as unknown as Library;
        },
      ),

    async put(kind, record) {
      await db.transaction("rw", db.table(kind), async () => {
        const known = (await db.table(kind).get(record.id)) as { revision: number } | undefined;
        if (known && known.revision !== record.revision - 1) {
          throw new Outdated(
            "Somebody changed this record in the meantime (another tab?). Your entries are still here; reload to see theirs.",
          );
        }
        await db.table(kind).put(record);
      });
    },

    async receive({ records, events }: Arrival) {
      await db.transaction("rw", everything, async () => {
        for (const kind of recordKinds) {
          const arriving = records[kind];
          if (arriving) await db.table(kind).bulkPut([...arriving]);
        }
        await db.events.bulkPut([...events]);
      });
    },

    async remove(records) {
      await db.transaction("rw", everything, async () => {
        for (const kind of recordKinds) {
          const leaving = records[kind];
          if (leaving) await db.table(kind).bulkDelete([...leaving]);
        }
        const jobs = [...(records.jobs ?? [])];
        await db.events.where("job").anyOf(jobs).delete();
        for (const job of jobs)
          await db.halfTyped
            .where("[job+step]")
            .between([job, Dexie.minKey], [job, Dexie.maxKey])
            .delete();
      });
    },

    halfTyped: (job, step) => db.halfTyped.get([job, step]),
    async keepHalfTyped(typed) {
      await db.halfTyped.put(typed);
    },
    async dropHalfTyped(job, step) {
      await db.halfTyped.delete([job, step]);
    },
  };
}
