import "fake-indexeddb/auto";
import { afterEach, describe, expect, it, vi } from "vitest";
import { Connection } from "../../src/jobs/store/connection.ts";
import { openDexieStore } from "../../src/jobs/store/dexieStore.ts";
import { StoreFailed } from "../../src/jobs/store/store.ts";
import { supervisor } from "./demo.ts";

const note = (text: string) => ({
  id: crypto.randomUUID(),
  job: "job",
  at: "2026-11-25T06:00:00.000Z",
  actor: supervisor,
  body: { type: "note" as const, text },
});

/** A database of a name, opened past Latchline. */
const openRaw = (name: string, version: number, onBlocked = () => {}) =>
  new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(name, version);
    request.onblocked = onBlocked;
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
const deleteRaw = (name: string) =>
  new Promise<void>((resolve) => {
    indexedDB.deleteDatabase(name).onsuccess = () => resolve();
  });

afterEach(() => vi.restoreAllMocks());

describe("a handle that dies", () => {
  const failures = [
    ["was closed by the browser", new DOMException("closing", "InvalidStateError")],
    ["met an unknown error", new DOMException("Internal error", "UnknownError")],
    ["met a full disk", new DOMException("full", "QuotaExceededError")],
  ] as const;
  it.each(failures)(
    "is opened again when it %s, and the same drafts are written once",
    async (_, fault) => {
      const store = await openDexieStore(crypto.randomUUID());
      const add = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementationOnce(() => {
        throw fault;
      });
      await store.append([note("once")]);
      expect(add.mock.calls.length).toBeGreaterThan(1);
      expect(store.standing()).toEqual({ is: "open", handles: 2 });
      expect(await store.eventsOf("job")).toHaveLength(1);
    },
  );

  it("is opened again when the transaction was aborted as it was committed", async () => {
    const store = await openDexieStore(crypto.randomUUID());
    vi.spyOn(IDBTransaction.prototype, "commit").mockImplementationOnce(function (
      this: IDBTransaction,
    ) {
      this.abort();
    });
    await store.append([note("once")]);
    expect(await store.eventsOf("job")).toHaveLength(1);
  });

  it("is given up when the new one fails, too: the same drafts are kept by the next try", async () => {
    const store = await openDexieStore(crypto.randomUUID());
    const told = vi.fn();
    store.onStanding(told);
    const add = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    const draft = note("once");
    const failed = await store.append([draft]).catch((error: unknown) => error);
    expect(failed).toBeInstanceOf(StoreFailed);
    expect((failed as StoreFailed).because).toBe("full");
    expect(store.standing()).toMatchObject({ is: "not answering" });
    expect(told).toHaveBeenCalled();
    add.mockRestore();
    await store.append([draft]);
    expect(store.standing()).toMatchObject({ is: "open" });
    expect(await store.eventsOf("job")).toHaveLength(1);
  });

  it("is taken for dead when it does not answer in time, and what it does late is not done twice", async () => {
    const store = await openDexieStore(crypto.randomUUID(), { patience: 150 });
    const real = IDBObjectStore.prototype.add;
    let held = 0;
    vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(function (
      this: IDBObjectStore,
      ...given
    ) {
      const request = Reflect.apply(real, this, given) as IDBRequest;
      if (this.name !== "events" || held > 0) return request;
      // The transaction is kept busy for longer than anybody waits, then commits after all.
      const until = Date.now() + 250;
      const keepBusy = () => {
        held += 1;
        if (Date.now() < until) this.get("nothing").onsuccess = keepBusy;
      };
      keepBusy();
      vi.spyOn(this.transaction, "commit").mockImplementation(() => {});
      return request;
    });
    await store.append([note("once")]);
    expect(held).toBeGreaterThan(1);
    expect(store.standing().handles).toBe(2);
    expect(await store.eventsOf("job")).toHaveLength(1);
  });

  it("is probed, and opened again when it does not answer", async () => {
    const connection = await Connection.open(crypto.randomUUID(), {});
    await connection.probe();
    expect(connection.standing().handles).toBe(1);
    vi.spyOn(IDBObjectStore.prototype, "get").mockImplementationOnce(() => {
      throw new DOMException("Connection to Indexed Database server lost", "UnknownError");
    });
    await connection.probe();
    expect(connection.standing()).toEqual({ is: "open", handles: 2 });
  });
});

describe("a store that somebody else changes", () => {
  it("is let go of for a newer version, and never opened again", async () => {
    const name = crypto.randomUUID();
    const store = await openDexieStore(name);
    await store.append([note("kept")]);
    const blocked = vi.fn();
    const newer = await openRaw(name, 90, blocked);
    expect(blocked).not.toHaveBeenCalled();
    expect(store.standing()).toMatchObject({ is: "newer version" });
    await store.probe();
    const failed = await store.append([note("late")]).catch((error: unknown) => error);
    expect((failed as StoreFailed).because).toBe("newer version");
    expect(await countOf(newer, "events")).toBe(1);
    newer.close();
  });

  it("is not opened by an older Latchline once a newer one has changed it", async () => {
    const name = crypto.randomUUID();
    (await openRaw(name, 90)).close();
    const failed = await openDexieStore(name).catch((error: unknown) => error);
    expect((failed as StoreFailed).because).toBe("newer version");
    expect((failed as StoreFailed).message).toMatch(/of version 9, this Latchline knows up to/);
  });

  it("says which window it waits for while an older one holds it, and goes on when that is closed", async () => {
    const name = crypto.randomUUID();
    const old = await openRaw(name, 10);
    const onBlocked = vi.fn(() => old.close());
    const store = await openDexieStore(name, { onBlocked });
    expect(onBlocked).toHaveBeenCalledOnce();
    expect(store.standing()).toEqual({ is: "open", handles: 1 });
  });

  it("is not taken for its own when it was emptied while its handle was lost", async () => {
    const name = crypto.randomUUID();
    const connection = await Connection.open(name, {});
    await connection.run(async (db) => {
      // As when the browser closes it without a word: no versionchange is heard any more.
      db.backendDB().close();
    });
    await deleteRaw(name);
    const failed = await connection
      .run((db) => db.events.toArray())
      .catch((error: unknown) => error);
    expect((failed as StoreFailed).because).toBe("emptied");
    expect(connection.standing()).toMatchObject({ is: "emptied" });
  });

  it("is not filled anew when it was emptied under the window", async () => {
    const name = crypto.randomUUID();
    const store = await openDexieStore(name);
    await store.append([note("gone")]);
    await deleteRaw(name);
    const failed = await store.append([note("late")]).catch((error: unknown) => error);
    expect((failed as StoreFailed).because).toBe("emptied");
    expect(store.standing()).toMatchObject({ is: "emptied" });
    const anew = await openDexieStore(name);
    expect(await anew.allEvents()).toEqual([]);
  });
});

const countOf = (db: IDBDatabase, table: string) =>
  new Promise<number>((resolve) => {
    const request = db.transaction(table).objectStore(table).count();
    request.onsuccess = () => resolve(request.result);
  });
