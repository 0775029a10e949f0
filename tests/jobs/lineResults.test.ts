import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { M_PER_FT, N_PER_LBF, PA_PER_PSI } from "../../src/calc/units.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { targetMandrel } from "../../src/jobs/programme.ts";
import { toSI } from "../../src/jobs/quantity.ts";
import { readinessOf } from "../../src/jobs/readiness.ts";
import type { Line, Tool, ToolString } from "../../src/jobs/records/equipment.ts";
import { type Job, job } from "../../src/jobs/records/job.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import type { Valve } from "../../src/jobs/records/valve.ts";
import type { Well } from "../../src/jobs/records/well.ts";
import { stringWeight } from "../../src/jobs/results/lineInHole.ts";
import { mandrelPlaces } from "../../src/jobs/results/mandrelPath.ts";
import type { Measurements } from "../../src/jobs/results/measurements.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import type { ResultId } from "../../src/jobs/results/traced.ts";
import { weakPoints } from "../../src/jobs/results/weakPoints.ts";
import { readyProgramme } from "./demo.ts";

/** EM-03 is vertical: what its line should read can be worked out by hand. */
const vertical = assemble(jobs.finished, library);
const deviated = readyProgramme();
const read = (si: number) => ({ si, at: "2026-11-25T08:00:00.000Z", by: "test", event: "e" });
const value = (of: Programme, id: ResultId, measured: Measurements = {}): number => {
  const { outcome } = resultsOf(of, measured).get(id) ?? {};
  if (outcome?.state !== "known") throw new Error(`${id} is ${outcome?.state}`);
  return outcome.si;
};
const lbf = (of: Programme, id: ResultId, measured?: Measurements) =>
  value(of, id, measured) / N_PER_LBF;
const withJob = (of: Programme, change: Partial<Job>): Programme => ({
  ...of,
  job: { ...of.job, ...change },
});
const withLine = (of: Programme, change: Partial<Line>): Programme => ({
  ...of,
  line: { ...(of.line as Line), ...change },
});
const withTool = (of: Programme, kind: Tool["kind"], change: Partial<Tool>): Programme => {
  const { pull } = of.strings;
  if (!pull) throw new Error("no pull string");
  const tools = pull.tools.map((tool) => (tool.kind === kind ? { ...tool, ...change } : tool));
  return { ...of, strings: { ...of.strings, pull: { ...pull, tools } } };
};
const withBlow = (of: Programme, lbfs: number | undefined): Programme => {
  const { set } = of.strings;
  if (!set) throw new Error("no set string");
  const tools = set.tools.map((tool) => {
    if (tool.kind !== "jars") return tool;
    const { blow: _, ...rest } = tool;
    return lbfs === undefined ? rest : { ...rest, blow: { value: lbfs, unit: "lbf" as const } };
  });
  return { ...of, strings: { ...of.strings, set: { ...set, tools } } };
};
/** Every tool of the pull string says this, or nothing. */
const withStrengths = (of: Programme, lbfs: number | undefined): Programme => {
  const { pull } = of.strings;
  if (!pull) throw new Error("no pull string");
  const tools = pull.tools.map(({ strength: _, ...tool }) =>
    lbfs === undefined ? tool : { ...tool, strength: { value: lbfs, unit: "lbf" as const } },
  );
  return { ...of, strings: { ...of.strings, pull: { ...pull, tools } } };
};
const without = <K extends keyof Job>(of: Programme, key: K): Programme => {
  const { [key]: _, ...job } = of.job;
  return { ...of, job: job as Job };
};

describe("what the indicator should read", () => {
  it("in a vertical hole differs going in and coming out by the packing's friction only", () => {
    // Statics: no side force in a vertical hole; 30 lbf of packing friction each way.
    const hanging = lbf(vertical, "hanging-pull");
    expect(hanging - lbf(vertical, "in-pull")).toBeCloseTo(30, 6);
    expect(lbf(vertical, "out-pull") - hanging).toBeCloseTo(30, 6);
    // By hand: string 154 + wire 31.18 lb per 1,000 ft × 4,110 ft, less buoyancy and push-out, is some 257 lbf.
    expect(Math.abs(hanging - 257)).toBeLessThan(3);
  });

  it("in a deviated hole spreads further, and more with more friction", () => {
    const spread = (friction: number) => {
      const of = withJob(deviated, {
        expected: { ...deviated.job.expected, friction: { value: friction, unit: "" } },
      });
      return lbf(of, "out-pull") - lbf(of, "in-pull");
    };
    expect(spread(0)).toBeCloseTo(60, 6);
    expect(spread(0.2)).toBeGreaterThan(spread(0.1));
    expect(spread(0.1)).toBeGreaterThan(60);
  });

  it("says that a friction coefficient was taken where nobody stated one", () => {
    const { friction: _, ...expected } = deviated.job.expected;
    const given = resultsOf(withJob(deviated, { expected }), {})
      .get("out-pull")
      ?.givens.find(({ symbol }) => symbol === "μ");
    expect(given?.origin.kind).toBe("assumed");
    expect(given?.si).toBe(0.2);
  });

  it("follows the wellhead pressure and the line angle that were read", () => {
    const before = lbf(deviated, "hanging-pull");
    const higher = { "wellhead pressure": read(toSI("pressure", { value: 820, unit: "psig" })) };
    // 500 psi more on 0.108 in of wire: 4.6 lbf of push-out, and the liquid stays where it is.
    expect(before - lbf(deviated, "hanging-pull", higher)).toBeCloseTo(
      (500 * Math.PI * 0.108 ** 2) / 4,
      3,
    );
    // At 60 degrees the pulley carries 2 cos 30 = 1.732 T, at the 90 it is calibrated for 1.414 T.
    const angle = { "line angle": read(Math.PI / 3) };
    expect(lbf(deviated, "hanging-pull", angle) / before).toBeCloseTo(Math.sqrt(3) / Math.SQRT2, 6);
    const counter = withJob(deviated, { unit: { indicator: "counter head" } });
    expect(lbf(counter, "hanging-pull", angle)).toBeCloseTo(before, 6);
  });
});

