import { describe, expect, it, vi } from "vitest";
import { demoPack } from "../../demo-data/build.ts";
import { library } from "../../demo-data/emberMesa.ts";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import { arrivalOf, previewPack } from "../../src/jobs/pack/arrival.ts";
import { makeBackup } from "../../src/jobs/pack/backup.ts";
import { readPack } from "../../src/jobs/pack/pack.ts";
import {
  compared,
  countOf,
  type Held,
  heldOf,
  joined,
  withAppended,
  without,
} from "../../src/jobs/store/held.ts";
import { emptyLibrary, type Library } from "../../src/jobs/store/library.ts";
import { withSpareDrafts } from "../../src/jobs/store/spareDrafts.ts";
import type { Store } from "../../src/jobs/store/store.ts";
import { witnessed } from "../../src/jobs/store/witness.ts";
import { supervisor, Tablet } from "./demo.ts";
import { memoryStore } from "./memoryStore.ts";

const { events } = demoPack().content;
const at = "2026-11-25T06:00:00.000Z";
const held = heldOf(library, events, at);
const EM03 = "job-em-03-3";
const logOf = (job: string) => events.filter((event) => event.job === job);
const stands = (now: readonly JobEvent[], records: Library = library) =>
  compared(held, records, now).find(({ held: { job } }) => job === EM03);

describe("what a tablet held, remembered outside its store", () => {
  it("names each job and where its log closed", () => {
    const job = held.jobs.find(({ job }) => job === EM03);
    expect(job?.name).toBe("EM-03, 2026-11-24");
    expect(job && countOf(job)).toBe(logOf(EM03).length);
    expect(Object.values(job?.heads ?? {}).map(({ hash }) => hash)).toContain(
      logOf(EM03).at(-1)?.hash,
    );
  });

  it.each([
    ["the same when all of it is back", events, "the same", 0],
    [
      "behind, and by how much, when the end is missing",
      events.filter((event) => !logOf(EM03).slice(-3).includes(event)),
      "behind",
      3,
    ],
    ["another log when its end is not the one that was held", renamed(), "another log", 0],
  ])("says that a log is %s", (_, now, is, missing) => {
    expect(stands(now)).toMatchObject({ is, missing });
  });

  it("says that a log is further when more came behind it, and not here when its job is gone", () => {
    const tablet = new Tablet();
    tablet.events = logOf(EM03);
    tablet.write({ type: "note", text: "later" });
    const more = tablet.events.map((event) => ({ ...event, job: EM03 }));
    expect(stands(more)).toMatchObject({ is: "further", missing: 0 });
    expect(stands([], emptyLibrary)).toMatchObject({ is: "not here", missing: logOf(EM03).length });
  });

  it("follows what is written, and keeps what is gone until it is taken away", () => {
    const tablet = new Tablet();
    tablet.write({ type: "note", text: "one" });
    const own = tablet.events.map((event) => ({ ...event, job: EM03 }));
    const next = withAppended(held, own, at);
    expect(next?.jobs.find(({ job }) => job === EM03)?.heads[tablet.device]?.sequence).toBe(1);
    expect(withAppended({ at, jobs: [] }, own, at)).toBeUndefined();

    const empty: Held = { at, jobs: [] };
    expect(joined(empty, held).jobs).toEqual(held.jobs);
    const shorter = heldOf(library, logOf(EM03).slice(0, 5), at);
    expect(joined(shorter, held).jobs).toEqual(held.jobs);
    expect(without(held, [EM03]).jobs.map(({ job }) => job)).not.toContain(EM03);
  });

  function renamed(): JobEvent[] {
    const last = logOf(EM03).at(-1);
    return events.map((event) => (event === last ? { ...event, hash: "0".repeat(64) } : event));
  }
});

describe("a backup of everything", () => {
  it("brings every log back to the hash where it closed", async () => {
    const before = memoryStore();
    await before.receive({ records: library, events });
    const { text, exported } = await makeBackup(before, at);
    expect(exported).toHaveLength(library.jobs.length);

    const read = readPack(text);
    if (!read.ok) throw new Error(read.why);
    const after = memoryStore();
    const preview = previewPack(read.pack, emptyLibrary, []);
    await after.receive(arrivalOf(read.pack, preview, emptyLibrary, "keep mine"));
    const found = compared(held, await after.library(), await after.allEvents());
    expect(found.map(({ is }) => is)).toEqual(held.jobs.map(() => "the same"));
  });
});

