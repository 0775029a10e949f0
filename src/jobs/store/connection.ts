import type { Dexie } from "dexie";
import { Database } from "./database.ts";
import {
  BadPicture,
  Conflict,
  type FailedBecause,
  Moved,
  Outdated,
  type Standing,
  StoreFailed,
} from "./store.ts";

/** A handle that has not answered a piece of work by then is taken for dead. */
const ANSWER_MS = 10_000;
/** The same for the cheap read of a probe. */
const PROBE_MS = 2_000;

/** What the one who opens a store wants to hear while it is being opened. */
export interface Opening {
  /** Another window holds the store as an older version left it: opening goes on once that window is closed. */
  readonly onBlocked?: () => void;
  /** ms after which a handle is taken for dead, for tests that do not want to wait */
  readonly patience?: number;
}

/**
 * A handle on the browser's database, dropped and opened again when it dies: a dead handle that is tried again stays
 * dead. Work that failed is done again once, on the new handle.
 *
 * The work of a failed attempt may still have been committed, its answer lost: work has to be of a kind that can be
 * done twice.
 */
export class Connection {
  readonly device: string;
  readonly #name: string;
  readonly #patience: number;
  readonly #listeners = new Set<() => void>();
  #handle: Database;
  #reopening: Promise<void> | undefined;
  #standing: Standing = { is: "open", handles: 1 };

  private constructor(name: string, handle: Database, device: string, patience: number) {
    this.#name = name;
    this.#handle = handle;
    this.device = device;
    this.#patience = patience;
    this.#watch(handle);
  }

  /**
   * @throws StoreFailed when the browser keeps nothing (private window, storage full), or when a newer Latchline has
   *         changed the store
   */
  static async open(name: string, { onBlocked, patience = ANSWER_MS }: Opening) {
    const handle = new Database(name);
    let device = "";
    guard(handle, () => device);
    if (onBlocked) handle.on("blocked", onBlocked);
    try {
      await handle.open();
      device = await handle.deviceId();
    } catch (error) {
      handle.close();
      throw asFailed(error);
    }
    return new Connection(name, handle, device, patience);
  }

  standing(): Standing {
    return this.#standing;
  }

  onStanding(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /**
   * @param work that does no harm when it is done twice
   * @param patience ms within which it has to be done
   * @throws StoreFailed when it failed on a new handle, too; the port's own refusals pass as they are
   */
  async run<T>(work: (db: Database) => PromiseLike<T>, patience = this.#patience): Promise<T> {
    this.#throwIfStopped();
    const handle = this.#handle;
    try {
      // Called before anything is awaited: a live query follows what is read in its own turn only.
      return this.#answered(await within(work(handle), patience));
    } catch (error) {
      if (isRefusal(error)) throw error;
      this.#throwIfStopped();
    }
    try {
      await this.#reopen(handle);
      return this.#answered(await within(work(this.#handle), patience));
    } catch (error) {
      if (isRefusal(error)) throw error;
      this.#throwIfStopped();
      const failed = asFailed(error);
      this.#change(
        failed.because === "newer version" || failed.because === "emptied"
          ? failed.because
          : "not answering",
        failed.message,
      );
      throw failed;
    }
  }

  async probe(): Promise<void> {
    if (this.#isStopped()) return;
    const handle = this.#handle;
    try {
      this.#answered(await within(handle.device.get("device"), PROBE_MS));
    } catch {
      await this.#reopen(handle).catch((error: unknown) => {
        if (!this.#isStopped()) this.#change("not answering", asFailed(error).message);
      });
    }
  }

  /** Opens a new handle in place of a dead one; whoever comes while that is under way waits for it. */
  async #reopen(dead: Database): Promise<void> {
    if (this.#handle !== dead) return;
    this.#reopening ??= this.#replace(dead).finally(() => {
      this.#reopening = undefined;
    });
    await this.#reopening;
  }

  async #replace(dead: Database): Promise<void> {
    dead.close();
    const handle = new Database(this.#name);
    guard(handle, () => this.device);
    try {
      await within(handle.open(), this.#patience);
    } catch (error) {
      handle.close();
      const failed = asFailed(error);
      if (failed.because === "newer version" || failed.because === "emptied") {
        this.#change(failed.because, failed.message);
      }
      throw failed;
    }
    this.#handle = handle;
    this.#watch(handle);
    this.#standing = { is: "open", handles: this.#standing.handles + 1 };
    this.#tell();
  }

  /** Another window wants to change or delete the database: this one lets go of it and does not come back. */
  #watch(handle: Database): void {
    handle.on("versionchange", (event) => {
      handle.close();
      if (event.newVersion === null) this.#change("emptied", "the store was deleted");
      else this.#change("newer version", `the store is now of version ${event.newVersion}`);
      // Dexie's own answer, which would open it again, does not come.
      return false;
    });
  }

  #answered<T>(answer: T): T {
    if (this.#standing.is === "not answering") this.#change("open");
    return answer;
  }

  #isStopped(): boolean {
    return this.#standing.is === "newer version" || this.#standing.is === "emptied";
  }

  #throwIfStopped(): void {
    if (!this.#isStopped()) return;
    const { is, why = is } = this.#standing;
    throw new StoreFailed(why, is as FailedBecause);
  }

  #change(is: Standing["is"], why?: string): void {
    const { handles } = this.#standing;
    this.#standing = { is, handles, ...(why !== undefined && { why }) };
    this.#tell();
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}

/**
 * Looks at the database whenever it has been opened, by Dexie itself, too, and refuses one that is not the one it was.
 *
 * Dexie opens a database of a newer version than its own as if it were its own: what an older Latchline would write
 * into it might break what the newer one keeps. And it makes an emptied database anew without a word.
 *
 * @param expected the device that the database belongs to; empty while that is not known
 */
function guard(handle: Database, expected: () => string): void {
  const look = async (opened: Dexie) => {
    // Dexie counts tenths; it adds one by itself where it mends an index.
    const version = Math.floor(opened.backendDB().version / 10);
    if (version > opened.verno) {
      throw new StoreFailed(
        `the store is of version ${version}, this Latchline knows up to version ${opened.verno}`,
        "newer version",
      );
    }
    const device = expected();
    if (device === "") return;
    const found = (await opened.table("device").get("device")) as { id?: string } | undefined;
    if (found?.id !== device) throw new StoreFailed("it was emptied", "emptied");
  };
  handle.on("ready", look, true);
}

function isRefusal(error: unknown): boolean {
  return (
    error instanceof Outdated ||
    error instanceof Moved ||
    error instanceof Conflict ||
    error instanceof BadPicture
  );
}

function asFailed(error: unknown): StoreFailed {
  return error instanceof StoreFailed ? error : new StoreFailed(error);
}

/** An answer that comes in time. What comes later is not waited for; it may still be carried out. */
function within<T>(answer: PromiseLike<T>, limit: number): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`no answer within ${limit / 1000} s`)), limit);
    answer.then(
      (value) => {
        clearTimeout(timer);
        resolve(value);
      },
      (error: unknown) => {
        clearTimeout(timer);
        reject(error);
      },
    );
  });
}
