import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { M_PER_FT, M_PER_IN, N_PER_LBF } from "../../src/calc/units.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { catalogTools } from "../../src/jobs/catalog/catalog.ts";
import { writer } from "../../src/jobs/display.ts";
import { openFigures, photographsOf, pinsInWords } from "../../src/jobs/fishingSketch.ts";
import { makeUpOf } from "../../src/jobs/makeUp.ts";
import { contentForJobs } from "../../src/jobs/pack/contents.ts";
import { makePack, readPack } from "../../src/jobs/pack/pack.ts";
import { readinessOf } from "../../src/jobs/readiness.ts";
import { type Tool, type ToolString, toolString } from "../../src/jobs/records/equipment.ts";
import {
  type Aspect,
  fitsOf,
  isTooLarge,
  type JobFit,
  verdictsOf,
  worstOf,
} from "../../src/jobs/stringFit.ts";
import { fitInShort, fitInWords } from "../../src/jobs/stringFitWords.ts";
import { figuresOf, inserted, moved, swapped, takenOut } from "../../src/jobs/toolString.ts";

const write = writer("field");
const tool = (id: string, feet: number, more: Partial<Tool> = {}): Tool => ({
  id,
  name: `tool ${id}`,
  kind: "stem",
  length: { value: feet, unit: "ft" },
  outsideDiameter: { value: 1.5, unit: "in" },
  weight: { value: 10, unit: "lb" },
  ...more,
});
const [a, b, c] = [tool("a", 1), tool("b", 2), tool("c", 3)];
const ids = (tools: readonly Tool[]) => tools.map(({ id }) => id).join("");

describe("a string that is put together", () => {
  it("moves a tool up or down by one place, and not past the ends", () => {
    expect(ids(moved([a, b, c], 1, -1))).toBe("bac");
    expect(ids(moved([a, b, c], 1, 1))).toBe("acb");
    expect(ids(moved([a, b, c], 0, -1))).toBe("abc");
    expect(ids(moved([a, b, c], 2, 1))).toBe("abc");
    expect(ids(moved([], 0, 1))).toBe("");
  });

  it("swaps, inserts and takes out, and leaves what it was given as it was", () => {
    const given = [a, b];
    expect(ids(swapped(given, 1, c))).toBe("ac");
    expect(ids(swapped(given, 2, c))).toBe("ab");
    expect(ids(inserted(given, 0, c))).toBe("cab");
    expect(ids(inserted(given, 2, c))).toBe("abc");
    expect(ids(takenOut(given, 0))).toBe("b");
    expect(ids(given)).toBe("ab");
  });

  it("comes back when a tool is moved there and back, wherever it stands", () => {
    fc.assert(
      fc.property(fc.nat(2), fc.constantFrom<1 | -1>(1, -1), (index, by) => {
        const there = moved([a, b, c], index, by);
        const at = there.indexOf([a, b, c][index] as Tool);
        expect(ids(at === index ? there : moved(there, at, by === 1 ? -1 : 1))).toBe("abc");
      }),
    );
  });
});

const string = (tools: Tool[], more: Partial<ToolString> = {}): ToolString => ({
  id: "string-pull",
  revision: 1,
  name: "a string",
  purpose: "pull",
  tools,
  ...more,
});

describe("its figures", () => {
  it("add up: closed, with jars extended, weight in air, largest diameter and its tool", () => {
    const jars = tool("j", 4.5, { lengthExtended: { value: 6, unit: "ft" } });
    const wide = tool("w", 9, { outsideDiameter: { value: 57.15, unit: "mm" } });
    const of = figuresOf(string([a, jars, wide]));
    expect(of.closed / M_PER_FT).toBeCloseTo(14.5, 9);
    expect(of.extended / M_PER_FT).toBeCloseTo(16, 9);
    expect(of.weight / N_PER_LBF).toBeCloseTo(30, 9);
    expect(of.largest?.tool.id).toBe("w");
    expect((of.largest?.diameter ?? 0) / M_PER_IN).toBeCloseTo(2.25, 9);
  });

  it("name the upper of two tools that are equally large, and none where there is none", () => {
    expect(figuresOf(string([a, b])).largest?.tool.id).toBe("a");
    expect(figuresOf(string([])).largest).toBeUndefined();
    expect(figuresOf(string([])).extended).toBe(0);
  });
});