/** 0° to 3,300 ft, then a build to 84° at 4,200 ft that is held: the mandrel at 4,380 ft lies in the flat part. */
const flat: Programme = {
  ...deviated,
  well: {
    ...(deviated.well as Well),
    path: {
      kind: "surveyed",
      stations: [
        [0, 0],
        [3300, 0],
        [4200, 84],
        [6400, 84],
      ].map(([feet = 0, degrees = 0]) => ({
        depthAlongHole: { value: feet, unit: "ft" },
        inclination: { value: degrees, unit: "deg" },
        azimuth: { value: 0, unit: "deg" },
      })),
    },
  },
};

describe("the way down", () => {
  it("is held against the line all along, where the indicator still shows a pull", () => {
    // By hand at the tool: W (1 − ρ/ρs)(cos 84° − 0.2 sin 84°), 0.36 psi/ft of liquid being 830.4 kg/m3.
    const share = 1 - 830.4 / 7850;
    const left = Math.cos((84 * Math.PI) / 180) - 0.2 * Math.sin((84 * Math.PI) / 180);
    const { pull } = flat.strings;
    const weight = (pull?.tools ?? []).reduce((sum, tool) => sum + tool.weight.value, 0);
    // 180 ft of line lie in the flat part above it, and weigh 31.18 lb per 1,000 ft.
    const onTheFlat = (weight + 0.03118 * 180) * share * left;
    expect(lbf(flat, "in-pull")).toBeGreaterThan(50);
    // The bend above the flat part adds to the push, by the capstan's exp(0.2 × 84°) at the very most.
    expect(lbf(flat, "least-in-pull")).toBeLessThan(onTheFlat);
    expect(lbf(flat, "least-in-pull")).toBeGreaterThan(
      onTheFlat * Math.exp(0.2 * 84 * (Math.PI / 180)),
    );
    expect(resultsOf(flat, {}).get("in-pull")?.warnings).toContainEqual(
      expect.objectContaining({ text: expect.stringContaining("does not go there by its weight") }),
    );
    expect(resultsOf(deviated, {}).get("in-pull")?.warnings).not.toContainEqual(
      expect.objectContaining({ text: expect.stringContaining("by its weight") }),
    );
  });

  it("is hardest just under the valve in a vertical hole", () => {
    // Hand arithmetic: 154 lb of pull string in gas, less 30 lbf of packing and the push-out.
    const { weight = 0 } = {
      weight: stringWeight(vertical.strings.pull as ToolString) / N_PER_LBF,
    };
    const gas = toSI("density", vertical.job.expected.fluidDensity as never);
    expect(lbf(vertical, "least-in-pull")).toBeCloseTo(
      weight * (1 - gas / 7850) - 30 - lbf(vertical, "push-out"),
      6,
    );
  });

  it("goes on to where the string comes up into the sleeve from, 30 ft below the mandrel", () => {
    // The flat part begins 10 ft below the mandrel.
    const { well } = flat;
    if (well?.path.kind !== "surveyed") throw new Error("no survey");
    const below = [4390, 4391, 4500].map((feet, i) => ({
      depthAlongHole: { value: feet, unit: "ft" as const },
      inclination: { value: i === 0 ? 0 : 84, unit: "deg" as const },
      azimuth: { value: 0, unit: "deg" as const },
    }));
    const stations = [...well.path.stations.slice(0, 2), ...below];
    const of: Programme = { ...flat, well: { ...well, path: { kind: "surveyed", stations } } };
    expect(lbf(of, "in-pull")).toBeGreaterThan(50);
    expect(lbf(of, "least-in-pull")).toBeLessThan(0);
  });

  it("does not hang on the angle at which the indicator is read", () => {
    const wide = { "line angle": read((2 * Math.PI) / 3) };
    expect(lbf(deviated, "least-in-pull", wide)).toBeCloseTo(lbf(deviated, "least-in-pull"), 9);
  });
});

