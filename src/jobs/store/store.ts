import type { Typed } from "../commands/entry.ts";
import type { JobEvent } from "../log/event.ts";
import type { EventDraft } from "../log/seal.ts";
import type { Library, RecordKind, RecordTypes } from "./library.ts";

/** What an append goes by. */
export interface AppendOptions {
  /** How many events of the job the decision was made on; the append is refused with `Moved` when there are others. */
  readonly seen?: number;
  /** The step whose half-typed entries go with what is recorded. */
  readonly recorded?: { readonly job: string; readonly step: string };
}

/** Where a job's events are kept. */
export interface EventLog {
  /**
   * Gives drafts their places in this device's chain and keeps them. Settles only when they have been
   * committed with strict durability. Drafts whose ids are in the log already are not written again.
   *
   * @throws Moved when the log is not the one the decision was made on
   * @throws StoreFailed when they could not be kept
   */
  append(drafts: readonly EventDraft[], options?: AppendOptions): Promise<readonly JobEvent[]>;
  /** In log order. */
  eventsOf(job: string): Promise<readonly JobEvent[]>;
}

/** What was typed and not yet recorded, kept at every key. */
export interface HalfTyped {
  readonly job: string;
  readonly step: string;
  /** instant of the first key */
  readonly since: string;
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
  /** Keeps a changed record. @throws Outdated when somebody changed it in the meantime */
  put<K extends RecordKind>(kind: K, record: RecordTypes[K]): Promise<void>;
  /**
   * Writes an arrival in one transaction, or nothing of it.
   *
   * @throws Outdated when a record it replaces was changed since the arrival was put together
   * @throws Conflict when its log holds another event in a place where this device has one
   */
  receive(arrival: Arrival): Promise<void>;
  /** Takes records and the logs of the jobs among them away, in one transaction. */
  remove(records: { readonly [K in RecordKind]?: readonly string[] }): Promise<void>;
  allEvents(): Promise<readonly JobEvent[]>;
  halfTyped(job: string, step: string): Promise<HalfTyped | undefined>;
  keepHalfTyped(typed: HalfTyped): Promise<void>;
}

/** A record was changed by somebody else since it was read. */
export class Outdated extends Error {
  override readonly name = "Outdated";
}

/** Events came into the log since the decision was made: it has to be made again. */
export class Moved extends Error {
  override readonly name = "Moved";
}

/** Two different events claim one place in a device's chain. */
export class Conflict extends Error {
  override readonly name = "Conflict";
}

/** The device did not keep what it was given. */
export class StoreFailed extends Error {
  override readonly name = "StoreFailed";
  readonly isFull: boolean;

  constructor(cause: unknown) {
    super(cause instanceof Error ? `${cause.name}: ${cause.message}` : String(cause), { cause });
    this.isFull = /quota/i.test(this.message);
  }
}
