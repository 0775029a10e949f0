import { describe, expect, it } from "vitest";
import { library } from "../../../demo-data/emberMesa.ts";
import { hereAlready } from "../../../src/jobs/library/duplicates.ts";
import { type LibraryKind, libraryKinds } from "../../../src/jobs/library/entry.ts";
import { LibraryIndex } from "../../../src/jobs/library/libraryIndex.ts";
import { type Begun, copiedRecord } from "../../../src/jobs/library/newRecord.ts";
import { placesOf } from "../../../src/jobs/library/places.ts";
import {
  keepChangedRecord,
  keepRecordDraft,
  keptChangedRecord,
  keptRecordDraft,
} from "../../../src/jobs/library/recordDraft.ts";
import { namersOf } from "../../../src/jobs/library/removal.ts";
import type { OwnedTool } from "../../../src/jobs/records/equipment.ts";
import { entrySchemas } from "../../../src/jobs/records/library.ts";
import { memoryStore } from "../memoryStore.ts";

const [string] = library.strings;
const [part] = string?.tools ?? [];
const tool = {
  ...part,
  id: "tool-1",
  revision: 1,
  serial: "T-1",
  state: "in service",
} as OwnedTool;
const all = { ...library, tools: [tool] };
const newId = () => crypto.randomUUID();

describe("a record begun from another", () => {
  const named: Readonly<Record<LibraryKind, string>> = {
    wells: "name",
    valves: "serial",
    tools: "serial",
    strings: "name",
    lines: "name",
    stacks: "name",
    policies: "name",
  };
  /** What has to be said anew, beside what it is called. */
  const anew: Partial<Record<LibraryKind, Begun>> = {
    tools: { state: "in service" },
    lines: { strengthFrom: "certificate" },
  };

  it.each(libraryKinds)("of kind %s wants a name of its own, and is a record then", (kind) => {
    for (const record of all[kind]) {
      const copy = copiedRecord(kind, record as never, "new", newId);
      expect(copy[named[kind]]).toBeUndefined();
      expect(copy.invented).toBeUndefined();
      expect(copy).toMatchObject({ id: "new", revision: 1 });
      const made = { ...copy, ...anew[kind], [named[kind]]: "Another" };
      expect(entrySchemas[kind].safeParse(made).error, record.id).toBeUndefined();
    }
  });

  it("takes nothing along that belongs to the one thing only", () => {
    const well = library.wells.find(({ id }) => id === "em-03");
    if (!well) throw new Error("no well");
    const copy = JSON.stringify(copiedRecord("wells", well, "new", newId));
    for (const { id, valve } of well.mandrels) {
      expect(copy).not.toContain(`"${id}"`);
      if (valve) expect(copy).not.toContain(valve);
    }
    const valve = library.valves.find(({ card }) => card);
    if (!valve) throw new Error("no valve with a card");
    const state = "pulled" as const;
    const copied = copiedRecord("valves", { ...valve, state }, "new", newId);
    for (const own of ["card", "bench", "history", "state"]) expect(copied).not.toHaveProperty(own);
  });

  it("is kept while it is typed, one of each kind, until it is saved", async () => {
    const store = memoryStore();
    const draft = { record: { id: "new", serial: "Q-" }, from: "valve-x" };
    await keepRecordDraft(store, "valves", draft);
    expect(await keptRecordDraft(store, "valves")).toEqual(draft);
    expect(await keptRecordDraft(store, "tools")).toBeUndefined();
    await keepRecordDraft(store, "valves", undefined);
    expect(await keptRecordDraft(store, "valves")).toBeUndefined();
  });

  it("is not made of what cannot be read", async () => {
    const store = memoryStore();
    for (const text of ["{", "[]", '{"record":{}}']) {
      const row = { job: "new valves", step: "draft", since: "", fields: { draft: { text } } };
      await store.keepHalfTyped(row);
      expect(await keptRecordDraft(store, "valves")).toBeUndefined();
    }
  });
});

describe("what is in the library already", () => {
  it("is found by its serial, its mark or its name in the field, however it is written", async () => {
    const store = memoryStore();
    await store.receive({ records: { ...all, jobs: [] }, events: [] });
    const { shelves } = await new LibraryIndex(store).upToDate();
    const here = (kind: LibraryKind, record: Begun) => hereAlready(shelves, kind, record)?.entry.id;
    expect(here("valves", { id: "new", serial: "em 03.13" })).toBe("valve-em-0313");
    expect(here("valves", { id: "valve-em-0313", serial: "em 03.13" })).toBeUndefined();
    expect(here("valves", { id: "new", serial: "" })).toBeUndefined();
    expect(here("tools", { id: "new", serial: "t1" })).toBe("tool-1");
    expect(here("wells", { id: "new", name: "em 07", field: "ember mesa" })).toBe("em-07");
    expect(here("wells", { id: "new", name: "em 07", field: "Dry Fork" })).toBeUndefined();
    expect(here("wells", { id: "new", name: "EM 0-7", field: "Ember Mesa" })).toBeUndefined();
    expect(here("policies", { id: "new", name: library.policies[0]?.name })).toBeUndefined();
  });
});

describe("what names a record", () => {
  const places = placesOf(all.wells);
  const namers = (kind: LibraryKind, id: string) => namersOf(kind, id, all, places);

  it("is the job, the pocket or the string that does", () => {
    const [job] = library.jobs;
    if (!job) throw new Error("no job");
    const on = library.wells.find(({ id }) => id === job.well)?.name;
    const says = `the job of ${job.day} on ${on}`;
    for (const [kind, id] of [
      ["wells", job.well],
      ["valves", job.replacement],
      ["strings", job.strings.pull],
      ["lines", job.line],
      ["stacks", job.stack],
      ["policies", job.policy],
    ] as const) {
      expect(
        namers(kind, id ?? "").map((each) => each.says),
        kind,
      ).toContain(says);
    }
    expect(namers("valves", "valve-em-0313")).toContainEqual({
      kind: "wells",
      id: "em-03",
      says: "EM-03, mandrel 3",
    });
    const carrying = { ...all, strings: [{ ...string, tools: [tool] }] as never };
    expect(namersOf("tools", "tool-1", carrying, places)).toMatchObject([{ kind: "strings" }]);
  });

  it("is nothing for what is in no use", () => {
    for (const kind of libraryKinds) expect(namers(kind, "unused"), kind).toEqual([]);
  });
});

describe("a record that is changed and not saved", () => {
  it("is kept, each of its own, until it is saved or put back", async () => {
    const store = memoryStore();
    await keepChangedRecord(store, "valves", "one", { id: "one", serial: "Q-1" });
    await keepChangedRecord(store, "tools", "one", { id: "one", serial: "T-1" });
    expect(await keptChangedRecord(store, "valves", "one")).toEqual({ id: "one", serial: "Q-1" });
    await keepChangedRecord(store, "valves", "one", undefined);
    expect(await keptChangedRecord(store, "valves", "one")).toBeUndefined();
    expect(await keptChangedRecord(store, "tools", "one")).toMatchObject({ serial: "T-1" });
  });
});
