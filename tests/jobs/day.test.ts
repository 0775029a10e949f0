import { beforeEach, describe, expect, it } from "vitest";
import { demoPack } from "../../demo-data/build.ts";
import { library as demo, jobs as demoJobs, MADE_ON } from "../../demo-data/emberMesa.ts";
import {
  addExtra,
  changeDay,
  extraProblem,
  order,
  takeOffExtra,
  tick,
  untick,
} from "../../src/jobs/day/changeDay.ts";
import { clashesOf, sharedBy } from "../../src/jobs/day/clashes.ts";
import { dayJobs, movedJob } from "../../src/jobs/day/dayJobs.ts";
import { dayTime, inHours, isLong } from "../../src/jobs/day/dayTime.ts";
import { keyOf, type LoadLine, reads } from "../../src/jobs/day/loadLine.ts";
import { loadOutOf, workedOutLines } from "../../src/jobs/day/loadOut.ts";
import { loadTable } from "../../src/jobs/day/loadTable.ts";
import type { Tool } from "../../src/jobs/records/equipment.ts";
import type { Job } from "../../src/jobs/records/job.ts";
import { emptyLibrary, type Library } from "../../src/jobs/store/library.ts";
import type { Store } from "../../src/jobs/store/store.ts";
import { memoryStore } from "./memoryStore.ts";

const NOW = `${MADE_ON}T06:00:00.000Z`;
const actor = { name: "R. Tamsin", role: "wireline supervisor" } as const;

/** On the day of the ready job: a further one on EM-03, with the valve in stock that the demonstration leaves over. */
const second: Job = {
  ...demoJobs.ready,
  id: "job-em-03-2",
  well: "em-03",
  mandrel: "em-03-mandrel-2",
  reason: "Invented for the test.",
  replacement: "valve-em-2042",
};
const library: Library = { ...demo, jobs: [second, demoJobs.ready, demoJobs.notReady] };

const of = (records: Library = library) => dayJobs(MADE_ON, records, [], NOW, "field").jobs;
const linesOf = (records: Library = library) =>
  workedOutLines(MADE_ON, of(records), records, "field");
const line = (what: string | RegExp, records?: Library) => {
  const found = linesOf(records).filter((each) =>
    typeof what === "string" ? each.what === what : what.test(each.what),
  );
  expect(found.map(({ key }) => key)).toHaveLength(1);
  return found[0] as LoadLine;
};
const clashes = (records: Library) => clashesOf(MADE_ON, of(records), records);

/** The library with the second job otherwise. */
const with2 = (change: Partial<Job>, more: Partial<Library> = {}): Library => ({
  ...library,
  jobs: [{ ...second, ...change }, demoJobs.ready],
  ...more,
});

describe("the jobs of a day", () => {
  it("stand by their wells until somebody orders them", () => {
    expect(of().map(({ well }) => well)).toEqual(["EM-03", "EM-07"]);
  });

  it("keep the order of the record; a job that it does not know comes after", () => {
    const third: Job = { ...second, id: "job-third", well: "em-12", mandrel: "em-12-mandrel-1" };
    const day = { id: MADE_ON, revision: 1, loaded: [], extras: [] };
    const ordered = {
      ...library,
      jobs: [third, second, demoJobs.ready],
      days: [{ ...day, order: [demoJobs.ready.id, "gone", second.id] }],
    };
    expect(of(ordered).map(({ well }) => well)).toEqual(["EM-07", "EM-03", "EM-12"]);
  });

  it.each([
    { id: "b", by: -1, gives: ["b", "a", "c"] },
    { id: "b", by: 1, gives: ["a", "c", "b"] },
    { id: "a", by: -1, gives: ["a", "b", "c"] },
    { id: "c", by: 1, gives: ["a", "b", "c"] },
    { id: "x", by: 1, gives: ["a", "b", "c"] },
  ] as const)("$id moved by $by gives $gives", ({ id, by, gives }) => {
    expect(movedJob(["a", "b", "c"], id, by)).toEqual(gives);
  });

  it("that cannot be read do not take the others with them", () => {
    const broken = { ...second, id: "broken", strings: undefined } as unknown as Job;
    const found = dayJobs(
      MADE_ON,
      { ...library, jobs: [broken, demoJobs.ready] },
      [],
      NOW,
      "field",
    );
    expect(found.jobs.map(({ well }) => well)).toEqual(["EM-07"]);
    expect(found.unread).toMatchObject([{ well: "EM-03" }]);
  });
});

