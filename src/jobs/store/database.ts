import { Dexie, type EntityTable, type Table } from "dexie";
import type { JobEvent } from "../log/event.ts";
import type { RecordKind, RecordTypes } from "./library.ts";
import type { Picture } from "./picture.ts";
import type { Copy, Exported, HalfTyped } from "./store.ts";

type RecordTables = { [K in RecordKind]: EntityTable<RecordTypes[K], "id"> };

/** What the device knows of itself. */
type DeviceRow =
  | { readonly key: "device"; readonly id: string }
  | { readonly key: "backup file"; readonly file: unknown };

/** The browser's database. Its versions only ever add. */
export class Database extends Dexie {
  declare readonly events: Table<JobEvent, string>;
  declare readonly pictures: Table<Picture, string>;
  declare readonly halfTyped: Table<HalfTyped, [string, string]>;
  declare readonly exported: Table<Exported, string>;
  declare readonly copies: Table<Copy, string>;
  declare readonly device: Table<DeviceRow, string>;

  constructor(name: string) {
    super(name, {
      // Strict: the promise settles after the data is on the disk, not only with the operating system.
      chromeTransactionDurability: "strict",
      // A database that was closed under the page is opened again by `Connection`, which looks first whether it is
      // still the same one.
      autoOpen: false,
    });
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
    this.version(2).stores({ pictures: "sha256", exported: "job", copies: "made" });
    this.version(3).stores({ tools: "id", days: "id" });
    this.version(4).stores({ investigations: "id, well" });
  }

  records<K extends RecordKind>(kind: K): RecordTables[K] {
    return this.table(kind) as unknown as RecordTables[K];
  }

  /** The id that this device got when its store was first opened; made now when there is none. */
  async deviceId(): Promise<string> {
    return this.transaction("rw", this.table("device"), async () => {
      const known = await this.table<DeviceRow>("device").get("device");
      if (known?.key === "device") return known.id;
      const id = crypto.randomUUID();
      await this.table<DeviceRow>("device").add({ key: "device", id });
      return id;
    });
  }
}
