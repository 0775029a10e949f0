import "fake-indexeddb/auto";
import { Dexie } from "dexie";
import { describe, expect, it } from "vitest";
import { jobs, library } from "../../../demo-data/emberMesa.ts";
import { namersOf } from "../../../src/jobs/library/removal.ts";
import { arrivalOf, previewPack } from "../../../src/jobs/pack/arrival.ts";
import { contentForJobs } from "../../../src/jobs/pack/contents.ts";
import { differencesOf } from "../../../src/jobs/pack/differences.ts";
import { makePack, packText, readPack } from "../../../src/jobs/pack/pack.ts";
import { preparePack } from "../../../src/jobs/pack/prepared.ts";
import type { Evidence, Investigation } from "../../../src/jobs/records/investigation.ts";
import { openDexieStore } from "../../../src/jobs/store/dexieStore.ts";
import { emptyLibrary } from "../../../src/jobs/store/library.ts";
import { memoryStore } from "../memoryStore.ts";

const AT = "2026-11-20T09:00:00.000Z";
const read = (id: string, casing: number): Evidence => ({
  id,
  kind: "pressures",
  at: AT,
  source: "Gauge C-14",
  confidence: "good",
  injectionAtSurface: { value: casing, unit: "psig" },
  wellhead: { value: 128, unit: "psig" },
});
const looked = (id: string, well: string, of: Partial<Investigation> = {}): Investigation => ({
  id,
  revision: 1,
  well,
  opened: AT,
  openedBy: "L. Ashgrove",
  evidence: [read("read-1", 742)],
  ...of,
});
const ledToJob = looked("looked-2", "em-07", {
  agreed: {
    at: AT,
    by: "L. Ashgrove",
    hypothesis: "stuck open 3",
    says: "Valve in mandrel 3 stuck open, about 8 in 10.",
    reason: "Casing bleeds below what valve 3 shuts at.",
    job: jobs.ready.id,
  },
});
const all = [looked("looked-1", "em-07"), ledToJob, looked("looked-3", "em-12")];

describe.each([
  { name: "the browser's database", open: () => openDexieStore(crypto.randomUUID()) },
  { name: "memory", open: async () => memoryStore() },
])("investigations in $name", ({ open }) => {
  it("come by their well, and only where they are asked for", async () => {
    const store = await open();
    await store.receive({ records: { ...library, investigations: all }, events: [] });
    const ids = async (wanted: Parameters<typeof store.recordsFor>[0]) =>
      (await store.recordsFor(wanted)).investigations.map(({ id }) => id);
    expect(await ids({ wells: ["em-07"], jobs: "all" })).toEqual([]);
    expect(await ids({ investigationsOf: ["em-07"] })).toEqual(["looked-1", "looked-2"]);
    expect(await ids({ records: { investigations: ["looked-3"] } })).toEqual(["looked-3"]);
    expect(
      await ids({ records: { investigations: ["looked-2"] }, investigationsOf: ["em-07"] }),
    ).toEqual(["looked-1", "looked-2"]);
    expect(await ids({ whole: ["investigations"], investigationsOf: ["em-07"] })).toHaveLength(3);
  });

  it("travel with the job they led to, and with no other", async () => {
    const store = await open();
    await store.receive({ records: { ...library, investigations: all }, events: [] });
    const pack = async (job: string) => {
      const made = readPack((await preparePack(store, { job }, AT)).text);
      if (!made.ok) throw new Error(made.why);
      return made.pack.content.records.investigations;
    };
    expect(await pack(jobs.ready.id)).toEqual([ledToJob]);
    expect(await pack(jobs.notReady.id)).toEqual([]);
  });
});

it("a database of before gets a place for investigations and loses nothing", async () => {
  const name = crypto.randomUUID();
  const before = new Dexie(name);
  before.version(3).stores({ wells: "id", tools: "id", days: "id" });
  await before.open();
  await before.table("wells").put(library.wells[0]);
  before.close();
  const store = await openDexieStore(name);
  await store.put("investigations", looked("looked-1", "em-03"));
  const kept = await store.recordsFor({ wells: ["em-03"], investigationsOf: ["em-03"] });
  expect(kept.wells).toEqual([library.wells[0]]);
  expect(kept.investigations).toHaveLength(1);
});