describe("what goes on the truck", () => {
  it("tools as often as the string asks that has the most of them, for both wells", () => {
    expect(line("Stem 1-1/2 in x 5 ft")).toMatchObject({ count: 2, wells: ["EM-03", "EM-07"] });
    expect(line("Rope socket")).toMatchObject({ count: 1 });
    expect(line("Kickover tool, orienting")).toMatchObject({ count: 1 });
    expect(line("Gauge cutter 2.30 in, long body")).toMatchObject({ detail: "2.3 in × 8 ft" });
  });

  it("a tool that the office owns by its serial, once, whatever the strings say", () => {
    const jars = demo.strings[0]?.tools.find(({ id }) => id === "jars") as Tool;
    const owned = { ...jars, revision: 1, serial: "J-204", state: "in service" as const };
    const twice = {
      ...library,
      tools: [owned],
      strings: demo.strings.map((string) => ({ ...string, tools: [...string.tools, jars] })),
    };
    expect(line("Mechanical jars", twice)).toMatchObject({
      count: 1,
      detail: "serial J-204, 1.5 in × 4.5 ft",
    });
    const lapsed = { ...twice, tools: [{ ...owned, certificateUntil: "2026-11-01" }] };
    expect(line("Mechanical jars", lapsed).ask).toBe(
      "Mechanical jars, serial J-204, has a certificate that ended 2026-11-01.",
    );
  });

  it("valves with size, latch and the set pressure of their card", () => {
    expect(line("Valve EM-2041, injection-operated")).toMatchObject({
      count: 1,
      detail: "1 in, ring latch, 1 in, test rack 948 psig at 60 °F, card of 2026-11-12",
      why: "For mandrel 3 of EM-07.",
    });
  });

  it("a dummy where the work asks one and none is chosen", () => {
    const { replacement: _, ...bare } = second;
    const blank = {
      ...bare,
      sheet: {
        work: "pull and dummy off" as const,
        catcher: false,
        changes: { dropped: [], moved: [], own: [] },
      },
    };
    expect(line(/^Dummy valve for/, { ...library, jobs: [blank, demoJobs.ready] })).toMatchObject({
      what: "Dummy valve for mandrel 2 of EM-03",
      detail: "1 in",
      ask: "None is chosen. Choose it in the plan of the job.",
    });
  });

  it("pins of both jobs by tool, material, diameter and batch, and as many to spare", () => {
    const pins = linesOf().filter(({ group }) => group === "pins");
    expect(pins.map(reads)).toEqual([
      "2 × Shear pin, steel, 0.1875 in, pulling tool",
      "4 × Shear pin, brass, 0.1875 in, running tool, batch B-118",
    ]);
    expect(line("Spare: shear pin, brass, 0.1875 in")).toMatchObject({ count: 4, practice: true });
  });

  it("spares for each pocket, further pockets of a job too", () => {
    const also = {
      mandrel: "em-03-mandrel-3",
      replacement: "valve-em-2037",
      work: "change out" as const,
      design: {},
    };
    const three = with2({ also: [also] });
    expect(line("Packing set, both stacks of a valve", three)).toMatchObject({
      count: 3,
      practice: true,
    });
    expect(line("Valve EM-2037, injection-operated", three).wells).toEqual(["EM-03"]);
    expect(line(/^Shear pin, brass/, three).count).toBe(6);
  });

  it("the shared stack once with ratings and certificates, and what seals it", () => {
    expect(line("Wire valves, two rams")).toMatchObject({
      count: 1,
      detail: "5000 psig, bore 3 in, certificate until 2027-06-30",
      wells: ["EM-03", "EM-07"],
    });
    // Eight pieces one on the other, the hose apart.
    expect(line("O-ring of a union")).toMatchObject({ count: 7, practice: true });
    expect(line("Ring gasket or seal for the tree connection").count).toBe(2);
  });

  it("the line, what fishes for it, and an inhibitor where hydrates can form", () => {
    expect(line("Wire 0.108 in, carbon, drum 4").detail).toBe(
      "0.108 in, breaks at 2110 lbf, cut and tested 2026-11-20",
    );
    expect(line("Wire grab").detail).toBe("for 0.108 in line");
    const inhibitor = line("Methanol or glycol, with what pumps it in");
    expect(inhibitor).toMatchObject({ practice: true, wells: ["EM-03", "EM-07"] });
    expect(inhibitor.why).toMatch(/^EM-03: Hydrates can form in the stack below: \d+ °F\./);
  });

  it("no inhibitor where nothing says that hydrates can form", () => {
    const dry = {
      ...library,
      wells: demo.wells.map(({ injectionGas: _, tubingGas: __, ...well }) => well),
    };
    expect(linesOf(dry).filter(({ group }) => group === "chemicals")).toEqual([]);
  });

  it("lines have keys of their own, whatever the names", () => {
    const keys = linesOf().map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    const long = "x".repeat(399);
    expect(keyOf("tools", `${long}a`)).not.toBe(keyOf("tools", `${long}b`));
    expect(keyOf("tools", `${long}a`).length).toBeLessThanOrEqual(400);
  });
});

