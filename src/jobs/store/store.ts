import type { Typed } from "../commands/entry.ts";
import type { JobEvent } from "../log/event.ts";
import type { EventDraft } from "../log/seal.ts";
import type { Library, RecordKind, RecordTypes } from "./library.ts";
import type { Wanted } from "./narrowed.ts";
import type { Picture } from "./picture.ts";

/** What an append goes by. */
export interface AppendOptions {
  /** How many events of the job the decision was made on; the append is refused with `Moved` when there are others. */
  readonly seen?: number;
  /** The step whose half-typed entries go with what is recorded; what another window typed there since stays. */
  readonly recorded?: { readonly job: string; readonly step: string };
  /** What the events name, written with them or not at all. */
  readonly pictures?: readonly Picture[];
}

/** Where a job's events are kept, and the pictures they name. */
export interface EventLog {
  /**
   * Gives drafts their places in this device's chain and keeps them, their pictures in the same transaction. Settles
   * only when they have been committed with strict durability. Drafts whose ids are in the log already are not
   * written again.
   *
   * @throws Moved when the log is not the one the decision was made on
   * @throws BadPicture when a picture is not what its name says
   * @throws StoreFailed when they could not be kept, after a second try on a new handle
   */
  append(drafts: readonly EventDraft[], options?: AppendOptions): Promise<readonly JobEvent[]>;
  /** In log order. */
  eventsOf(job: string): Promise<readonly JobEvent[]>;
  picture(sha256: string): Promise<Picture | undefined>;
  /** Which of these pictures are not here, without reading those that are. */
  lacking(pictures: readonly string[]): Promise<readonly string[]>;
}

/** What was typed and not yet recorded, kept at every key. */
export interface HalfTyped {
  readonly job: string;
  readonly step: string;
  /** instant of the first key */
  readonly since: string;
  readonly fields: Readonly<Record<string, Typed>>;
  /** which window it was typed in, as loaded then; two windows may type into one step */
  readonly window?: string;
  /** instant of the last key */
  readonly at?: string;
}

/** What a pack brings in, written all or nothing. */
export interface Arrival {
  readonly records: { readonly [K in RecordKind]?: readonly RecordTypes[K][] };
  readonly events: readonly JobEvent[];
  readonly pictures?: readonly Picture[];
  /** Why the records and logs that are here are copied aside in the same transaction, and when; absent: they are not. */
  readonly copy?: Pick<Copy, "made" | "why">;
}

/** The records and logs of this device as they were before something was brought in. */
export interface Copy {
  /** instant */
  readonly made: string;
  readonly why: string;
  readonly records: Library;
  readonly events: readonly JobEvent[];
}

/** What of a job's log has left this device in a file. */
export interface Exported {
  readonly job: string;
  /** instant */
  readonly at: string;
  /** the last event of each device that went along, by its hash */
  readonly heads: Readonly<Record<string, string>>;
  readonly by: "pack" | "backup";
}

/** How the device's store stands. */
export interface Standing {
  readonly is: "open" | "not answering" | "newer version" | "emptied";
  /** in the store's own words, where it is not open */
  readonly why?: string;
  /** Counts the handles there have been: what was read on an earlier one is read again. */
  readonly handles: number;
}

/** Everything this device keeps. */
export interface Store extends EventLog {
  readonly device: string;
  /** All of it, which may be tens of thousands of records: for backups and packs. */
  library(): Promise<Library>;
  /** As much of the library as is wanted, held at one moment. */
  recordsFor(wanted: Wanted): Promise<Library>;
  /** Records of a kind in the order of their ids, so many of those after one of them: a large kind in parts. */
  page<K extends RecordKind>(kind: K, after: string, count: number): Promise<RecordTypes[K][]>;
  /**
   * Tells of a kind of which records were changed, in this window or in another.
   *
   * @returns what ends the listening
   */
  onRecords(listener: (kind: RecordKind) => void): () => void;
  /** Keeps a changed record. @throws Outdated when somebody changed it in the meantime */
  put<K extends RecordKind>(kind: K, record: RecordTypes[K]): Promise<void>;
  /**
   * Writes an arrival in one transaction, or nothing of it.
   *
   * @throws Outdated when a record it replaces was changed since the arrival was put together
   * @throws Conflict when its log holds another event in a place where this device has one
   * @throws BadPicture when a picture is not what its name says
   */
  receive(arrival: Arrival): Promise<void>;
  /**
   * Takes records away in one transaction, with the logs of the jobs among them and the pictures that no remaining
   * event names.
   */
  remove(records: { readonly [K in RecordKind]?: readonly string[] }): Promise<void>;
  allEvents(): Promise<readonly JobEvent[]>;
  /** Neither a job nor an event is here. */
  isEmpty(): Promise<boolean>;
  halfTyped(job: string, step: string): Promise<HalfTyped | undefined>;
  /** Without any field nothing stays; what another window typed there since does. */
  keepHalfTyped(typed: HalfTyped): Promise<void>;

  /** What of every job has left in a file, the latest of each. */
  exported(): Promise<readonly Exported[]>;
  markExported(exported: readonly Exported[]): Promise<void>;
  /** What was put aside before something was brought in, latest first; the last three are kept. */
  copies(): Promise<readonly Copy[]>;
  /** The file that backups go to, as the browser gave it; undefined when none was chosen. */
  backupFile(): Promise<unknown>;
  keepBackupFile(file: unknown): Promise<void>;

  standing(): Standing;
  /** @returns what ends the listening */
  onStanding(listener: () => void): () => void;
  /** Asks whether the handle answers, and opens a new one when it does not. */
  probe(): Promise<void>;
}

/** How many copies are kept. */
export const MOST_COPIES = 3;

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

/** A picture that is not what its name says, or too large. */
export class BadPicture extends Error {
  override readonly name = "BadPicture";
}

/** Why a device keeps nothing. */
export type FailedBecause = "full" | "no answer" | "newer version" | "emptied";

/** The device did not keep what it was given. */
export class StoreFailed extends Error {
  override readonly name = "StoreFailed";
  readonly because: FailedBecause;

  constructor(cause: unknown, because?: FailedBecause) {
    super(cause instanceof Error ? `${cause.name}: ${cause.message}` : String(cause), { cause });
    this.because = because ?? (/quota/i.test(this.message) ? "full" : "no answer");
  }
}
