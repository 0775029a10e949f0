import "fake-indexeddb/auto";
import { describe, expect, it } from "vitest";
import { library } from "../../demo-data/emberMesa.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { perform } from "../../src/jobs/commands/perform.ts";
import { addNote, recordStep } from "../../src/jobs/commands/run.ts";
import type { EventBody } from "../../src/jobs/log/event.ts";
import { seal } from "../../src/jobs/log/seal.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { openDexieStore } from "../../src/jobs/store/dexieStore.ts";
import { emptyLibrary } from "../../src/jobs/store/library.ts";
import { MOST_PICTURE_BYTES, type Picture, pictureHash } from "../../src/jobs/store/picture.ts";
import { BadPicture, Conflict, MOST_COPIES, Moved, Outdated } from "../../src/jobs/store/store.ts";
import { goodRun, supervisor, Tablet } from "./demo.ts";
import { memoryStore } from "./memoryStore.ts";

const note = (text: string) => ({
  id: crypto.randomUUID(),
  job: "job",
  at: "2026-11-25T06:00:00.000Z",
  actor: supervisor,
  body: { type: "note" as const, text },
});

/** What a JPEG begins with, and something of its own behind it. */
const picture = (own: number): Picture => {
  const bytes = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, own]);
  return { sha256: pictureHash(bytes), type: "image/jpeg", bytes };
};
const photograph = ({ sha256 }: Picture, job = "job") => ({
  ...note(""),
  job,
  body: { type: "photograph", picture: sha256 } as unknown as EventBody,
});

const stores = [
  { name: "the browser's database", open: () => openDexieStore(crypto.randomUUID()) },
  { name: "memory", open: async () => memoryStore() },
];

