import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import { union } from "../../src/jobs/log/order.ts";
import { hashOf } from "../../src/jobs/log/seal.ts";
import { arrivalOf, previewPack } from "../../src/jobs/pack/arrival.ts";
import { contentForDay } from "../../src/jobs/pack/contents.ts";
import { differencesOf } from "../../src/jobs/pack/differences.ts";
import { dayPackName, jobPackName, shownName } from "../../src/jobs/pack/fileNames.ts";
import { makePack, type Pack, packText, readPack } from "../../src/jobs/pack/pack.ts";
import { preparePack } from "../../src/jobs/pack/prepared.ts";
import { jsonFault } from "../../src/jobs/pack/strictJson.ts";
import type { WorkingDay } from "../../src/jobs/records/workingDay.ts";
import { stepById } from "../../src/jobs/sheet/walk.ts";
import { foldInOrder } from "../../src/jobs/state/jobState.ts";
import { emptyLibrary, type Library } from "../../src/jobs/store/library.ts";
import { pictureHash } from "../../src/jobs/store/picture.ts";
import { demoText, goodRun, supervisor, Tablet } from "./demo.ts";
import { memoryStore } from "./memoryStore.ts";

const MADE = "2026-11-25T06:00:00.000Z";
const today: WorkingDay = {
  id: jobs.ready.day,
  revision: 1,
  order: [jobs.ready.id, "job-second"],
  loaded: [],
  extras: [{ id: "extra-1", name: "Second lubricator section", count: 1 }],
};
const office: Library = {
  ...library,
  jobs: [
    jobs.ready,
    { ...jobs.ready, id: "job-second", well: "em-12", mandrel: "em-12-mandrel-3" },
    ...library.jobs.filter(({ day }) => day !== jobs.ready.day),
  ],
  days: [today, { ...today, id: "2026-12-01", order: [] }],
};
const packOf = (records: Partial<Library>, events: readonly JobEvent[] = []) =>
  makePack({ records: { ...emptyLibrary, ...records } as never, events: [...events] }, MADE);
const signed = (content: unknown) =>
  JSON.stringify({ ...(JSON.parse(demoText()) as Pack), content, checksum: hashOf(content) });

