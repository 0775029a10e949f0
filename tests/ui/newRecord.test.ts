import { describe, expect, it } from "vitest";
import { libraryKinds } from "../../src/jobs/library/entry.ts";
import { blankRecord } from "../../src/jobs/library/newRecord.ts";
import { check, type Draft } from "../../src/ui/RecordEditor/draft.ts";

describe("a new record", () => {
  it.each(libraryKinds)("of kind %s is no record until what it needs is said", (kind) => {
    const blank = blankRecord(kind, "new");
    const checked = check(kind, blank as Draft);
    expect(checked.ok).toBe(false);
    // Each complaint stands at a field or a list that the editor shows.
    if (!checked.ok) expect(Object.keys(checked.problems)).not.toContain("");
  });

  it("says nothing that nobody said: not one figure, but in a policy each with where it comes from", () => {
    for (const kind of libraryKinds.filter((each) => each !== "policies")) {
      const { id: _, revision: __, ...rest } = blankRecord(kind, "new");
      expect(Object.values(rest).every((value) => Object.keys(value as object).length === 0)).toBe(
        true,
      );
    }
    const limits = blankRecord("policies", "new");
    expect(limits.watch).toMatchObject({ basis: expect.stringContaining("common practice") });
    expect(check("policies", { ...limits, name: "House" } as Draft).ok).toBe(true);
  });

  it("of a well asks for its path and for a mandrel", () => {
    const checked = check("wells", blankRecord("wells", "new") as Draft);
    if (checked.ok) throw new Error("a well of nothing");
    expect(checked.problems["path.kind"]).toBe("Path of the well: nothing entered.");
  });

  it("says of a list that needs an item which one to add", () => {
    const blank = { ...blankRecord("stacks", "new"), name: "Stack B" };
    const checked = check("stacks", blank as Draft);
    expect(checked).toEqual({
      ok: false,
      problems: { items: "Items, bottom up: add at least one item." },
    });
  });
});