describe("an investigation in a pack", () => {
  it("is named by its well and its day, and differs evidence by evidence", () => {
    const carried = { ...library, investigations: all };
    const pack = makePack(contentForJobs([jobs.ready], carried, []), AT);
    const mine = { ...emptyLibrary, wells: library.wells, investigations: [ledToJob] };
    expect(previewPack(pack, mine, []).same.map(({ name }) => name)).toContain(
      "investigation of EM-07, 2026-11-20",
    );
    const theirs = { ...ledToJob, evidence: [read("read-1", 744), read("read-2", 700)] };
    expect(differencesOf(ledToJob, theirs, () => undefined)).toEqual([
      {
        where: "Evidence pressures of 2026-11-20 09:00 UTC, injection at surface",
        mine: "742 psig",
        theirs: "744 psig",
      },
      { where: "Evidence pressures of 2026-11-20 09:00 UTC", mine: "not there", theirs: "there" },
    ]);
  });

  it("tells what was agreed in words, with its moment as evidence has it", () => {
    const { agreed: _, ...older } = ledToJob;
    const found = differencesOf(older, ledToJob, () => undefined);
    expect(found.map(({ where, theirs }) => `${where}: ${theirs}`)).toEqual([
      "Agreed, at: 2026-11-20 09:00 UTC",
      "Agreed, by: L. Ashgrove",
      "Agreed, answer: stuck open 3",
      "Agreed, says: Valve in mandrel 3 stuck open, about 8 in 10.",
      "Agreed, reason: Casing bleeds below what valve 3 shuts at.",
      `Agreed, job: ${jobs.ready.id}`,
    ]);
  });

  it("tells two long trends apart by their length, not point by point", () => {
    const points = (count: number) =>
      Array.from({ length: count }, (_, index) => ({
        at: new Date(Date.parse(AT) + index * 60_000).toISOString(),
        casing: { value: 700 + index, unit: "psig" as const },
      }));
    const trend = (count: number): Investigation => ({
      ...ledToJob,
      evidence: [
        {
          id: "trend",
          kind: "trend",
          at: AT,
          source: "Recorder",
          confidence: "fair",
          points: points(count),
        },
      ],
    });
    expect(differencesOf(trend(400), trend(300), () => undefined)).toEqual([
      {
        where: "Evidence trend of 2026-11-20 09:00 UTC, points",
        mine: "400 points",
        theirs: "300 points",
      },
    ]);
  });

  it("goes through its schema: a quantity that cannot be is named by its place", () => {
    const bad = looked("bad", "em-07", { evidence: [read("read-1", 1e9)] });
    const pack = makePack(
      { records: { ...emptyLibrary, investigations: [bad] } as never, events: [] },
      AT,
    );
    const given = readPack(packText(pack));
    expect(given.ok || given.why).toContain(
      "content.records.investigations[0].evidence[0].injectionAtSurface.value: a pressure lies between",
    );
  });

  it("is written once: a second import of the same pack changes nothing", () => {
    const carried = { ...library, investigations: all };
    const pack = makePack(contentForJobs([jobs.ready], carried, []), AT);
    const mine = { ...library, investigations: all };
    const arrival = arrivalOf(pack, previewPack(pack, mine, []), mine, "take theirs");
    expect(arrival.records.investigations).toEqual([]);
  });
});

it("a well with an investigation is not taken out of the library: its evidence would hang in the air", () => {
  const given = { ...library, jobs: [], investigations: all };
  expect(namersOf("wells", "em-12", given, new Map())).toEqual([
    {
      kind: "investigations",
      id: "looked-3",
      well: "em-12",
      says: "the investigation of 2026-11-20",
    },
  ]);
});