describe("the pack of a day", () => {
  it("takes along every job of the day, all they need, and the day itself", () => {
    const { records } = contentForDay(jobs.ready.day, office, []);
    expect(records.jobs.map(({ id }) => id)).toEqual([jobs.ready.id, "job-second"]);
    expect(records.wells.map(({ name }) => name).sort()).toEqual(["EM-07", "EM-12"]);
    expect(records.days).toEqual([today]);
    for (const { line, stack, policy, strings } of records.jobs) {
      expect(records.lines.map(({ id }) => id)).toContain(line);
      expect(records.stacks.map(({ id }) => id)).toContain(stack);
      expect(records.policies.map(({ id }) => id)).toContain(policy);
      for (const string of Object.values(strings)) {
        expect(records.strings.map(({ id }) => id)).toContain(string);
      }
    }
    for (const { mandrels } of records.wells) {
      for (const { valve } of mandrels) {
        if (valve !== undefined) expect(records.valves.map(({ id }) => id)).toContain(valve);
      }
    }
  });

  it("takes along the tools of the office that are in its strings, and no others", () => {
    const [first] = library.strings[0]?.tools ?? [];
    if (!first) throw new Error("no tool");
    const owned = { ...first, revision: 1, serial: "RS-1", state: "in service" as const };
    const tools = [owned, { ...owned, id: "in-the-shed", serial: "RS-2" }];
    const { records } = contentForDay(jobs.ready.day, { ...office, tools }, []);
    expect(records.tools).toEqual([owned]);
  });

  it("carries the photographs of its strings and the pictures of its logs, and says how far its logs go", async () => {
    const bytes = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);
    const picture = { sha256: pictureHash(bytes), type: "image/jpeg" as const, bytes };
    const store = memoryStore();
    const strings = library.strings.map((string) => ({
      ...string,
      photographs: [{ day: "2026-11-24", jpeg: "/9j/AAAA" }],
    }));
    await store.receive({ records: { ...office, strings }, events: [] });
    const [event] = await store.append(
      [
        {
          id: crypto.randomUUID(),
          job: jobs.ready.id,
          at: MADE,
          actor: supervisor,
          body: { type: "photograph", picture: picture.sha256, width: 4, height: 3 },
        },
      ],
      { pictures: [picture] },
    );
    const prepared = await preparePack(store, { day: jobs.ready.day }, MADE);
    expect(prepared.name).toBe(`latchline-day-${jobs.ready.day}.json`);
    const read = readPack(prepared.text);
    if (!read.ok) throw new Error(read.why);
    const { records, pictures, events } = read.pack.content;
    expect(pictures.map(({ sha256 }) => sha256)).toEqual([picture.sha256]);
    expect(records.strings.every(({ photographs }) => photographs?.length === 1)).toBe(true);
    expect(events).toEqual([event]);
    expect(prepared).toMatchObject({
      jobs: 2,
      jobsOfDay: 2,
      events: 1,
      pictures: 1 + records.strings.length,
    });
    expect(prepared.exported).toEqual([
      { job: jobs.ready.id, at: MADE, heads: { [store.device]: event?.hash }, by: "pack" },
      { job: "job-second", at: MADE, heads: {}, by: "pack" },
    ]);
  });

  it("is not made of nothing", async () => {
    await expect(preparePack(memoryStore(), { day: "2026-12-24" }, MADE)).rejects.toThrow(
      /no job on 2026-12-24/,
    );
    await expect(preparePack(memoryStore(), { job: "gone" }, MADE)).rejects.toThrow(
      /not on this tablet/,
    );
  });

  it("brings a whole tablet of its own to where the office is", async () => {
    const there = memoryStore();
    await there.receive({ records: office, events: [] });
    const { text } = await preparePack(there, { day: jobs.ready.day }, MADE);
    const read = readPack(text);
    if (!read.ok) throw new Error(read.why);
    const here = memoryStore();
    const preview = previewPack(read.pack, await here.library(), []);
    await here.receive(arrivalOf(read.pack, preview, emptyLibrary, "keep mine"));
    const again = await preparePack(here, { day: jobs.ready.day }, MADE);
    expect(JSON.parse(again.text).checksum).toBe(JSON.parse(text).checksum);
  });
});

describe("a pack's file name", () => {
  it("names the well and the day", () => {
    expect(jobPackName("EM-07", "2026-11-25")).toBe("latchline-EM-07-2026-11-25.json");
    expect(dayPackName("2026-11-25")).toBe("latchline-day-2026-11-25.json");
  });

  it.each([
    ['EM 07 / "A" <west>', "latchline-EM-07-A-west-2026-11-25.json"],
    ["../../etc", "latchline-etc-2026-11-25.json"],
    ["a:b|c?*\\", "latchline-a-b-c-2026-11-25.json"],
    ["\u202egpj.07", "latchline-gpj.07-2026-11-25.json"],
    ["...", "latchline-unnamed-2026-11-25.json"],
    ["Brønn 7", "latchline-Brønn-7-2026-11-25.json"],
  ])("of %j holds nothing that a file system refuses: %s", (well, name) => {
    expect(jobPackName(well, "2026-11-25")).toBe(name);
  });

  it("is short enough for one, whatever the well is called", () => {
    const name = jobPackName("井".repeat(400), "2026-11-25");
    expect(new TextEncoder().encode(name).length).toBeLessThan(160);
    expect(name).toMatch(/^latchline-井+-2026-11-25.json$/);
  });

  it("from elsewhere is shown as it is written, and not longer than a line", () => {
    expect(shownName("latchline-EM-07-2026-11-25.json")).toBe("latchline-EM-07-2026-11-25.json");
    expect(shownName("pack-\u202enosj.exe")).toBe("pack-▯nosj.exe");
    expect(shownName("a\nb\u0000c\u200b.json")).toBe("a▯b▯c▯.json");
    const long = shownName(`${"x".repeat(4000)}.json`);
    expect([...long]).toHaveLength(80);
    expect(long).toMatch(/…x+\.json$/);
    expect(shownName("wells\u202ecsv.exe\u0000<b>")).toBe("wells▯csv.exe▯<b>");
    expect(shownName("  ")).toBe("a file without a name");
  });
});

