import { describe, expect, it } from "vitest";
import { library } from "../../demo-data/emberMesa.ts";
import type { ToolString } from "../../src/jobs/records/equipment.ts";
import { freshDraft, isChanged, keepDraft, keptDraft } from "../../src/jobs/stringDraft.ts";
import { memoryStore } from "./memoryStore.ts";

const record = library.strings.find(({ id }) => id === "string-pull") as ToolString;
const photograph = (jpeg: string) => ({ day: "2026-11-25", jpeg: `/9j/${jpeg}` });
const [first, ...rest] = record.tools;

describe("a string that is changed and not saved", () => {
  it("is there again as it stood, tools and photographs", async () => {
    const store = memoryStore();
    const draft = { base: record, tools: rest, photographs: [photograph("AAAA")] };
    await keepDraft(store, draft);
    expect(await keptDraft(store, record)).toEqual(draft);
    await keepDraft(store, { ...draft, photographs: [photograph("BBBB"), photograph("CCCC")] });
    expect((await keptDraft(store, record))?.photographs).toHaveLength(2);
    // Those of the record again: what was taken besides is gone from the draft, too.
    await keepDraft(store, { ...draft, photographs: [] });
    expect(await keptDraft(store, record)).toEqual({ base: record, tools: rest, photographs: [] });
  });

  it("may have no tool for a while", async () => {
    const store = memoryStore();
    await keepDraft(store, { ...freshDraft(record), tools: [] });
    expect((await keptDraft(store, record))?.tools).toEqual([]);
  });

  it("leaves nothing behind once it is saved or put back", async () => {
    const store = memoryStore();
    const draft = { ...freshDraft(record), tools: rest };
    await keepDraft(store, draft);
    const saved = { ...record, revision: 2, tools: [...rest] };
    await keepDraft(store, { ...draft, base: saved });
    expect(await keptDraft(store, saved)).toBeUndefined();
    await keepDraft(store, draft);
    await keepDraft(store, freshDraft(record));
    expect(await keptDraft(store, record)).toBeUndefined();
  });

  it("says on which revision it was begun, where somebody saved over that since", async () => {
    const store = memoryStore();
    await keepDraft(store, { ...freshDraft(record), tools: rest });
    const found = await keptDraft(store, { ...record, revision: record.revision + 1 });
    expect(found?.base.revision).toBe(record.revision);
    expect(found && isChanged(found)).toBe(true);
  });

  it("does not mix with another string's, and one that is spoilt is none", async () => {
    const store = memoryStore();
    await keepDraft(store, { ...freshDraft(record), tools: rest });
    expect(await keptDraft(store, { ...record, id: "string-set" })).toBeUndefined();
    const keep = (text: string) =>
      store.keepHalfTyped({
        job: `string ${record.id}`,
        step: "draft of the tools",
        since: "",
        fields: { draft: { text } },
      });
    for (const text of ["{", JSON.stringify({ revision: 1, tools: [{ ...first, length: 4 }] })]) {
      await keep(text);
      expect(await keptDraft(store, record)).toBeUndefined();
    }
  });

  it("that the store does not take is not said to be kept", async () => {
    const full = {
      ...memoryStore(),
      keepHalfTyped: () => Promise.reject(new Error("no room")),
    };
    await expect(keepDraft(full, { ...freshDraft(record), tools: rest })).rejects.toThrow(
      "no room",
    );
  });
});