describe.each(stores)("a store in $name", ({ open }) => {
  it("keeps events in a chain that holds, across writes", async () => {
    const store = await open();
    await store.append([note("one"), note("two")]);
    await store.append([note("three")]);
    const events = await store.eventsOf("job");
    expect(events.map((event) => event.sequence)).toEqual([1, 2, 3]);
    expect(brokenLinks(events)).toEqual([]);
    expect(await store.eventsOf("another job")).toEqual([]);
  });

  it("takes the same draft twice as one event", async () => {
    const store = await open();
    const draft = note("once");
    const [first] = await store.append([draft]);
    const [second] = await store.append([draft]);
    expect(second?.hash).toBe(first?.hash);
    expect(await store.eventsOf("job")).toHaveLength(1);
  });

  it("gives every one of many writes at once its own place", async () => {
    const store = await open();
    await Promise.all(Array.from({ length: 25 }, (_, i) => store.append([note(`${i}`)])));
    const events = await store.eventsOf("job");
    expect(events.map((event) => event.sequence)).toEqual(
      Array.from({ length: 25 }, (_, i) => i + 1),
    );
    expect(brokenLinks(events)).toEqual([]);
  });

  it("receives another device's events as often as they come, and goes on behind them", async () => {
    const store = await open();
    const other = new Tablet();
    other.write({ type: "note", text: "from there" });
    await store.receive({ records: {}, events: other.events });
    await store.receive({ records: {}, events: other.events });
    const [mine] = await store.append([note("from here")]);
    expect(mine?.tick).toBe(2);
    expect(mine?.sequence).toBe(1);
    expect(await store.allEvents()).toHaveLength(2);
  });

  it("writes nothing of an arrival that cannot be written whole", async () => {
    const store = await open();
    const [mine] = await store.append([note("mine")]);
    const forged = seal([note("forged")], mine?.device ?? "", {
      sequence: 0,
      tick: 0,
      hash: null,
      seen: {},
    });
    await expect(
      store.receive({ records: { wells: library.wells }, events: forged }),
    ).rejects.toThrow(Conflict);
    expect((await store.library()).wells).toEqual([]);
    expect(await store.allEvents()).toHaveLength(1);
  });

  it("refuses a record that somebody changed in the meantime", async () => {
    const store = await open();
    const [well] = library.wells;
    if (!well) throw new Error("no well");
    await store.put("wells", well);
    await store.put("wells", { ...well, revision: 2, name: "EM-99" });
    await expect(store.put("wells", { ...well, revision: 2, name: "EM-98" })).rejects.toThrow(
      Outdated,
    );
    expect((await store.library()).wells[0]?.name).toBe("EM-99");
  });

  it("receives nothing over a record that was changed here in the meantime", async () => {
    const store = await open();
    const [well] = library.wells;
    if (!well) throw new Error("no well");
    await store.put("wells", well);
    await store.put("wells", { ...well, revision: 2, name: "EM-99" });
    const late = { ...well, revision: 2, name: "EM-98" };
    await expect(store.receive({ records: { wells: [late] }, events: [] })).rejects.toThrow(
      Outdated,
    );
    expect((await store.library()).wells[0]?.name).toBe("EM-99");
  });

  it("gives of a library only what a job names, as the whole library has it", async () => {
    const store = await open();
    await store.receive({ records: library, events: [] });
    const [job] = library.jobs;
    if (!job) throw new Error("no job");
    const whole = await store.library();
    const some = await store.recordsFor({ jobs: [job.id] });
    expect(some.jobs).toEqual([job]);
    expect(some.wells.map(({ id }) => id)).toEqual([job.well]);
    // The run's programme is put together from it, to the letter.
    expect(assemble(job, some)).toEqual(assemble(job, whole));
    expect(some.valves.length).toBeLessThan(whole.valves.length);
  });

  it("gives all jobs with what they name, a well with the jobs on it, and kinds that are wanted whole", async () => {
    const store = await open();
    await store.receive({ records: library, events: [] });
    const [spare] = library.valves;
    const lone = { ...spare, id: "a-lone-valve" } as (typeof library.valves)[number];
    await store.put("valves", lone);
    const ofAll = await store.recordsFor({ jobs: "all" });
    expect(ofAll.jobs).toHaveLength(library.jobs.length);
    expect(ofAll.valves.map(({ id }) => id)).not.toContain(lone.id);
    const ofWell = await store.recordsFor({ wells: ["em-07"], whole: ["policies"] });
    expect(ofWell.jobs.every(({ well }) => well === "em-07")).toBe(true);
    expect(ofWell.jobs.length).toBeGreaterThan(0);
    expect(ofWell.policies).toHaveLength(library.policies.length);
    const alone = await store.recordsFor({ records: { valves: [lone.id, "none such"] } });
    expect(alone).toEqual({ ...emptyLibrary, valves: [lone] });
  });

  it("gives a large kind in parts, and tells of what was changed until nobody listens", async () => {
    const store = await open();
    const told: string[] = [];
    const end = store.onRecords((kind) => told.push(kind));
    await store.receive({ records: { valves: library.valves }, events: [] });
    const first = await store.page("valves", "", 3);
    const rest = await store.page("valves", first.at(-1)?.id ?? "", 1000);
    const ids = [...first, ...rest].map(({ id }) => id);
    expect(first).toHaveLength(3);
    expect(ids).toEqual(library.valves.map(({ id }) => id).sort());
    await expect.poll(() => told).toContain("valves");
    end();
    told.length = 0;
    await store.remove({ valves: [ids[0] ?? ""] });
    expect(told).toEqual([]);
  });

  it("writes nothing that was decided on another log than the one it holds", async () => {
    const store = await open();
    await store.append([note("one")], { seen: 0 });
    await expect(store.append([note("two")], { seen: 0 })).rejects.toThrow(Moved);
    expect(await store.eventsOf("job")).toHaveLength(1);
    await store.append([note("two")], { seen: 1 });
    expect(await store.eventsOf("job")).toHaveLength(2);
  });

  it("keeps what is half typed, and lets it go in the write that records it", async () => {
    const store = await open();
    const typed = {
      job: "job",
      step: "permit",
      since: "2026-11-25T06:00:00.000Z",
      fields: { "permit-number": { text: "P-03" } },
    };
    await store.keepHalfTyped(typed);
    await store.append([note("another matter")]);
    expect(await store.halfTyped("job", "permit")).toEqual(typed);
    await expect(
      store.append([note("late")], { seen: 0, recorded: { job: "job", step: "permit" } }),
    ).rejects.toThrow(Moved);
    expect(await store.halfTyped("job", "permit")).toEqual(typed);
    await store.append([note("recorded")], { recorded: { job: "job", step: "permit" } });
    expect(await store.halfTyped("job", "permit")).toBeUndefined();
  });

  it("takes jobs away with their logs and half-typed entries, and nothing else", async () => {
    const store = await open();
    await store.receive({ records: { jobs: library.jobs, wells: library.wells }, events: [] });
    await store.append([{ ...note("gone"), job: "job-em-07-3" }]);
    await store.append([note("stays")]);
    await store.keepHalfTyped({
      job: "job-em-07-3",
      step: "permit",
      since: "2026-11-25T06:00:00.000Z",
      fields: {},
    });
    await store.remove({ jobs: ["job-em-07-3"], wells: ["em-07"] });
    expect((await store.library()).jobs.map((job) => job.id)).not.toContain("job-em-07-3");
    expect((await store.library()).wells).toHaveLength(2);
    expect(await store.eventsOf("job-em-07-3")).toEqual([]);
    expect(await store.eventsOf("job")).toHaveLength(1);
    expect(await store.halfTyped("job-em-07-3", "permit")).toBeUndefined();
  });

  it("keeps pictures in the write of the events that name them, or not at all", async () => {
    const store = await open();
    const [one, two] = [picture(1), picture(2)];
    await store.append([photograph(one)], { pictures: [one] });
    await expect(store.append([photograph(two)], { pictures: [two], seen: 0 })).rejects.toThrow(
      Moved,
    );
    expect(await store.picture(one.sha256)).toEqual(one);
    expect(await store.picture(two.sha256)).toBeUndefined();
    expect(await store.lacking([one.sha256, two.sha256])).toEqual([two.sha256]);
    expect(await store.lacking([])).toEqual([]);
  });

  it.each([
    [
      "whose bytes were changed",
      { ...picture(1), sha256: picture(2).sha256 },
      /changed or damaged/,
    ],
    ["that is none", { ...picture(1), bytes: Uint8Array.of(1, 2, 3) }, /not begin as a JPEG does/],
    [
      "that is too large",
      { ...picture(1), bytes: new Uint8Array(MOST_PICTURE_BYTES + 1) },
      /4\.0 MB, and one picture has at most 4\.0 MB/,
    ],
  ])("refuses a picture %s, and writes nothing", async (_, bad, says) => {
    const store = await open();
    const append = store.append([photograph(bad)], { pictures: [bad] });
    await expect(append).rejects.toThrow(BadPicture);
    await expect(append).rejects.toThrow(says);
    await expect(store.receive({ records: {}, events: [], pictures: [bad] })).rejects.toThrow(says);
    expect(await store.allEvents()).toEqual([]);
  });

  it("lets a picture go with the last job that names it", async () => {
    const store = await open();
    const [shared, own] = [picture(1), picture(2)];
    await store.append([photograph(shared), photograph(own)], { pictures: [shared, own] });
    await store.append([photograph(shared, "another")]);
    await store.remove({ jobs: ["job"] });
    expect(await store.picture(shared.sha256)).toEqual(shared);
    expect(await store.picture(own.sha256)).toBeUndefined();
    await store.remove({ jobs: ["another"] });
    expect(await store.picture(shared.sha256)).toBeUndefined();
  });

  it("receives the same arrival twice as once, as when the first answer was lost", async () => {
    const store = await open();
    const arrival = { records: { wells: library.wells }, events: [], pictures: [picture(1)] };
    await store.receive(arrival);
    await store.receive(arrival);
    expect((await store.library()).wells).toHaveLength(library.wells.length);
    expect(await store.picture(picture(1).sha256)).toEqual(picture(1));
  });

  it("puts what is here aside before something is brought in, the latest few times", async () => {
    const store = await open();
    const copy = (made: string) => ({ made, why: "before a backup" });
    await store.receive({ records: {}, events: [], copy: copy("2026-11-25T05:00:00.000Z") });
    expect(await store.copies()).toEqual([]);
    await store.append([note("mine")]);
    for (let hour = 10; hour < 10 + MOST_COPIES + 1; hour += 1) {
      await store.receive({
        records: { wells: library.wells },
        events: [],
        copy: copy(`2026-11-25T${hour}:00:00.000Z`),
      });
    }
    const copies = await store.copies();
    expect(copies.map(({ made }) => made.slice(11, 13))).toEqual(["13", "12", "11"]);
    expect(copies[0]?.events).toEqual(await store.allEvents());
    expect(copies[0]?.records.wells).toEqual(library.wells);
  });

  it("knows what of a job has left in a file, until the job is removed", async () => {
    const store = await open();
    const left = { job: "job", at: "2026-11-25T06:00:00.000Z", heads: {}, by: "pack" as const };
    await store.markExported([left]);
    await store.markExported([{ ...left, by: "backup" }]);
    expect(await store.exported()).toEqual([{ ...left, by: "backup" }]);
    await store.remove({ jobs: ["job"] });
    expect(await store.exported()).toEqual([]);
    await store.keepBackupFile({ name: "backup.json" });
    expect(await store.backupFile()).toEqual({ name: "backup.json" });
  });

  const acting = (entry: string) => ({
    actor: supervisor,
    now: "2026-11-25T06:00:00.000Z",
    units: "field" as const,
    entry,
  });
  const started = async () => {
    const store = await open();
    const tablet = new Tablet();
    tablet.start();
    await store.receive({ records: {}, events: tablet.events });
    return store;
  };

  it("performs a command: what is refused writes nothing", async () => {
    const store = await open();
    const refused = await perform(store, "job", acting("a"), (s) => addNote(s, "too early"));
    expect(refused).toMatchObject({ ok: false, events: [] });
    expect(await store.eventsOf("job")).toEqual([]);
  });

  it("performs an entry once, however often it is tried", async () => {
    const store = await started();
    const before = (await store.eventsOf("job")).length;
    const first = await perform(store, "job", acting("a"), (s) => addNote(s, "in time"));
    const again = await perform(store, "job", acting("a"), (s) => addNote(s, "in time"));
    expect(again.events.map((event) => event.hash)).toEqual(
      first.events.map((event) => event.hash),
    );
    expect(await store.eventsOf("job")).toHaveLength(before + 1);
  });

  it("answers an entry that is tried again with everything it wrote, in its order", async () => {
    const store = await started();
    const step = { step: "permit", typed: goodRun.permit?.fields ?? {}, takenAt: acting("").now };
    const first = await perform(store, "job", acting("a"), (s) => recordStep(s, step));
    expect(first.events.map((event) => event.body.type)).toEqual(["readings taken", "step done"]);
    await perform(store, "job", acting("b"), (s) => addNote(s, "another entry"));
    const again = await perform(store, "job", acting("a"), (s) => recordStep(s, step));
    expect(again.events).toEqual(first.events);
  });

  it("decides again when another window wrote between: a step is not done twice", async () => {
    const store = await started();
    const step = {
      step: "permit",
      typed: goodRun.permit?.fields ?? {},
      takenAt: acting("").now,
    };
    const both = await Promise.all(
      ["a", "b"].map((entry) => perform(store, "job", acting(entry), (s) => recordStep(s, step))),
    );
    const events = await store.eventsOf("job");
    expect(events.filter((event) => event.body.type === "step done")).toHaveLength(1);
    expect(both.every((done) => done.ok)).toBe(true);
    expect(brokenLinks(events)).toEqual([]);
  });
});

