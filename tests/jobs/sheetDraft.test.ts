import { describe, expect, it } from "vitest";
import { jobs } from "../../demo-data/emberMesa.ts";
import type { Job } from "../../src/jobs/records/job.ts";
import { emptyStep } from "../../src/jobs/sheet/ownStep.ts";
import {
  besideSaved,
  freshSheetDraft,
  isSheetChanged,
  keepSheetDraft,
  keptSheetDraftOf,
  ontoSaved,
  overtakenBy,
  pressureName,
  type SheetDraft,
  wantedOf,
  withoutStrayPressures,
  withWanted,
} from "../../src/jobs/sheetDraft.ts";
import { memoryStore } from "./memoryStore.ts";

const job: Job = jobs.ready;
const fresh = freshSheetDraft(job);
const own = {
  after: "jar-out",
  step: { id: "own-1", title: "Noise log", instruction: "Listen for two minutes.", fields: [] },
};
const changed: SheetDraft = {
  ...fresh,
  wanted: {
    ...fresh.wanted,
    catcher: true,
    changes: { dropped: ["gas-hydrate"], moved: [{ step: "a", after: "b" }], own: [own] },
    also: [
      {
        mandrel: "em-07-m2",
        work: "change out",
        design: { openingAtMandrel: { value: 1050, unit: "psig" } },
      },
    ],
  },
};
const saved = (over: Partial<Job> = {}): Job => ({ ...job, revision: job.revision + 1, ...over });
const another = saved({
  sheet: { work: "change out", catcher: false, changes: { dropped: [], moved: [], own: [own] } },
});
const writing = { after: "jar-out", step: { ...emptyStep, title: "Half" } };

describe("a run sheet that is changed and not saved", () => {
  it("is there again as it stood: changes, the step that is being written, what was typed of a pressure", async () => {
    const store = memoryStore();
    const draft: SheetDraft = {
      ...changed,
      writing: {
        after: "jar-out",
        step: { ...emptyStep, title: "  Half", fields: [] },
      },
      typed: { [pressureName("em-07-m2", "productionAtMandrel")]: { text: "12x", unit: "psig" } },
    };
    await keepSheetDraft(store, job.id, draft);
    expect(await keptSheetDraftOf(store, job.id)).toEqual(draft);
    expect(await keptSheetDraftOf(store, "job-other")).toBeUndefined();
  });

  it.each<{ what: string; draft: SheetDraft }>([
    { what: "a change", draft: changed },
    { what: "a step that is being written", draft: { ...fresh, writing } },
    { what: "a pressure", draft: { ...fresh, typed: { p: { text: "1,0,", unit: "psig" } } } },
  ])(
    "is kept for $what alone, and leaves nothing behind once that is put back",
    async ({ draft }) => {
      const store = memoryStore();
      await keepSheetDraft(store, job.id, draft);
      expect(await keptSheetDraftOf(store, job.id)).toEqual(draft);
      await keepSheetDraft(store, job.id, fresh);
      expect(await keptSheetDraftOf(store, job.id)).toBeUndefined();
    },
  );

  it("leaves nothing behind once it is saved", async () => {
    const store = memoryStore();
    await keepSheetDraft(store, job.id, changed);
    const now: Job = { ...withWanted(job, changed.wanted), revision: job.revision + 1 };
    const after = ontoSaved(changed, now);
    expect(isSheetChanged(after)).toBe(false);
    await keepSheetDraft(store, job.id, after);
    expect(await keptSheetDraftOf(store, job.id)).toBeUndefined();
    expect(wantedOf(now)).toEqual(changed.wanted);
  });

  it("that is spoilt is none", async () => {
    const store = memoryStore();
    const texts = [
      "{",
      "7",
      JSON.stringify({ ...changed, wanted: { ...fresh.wanted, work: "?" } }),
    ];
    for (const text of texts) {
      await store.keepHalfTyped({
        job: job.id,
        step: "draft of the run sheet",
        since: "",
        fields: { draft: { text } },
      });
      expect(await keptSheetDraftOf(store, job.id)).toBeUndefined();
    }
  });

  it("that the store does not take is not said to be kept", async () => {
    const full = { ...memoryStore(), keepHalfTyped: () => Promise.reject(new Error("no room")) };
    await expect(keepSheetDraft(full, job.id, changed)).rejects.toThrow("no room");
  });
});

describe("a job that somebody saved under the changes", () => {
  it("with the sheet as it was: the changes are kept, and fit onto it", () => {
    const theirs = saved({ reason: "Another reason" });
    const draft = besideSaved(changed, theirs);
    expect(draft).toEqual(changed);
    expect(overtakenBy(draft, theirs)).toBe("the job");
    const taken = ontoSaved(draft, theirs);
    expect(overtakenBy(taken, theirs)).toBeUndefined();
    expect(isSheetChanged(taken)).toBe(true);
    expect(withWanted(theirs, taken.wanted)).toMatchObject({
      reason: "Another reason",
      sheet: { catcher: true },
    });
  });

  it("with another sheet: theirs is named, the changes are kept until somebody chose", () => {
    const draft = besideSaved(changed, another);
    expect(draft).toEqual(changed);
    expect(overtakenBy(draft, another)).toBe("its sheet");
    const taken = ontoSaved(draft, another);
    expect(overtakenBy(taken, another)).toBeUndefined();
    expect(taken.wanted).toEqual(changed.wanted);
    expect(isSheetChanged(taken)).toBe(true);
  });

  it("with the very same changes: nothing is left to save", () => {
    const same: Job = { ...withWanted(job, changed.wanted), revision: job.revision + 1 };
    expect(isSheetChanged(besideSaved(changed, same))).toBe(false);
  });

  it("is shown at once where nothing was changed; a step that is being written stays", () => {
    const draft = besideSaved({ ...fresh, writing }, another);
    expect(draft.wanted).toEqual(wantedOf(another));
    expect(draft.writing).toEqual(writing);
    expect(overtakenBy(draft, another)).toBeUndefined();
  });

  it("reads a job of before there was a choice as the usual sheet", () => {
    expect(besideSaved(changed, job)).toBe(changed);
    expect(wantedOf({ ...job, sheet: "change-out" })).toMatchObject({
      work: "change out",
      catcher: false,
      also: [],
    });
  });
});

describe("pressures as they are typed", () => {
  it("go with the pocket that they are of", () => {
    const here = pressureName("em-07-m2", "openingAtMandrel");
    const gone = pressureName("em-07-m3", "openingAtMandrel");
    const typed = { [here]: { text: "10.", unit: "psig" }, [gone]: { text: "7", unit: "psig" } };
    expect(withoutStrayPressures({ ...changed, typed }).typed).toEqual({ [here]: typed[here] });
  });
});