describe("the indicator", () => {
  const pulley = (unit: NonNullable<Job["unit"]>) => withJob(deviated, { unit });
  const deg = (degrees: number) => ({ value: degrees, unit: "deg" }) as const;
  const at = (degrees: number) => read((degrees * Math.PI) / 180);
  const factor = (of: Programme, measured: Measurements = {}) =>
    resultsOf(of, measured).get("indicator-factor");

  // Statics: the pulley carries 2 T cos(a/2).
  it.each([
    ["set for 90 and run at 90 degrees", { lineAngle: deg(90), calibratedAngle: deg(90) }, 1],
    [
      "set for 90 and run at 130 degrees",
      { lineAngle: deg(130), calibratedAngle: deg(90) },
      Math.cos((65 * Math.PI) / 180) * Math.SQRT2,
    ],
    [
      "set for 120 and run at 60 degrees",
      { lineAngle: deg(60), calibratedAngle: deg(120) },
      Math.sqrt(3),
    ],
    ["run at an angle that nobody said", { calibratedAngle: deg(120) }, 1],
    ["with no angle said", {}, 1],
  ])("%s shows its share of the line's pull", (_, angles, share) => {
    expect(value(pulley({ indicator: "hay pulley", ...angles }), "indicator-factor")).toBeCloseTo(
      share,
      9,
    );
  });

  it("is told by the angle that was read, also where nobody said that it hangs at the pulley", () => {
    const unsaid = pulley({ calibratedAngle: deg(90) });
    expect(value(unsaid, "indicator-factor", { "line angle": at(120) })).toBeCloseTo(
      Math.SQRT1_2,
      9,
    );
    const counter = pulley({ indicator: "counter head", calibratedAngle: deg(90) });
    expect(value(counter, "indicator-factor", { "line angle": at(120) })).toBe(1);
  });

  it("is not known at an angle while nobody said which it is calibrated for", () => {
    const needs = ["Angle the indicator is calibrated for"];
    const of = pulley({ indicator: "hay pulley" });
    expect(factor(of, { "line angle": at(130) })?.outcome).toEqual({ state: "missing", needs });
    const results = resultsOf(of, { "line angle": at(130) });
    expect(results.get("largest-pull")?.outcome).toEqual({ state: "missing", needs });
    expect(factor(of)?.givens[0]?.origin).toEqual({
      kind: "assumed",
      why: "read at the angle it is calibrated for: nobody said another",
    });
  });

  it.each([
    ["calibrated", { lineAngle: deg(90), calibratedAngle: deg(180) }, "calibrated angle"],
    [
      "calibrated beyond a turn",
      { lineAngle: deg(90), calibratedAngle: deg(200) },
      "calibrated angle",
    ],
    ["run straight", { lineAngle: deg(180), calibratedAngle: deg(90) }, "line angle"],
  ])("has no answer for an angle that cannot be: %s", (_, angles, key) => {
    const of = pulley({ indicator: "hay pulley", ...angles });
    const why = `${key} must be 0 or more and below 180 degrees`;
    expect(factor(of)?.outcome).toEqual({ state: "no answer", why });
    expect(resultsOf(of, {}).value("largest-pull")).toBeUndefined();
  });

  it("takes no angle beyond a straight line into a record", () => {
    const held = (lineAngle: number) =>
      job.safeParse({ ...deviated.job, unit: { lineAngle: deg(lineAngle) } });
    expect(held(180).success).toBe(true);
    expect(held(200).error?.issues[0]?.message).toBe("a line angle lies between 0 and 180 deg");
    expect(held(-10).success).toBe(false);
  });

  it("shows packing friction as it shows every pull: half of out less in, over its share", () => {
    // 3 and 193 lbf on the line, shown at 130 degrees by an indicator set for 90 as 1.79 and 115.36 lbf.
    const share = Math.cos((65 * Math.PI) / 180) * Math.SQRT2;
    const half = read(toSI("force", { value: 95 * share, unit: "lbf" }));
    const measured = { "packing friction": half, "line angle": at(130) };
    expect(lbf(deviated, "packing-friction", measured)).toBeCloseTo(95, 6);
    // 112 lb keep 1 − 4 / 490.06 in gas of 4 lb/ft3; 320 psig push out 2.931 lbf.
    const ratio = (112 * (1 - (4 * 16.01846) / 7850)) / (2.931 + 95);
    expect(value(deviated, "push-out-ratio", measured)).toBeCloseTo(ratio, 4);
    expect(lbf(deviated, "packing-friction")).toBeCloseTo(30, 9);
  });
});

describe("friction on record", () => {
  it.each([
    [0, true],
    [0.3, true],
    [1, true],
    [20, false],
    [-0.1, false],
  ])("is a coefficient between 0 and 1: %d", (value, held) => {
    const friction = { value, unit: "" } as const;
    const found = job.safeParse({ ...deviated.job, expected: { friction } });
    expect(found.success).toBe(held);
    if (!held) {
      expect(found.error?.issues[0]?.message).toBe("a friction coefficient lies between 0 and 1");
    }
  });
});

describe("what the line may bear", () => {
  it("is capped by the rope socket and by the weakest tool that says what it stands", () => {
    expect(lbf(deviated, "largest-pull")).toBeCloseTo(2110 / 2, 6);
    const weak = withTool(deviated, "pulling tool", { strength: { value: 700, unit: "lbf" } });
    expect(lbf(weak, "largest-pull")).toBeCloseTo(700, 6);
    const named = resultsOf(weak, {})
      .get("largest-pull")
      ?.givens.map((given) => given.name);
    expect(named).toContain("Weakest tool: Pulling tool, shears up");
    expect(lbf(weak, "overpull-pull")).toBeLessThan(lbf(deviated, "overpull-pull"));
  });

  it("at the running tool is not capped by a weak tool of another string", () => {
    const weak = withTool(deviated, "pulling tool", { strength: { value: 300, unit: "lbf" } });
    expect(lbf(weak, "overpull-set")).toBeCloseTo(lbf(deviated, "overpull-set"), 9);
    expect(lbf(weak, "overpull-pull")).toBeLessThan(300);
    // Whatever string is on the line, it is pulled no harder than the weakest of them stands.
    expect(lbf(weak, "largest-pull")).toBeCloseTo(300, 6);
  });

  it("is told as the indicator shows it: at a wider angle it shows less than the line bears", () => {
    // At 120 degrees the pulley carries 2 cos 60 = 1 T, calibrated for 1.414 T.
    const wide = { "line angle": read((2 * Math.PI) / 3) };
    expect(lbf(deviated, "largest-pull", wide)).toBeCloseTo(2110 / 2 / Math.SQRT2, 4);
    expect(lbf(deviated, "release-pull", wide)).toBeCloseTo(1000 / Math.SQRT2, 4);
    expect(lbf(deviated, "overpull-pull", wide)).toBeCloseTo(lbf(deviated, "overpull-pull"), 6);
  });

  it("falls with the area of a worn wire", () => {
    const worn = withLine(deviated, { wornDiameter: { value: 0.1026, unit: "in" } });
    // 5 percent of the diameter is 9.75 percent of the area.
    expect(lbf(worn, "largest-pull")).toBeCloseTo((2110 / 2) * 0.9025, 6);
  });

  it("leaves in a vertical hole at the tool what is left at surface", () => {
    const spare = lbf(vertical, "largest-pull") - lbf(vertical, "out-pull");
    expect(lbf(vertical, "overpull-pull")).toBeCloseTo(spare, 6);
    // The whole line hangs at the surface there, and the packing's friction on top of it.
    expect(value(vertical, "fraction-of-breaking")).toBeCloseTo(
      lbf(vertical, "out-pull") / 2110,
      9,
    );
  });

  it("counts the smallest sheave in wire diameters", () => {
    expect(value(deviated, "sheave-ratio")).toBeCloseTo(16 / 0.108, 6);
  });
});