describe("where two states of a record differ", () => {
  const [string] = library.strings;
  const well = library.wells[0];
  if (!string || !well) throw new Error("no records");
  const names = (id: string) => ({ "line-a": "Slickline A", "line-b": "Slickline B" })[id];
  const between = (mine: object, theirs: object) => differencesOf(mine, theirs, names);

  it("is told by the field, in words and as it was typed, with its unit", () => {
    const { mandrels, ...rest } = well;
    const theirs = {
      ...rest,
      revision: 7,
      mandrels: mandrels.map((each) =>
        each.number === 2 ? { ...each, depthAlongHole: { value: 1101.5, unit: "m" } } : each,
      ),
    };
    const deep = mandrels.find(({ number }) => number === 2)?.depthAlongHole;
    expect(between(well, theirs)).toEqual([
      {
        where: "Mandrel 2, depth along hole",
        mine: `${deep?.value} ${deep?.unit}`,
        theirs: "1101.5 m",
      },
    ]);
  });

  it("tells a tool that was measured anew, one that was put in, and their order", () => {
    const [first, second, ...others] = string.tools;
    if (!first || !second) throw new Error("no tools");
    const measured = { ...second, length: { value: 5.25, unit: "ft" } };
    const further = { ...first, id: "further", name: "Knuckle joint, spare" };
    expect(between(string, { ...string, tools: [measured, first, ...others, further] })).toEqual([
      {
        where: `Tool ${second.name}, length`,
        mine: `${second.length.value} ${second.length.unit}`,
        theirs: "5.25 ft",
      },
      { where: "Tool Knuckle joint, spare", mine: "not there", theirs: "there" },
      {
        where: "Tools, order",
        mine: string.tools.map(({ name }) => name).join(", "),
        theirs: [second, first, ...others].map(({ name }) => name).join(", "),
      },
    ]);
  });

  it.each<[string, object, object, object]>([
    [
      "another record by its name",
      { line: "line-a" },
      { line: "line-b" },
      { where: "Line", mine: "Slickline A", theirs: "Slickline B" },
    ],
    [
      "what only one of them says",
      {},
      { remarks: "Port cut" },
      { where: "Remarks", mine: "not said", theirs: "Port cut" },
    ],
    [
      "a group that only one has",
      { card: { by: "J. Fell" } },
      {},
      { where: "Card, by", mine: "J. Fell", theirs: "not said" },
    ],
    [
      "a limit by its name alone",
      { watch: { value: { value: 15, unit: "min" }, basis: "a" } },
      { watch: { value: { value: 30, unit: "min" }, basis: "a" } },
      { where: "Watch", mine: "15 min", theirs: "30 min" },
    ],
    [
      "a limit that is a number",
      { pushOutRatio: { value: 1.3, basis: "a" } },
      { pushOutRatio: { value: 1.5, basis: "a" } },
      { where: "Push out ratio", mine: "1.3", theirs: "1.5" },
    ],
    [
      "yes and no",
      { invented: true },
      { invented: false },
      { where: "Invented", mine: "yes", theirs: "no" },
    ],
    [
      "a list of names",
      { order: ["line-a", "line-b"] },
      { order: [] },
      { where: "Order", mine: "Slickline A, Slickline B", theirs: "not said" },
    ],
    [
      "a temperature by its sign",
      { t: { value: 60, unit: "degF" } },
      { t: { value: 16, unit: "degC" } },
      { where: "T", mine: "60 °F", theirs: "16 °C" },
    ],
    [
      "a photograph, not its letters",
      { photographs: [{ day: "2026-11-24", jpeg: "/9j/AAAA" }] },
      { photographs: [{ day: "2026-11-24", jpeg: "/9j/BBBB" }] },
      { where: "Photograph 1, photograph", mine: "one picture", theirs: "another picture" },
    ],
  ])("tells %s", (_, mine, theirs, says) => {
    expect(between(mine, theirs)).toEqual([says]);
  });

  it("does not count revisions, and is nothing between two that are alike", () => {
    expect(between({ revision: 1, name: "a" }, { revision: 9, name: "a" })).toEqual([]);
  });
});