describe("what stands in the way of a day", () => {
  it("one valve in two jobs, ahead of everything else", () => {
    expect(clashes(with2({ replacement: "valve-em-2041" }))[0]).toEqual({
      weight: "fails",
      says: "Valve EM-2041 is to go into EM-03, mandrel 2 and EM-07, mandrel 3. Choose another for one of them.",
      job: demoJobs.ready.id,
    });
  });

  it("a valve that stands in a pocket by the records", () => {
    expect(clashes(with2({ replacement: "valve-em-0712" }))).toContainEqual({
      weight: "fails",
      says: "Valve EM-0712 is to go into EM-03, mandrel 2, and stands in mandrel 2 of EM-07 by its record.",
      job: second.id,
    });
  });

  it("one pocket in two jobs", () => {
    const same = clashes(with2({ well: "em-07", mandrel: "em-07-mandrel-3" }));
    expect(same.map(({ says }) => says)).toEqual(
      expect.arrayContaining([
        "EM-07, mandrel 3 is worked in 2 jobs of the day. Take it out of one of them.",
        "EM-07 has 2 jobs on this day: two rig-ups on one well. Should they be one job with further pockets?",
      ]),
    );
  });

  it("one string for a pocket with a sleeve and one without", () => {
    const found = clashes(with2({ well: "em-12", mandrel: "em-12-mandrel-3" }));
    expect(found).toContainEqual({
      weight: "fails",
      says: "Pull string, orienting has to be orienting, for a sleeve, on EM-07, mandrel 3, and not orienting, without a sleeve, on EM-12, mandrel 3. Take another string, or another kickover tool, for one of them.",
      job: second.id,
    });
  });

  it("one string that is pinned in two ways", () => {
    expect(clashes(with2({ pins: { material: "steel", count: 1 } }))).toContainEqual({
      weight: "ask",
      says: "Set string, orienting has to be pinned 1 × steel on EM-03, mandrel 2, and pinned 2 × brass 0.1875 in on EM-07, mandrel 3. Pin the running tool anew between the two jobs.",
      job: demoJobs.ready.id,
    });
  });

  it("a string that was changed after one of the jobs was issued", () => {
    const events = demoPack().content.events as never;
    const strings = demo.strings.map((string) =>
      string.purpose === "pull" ? { ...string, tools: string.tools.slice(1) } : string,
    );
    const { jobs } = dayJobs(MADE_ON, { ...library, strings }, events, NOW, "field");
    expect(clashesOf(MADE_ON, jobs, library).map(({ says }) => says)).toContain(
      "Pull string, orienting is not made up the same for EM-03 and EM-07: it was changed after one of them was issued. Issue that one again, or make the string up anew between the two.",
    );
  });

  it("a tool in repair that a string of the day takes", () => {
    const jars = demo.strings[0]?.tools.find(({ id }) => id === "jars") as Tool;
    const tools = [{ ...jars, revision: 1, serial: "J-204", state: "in repair" as const }];
    expect(clashes({ ...library, tools })[0]).toEqual({
      weight: "fails",
      says: "Mechanical jars, serial J-204, is in repair. Put another into its string.",
    });
  });

  it("a job that is ready and not issued", () => {
    expect(clashes({ ...library, jobs: [demoJobs.ready] })).toEqual([
      { weight: "ask", says: "EM-07 is ready, and not issued yet.", job: demoJobs.ready.id },
    ]);
  });

  it("a job that is not ready, with its worst open point", () => {
    const { supervisor: _, ...crew } = second.crew;
    const found = clashes(with2({ crew })).find(({ job }) => job === second.id);
    expect(found?.says).toMatch(/^EM-03 is not ready: .* And \d+ more\.$/);
  });

  it("nothing of a job that is over", () => {
    const events = demoPack().content.events as never;
    const both = {
      ...library,
      jobs: [
        { ...demoJobs.finished, day: MADE_ON },
        { ...demoJobs.ready, replacement: "valve-em-2037" },
      ],
    };
    const { jobs } = dayJobs(MADE_ON, both, [], NOW, "field");
    expect(clashesOf(MADE_ON, jobs, both).map(({ says }) => says)).toContain(
      "Valve EM-2037 is to go into EM-03, mandrel 3 and EM-07, mandrel 3. Choose another for one of them.",
    );
    const over = dayJobs(MADE_ON, both, events, NOW, "field").jobs;
    expect(over.find(({ well }) => well === "EM-03")?.stage).toBe("closed");
    expect(clashesOf(MADE_ON, over, both).filter(({ says }) => says.includes("EM-2037"))).toEqual(
      [],
    );
  });

  it("says what is shared", () => {
    expect(sharedBy(of()).map(({ kind, name }) => `${kind} ${name}`)).toEqual([
      "string Gauge string, 2.30 in",
      "string Pull string, orienting",
      "string Set string, orienting",
      "line Wire 0.108 in, carbon, drum 4",
      "stack 5,000 psi stack A",
    ]);
    expect(sharedBy(of().slice(0, 1))).toEqual([]);
  });
});