describe("the path at the mandrel", () => {
  it("turns as the leg does that it lies in", () => {
    // EM-07, by hand: from 24° to 25° and 142° to 143° over 2,600 ft is 1.08° of dogleg (minimum curvature).
    const perHundred = (value(deviated, "mandrel-dogleg") * 180 * 30.48) / Math.PI;
    const byHand = Math.acos(
      Math.cos(Math.PI / 180) -
        Math.sin((24 * Math.PI) / 180) *
          Math.sin((25 * Math.PI) / 180) *
          (1 - Math.cos(Math.PI / 180)),
    );
    expect(perHundred).toBeCloseTo((byHand * 180) / Math.PI / 26, 6);
    expect(value(vertical, "mandrel-dogleg")).toBe(0);
  });
  it("is listed at every mandrel, from the top down", () => {
    const places = mandrelPlaces(resultsOf(deviated, {}).context);
    const depths = places.map(({ alongHole }) => alongHole);
    expect(places.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5]);
    expect(depths).toEqual([...depths].sort((a, b) => a - b));
    const target = places.find(({ number }) => number === targetMandrel(deviated)?.number)?.place;
    expect(target?.dogleg).toBe(value(deviated, "mandrel-dogleg"));
    expect(target?.inclination).toBe(value(deviated, "mandrel-inclination"));
  });
  it("is said to be taken straight below a survey that ends above a mandrel", () => {
    const { well } = deviated;
    if (well?.path.kind !== "surveyed") throw new Error("no survey");
    const stations = well.path.stations.slice(0, 2);
    const short: Programme = {
      ...deviated,
      well: { ...well, path: { kind: "surveyed", stations } },
    };
    const says =
      "The survey ends at 2200 ft, above mandrels 2, 3, 4, 5: from there on the path is taken straight.";
    expect(resultsOf(short, {}).get("mandrel-tvd")?.warnings).toEqual([
      { kind: "note", text: says },
    ]);
    expect(readinessOf(short).points).toContainEqual(
      expect.objectContaining({ group: "well", weight: "ask", says }),
    );
    expect(resultsOf(deviated, {}).get("mandrel-tvd")?.warnings).toEqual([]);
  });
});

describe("what parts first", () => {
  it("puts the stated weakest first and what nobody stated last", () => {
    const weak = withTool(withStrengths(deviated, undefined), "pulling tool", {
      strength: { value: 700, unit: "lbf" },
    });
    const points = weakPoints(resultsOf(weak, {}).context, "pull");
    expect(points.slice(0, 3).map(({ name }) => name)).toEqual([
      "Pulling tool, shears up",
      "Rope socket, by the line's record",
      "Wire 0.108 in, carbon, drum 4",
    ]);
    expect(points.slice(3).every(({ stands }) => stands === undefined)).toBe(true);
    expect(points).toHaveLength(9);
  });
});

describe("stretch and counter", () => {
  it("is Hooke's for the line's own weight and the string", () => {
    // Vertical, by hand: (W + w L / 2) L / (A E), buoyancy and push-out aside: within 10 percent of it.
    const area = (Math.PI * 0.108 ** 2) / 4;
    const byHand = ((154 + (0.03118 * 4110) / 2) * 4110) / (area * 29e6);
    expect(Math.abs(value(vertical, "stretch-hanging") / M_PER_FT / byHand - 1)).toBeLessThan(0.1);
    // The overpull alone: exact.
    const moves = (lbf(vertical, "overpull-pull") * 4110) / (area * 29e6);
    expect(value(vertical, "stretch-at-limit") / M_PER_FT).toBeCloseTo(moves, 3);
  });

  it("warms with half of the well's rise on a straight temperature line", () => {
    // 85 to 155 degF at 5,600 ft: 51.4 degF more at 4,110 ft, half of it along the line, 6.5e-6 per degF.
    const byHand = 4110 * 6.5e-6 * ((70 * 4110) / 5600 / 2);
    expect(value(vertical, "stretch-thermal") / M_PER_FT).toBeCloseTo(byHand, 3);
  });

  /** EM-03 with another hole: every leg straight from its depth on, feet and degrees. */
  const inHole = (...legs: readonly (readonly [number, number])[]): Programme => ({
    ...vertical,
    well: {
      ...(vertical.well as Well),
      path: {
        kind: "surveyed",
        stations: legs.map(([feet, degrees]) => ({
          depthAlongHole: { value: feet, unit: "ft" },
          inclination: { value: degrees, unit: "deg" },
          azimuth: { value: 0, unit: "deg" },
        })),
      },
    },
  });
  const cosine = (degrees: number) => Math.cos((degrees * Math.PI) / 180);
  const sine = (degrees: number) => Math.sin((degrees * Math.PI) / 180);

  it("warms by the mean along the hole: a hole that turns flat is warm for longer", () => {
    const of = inHole([0, 0], [2000, 0], [2000.1, 82], [6000, 82]);
    // By hand, 70 degF over 5,600 ft of depth: down to 2,000 ft, then 2,110 ft along at 82 degrees.
    const flat = 4110 - 2000;
    const mean = (2000 ** 2 / 2 + 2000 * flat + (cosine(82) * flat ** 2) / 2) / 4110;
    const byHand = 4110 * 6.5e-6 * (70 / 5600) * mean;
    expect(value(of, "stretch-thermal") / M_PER_FT).toBeCloseTo(byHand, 3);
  });

  it("at the limit grows up a rough slant with what friction adds to the pull", () => {
    const of = withJob(inHole([0, 60], [6000, 60]), {
      expected: {
        ...vertical.job.expected,
        fluidLevelAlongHole: { value: 5900, unit: "ft" },
        friction: { value: 0.3, unit: "" },
      },
    });
    // Straight: the wall bears w sin i whatever the pull. From hanging to coming out T grows by the overpull and by
    // 0.3 sin 60° of the string's and the line's weight in gas of 4 lb/ft3.
    const area = (Math.PI * 0.108 ** 2) / 4;
    const string =
      (stringWeight(vertical.strings.pull as ToolString) / N_PER_LBF) *
      (1 - (4 * 16.01846337) / 7850);
    const perFoot = 0.03118 - (4 * area) / 144;
    const rough = 0.3 * sine(60);
    const byHand =
      ((lbf(of, "overpull-pull") + rough * string) * 4110 + (rough * perFoot * 4110 ** 2) / 2) /
      (area * 29e6);
    expect(value(of, "stretch-at-limit") / M_PER_FT).toBeCloseTo(byHand, 2);
  });

  it("hanging knows no friction: on a slant it is the weight's share along the hole", () => {
    const of = withJob(inHole([0, 60], [6000, 60]), {
      expected: {
        ...vertical.job.expected,
        fluidLevelAlongHole: { value: 5900, unit: "ft" },
        friction: { value: 0.3, unit: "" },
      },
    });
    const area = (Math.PI * 0.108 ** 2) / 4;
    const string =
      (stringWeight(vertical.strings.pull as ToolString) / N_PER_LBF) *
      (1 - (4 * 16.01846337) / 7850);
    const perFoot = 0.03118 - (4 * area) / 144;
    const byHand = (cosine(60) * (string * 4110 + (perFoot * 4110 ** 2) / 2)) / (area * 29e6);
    expect(value(of, "stretch-hanging") / M_PER_FT).toBeCloseTo(byHand, 2);
  });

  it("is that of what wear has left of the line", () => {
    const worn = withLine(vertical, { wornDiameter: { value: 0.1026, unit: "in" } });
    // 0.95 of the diameter; the line's weight and buoyancy stay.
    expect(value(worn, "stretch-hanging")).toBeCloseTo(
      value(vertical, "stretch-hanging") / 0.95 ** 2,
      9,
    );
    expect(value(worn, "stretch-at-limit") / value(vertical, "stretch-at-limit")).toBeCloseTo(
      lbf(worn, "overpull-pull") / lbf(vertical, "overpull-pull") / 0.95 ** 2,
      9,
    );
  });

  it("corrects the mandrel's depth by what a known point was tagged at", () => {
    const tagged = { "known depth": read(5560 * M_PER_FT), "known counter": read(5563 * M_PER_FT) };
    expect(value(vertical, "counter-at-mandrel", tagged) / M_PER_FT).toBeCloseTo(4113, 6);
    expect(resultsOf(vertical, {}).get("counter-at-mandrel")?.outcome).toEqual({
      state: "missing",
      needs: ["Counter at the known point", "Its depth on the schematic"],
    });
  });
});