/** Two windows of one browser that type into one step. */
async function twoWindows() {
  const name = crypto.randomUUID();
  const [here, there] = [await openDexieStore(name), await openDexieStore(name)];
  const recorded = { job: "job", step: "permit" };
  const typed = (window: string, text: string) => ({
    ...recorded,
    since: "2026-11-25T06:00:00.000Z",
    fields: { "permit-number": { text } },
    window,
  });
  return { here, there, recorded, typed };
}

describe("the browser's database", () => {
  it("is this device's again when it is opened again", async () => {
    const name = crypto.randomUUID();
    const first = await openDexieStore(name);
    await first.append([note("kept")]);
    const again = await openDexieStore(name);
    expect(again.device).toBe(first.device);
    expect(await again.eventsOf("job")).toHaveLength(1);
  });

  it("lets go of what its window typed or showed when it is recorded, and of nothing another window typed since", async () => {
    const { here, there, recorded, typed } = await twoWindows();
    await here.keepHalfTyped(typed("here", "P-03"));
    await there.keepHalfTyped(typed("there", "P-04"));
    await here.append([note("P-03")], { recorded });
    expect(await here.halfTyped("job", "permit")).toEqual(typed("there", "P-04"));
    // It is on the screen here as well now, as after a reload.
    await here.append([note("P-04")], { recorded });
    expect(await there.halfTyped("job", "permit")).toBeUndefined();
  });

  it("empties what it typed or has read itself, and not what another window typed since", async () => {
    const { here, there, typed } = await twoWindows();
    const emptied = { ...typed("here", ""), fields: {} };
    await here.keepHalfTyped(typed("here", "P-03"));
    await here.keepHalfTyped(emptied);
    expect((await there.halfTyped("job", "permit"))?.fields).toEqual({});

    await there.keepHalfTyped(typed("there", "P-04"));
    await here.keepHalfTyped(emptied);
    expect(await there.halfTyped("job", "permit")).toEqual(typed("there", "P-04"));

    expect(await here.halfTyped("job", "permit")).toEqual(typed("there", "P-04"));
    await here.keepHalfTyped(emptied);
    expect(await there.halfTyped("job", "permit")).toEqual(emptied);
  });
});