describe("a pack that comes back from the field", () => {
  /** The office issued the job; the field ran it and measured a tool anew. */
  const there = new Tablet(crypto.randomUUID(), jobs.ready.id).start();
  const issued = there.events;
  there.runTo("as-found");
  const strings = library.strings.map((each, index) =>
    index === 0
      ? {
          ...each,
          revision: each.revision + 1,
          tools: each.tools.map((tool, at) =>
            at === 1 ? { ...tool, length: { value: 5.5, unit: "ft" as const } } : tool,
          ),
        }
      : each,
  );
  const pack = packOf({ ...library, jobs: [jobs.ready], strings }, there.events);

  it("joins its events to the office's, and offers its records", async () => {
    const store = memoryStore();
    await store.receive({ records: { ...library, jobs: [jobs.ready] }, events: issued });
    const here = await store.library();
    const preview = previewPack(pack, here, issued);
    expect(preview.newEvents).toBe(there.events.length - issued.length);
    expect(preview.fresh).toEqual([]);
    expect(preview.different).toEqual([
      expect.objectContaining({
        kind: "strings",
        id: library.strings[0]?.id,
        fields: [
          expect.objectContaining({
            where: expect.stringMatching(/^Tool .*, length$/),
            theirs: "5.5 ft",
          }),
        ],
      }),
    ]);
    await store.receive({
      ...arrivalOf(pack, preview, here, "take theirs"),
      copy: { made: MADE, why: "before" },
    });
    expect(await store.eventsOf(jobs.ready.id)).toEqual(there.events);
    const [string] = (await store.library()).strings;
    expect(string?.tools[1]?.length).toEqual({ value: 5.5, unit: "ft" });
    expect(await store.copies()).toHaveLength(1);
  });

  it("is taken record by record", () => {
    const [valve] = library.valves;
    if (!valve) throw new Error("no valve");
    const both = packOf({ strings, valves: [{ ...valve, remarks: "Scored" }] });
    const preview = previewPack(both, library, []);
    expect(preview.different.map(({ kind }) => kind)).toEqual(["valves", "strings"]);
    const { records } = arrivalOf(both, preview, library, ({ kind }) =>
      kind === "valves" ? "take theirs" : "keep mine",
    );
    expect(records.valves).toEqual([{ ...valve, remarks: "Scored", revision: valve.revision + 1 }]);
    expect(records.strings).toEqual([]);
  });

  it("says before anything is written what two tablets read differently", () => {
    // Both go on from the same log, and neither knows of the other.
    const goOn = (name: string, casing: string) => {
      const tablet = new Tablet(crypto.randomUUID(), jobs.ready.id);
      tablet.merge(there.events);
      tablet.now = there.now;
      tablet.actor = { ...supervisor, name };
      tablet.enter("as-found", {
        ...goodRun["as-found"]?.fields,
        "as-found-casing": { text: casing, unit: "psig" },
      });
      return tablet.events;
    };
    const mine = goOn("R. Tamsin", "1003");
    const theirs = goOn("B. Orla", "1010");
    const { programme } = foldInOrder(mine);
    const doneTitle = programme && stepById(programme.sheet, "as-found")?.title;
    const here = { ...library, jobs: [jobs.ready] };
    const arriving = packOf({ jobs: [jobs.ready] }, theirs);
    const preview = previewPack(arriving, here, mine);
    expect(preview.clashes).toEqual([]);
    expect(preview.logs).toEqual([
      {
        job: jobs.ready.id,
        name: `job on EM-07, ${jobs.ready.day}`,
        newEvents: theirs.length - there.events.length,
        conflicts: [
          {
            where: expect.stringMatching(/casing/i),
            mine: "1003 psig, by R. Tamsin",
            theirs: "1010 psig, by B. Orla",
          },
        ],
        doneApart: [doneTitle],
      },
    ]);
    // Brought in once, it is no news.
    expect(previewPack(arriving, here, union(mine, theirs)).logs).toMatchObject([
      { newEvents: 0, conflicts: [], doneApart: [] },
    ]);
  });

  it("whose log was written by a copy of this tablet cannot be joined, and says so first", () => {
    const device = crypto.randomUUID();
    const one = new Tablet(device, jobs.ready.id).start();
    const other = new Tablet(device, jobs.ready.id).start();
    const preview = previewPack(packOf({ jobs: [jobs.ready] }, other.events), library, one.events);
    expect(preview.clashes[0]).toBe(
      `event 1 of job ${jobs.ready.id} is another one here than in the pack`,
    );
  });
});