describe("pins and gas rush", () => {
  it("holds the pins against the jars' blow and the latch where their makers say something", () => {
    // Brass may be full hard: 2,485 lbf of pins under a blow of 4,970 lbf is half.
    expect(value(withBlow(deviated, 4970.1), "pin-over-blow")).toBeCloseTo(0.5, 4);
    expect(value(deviated, "pin-over-latch")).toBeCloseTo(2485.05 / 3000, 4);
    const { latchHolds: _, ...unsaid } = deviated.replacement as Valve;
    expect(
      resultsOf({ ...deviated, replacement: unsaid }, {}).get("pin-over-latch")?.outcome,
    ).toEqual({ state: "missing", needs: ["Upward pull that the latch holds"] });
  });

  it("asks the low strength whether a pull shears them, the high one whether jars and latch do", () => {
    expect(lbf(deviated, "pin-shear")).toBeCloseTo(1767.1, 1);
    expect(lbf(deviated, "pin-shear-most")).toBeCloseTo((1767.15 * 45) / 32, 1);
    const certified = withJob(deviated, {
      pins: {
        ...(deviated.job.pins as NonNullable<Job["pins"]>),
        strength: { value: 40000, unit: "psi" },
      },
    });
    expect(lbf(certified, "pin-shear-most")).toBeCloseTo(lbf(certified, "pin-shear"), 9);
  });

  it("ends the pull run where the pulling tool's own pins would shear", () => {
    const pinned = (direction: "up" | "down") =>
      withTool(vertical, "pulling tool", {
        shear: {
          material: "brass",
          diameter: { value: 0.125, unit: "in" },
          count: 1,
          planes: 1,
          direction,
        },
      });
    // π/4 × 0.125² × 32,000 psi = 392.7 lbf at the tool, the string and line hanging above it.
    expect(lbf(pinned("up"), "release-pull")).toBeCloseTo(lbf(vertical, "out-pull") + 392.7, 1);
    expect(lbf(pinned("down"), "release-pull")).toBeCloseTo(1000, 6);
    expect(resultsOf(pinned("down"), {}).get("pulling-pins")).toBeUndefined();
    const unknown = withTool(vertical, "pulling tool", {
      shear: {
        material: "not known",
        diameter: { value: 0.125, unit: "in" },
        count: 1,
        planes: 1,
        direction: "up",
      },
    });
    expect(lbf(unknown, "release-pull")).toBeCloseTo(1000, 6);
    expect(resultsOf(unknown, {}).get("release-pull")?.warnings).toContainEqual(
      expect.objectContaining({
        text: expect.stringContaining("pins is not in it: needs Shear strength"),
      }),
    );
  });

  it("expects 100 to 200 lbf over picking up at the test of the latch, and ends it where the line or its pins do", () => {
    expect(lbf(vertical, "test-pull")).toBeCloseTo(lbf(vertical, "out-set") + 150, 6);
    const weak = withJob(vertical, {
      pins: { material: "brass", diameter: { value: 0.125, unit: "in" }, count: 1, planes: 1 },
    });
    // π/4 × 0.125² × 32,000 psi = 392.7 lbf at the tool, the string and line hanging above it.
    expect(lbf(weak, "test-pull-most")).toBeCloseTo(lbf(weak, "out-set") + 392.7, 1);
    expect(lbf(vertical, "test-pull-most")).toBeCloseTo(lbf(vertical, "largest-pull"), 6);
    // Pins that are jarred down bear nothing of a pull.
    const set = weak.strings.set as ToolString;
    const shear = {
      material: "brass" as const,
      diameter: { value: 0.125, unit: "in" as const },
      count: 1,
      planes: 1 as const,
      direction: "down" as const,
    };
    const tools = set.tools.map((each) =>
      each.kind === "running tool" ? { ...each, shear } : each,
    );
    const down = { ...weak, strings: { ...weak.strings, set: { ...set, tools } } };
    expect(lbf(down, "test-pull-most")).toBeCloseTo(lbf(down, "largest-pull"), 6);
    expect(resultsOf(down, {}).get("running-pins")).toBeUndefined();
  });

  it("shears pins by area, planes and strength, the batch's where it is stated", () => {
    // 2 of 3/16 in in single shear at 32,000 psi: 1,767 lbf (statics; strength makeitfrom.com, C36000 H02).
    expect(lbf(deviated, "pin-shear")).toBeCloseTo(1767.1, 1);
    const stated = withJob(deviated, {
      pins: {
        ...(deviated.job.pins as NonNullable<Job["pins"]>),
        strength: { value: 16000, unit: "psi" },
      },
    });
    expect(lbf(stated, "pin-shear")).toBeCloseTo(1767.1 / 2, 1);
    expect(value(deviated, "pin-over-line")).toBeCloseTo(1767.1 / lbf(deviated, "overpull-set"), 3);
  });

  const unequal = (casing: number, wellhead: number): Measurements => ({
    "casing pressure": read(toSI("pressure", { value: casing, unit: "psig" })),
    "wellhead pressure": read(toSI("pressure", { value: wellhead, unit: "psig" })),
  });

  it("takes for the gas rush at the upper end the difference on the widest tool", () => {
    const measured = unequal(900, 318);
    const psi = value(deviated, "difference-at-mandrel", measured) / PA_PER_PSI;
    // The kickover tool of 2-1/4 in is the widest of the pull string.
    expect(lbf(deviated, "rush-most", measured)).toBeCloseTo((psi * Math.PI * 2.25 ** 2) / 4, 2);
    expect(lbf(deviated, "rush-least", measured)).toBeLessThan(
      lbf(deviated, "rush-most", measured),
    );
    expect(lbf(deviated, "rush-least", measured)).toBeGreaterThan(0);
  });

  it("says beside both figures that they are estimates, and what is left out", () => {
    const notes = (id: ResultId) =>
      resultsOf(deviated, unequal(900, 318))
        .get(id)
        ?.warnings.map((warning) => ("text" in warning ? warning.text : ""))
        .join(" | ");
    expect(notes("rush-least")).toMatch(/estimate, no floor.*drag of the gas in the gap/);
    expect(notes("rush-most")).toMatch(/estimate, no cap.*drag of the gas in the gap/);
    expect(notes("rush-over-weight")).toMatch(/estimate, no cap/);
  });

  it("holds the rush against the weight along the hole, in what stands at the mandrel", () => {
    const measured = unequal(900, 318);
    const rush = lbf(vertical, "rush-most", measured);
    const weight = stringWeight(vertical.strings.pull as ToolString) / N_PER_LBF;
    // Below the liquid level, of 0.36 psi/ft: 830.4 kg/m3 against 7,850 of steel.
    expect(lbf(vertical, "rush-most", measured)).toBeGreaterThan(0);
    expect(value(vertical, "rush-over-weight", measured)).toBeCloseTo(
      rush / (weight * (1 - 830.4 / 7850)),
      3,
    );
    const dry = withJob(vertical, {
      expected: {
        ...vertical.job.expected,
        fluidLevelAlongHole: { value: 5000, unit: "ft" },
      },
    });
    const gas = toSI("density", vertical.job.expected.fluidDensity as never);
    expect(value(dry, "rush-over-weight", measured)).toBeCloseTo(
      lbf(dry, "rush-most", measured) / (weight * (1 - gas / 7850)),
      6,
    );
    // EM-07 leans at the mandrel: its weight pulls by the cosine.
    const lean = value(deviated, "mandrel-inclination");
    const leaning = stringWeight(deviated.strings.pull as ToolString) / N_PER_LBF;
    expect(lean).toBeGreaterThan(0.3);
    expect(value(deviated, "rush-over-weight", measured)).toBeCloseTo(
      lbf(deviated, "rush-most", measured) / (leaning * (1 - 830.4 / 7850) * Math.cos(lean)),
      3,
    );
  });

  it("blows nothing up the hole where the gas leaves the tubing", () => {
    const measured = unequal(300, 900);
    expect(value(deviated, "difference-at-mandrel", measured)).toBeLessThan(0);
    expect(value(deviated, "rush-over-weight", measured)).toBe(0);
    expect(resultsOf(deviated, measured).get("rush-over-weight")?.warnings).toContainEqual(
      expect.objectContaining({ text: expect.stringContaining("the force is down") }),
    );
  });
});

