import type { Typed } from "../commands/entry.ts";
import type { JobEvent } from "../log/event.ts";
import type { EventDraft } from "../log/seal.ts";
import type { Library, RecordKind, RecordTypes } from "./library.ts";

/** Where a job's events are kept. */
export interface EventLog {
  /**
   * Gives drafts their places in this device's chain and keeps them. Settles only when they have been
   * committed with strict durability; a draft whose id is already in the log is not written again.
   */
  append(drafts: readonly EventDraft[]): Promise<readonly JobEvent[]>;
  /** In log order. */
  eventsOf(job: string): Promise<readonly JobEvent[]>;
}

/** What was typed and not yet recorded, kept at every key. */
export interface HalfTyped {
  readonly job: string;
  readonly step: string;
  readonly fields: Readonly<Record<string, Typed>>;
}

/** What a pack brings in, written all or nothing. */
export interface Arrival {
  readonly records: { readonly [K in RecordKind]?: readonly RecordTypes[K][] };
  readonly events: readonly JobEvent[];
}

/** Everything this device keeps. */
export interface Store extends EventLog {
  readonly device: string;
  library(): Promise<Library>;
  /** Keeps a changed record; refused when somebody changed it in the meantime. */
  put<K extends RecordKind>(kind: K, record: RecordTypes[K]): Promise<void>;
  /** Writes an arrival in one transaction, or nothing of it. */
  receive(arrival: Arrival): Promise<void>;
  /** Takes records and the logs of the jobs among them away, in one transaction. */
  remove(records: { readonly [K in RecordKind]?: readonly string[] }): Promise<void>;
  allEvents(): Promise<readonly JobEvent[]>;
  halfTyped(job: string, step: string): Promise<HalfTyped | undefined>;
  keepHalfTyped(typed: HalfTyped): Promise<void>;
  dropHalfTyped(job: string, step: string): Promise<void>;
}

/** A record was changed by somebody else since it was read. */
export class Outdated extends Error {
  override readonly name = "Outdated";
}