describe("how long a day is", () => {
  it("goes by the runs that were closed on this tablet", () => {
    const events = demoPack().content.events as never;
    const all = { ...library, jobs: [...library.jobs, demoJobs.finished] };
    const { jobs } = dayJobs(MADE_ON, all, events, NOW, "field");
    const time = dayTime(jobs, all, events, NOW);
    expect(time).toMatchObject({ runs: 1, pockets: 2 });
    expect(time?.whole).toBe(2 * (time?.perPocket ?? 0));
  });

  it("is not known before one was", () => {
    expect(dayTime(of(), library, [], NOW)).toBeUndefined();
  });

  it("is asked about above a shift", () => {
    const time = { runs: 1, perPocket: 1, pockets: 1, whole: 12.1 * 3_600_000 };
    expect([isLong(time), isLong({ ...time, whole: 12 * 3_600_000 })]).toEqual([true, false]);
    expect([inHours(59 * 60_000), inHours(200 * 60_000)]).toEqual(["59 min", "3 h 20 min"]);
  });
});

describe("ticking the list", () => {
  let store: Store;
  beforeEach(() => {
    store = memoryStore();
  });
  const record = async () => (await store.library()).days[0];
  const stem = () => line("Stem 1-1/2 in x 5 ft");

  it("says who loaded what and when", async () => {
    await changeDay(store, MADE_ON, tick(stem(), actor, NOW));
    const { lines, notNeeded } = loadOutOf(linesOf(), await record());
    expect(notNeeded).toEqual([]);
    expect(lines.filter(({ loaded }) => loaded.state !== "open")).toMatchObject([
      { what: "Stem 1-1/2 in x 5 ft", loaded: { state: "loaded", at: NOW, by: "R. Tamsin" } },
    ]);
    await changeDay(store, MADE_ON, untick(stem().key));
    expect((await record())?.loaded).toEqual([]);
    expect((await record())?.revision).toBe(2);
  });

  it("keeps both of two hands that tick at once", async () => {
    const lines = linesOf().slice(0, 4);
    await Promise.all(lines.map((each) => changeDay(store, MADE_ON, tick(each, actor, NOW))));
    expect((await record())?.loaded.map(({ line: key }) => key).sort()).toEqual(
      lines.map(({ key }) => key).sort(),
    );
  });

  it("gives up, and says so, when the record never stands still", async () => {
    const restless = {
      recordsFor: async () => ({ ...emptyLibrary }),
      put: async () => {
        const { Outdated } = await import("../../src/jobs/store/store.ts");
        throw new Outdated("changed");
      },
    };
    await expect(changeDay(restless, MADE_ON, order([]))).rejects.toThrow("changed");
  });

  it("does not go on when the store fails", async () => {
    const failing = {
      recordsFor: store.recordsFor,
      put: async () => {
        throw new Error("full");
      },
    };
    await expect(changeDay(failing, MADE_ON, tick(stem(), actor, NOW))).rejects.toThrow("full");
    expect(await record()).toBeUndefined();
  });

  it("a line that reads otherwise afterwards is to be ticked again", async () => {
    await changeDay(store, MADE_ON, tick(stem(), actor, NOW));
    const strings = demo.strings.map((string) => ({
      ...string,
      tools: string.tools.filter(({ id }) => id !== "stem-2"),
    }));
    const { lines } = loadOutOf(linesOf({ ...library, strings }), await record());
    expect(lines.find(({ key }) => key === stem().key)).toMatchObject({
      count: 1,
      loaded: {
        state: "changed",
        by: "R. Tamsin",
        read: "2 × Stem 1-1/2 in x 5 ft, 1.5 in × 5 ft",
      },
    });
  });

  it("a further well for the same thing changes nothing on the truck", async () => {
    const alone = { ...library, jobs: [demoJobs.ready] };
    await changeDay(store, MADE_ON, tick(line("Stem 1-1/2 in x 5 ft", alone), actor, NOW));
    const { lines } = loadOutOf(linesOf(), await record());
    expect(lines.find(({ key }) => key === stem().key)?.loaded.state).toBe("loaded");
  });

  it("a ticked line that nothing asks for any more is named until it is off the truck", async () => {
    const valve = line("Valve EM-2042, injection-operated");
    await changeDay(store, MADE_ON, tick(valve, actor, NOW));
    const without = linesOf({ ...library, jobs: [demoJobs.ready] });
    expect(loadOutOf(without, await record()).notNeeded).toEqual([
      { key: valve.key, read: reads(valve), at: NOW, by: "R. Tamsin" },
    ]);
    await changeDay(store, MADE_ON, untick(valve.key));
    expect(loadOutOf(without, await record()).notNeeded).toEqual([]);
  });

  it("the order is kept beside what was ticked", async () => {
    await changeDay(store, MADE_ON, tick(stem(), actor, NOW));
    await changeDay(store, MADE_ON, order(["b", "a"]));
    expect(await record()).toMatchObject({ order: ["b", "a"], loaded: [{ line: stem().key }] });
  });
});