describe("sour service", () => {
  const well = deviated.well as Well;
  const withH2s = (value: number): Programme => ({
    ...deviated,
    well: { ...well, tubingGas: { ...well.injectionGas, h2s: { value, unit: "mol %" } } },
  });
  const sour = withH2s(0.006);
  const points = (of: Programme) => readinessOf(of).points.map(({ says }) => says);
  const texts = (of: Programme) =>
    resultsOf(of, {})
      .get("sour-partial-pressure")
      ?.warnings.map((warning) => (warning.kind === "note" ? warning.text : ""))
      .join();

  it("takes the sourer gas and the largest pressure that it can have down at the wire", () => {
    // 1,100 psig at surface, gravity 0.66, 4,270 ft of true vertical depth at some 110 degF (570 degR) on average, z
    // between 0.8 and 0.95 there: e^(0.01875 × 0.66 × 4,270 / (z × 570)) is between 1.102 and 1.123.
    const tvd = value(deviated, "mandrel-tvd") / M_PER_FT;
    expect(Math.abs(tvd - 4270)).toBeLessThan(40);
    const psi = value(sour, "sour-partial-pressure") / PA_PER_PSI / 60e-6;
    expect(psi / 1114.7).toBeGreaterThan(1.1);
    expect(psi / 1114.7).toBeLessThan(1.125);
  });

  it("is over the threshold at the mandrel where at surface it is below", () => {
    // 37 ppm of 1,114.7 psia are 284 Pa, of some 1,240 psia 316 Pa: the standard's threshold is 300 Pa.
    const of = withH2s(0.0037);
    expect(37e-6 * 1114.7 * PA_PER_PSI).toBeLessThan(300);
    expect(value(of, "sour-partial-pressure")).toBeGreaterThan(300);
    expect(texts(of)).toContain("at or over the standard's threshold");
  });

  it("takes the tubing where that stands higher, and follows the wellhead pressure that was read", () => {
    const high = { "wellhead pressure": read(toSI("pressure", { value: 1100, unit: "psig" })) };
    expect(value(sour, "sour-partial-pressure", high)).toBeCloseTo(
      60e-6 * value(sour, "tubing-at-mandrel", high),
      9,
    );
  });

  it.each([
    ["of the gas in the tubing", (({ tubingGas: _, ...rest }) => rest)(well)],
    [
      "of the injection gas, which is not in its analysis",
      {
        ...well,
        injectionGas: {
          analysis: {
            methane: { value: 90, unit: "mol %" as const },
            ethane: { value: 10, unit: "mol %" as const },
          },
        },
      },
    ],
    [
      "of the injection gas",
      { ...well, injectionGas: { specificGravity: { value: 0.66, unit: "" as const } } },
    ],
  ])("is not known while nobody said it %s", (whose, of) => {
    const undescribed = { ...deviated, well: of as Well };
    const outcome = resultsOf(undescribed, {}).get("sour-partial-pressure")?.outcome;
    expect(outcome?.state === "missing" && outcome.needs).toContain(`Hydrogen sulfide ${whose}`);
    expect(points(undescribed).join()).toContain(
      `How much hydrogen sulfide can come to the wire is not known: needs`,
    );
  });

  it("asks about wire although it is not known how much comes to it", () => {
    const of = { ...sour, well: { ...(sour.well as Well), pressures: {} } } as Programme;
    expect(points(of).join()).toMatch(
      /Wire 0\.108 .* is not declared for hydrogen sulfide; gas that holds it can come to it/,
    );
  });

  it("never clears wire", () => {
    const says = points(sour);
    expect(says.find((each) => each.startsWith("Wire 0.108"))).toMatch(
      /is not declared for hydrogen sulfide; up to 0\.07\d psia .* no clearance for wire/,
    );
    const fit = withLine(sour, { sour: "declared fit" });
    expect(points(fit).some((each) => each.startsWith("Wire 0.108"))).toBe(false);
    const unfit = withLine(sour, { sour: "declared not fit" });
    expect(
      readinessOf(unfit).points.find(({ says: each }) => each.startsWith("Wire 0.108")),
    ).toMatchObject({ weight: "fails", stops: true });
  });

  it("asks about everything in the stack but hose and gauge, and lets be what is declared fit", () => {
    const stack = sour.stack as NonNullable<Programme["stack"]>;
    const [first, ...others] = stack.items.map((item) => ({
      ...item,
      sour: "declared fit" as const,
    }));
    const of = (one: "not declared" | "declared not fit"): Programme => ({
      ...withLine(sour, { sour: "declared fit" }),
      stack: {
        ...stack,
        items: [{ ...first, sour: one } as (typeof stack.items)[number], ...others],
      },
    });
    const about = (programme: Programme) =>
      readinessOf(programme).points.filter(({ says }) => says.includes("hydrogen sulfide"));
    expect(about(of("not declared"))).toMatchObject([
      { group: "stack", weight: "ask", stops: false },
    ]);
    expect(about(of("declared not fit"))).toMatchObject([
      { group: "stack", weight: "fails", stops: true },
    ]);
    const hose = stack.items.find(({ kind }) => kind === "hose or gauge");
    expect(hose).toBeDefined();
    expect(
      about({ ...sour, stack: { ...stack, items: [hose as (typeof stack.items)[number]] } }).map(
        ({ group }) => group,
      ),
    ).toEqual(["string"]);
  });
});