describe("against the jobs that use it", () => {
  // The demonstration's stack: 36 ft usable; a nipple or safety valve of 2.313 in in every well; valve 1.8 ft, margin 2 ft.
  const worst = (
    tools: Tool[],
    aspect: Aspect,
    more: Partial<ToolString> = {},
    among = library,
  ) => {
    const fit = worstOf(fitsOf(string(tools, more), among), aspect) as JobFit;
    return { fit, short: fitInShort(fit, aspect, write), says: fitInWords(fit, aspect, write) };
  };

  it("is looked at in every job that it is chosen for, the latest first", () => {
    const fits = fitsOf(string([a]), library);
    const days = fits.map(({ job }) => job.day);
    expect(fits.length).toBe(
      library.jobs.filter(({ strings }) => strings.pull === "string-pull").length,
    );
    expect(days).toEqual([...days].sort().reverse());
    expect(fitsOf(string([a], { id: "of no job" }), library)).toEqual([]);
  });

  // By hand: 36 − 1.8 − 2 = 32.2 ft are left for a pull string.
  it.each([
    [32.1, "fits", "0.1 ft to spare"],
    [32.2, "fits", "0.0 ft to spare"],
    [34.2, "does not fit", "too long by 2.0 ft"],
  ] as const)("%d ft with its jars extended in the lubricator: %s", (feet, state, short) => {
    const extended = tool("x", 4, { lengthExtended: { value: feet, unit: "ft" } });
    const of = worst([extended], "lubricator");
    expect(of.fit.lubricator.state).toBe(state);
    expect(of.short).toBe(short);
  });

  it("says what the lubricator holds, what is asked for, and the way out", () => {
    const { says } = worst([tool("x", 34.2)], "lubricator");
    expect(says).toContain(
      "holds 36.0 ft; asked for: string 34.2 ft extended, valve 1.8 ft, margin 2.0 ft",
    );
    expect(says).toContain("Take out or swap a tool, or add a lubricator section.");
  });

  it("is not known in the lubricator with jars whose length extended nobody stated", () => {
    const jars = (feet: number) => tool("jars", feet, { kind: "jars" });
    expect(worst([a, jars(4)], "lubricator").short).toBe(
      "not known: needs length of tool jars, extended",
    );
    expect(figuresOf(string([a, jars(4)])).lengthsOpen).toEqual(["length of tool jars, extended"]);
    // Too long as it is closed already.
    expect(worst([a, jars(35)], "lubricator").short).toBe("too long by 3.8 ft");
  });

  it("has no room in packing, hose or gauge, whatever length is typed for them", () => {
    const stacks = library.stacks.map((stack) => ({
      ...stack,
      items: stack.items.map((item) =>
        item.kind === "hose or gauge" || item.kind === "packing"
          ? { ...item, usableLength: { value: 50, unit: "ft" as const } }
          : item,
      ),
    }));
    expect(worst([tool("x", 34.2)], "lubricator", {}, { ...library, stacks }).short).toBe(
      "too long by 2.0 ft",
    );
  });

  it("of a gauge run hangs no valve", () => {
    const gauge = { id: "string-gauge", purpose: "gauge" } as const;
    expect(worst([tool("x", 34)], "lubricator", gauge).short).toBe("0.0 ft to spare");
  });

  it.each([
    [2.3, "fits", "0.013 in to spare"],
    // As the job's own check: as large as the bore does not pass it.
    [2.313, "does not fit", "as large as the bore"],
    [2.347, "does not fit", "too large by 0.034 in"],
  ] as const)("%d in through the narrowest bore: %s", (inches, state, short) => {
    const wide = tool("w", 2, { outsideDiameter: { value: inches, unit: "in" } });
    const of = worst([a, wide], "bore");
    expect(of.fit.bore.state).toBe(state);
    expect(of.short).toBe(short);
    expect(isTooLarge(wide, of.fit)).toBe(state !== "fits");
    expect(isTooLarge(a, of.fit)).toBe(false);
    expect(of.says).toMatch(/^tool w, 2\.3\d\d in\. Narrowest bore.*2\.313 in/);
  });

  // By hand: 320 psig on 0.108 in wire is 2.93 lbf, packing 30 lbf; steel of 490 lb/ft3 in gas of 4 lb/ft3 keeps 0.9918
  // of its weight. 1.3 × 32.93 / 0.9918 = 43.16 lb are needed in air; 44 × 0.9918 / 32.93 = 1.325.
  it.each([
    [44, "fits", "1 lb to spare", "1.33"],
    [43, "does not fit", "just too light", "1.30"],
    [37, "does not fit", "too light by 6 lb", "1.11"],
  ] as const)("%d lb against push-out and packing friction: %s", (pounds, state, short, ratio) => {
    const of = worst([tool("x", 5, { weight: { value: pounds, unit: "lb" } })], "pushOut");
    expect(of.fit.pushOut.state).toBe(state);
    expect(of.short).toBe(short);
    expect(of.says).toContain(
      `${pounds} lb in air, 43 lb needed: effective weight is ${ratio} times push-out of 3 lbf and packing friction of 30 lbf, at least 1.3 is wanted`,
    );
    expect(of.says.endsWith("Add stem, or bring the wellhead pressure down.")).toBe(
      state !== "fits",
    );
  });

  it("is asked of this string alone, whatever the others of the job weigh", () => {
    const heavy = tool("x", 5, { weight: { value: 500, unit: "lb" } });
    const light = { id: "string-gauge", purpose: "gauge" } as const;
    const of = worst([heavy], "pushOut", light);
    expect(of.fit.pushOut).toMatchObject({ weight: heavy.weight.value * N_PER_LBF });
    expect(of.short).toBe("457 lb to spare");
  });

  it("says that nothing pushes where there is neither pressure nor friction", () => {
    const { expected, ...rest } = jobs.ready;
    const still = {
      ...rest,
      expected: {
        ...expected,
        wellheadPressure: { value: 0, unit: "psig" },
        packingFriction: { value: 0, unit: "lbf" },
      },
    } as typeof jobs.ready;
    const of = worst([a], "pushOut", {}, { ...library, jobs: [still] });
    expect(of.short).toBe("10 lb to spare");
    expect(of.says).toContain("10 lb in air; nothing pushes it out and nothing rubs");
  });

  it("goes to the mandrel by its weight, or says what would have to push", () => {
    const goes = worst([tool("x", 5, { weight: { value: 150, unit: "lb" } })], "goingIn");
    expect(goes.fit.goingIn.state).toBe("fits");
    expect(goes.short).toMatch(/^\d+ lbf of line pull left$/);
    expect(goes.says).toMatch(
      /^At mandrel 3, \d+ ft, the line carries \d+ lbf hanging still and \d+ lbf going in; the least on its way down is \d+ lbf /,
    );

    // The wire alone weighs some 130 lb down there: it takes a stiff packing to hold it up.
    const { expected, ...rest } = jobs.ready;
    const tight = (lbf: number, psig: number) =>
      ({
        ...rest,
        expected: {
          ...expected,
          packingFriction: { value: lbf, unit: "lbf" },
          wellheadPressure: { value: psig, unit: "psig" },
        },
      }) as typeof jobs.ready;
    const among = (job: typeof jobs.ready) => ({ ...library, jobs: [job] });
    const stops = worst([a], "goingIn", {}, among(tight(300, 320)));
    expect(stops.fit.goingIn.state).toBe("does not fit");
    expect(stops.short).toMatch(/^the line would have to push with \d+ lbf$/);
    expect(stops.says).toMatch(
      /the least on its way down is −\d+ lbf \(EM-07, job of .*add stem, or rollers\.$/,
    );

    const pushed = worst([a], "goingIn", {}, among(tight(0, 30_000)));
    expect(pushed.fit.goingIn.state).toBe("does not fit");
    expect(pushed.says).toMatch(/the line carries −\d+ lbf hanging still/);
  });

  it("speaks of what is on the line, not of what an indicator shows of it", () => {
    const angled = (degrees: number) =>
      ({
        ...jobs.ready,
        unit: {
          indicator: "hay pulley",
          lineAngle: { value: degrees, unit: "deg" },
          calibratedAngle: { value: 90, unit: "deg" },
        },
      }) as typeof jobs.ready;
    const at = (degrees: number) =>
      worst(
        [tool("x", 5, { weight: { value: 150, unit: "lb" } })],
        "goingIn",
        {},
        { ...library, jobs: [angled(degrees)] },
      );
    expect(at(130).says).toBe(at(90).says);
    expect(at(130).short).toBe(at(90).short);
  });

  it("does not go where it lies on a flat part, whatever hangs above it", () => {
    const wells = library.wells.map((well) => ({
      ...well,
      path: {
        kind: "surveyed" as const,
        stations: [
          [0, 0],
          [3300, 0],
          [4200, 84],
          [6400, 84],
        ].map(([feet = 0, degrees = 0]) => ({
          depthAlongHole: { value: feet, unit: "ft" as const },
          inclination: { value: degrees, unit: "deg" as const },
          azimuth: { value: 0, unit: "deg" as const },
        })),
      },
    }));
    const among = { ...library, wells, jobs: [jobs.ready] };
    const of = worst([tool("x", 5, { weight: { value: 150, unit: "lb" } })], "goingIn", {}, among);
    expect(of.fit.goingIn.state).toBe("does not fit");
    expect(of.says).toMatch(
      /hanging still and \d+ lbf going in; the least on its way down is −1\d lbf/,
    );
  });

  it.each([
    [undefined, "does not fit", "no kickover tool", /Add one made for a mandrel with an orienting/],
    [
      "not orienting",
      "does not fit",
      "the kickover tool does not match",
      /has an orienting sleeve/,
    ],
    ["orienting", "fits", "the kickover tool matches", /carries a kickover tool for this mandrel/],
  ] as const)(
    "reaches the pocket with a kickover tool made for it: %s",
    (made, state, short, says) => {
      const among = { ...library, jobs: [jobs.ready] };
      const tools = made ? [a, tool("k", 5, { kind: "kickover tool", kickover: made })] : [a];
      for (const purpose of ["pull", "set"] as const) {
        const of = worst(tools, "kickover", { id: `string-${purpose}`, purpose }, among);
        expect(of.fit.kickover?.state).toBe(state);
        expect(of.short).toBe(short);
        expect(of.says).toMatch(says);
      }
    },
  );

  it("of a gauge run is not asked for a kickover tool", () => {
    const fits = fitsOf(string([a], { id: "string-gauge", purpose: "gauge" }), library);
    expect(verdictsOf(fits).map(({ aspect }) => aspect)).not.toContain("kickover");
    expect(worstOf(fits, "kickover")).toBeUndefined();
  });

  it("is judged worst first: what does not fit, what is not known, what fits", () => {
    const light = tool("x", 2, { outsideDiameter: { value: 2.347, unit: "in" } });
    const { line: _, ...rest } = jobs.ready;
    const withoutLine = { ...library, jobs: [rest as typeof jobs.ready] };
    expect(
      verdictsOf(fitsOf(string([light]), withoutLine)).map(({ aspect, state }) => [aspect, state]),
    ).toEqual([
      ["bore", "does not fit"],
      ["kickover", "does not fit"],
      ["order", "does not fit"],
      ["pushOut", "not known"],
      ["goingIn", "not known"],
      ["lubricator", "fits"],
    ]);
  });

  it("names what is missing and guesses nothing", () => {
    const bare = {
      ...library,
      wells: [],
      stacks: [],
      policies: [],
      tools: [],
      days: [],
      investigations: [],
      jobs: [jobs.ready],
      valves: [],
    };
    const [fit] = fitsOf(string([a]), bare);
    expect(fit?.bore.state).toBe("not known");
    expect(fit?.pushOut).toEqual({ state: "not known", needs: ["policy"] });
    expect(fit?.goingIn.state).toBe("not known");
    expect(fit?.kickover).toEqual({
      state: "not known",
      needs: ["whether the mandrel has an orienting sleeve"],
    });
    expect(fit?.lubricator).toEqual({
      state: "not known",
      needs: ["usable lengths of the pressure equipment", "policy", "length of the valve on it"],
    });
    const [empty] = fitsOf(string([]), library);
    expect(empty?.bore).toEqual({ state: "not known", needs: ["tools"] });
    expect(verdictsOf(empty ? [empty] : []).map(({ state }) => state)).toEqual(
      Array(6).fill("not known"),
    );
    expect(empty && fitInShort(empty, "lubricator", write)).toBe("not known: needs tools");
  });

  it("puts the job first in which it does not fit, then what is not known", () => {
    const fits = fitsOf(string([a]), library);
    const [one, two, three] = fits as [JobFit, JobFit, JobFit];
    const lacking = { ...two, bore: { state: "not known", needs: ["well"] } } as const;
    const short = {
      ...three,
      bore: { state: "does not fit", available: 1, asked: 2, spare: -1 },
    } as const;
    expect(worstOf([one, lacking], "bore")).toBe(lacking);
    expect(worstOf([one, lacking, short], "bore")).toBe(short);
    expect(worstOf([], "bore")).toBeUndefined();
  });
});

describe("the order of a string", () => {
  const made = (kinds: readonly Tool["kind"][], purpose: ToolString["purpose"] = "pull") =>
    makeUpOf(
      string(
        kinds.map((kind, index) => tool(`${index}`, 2, { kind })),
        { purpose },
      ),
    );
  const usual = ["rope socket", "stem", "stem", "jars", "knuckle joint", "kickover tool"] as const;

  it("is right for every string of the demonstration", () => {
    for (const each of library.strings) {
      expect(makeUpOf(each), each.name).toEqual({ wrong: [], remarks: [] });
    }
  });

  it.each([
    [["stem", ...usual.slice(2), "pulling tool"], "pull", "has no rope socket at its top"],
    [["rope socket", ...usual, "pulling tool"], "pull", "has 2 rope sockets"],
    [
      ["rope socket", "jars", "stem", "knuckle joint", "kickover tool", "pulling tool"],
      "pull",
      "has stem below its jars: they strike with what hangs above them",
    ],
    [[...usual, "running tool"], "pull", "has no pulling tool at its bottom"],
    [[...usual, "pulling tool"], "set", "has no running tool at its bottom"],
    [
      ["rope socket", "stem", "jars", "pulling tool", "knuckle joint"],
      "pull",
      "has no pulling tool at its bottom",
    ],
  ] as const)("%j for a %s run is wrong", (kinds, purpose, wrong) => {
    expect(made(kinds, purpose).wrong).toEqual([wrong]);
  });

  it("asks nothing of what a gauge string ends with, and remarks what is usually there", () => {
    expect(made(["rope socket", "stem", "jars", "knuckle joint", "other"], "gauge").wrong).toEqual(
      [],
    );
    expect(made(["rope socket", "stem", "pulling tool"])).toEqual({
      wrong: [],
      remarks: ["has no jars", "has no knuckle joint"],
    });
  });

  it("names a tool that an older record has as one of nothing", () => {
    const [socket, ...rest] = (library.strings[1] as ToolString).tools as [Tool, ...Tool[]];
    const light = { ...socket, weight: { value: 0, unit: "lb" as const } };
    expect(makeUpOf(string([light, ...rest])).wrong).toEqual([
      "has Rope socket with a weight that is not above 0",
    ]);
  });

  it("stands among the verdicts in words, and stops a programme", () => {
    const programme = assemble(jobs.ready, library);
    const pull = programme.strings.pull as ToolString;
    const turned = { ...pull, tools: [...pull.tools].reverse() };
    const [fit] = fitsOf(turned, { ...library, jobs: [jobs.ready] }) as [JobFit];
    expect(fit.order.state).toBe("does not fit");
    expect(fitInShort(fit, "order", write)).toBe(
      "has no rope socket at its top; has stem below its jars: they strike with what hangs above them; has no pulling tool at its bottom",
    );
    expect(fitInWords(fit, "order", write)).toMatch(/Top down by common practice.*Move, add or/);
    const { points } = readinessOf({
      ...programme,
      strings: { ...programme.strings, pull: turned },
    });
    const wrong = points.filter(({ says }) => says.startsWith("The pull string has"));
    expect(wrong.map(({ weight, stops }) => [weight, stops])).toEqual(
      Array(3).fill(["fails", true]),
    );
  });
});

describe("pins on the fishing sketch", () => {
  const pulling = (shear?: Tool["shear"]) =>
    tool("p", 1, { kind: "pulling tool", ...(shear && { shear }) });
  const { pins: _, ...withoutPins } = jobs.ready;

  it("carry direction, shear and the steady pull of their material", () => {
    const { says, strengthFrom } = pinsInWords(
      pulling({
        material: "brass",
        diameter: { value: 0.1875, unit: "in" },
        count: 1,
        planes: 2,
        direction: "up",
      }),
      withoutPins,
      write,
    );
    // F = π/4 × 0.1875² × 2 × 32,000 psi = 1,767 lbf; at 45,000 psi 2,485 lbf.
    expect(says).toBe(
      "1 of brass, 0.1875 in, double shear, jarred up, about 1767 to 2485 lbf of steady pull",
    );
    expect(strengthFrom).toMatch(/^32000 to 45000 psi: free-cutting brass C36000, half hard/);
  });

  it("are not known where nobody said it, and none are named on a stem", () => {
    expect(pinsInWords(pulling(), withoutPins, write).says).toBe("not known");
    expect(pinsInWords(a, withoutPins, write).says).toBe("none named");
  });

  it("of a running tool without its own are the job's, by the batch's strength where it is known", () => {
    const running = tool("r", 1, { kind: "running tool" });
    const job = {
      ...withoutPins,
      pins: {
        material: "brass",
        count: 2,
        diameter: { value: 0.1875, unit: "in" },
        planes: 1,
        strength: { value: 45_000, unit: "psi" },
        batch: "B-1",
      },
    } as const;
    const { says, strengthFrom } = pinsInWords(running, job, write);
    // π/4 × 0.1875² × 2 × 45,000 psi = 2,485 lbf.
    expect(says).toBe(
      "2 of brass, 0.1875 in, single shear, direction not known, batch B-1, about 2485 lbf of steady pull",
    );
    expect(strengthFrom).toBe("45000 psi: the batch's certificate");
    expect(openFigures(running, pinsInWords(running, job, write))).toContain(
      "pins not known in full",
    );
    // The direction belongs to the tool: its own record says it, and the job's pins stay.
    const described = tool("r", 1, {
      kind: "running tool",
      shear: {
        material: "steel",
        count: 1,
        planes: 2,
        diameter: { value: 0.25, unit: "in" },
        direction: "up",
      },
    });
    const known = pinsInWords(described, job, write);
    expect(known.says).toBe(
      "2 of brass, 0.1875 in, single shear, jarred up, batch B-1, about 2485 lbf of steady pull",
    );
    expect(openFigures(described, known)).not.toContain("pins not known in full");
  });

  it("give no pull while the material is not known, and what is open is said", () => {
    const part = catalogTools.find(({ part: each }) => each.kind === "pulling tool")?.part;
    const taken = { ...(part as Tool), id: "p" };
    const pins = pinsInWords(taken, withoutPins, write);
    expect(pins.says).toContain("a material not known");
    expect(pins.says).not.toContain("lbf");
    expect(openFigures(taken, pins)).toEqual([
      "figures of the catalog, not of this part",
      "pins not known in full",
    ]);
    const jars = tool("j", 4, { kind: "jars" });
    expect(openFigures(jars, pinsInWords(jars, withoutPins, write))).toEqual([
      "fishing neck not known",
      "length extended not known",
    ]);
  });
});

describe("photographs of a string", () => {
  const photograph = { day: "2026-11-25", jpeg: "/9j/4AAQSkZJRgABAQ==" };
  const pull = library.strings.find(({ id }) => id === "string-pull") as ToolString;
  const held = (more: object) => toolString.safeParse({ ...pull, ...more }).success;

  it("are up to six small JPEGs, each with its day", () => {
    expect(held({ photographs: Array(6).fill(photograph) })).toBe(true);
    expect(held({ photographs: Array(7).fill(photograph) })).toBe(false);
    expect(held({ photographs: [{ ...photograph, day: "yesterday" }] })).toBe(false);
    expect(held({ photographs: [{ ...photograph, place: "60.1 N" }] })).toBe(false);
  });

  it.each([
    ["a PNG", "iVBORw0KGgo="],
    ["no base64", "/9j/ä"],
    ["cut off", "/9j/4"],
    ["one that is too large for a pack", `/9j/${"A".repeat(700_000)}`],
  ])("are not %s", (_, jpeg) => {
    expect(held({ photographs: [{ ...photograph, jpeg }] })).toBe(false);
  });

  it("come to another tablet with the pack of the job", () => {
    const strings = library.strings.map((each) =>
      each.id === "string-pull" ? { ...each, photographs: [photograph] } : each,
    );
    const pack = makePack(
      contentForJobs([jobs.ready], { ...library, strings }, []),
      "2026-11-25T06:00:00.000Z",
    );
    const read = readPack(JSON.stringify(pack));
    if (!read.ok) throw new Error(read.why);
    const arrived = read.pack.content.records.strings.find(({ id }) => id === "string-pull");
    expect(arrived?.photographs).toEqual([photograph]);
  });

  it("stand on the sketch as the record has them now, for a programme carries none", () => {
    const later = { ...photograph, jpeg: "/9j/4AAQSkZJRgABAQEA" };
    const now = { ...pull, revision: 2, photographs: [photograph, later] };
    expect(photographsOf(pull, { ...library, strings: [now] })).toEqual([photograph, later]);
    expect(photographsOf(pull, { ...library, strings: [pull] })).toEqual([]);
    expect(photographsOf(pull, { ...library, strings: [] })).toEqual([]);
  });
});