describe("half-typed entries laid aside", () => {
  const typed = { job: "job", step: "permit", since: at, fields: { number: { text: "P-03" } } };
  const note = {
    id: crypto.randomUUID(),
    job: "job",
    at,
    actor: supervisor,
    body: { type: "note" as const, text: "recorded" },
  };
  const place = () => {
    const kept = new Map<string, string>();
    return {
      kept,
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
      removeItem: (key: string) => void kept.delete(key),
      key: (index: number) => [...kept.keys()][index] ?? null,
      get length() {
        return kept.size;
      },
    };
  };
  const broken = (store: Store): Store => ({
    ...store,
    keepHalfTyped: () => Promise.reject(new Error("no answer")),
  });

  it("are there when the store could not keep them, until they are recorded", async () => {
    const [store, spare] = [memoryStore(), place()];
    await withSpareDrafts(broken(store), () => spare).keepHalfTyped(typed);
    const mended = withSpareDrafts(store, () => spare);
    expect(await mended.halfTyped("job", "permit")).toEqual(typed);
    await mended.append([note], { recorded: { job: "job", step: "permit" } });
    expect(await mended.halfTyped("job", "permit")).toBeUndefined();
  });

  it("are this window's own, whatever another window typed into the step or recorded of it", async () => {
    const [store, spare] = [memoryStore(), place()];
    const here = withSpareDrafts(store, () => spare);
    const there = withSpareDrafts(store, place);
    const own = { ...typed, window: "here", at: "2026-11-25T06:00:01.000Z" };
    await here.keepHalfTyped(own);
    const others = { ...typed, window: "there", at: "2026-11-25T06:00:02.000Z" };
    await there.keepHalfTyped(others);
    expect(await here.halfTyped("job", "permit")).toEqual(own);
    await there.append([note], { recorded: { job: "job", step: "permit" } });
    expect(await here.halfTyped("job", "permit")).toEqual(own);
  });

  it("are the store's where a browser brings its window back as it was some keys earlier", async () => {
    const [store, spare] = [memoryStore(), place()];
    const here = withSpareDrafts(store, () => spare);
    await here.keepHalfTyped({ ...typed, window: "here", at: "2026-11-25T06:00:01.000Z" });
    const later = { ...typed, window: "here", at: "2026-11-25T06:00:02.000Z" };
    await store.keepHalfTyped(later);
    expect(await here.halfTyped("job", "permit")).toEqual(later);
  });

  it("go from the spare place when they are recorded, and when their job is removed", async () => {
    const [store, spare] = [memoryStore(), place()];
    const here = withSpareDrafts(store, () => spare);
    await here.keepHalfTyped(typed);
    await here.keepHalfTyped({ ...typed, step: "gas-test" });
    await here.keepHalfTyped({ ...typed, job: "other job" });
    await here.append([note], { recorded: { job: "job", step: "permit" } });
    expect([...spare.kept.keys()]).toEqual([
      "latchline.typed job gas-test",
      "latchline.typed other job permit",
    ]);
    await here.remove({ jobs: ["job"] });
    expect([...spare.kept.keys()]).toEqual(["latchline.typed other job permit"]);
  });

  it("say so when neither place can have them", async () => {
    const forbidden = () => {
      throw new Error("forbidden");
    };
    const store = withSpareDrafts(broken(memoryStore()), forbidden);
    await expect(store.keepHalfTyped(typed)).rejects.toThrow("no answer");
  });
});

describe("a witness", () => {
  it("is told what was written, once it is durable, and nothing of what was refused", async () => {
    const witness = { appended: vi.fn(), changed: vi.fn(), removed: vi.fn() };
    const store = witnessed(memoryStore(), [witness]);
    const draft = { id: crypto.randomUUID(), job: "job", at, actor: supervisor };
    const body = { type: "note" as const, text: "one" };
    const written = await store.append([{ ...draft, body }]);
    expect(witness.appended).toHaveBeenCalledExactlyOnceWith(written);
    await store.append([{ ...draft, id: crypto.randomUUID(), body }], { seen: 0 }).catch(() => {});
    expect(witness.appended).toHaveBeenCalledOnce();
    await store.receive({ records: library, events: [] });
    expect(witness.changed).toHaveBeenCalledOnce();
    await store.remove({ jobs: [EM03] });
    expect(witness.removed).toHaveBeenCalledExactlyOnceWith([EM03]);
  });
});