describe("what is added by hand", () => {
  it("stands on the list, is ticked like the rest, and leaves a word when it was", async () => {
    const store = memoryStore();
    await changeDay(store, MADE_ON, addExtra("x1", "  Coffee, strong ", "2"));
    await changeDay(store, MADE_ON, addExtra("x1", "Coffee, strong", "2"));
    const [day] = (await store.library()).days;
    const { lines } = loadOutOf([], day);
    expect(lines).toMatchObject([{ group: "extras", count: 2, what: "Coffee, strong" }]);
    await changeDay(store, MADE_ON, tick(lines[0] as LoadLine, actor, NOW));
    await changeDay(store, MADE_ON, takeOffExtra("x1"));
    const [after] = (await store.library()).days;
    expect(loadOutOf([], after)).toMatchObject({
      lines: [],
      notNeeded: [{ read: "2 × Coffee, strong" }],
    });
  });

  it.each([
    ["", "1", 0, "Say what is to be taken along."],
    ["x".repeat(401), "1", 0, "401 characters; at most 400."],
    ["Rope", "two", 0, '"two" is no count: a whole number from 1 to 999.'],
    ["Rope", "0", 0, '"0" is no count: a whole number from 1 to 999.'],
    ["Rope", "1.5", 0, '"1.5" is no count: a whole number from 1 to 999.'],
    ["Rope", "1000", 0, '"1000" is no count: a whole number from 1 to 999.'],
    ["Rope", "1", 200, "There are 200 lines by hand already: take one off."],
    ["Rope", " 12 ", 199, undefined],
  ])("%j, %j with %d before: %s", (name, count, before, says) => {
    expect(extraProblem(name, count, before)).toBe(says);
  });
});

it("the table that leaves the program has every line, and what is no longer needed", async () => {
  const store = memoryStore();
  const [first, other] = linesOf() as [LoadLine, LoadLine];
  for (const each of [first, other]) await changeDay(store, MADE_ON, tick(each, actor, NOW));
  const [record] = (await store.library()).days;
  const { columns, rows } = loadTable(MADE_ON, loadOutOf([first], record));
  expect(rows.every((row) => row.length === columns.length)).toBe(true);
  expect(rows.map((row) => [row[1], row[2], row[8], row[9], row[10]])).toEqual([
    [first.count, first.what, "loaded", "R. Tamsin", NOW],
    [undefined, reads(other), "was loaded", "R. Tamsin", NOW],
  ]);
});