describe("one thing under two ids", () => {
  const [valve] = library.valves;
  const [well] = library.wells;
  if (!valve || !well) throw new Error("no records");
  const twin = {
    ...valve,
    id: "valve-of-the-field",
    serial: valve.serial.toLowerCase().replace("-", " "),
  };

  it("is named: a valve that both sides made, blanks and dashes of its serial apart", () => {
    const preview = previewPack(packOf({ valves: [twin] }), library, []);
    expect(preview.fresh).toHaveLength(1);
    expect(preview.twofold).toEqual([
      { kind: "valves", id: twin.id, name: `valve ${twin.serial}`, also: valve.id },
    ]);
  });

  it("is named within a pack, too, and for wells and tools", () => {
    const [tool] = library.strings[0]?.tools ?? [];
    if (!tool) throw new Error("no tool");
    const owned = { ...tool, id: "t1", revision: 1, serial: "KO-9", state: "in service" as const };
    const pack = packOf({
      valves: [twin, { ...twin, id: "third" }],
      wells: [{ ...well, id: "em-other" }],
      tools: [owned, { ...owned, id: "t2", serial: "ko9" }],
    });
    expect(previewPack(pack, { ...emptyLibrary, wells: [well] }, []).twofold).toMatchObject([
      { kind: "wells", id: "em-other", also: well.id },
      { kind: "valves", id: "third", also: twin.id },
      { kind: "tools", id: "t2", also: "t1" },
    ]);
  });

  it("is not said of what is here already, under whatever ids", () => {
    expect(previewPack(packOf({ valves: [valve] }), library, []).twofold).toEqual([]);
    const both = { ...library, valves: [...library.valves, twin] };
    expect(previewPack(packOf({ valves: [valve, twin] }), both, []).twofold).toEqual([]);
  });
});

describe("a valve that a pack has in another pocket", () => {
  const [well] = library.wells;
  if (!well) throw new Error("no well");
  const held = well.mandrels.find(({ valve }) => valve !== undefined)?.valve ?? "";
  const other = (id: string, valve: string) => ({
    ...well,
    id,
    name: "EM-99",
    mandrels: well.mandrels.slice(0, 1).map((each) => ({ ...each, id: `${id}-1`, valve })),
  });

  it("is named with both pockets before anything is written", () => {
    const { inTwoPockets } = previewPack(packOf({ wells: [other("em-99", held)] }), library, []);
    expect(inTwoPockets).toHaveLength(1);
    expect(inTwoPockets[0]?.pockets).toEqual([
      expect.stringContaining(well.name),
      "EM-99, mandrel 1",
    ]);
  });

  it("is not named where both say the same, or where it was in two here already", () => {
    expect(previewPack(packOf({ wells: [well] }), library, []).inTwoPockets).toEqual([]);
    const twice = other("em-99", held);
    const both = { ...library, wells: [...library.wells, twice] };
    expect(previewPack(packOf({ wells: [twice] }), both, []).inTwoPockets).toEqual([]);
  });
});