describe("a programme", () => {
  it("goes into the log without the photographs of its strings", () => {
    const pictured = {
      ...library,
      strings: library.strings.map((string) => ({
        ...string,
        photographs: [{ day: "2026-11-24", jpeg: "/9j/" }],
      })),
    };
    const { pull } = assemble(jobs.ready, pictured).strings;
    expect(pull?.tools.length).toBeGreaterThan(0);
    expect(pull).not.toHaveProperty("photographs");
  });
});

describe("what line, string and pins leave open", () => {
  const says = (of: Programme) =>
    readinessOf(of)
      .points.map((point) => point.says)
      .join(" | ");

  it("is nothing for the ready job", () => {
    expect(says(deviated)).toBe("");
  });

  it.each<[string, Programme, RegExp]>([
    [
      "a hole too steep and rough for the string",
      withJob(
        {
          ...deviated,
          well: {
            ...(deviated.well as Well),
            path: {
              kind: "surveyed",
              stations: [
                {
                  depthAlongHole: { value: 0, unit: "ft" },
                  inclination: { value: 0, unit: "deg" },
                  azimuth: { value: 0, unit: "deg" },
                },
                {
                  depthAlongHole: { value: 2000, unit: "ft" },
                  inclination: { value: 84, unit: "deg" },
                  azimuth: { value: 0, unit: "deg" },
                },
                {
                  depthAlongHole: { value: 6400, unit: "ft" },
                  inclination: { value: 84, unit: "deg" },
                  azimuth: { value: 0, unit: "deg" },
                },
              ],
            },
          },
        },
        { expected: { ...deviated.job.expected, friction: { value: 0.35, unit: "" } } },
      ),
      /The pull string does not go to the mandrel by its weight/,
    ],
    [
      "a string that lies on a flat part while the line above it still hangs",
      flat,
      /The pull string does not go to the mandrel by its weight: on its way the line would have to push with 1\d lbf/,
    ],
    [
      "friction that was meant in percent",
      withJob(deviated, {
        expected: { ...deviated.job.expected, friction: { value: 20, unit: "" } },
      }),
      /^Least line pull going in with the gauge string, anywhere down to the mandrel: friction coefficient must be 0 or more and at most 1\.$/,
    ],
    [
      "a line whose mass nobody stated",
      {
        ...deviated,
        line: (({ massPerLength: _, ...rest }) => rest)(deviated.line as Line) as Line,
      },
      /Mass per length of the line: not known/,
    ],
    [
      "a pull string without a pulling tool",
      withTool(deviated, "pulling tool", { kind: "other" }),
      /The pull string has no pulling tool/,
    ],
    [
      "a set string without a running tool",
      {
        ...deviated,
        strings: {
          ...deviated.strings,
          set: {
            ...(deviated.strings.set as ToolString),
            tools: (deviated.strings.set as ToolString).tools.filter(
              ({ kind }) => kind !== "running tool",
            ),
          },
        },
      },
      /The set string has no running tool/,
    ],
    [
      "a line too weak",
      withLine(deviated, { breakingStrength: { value: 500, unit: "lbf" } }),
      /takes 6\d\.\d % of the line's strength; 50\.0 % is allowed/,
    ],
    [
      "a line that has nothing left for the pulling tool",
      withTool(deviated, "pulling tool", { strength: { value: 20, unit: "lbf" } }),
      /The line can bring no overpull to the pulling tool\./,
    ],
    [
      "a friction coefficient that nobody stated",
      withJob(deviated, {
        expected: (({ friction: _, ...rest }) => rest)(deviated.job.expected),
      }),
      /^The friction coefficient of wire and string is not stated: 0\.2, common practice 0\.1 to 0\.3 is taken\.$/,
    ],
    [
      "tools of which nobody said what they stand, once a string",
      withStrengths(deviated, undefined),
      /^What pull tools of the pull string stand is not stated, and they count as stronger than the line: Rope socket; Stem[^|]*Pulling tool, shears up\.$/,
    ],
    [
      "push-out while only the gauge string is chosen",
      { ...deviated, strings: { gauge: deviated.strings.gauge } as Programme["strings"] },
      /Not known: needs pull string; set string\./,
    ],
    [
      "an indicator of which nobody said where it hangs",
      without(deviated, "unit"),
      /is not stated: readings are taken as the line's pull/,
    ],
    [
      "an indicator whose angles are known, but not where it hangs",
      withJob(deviated, {
        unit: {
          lineAngle: { value: 100, unit: "deg" },
          calibratedAngle: { value: 90, unit: "deg" },
        },
      }),
      /is not stated: it is taken to be read at the hay pulley/,
    ],
    [
      "an indicator at an angle, calibrated for nobody knows which",
      withJob(deviated, {
        unit: { indicator: "hay pulley", lineAngle: { value: 100, unit: "deg" } },
      }),
      /Angle the indicator is calibrated for: not known/,
    ],
    [
      "a line whose angle at the pulley nobody stated",
      withJob(deviated, {
        unit: { indicator: "hay pulley", calibratedAngle: { value: 90, unit: "deg" } },
      }),
      /The angle between the lines at the hay pulley is not stated: it is taken to be the 90 ° of the indicator's calibration/,
    ],
    [
      "an indicator at the hay pulley without any angle",
      withJob(deviated, { unit: { indicator: "hay pulley" } }),
      /The angle that the indicator at the hay pulley is calibrated for is not stated/,
    ],
    [
      "a small sheave",
      withJob(deviated, {
        unit: { ...deviated.job.unit, smallestSheave: { value: 10, unit: "in" } },
      }),
      /smallest sheave is 93 wire diameters; at least 120/,
    ],
    [
      "pins nobody measured",
      withJob(deviated, { pins: { material: "brass", count: 2, batch: "B-118" } }),
      /needs Diameter of a pin; Planes each/,
    ],
    [
      "pins that a steady pull shears",
      withJob(deviated, {
        pins: {
          ...(deviated.job.pins as NonNullable<Job["pins"]>),
          strength: { value: 6000, unit: "psi" },
        },
      }),
      /A steady pull of 331 lbf shears the running-tool pins/,
    ],
    [
      "no limits for the pull run",
      without(deviated, "release"),
      /jar hits, at most; wire cut back after jarring/,
    ],
    [
      "pins that the latch does not hold",
      {
        ...deviated,
        replacement: {
          ...(deviated.replacement as Valve),
          latchHolds: { value: 1500, unit: "lbf" },
        },
      },
      /may be too strong: the latch gives before they do.*state the shear strength of their batch/,
    ],
    [
      "pins that the jars may not shear if they are full hard",
      withBlow(deviated, 2000),
      /may be too strong: the jars cannot shear them/,
    ],
    [
      "pins that only the jars can shear, by a blow nobody stated",
      withBlow(deviated, undefined),
      /^Only the jars can shear the running-tool pins, and it is not stated what blow the jars give\.$/,
    ],
    [
      "pins that job and tool say differently",
      {
        ...deviated,
        strings: {
          ...deviated.strings,
          set: {
            ...(deviated.strings.set as ToolString),
            tools: (deviated.strings.set as ToolString).tools.map((tool) =>
              tool.kind === "running tool"
                ? {
                    ...tool,
                    shear: {
                      material: "steel" as const,
                      diameter: { value: 0.1875, unit: "in" as const },
                      count: 1,
                      planes: 1,
                      direction: "up" as const,
                    },
                  }
                : tool,
            ),
          },
        },
      },
      /running tool's pins are brass by the job, steel by the tool's record; 2 by the job, 1 by the tool's record/,
    ],
    [
      "a pulling tool's pins of a material nobody knows",
      withTool(deviated, "pulling tool", {
        shear: {
          material: "not known",
          diameter: { value: 0.1875, unit: "in" },
          count: 1,
          planes: 2,
          direction: "up",
        },
      }),
      /what the pins of the pulling tool are made of/,
    ],
    [
      "pins that the jars do not shear",
      withBlow(deviated, 1700),
      /too strong: the jars cannot shear them/,
    ],
    [
      "a pulling tool nobody described",
      withTool(deviated, "pulling tool", { shear: undefined as never }),
      /the pins of the pulling tool and which way they shear/,
    ],
  ])("names %s", (_, of, message) => {
    expect(says(of)).toMatch(message);
  });
});
