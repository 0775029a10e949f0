import { describe, expect, it } from "vitest";
import {
  forWell,
  freshPlan,
  keepPlan,
  keptPlan,
  ofPocket,
  withMine,
  withoutPocketOf,
} from "../../../src/jobs/planning/planDraft.ts";
import { memoryStore } from "../memoryStore.ts";
import { draftOf } from "./office.ts";

describe("a plan that is being made", () => {
  it("is there again as it stood, until it is ended", async () => {
    const store = memoryStore();
    expect(await keptPlan(store)).toBeUndefined();
    const draft = withMine(draftOf({ reason: "half a rea" }), "level", { text: "29", unit: "ft" });
    await keepPlan(store, draft);
    expect(await keptPlan(store)).toEqual(draft);
    await keepPlan(store, undefined);
    expect(await keptPlan(store)).toBeUndefined();
  });

  it("that is spoilt is none", async () => {
    const store = memoryStore();
    for (const text of ["{", JSON.stringify({ ...draftOf(), pockets: "two" })]) {
      await store.keepHalfTyped({
        job: "plan",
        step: "draft of the plan",
        since: "",
        fields: { draft: { text } },
      });
      expect(await keptPlan(store)).toBeUndefined();
    }
  });

  it("that the store does not take is not said to be kept", async () => {
    const full = { ...memoryStore(), keepHalfTyped: () => Promise.reject(new Error("no room")) };
    await expect(keepPlan(full, draftOf())).rejects.toThrow("no room");
  });

  it("for another well keeps reason and day, and nothing of the old pockets", () => {
    const draft = withMine(draftOf(), ofPocket("em-07-mandrel-2", "opening"), { text: "1100" });
    const other = forWell(draft, "em-12");
    expect(other).toMatchObject({ well: "em-12", pockets: [], mine: {}, reason: draft.reason });
    expect(other.day).toBe(draft.day);
    expect(forWell(draft, undefined).well).toBeUndefined();
  });

  it("without a further pocket has nothing of it, and everything else", () => {
    const both = {
      ...draftOf(),
      pockets: [...draftOf().pockets, { mandrel: "m-5", work: "change out" as const }],
    };
    const typed = withMine(withMine(both, ofPocket("m-5", "opening"), { text: "1" }), "line", {
      text: "x",
    });
    expect(withoutPocketOf(typed, "m-5")).toEqual(withMine(draftOf(), "line", { text: "x" }));
  });

  it("goes back to a proposal by taking what was put in its place away", () => {
    const draft = withMine(freshPlan("p"), "line", { text: "x" });
    expect(withMine(draft, "line", undefined)).toEqual(freshPlan("p"));
  });
});