describe("a hostile pack", () => {
  const content = () => (JSON.parse(demoText()) as Pack).content;
  const why = (text: string) => {
    const read = readPack(text);
    return read.ok ? "read" : read.why;
  };

  it.each<[string, () => string, RegExp]>([
    [
      "two records with one id",
      () =>
        signed({
          ...content(),
          records: {
            ...content().records,
            valves: [...content().records.valves, content().records.valves[0]],
          },
        }),
      /two records with the id "[^"]+" among its valves/,
    ],
    [
      "one event twice",
      () => signed({ ...content(), events: [...content().events, content().events[3]] }),
      /holds event \d+ of job job-em-03-3 twice/,
    ],
    [
      "a record that was changed beyond counting",
      () =>
        signed({
          ...content(),
          records: {
            ...content().records,
            lines: content().records.lines.map((line) => ({ ...line, revision: 2 ** 53 - 1 })),
          },
        }),
      /changed 9007199254740991 times/,
    ],
    [
      "a name twice",
      () => demoText().replace('"made"', '"version": 5, "made"'),
      /says "version" twice in one place/,
    ],
    [
      "a name twice, written otherwise",
      () => demoText().replace('"made"', '"v\\u0065rsion": 4, "made"'),
      /says "version" twice/,
    ],
    [
      "a prototype",
      () => demoText().replace('"made"', '"__proto__": {"polluted": true}, "made"'),
      /a field "__proto__", which no pack has/,
    ],
    [
      "a prototype, written otherwise",
      () => demoText().replace('"made"', '"\\u005f_proto__": {"polluted": true}, "made"'),
      /a field "__proto__"/,
    ],
    [
      "a constructor",
      () => signed({ ...content(), constructor: { prototype: { polluted: true } } }),
      /Unrecognized key: "constructor"/,
    ],
    [
      "no end of lists",
      () => `${"[".repeat(200_000)}${"]".repeat(200_000)}`,
      /nested more than 64 deep/,
    ],
    [
      "no end of objects",
      () => `{"format":${'{"a":'.repeat(5000)}1${"}".repeat(5000)}}`,
      /nested more than 64 deep/,
    ],
    [
      "a number beyond all numbers",
      () => demoText().replace('"version": 5', '"version": 1e999'),
      /version Infinity, made by a newer Latchline/,
    ],
    [
      "a value beyond all values",
      () => demoText().replace(/"value": [\d.]+/, '"value": 1e999'),
      /checksum does not fit/,
    ],
    [
      "a format without end",
      () => JSON.stringify({ format: "x".repeat(1e6) }),
      /its format is "x{199}…\.$/,
    ],
  ])("with %s is refused, and says why", (_, text, says) => {
    expect(why(text())).toMatch(says);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });

  it("is too large before it is read", () => {
    expect(why(" ".repeat(200_000_001))).toMatch(/has 200 MB; a pack has at most 200 MB/);
  });
});

describe("JSON that a program wrote", () => {
  it.each([
    '{"a": 1, "b": {"a": 2}, "c": [{"a": 3}, {"a": 4}]}',
    '{"a": "a", "b": "{\\"a\\": 1}", "c": "\\\\"}',
    '["a", "a", "__proto__"]',
    '"__proto__"',
    '{"": 1, " ": 2}',
    '{"a\\\\": 1, "a": 2, "b": "\\\\\\"", "c" : "a"}',
    "12",
  ])("has no fault: %s", (text) => {
    JSON.parse(text);
    expect(jsonFault(text)).toBeUndefined();
  });

  it("of a whole pack has none", () => {
    expect(jsonFault(demoText())).toBeUndefined();
    expect(jsonFault(packText(packOf(library)))).toBeUndefined();
  });
});
