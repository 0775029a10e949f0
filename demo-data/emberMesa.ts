import type { Quantity } from "../src/jobs/quantity.ts";
import type { Line, Stack, Tool, ToolString } from "../src/jobs/records/equipment.ts";
import type { Job } from "../src/jobs/records/job.ts";
import { defaultLimits, type Policy } from "../src/jobs/records/policy.ts";
import type { Valve } from "../src/jobs/records/valve.ts";
import type { Mandrel, Well } from "../src/jobs/records/well.ts";
import { noChanges } from "../src/jobs/sheet/sheetWanted.ts";
import { pulledBefore, withPast } from "./pastRuns.ts";

/**
 * The invented dry upland field Ember Mesa. Nothing here is a real well, person, company or valve, and
 * none of it is a check of a calculation.
 */
const ft = (value: number): Quantity<"length"> => ({ value, unit: "ft" });
const inch = (value: number): Quantity<"diameter"> => ({ value, unit: "in" });
const lb = (value: number): Quantity<"weight"> => ({ value, unit: "lb" });
const psig = (value: number): Quantity<"pressure"> => ({ value, unit: "psig" });
const degF = (value: number): Quantity<"temperature"> => ({ value, unit: "degF" });
const deg = (value: number): Quantity<"angle"> => ({ value, unit: "deg" });
const percent = (value: number): Quantity<"fraction"> => ({ value, unit: "mol %" });
const lbf = (value: number): Quantity<"force"> => ({ value, unit: "lbf" });
const psiFt = (value: number): Quantity<"pressure gradient"> => ({ value, unit: "psi/ft" });
const mscf = (value: number): Quantity<"gas rate"> => ({ value, unit: "Mscf/d" });

const base = { revision: 1, invented: true } as const;

/** The day the demonstration was made; jobs that have not begun move with the calendar. */
export const MADE_ON = "2026-11-25";
const TOMORROW = "2026-11-26";
const BEFORE = "2026-11-24";

const profile = (top: number, foot: number, depth: number) => [
  { trueVerticalDepth: ft(0), temperature: degF(top) },
  { trueVerticalDepth: ft(depth), temperature: degF(foot) },
];

const mandrel = (well: string, number: number, depth: number, valve?: string): Mandrel => ({
  id: `${well}-mandrel-${number}`,
  number,
  depthAlongHole: ft(depth),
  construction: "side pocket",
  pocket: "1 in",
  orientingSleeve: "yes",
  latchProfile: "ring latch, 1 in",
  upperBore: inch(1.031),
  lowerBore: inch(0.996),
  pocketState: valve ? "holds a valve" : "empty",
  ...(valve && { valve }),
});

const gas = {
  specificGravity: { value: 0.66, unit: "" },
  co2: percent(1.1),
  h2s: percent(0),
  n2: percent(0.8),
} as const;

/** As the three wells are meant to run: unloaded to the bottom valve. */
const onLift: NonNullable<Well["onLift"]> = {
  wellhead: psig(120),
  liftedGradient: psiFt(0.1),
  gradientBelow: psiFt(0.36),
  loadGradient: psiFt(0.45),
  injectionRate: mscf(680),
};

/** A survey on lift: true vertical depth, ft, and pressure, psig. */
const survey = (...stops: readonly (readonly [depth: number, pressure: number])[]) =>
  stops.map(([depth, pressure]) => ({ trueVerticalDepth: ft(depth), pressure: psig(pressure) }));

const tubing = (foot: number) => [
  { name: "2-7/8 in 6.4 lb/ft", from: ft(0), to: ft(foot), drift: inch(2.347) },
];

const em07: Well = {
  ...base,
  id: "em-07",
  name: "EM-07",
  field: "Ember Mesa",
  depthReference: { name: "rotary table", aboveWellheadZero: ft(16) },
  injectionDown: "annulus",
  path: {
    kind: "surveyed",
    stations: [
      { depthAlongHole: ft(0), inclination: deg(0), azimuth: deg(0) },
      { depthAlongHole: ft(2200), inclination: deg(0), azimuth: deg(0) },
      { depthAlongHole: ft(3000), inclination: deg(12), azimuth: deg(140) },
      { depthAlongHole: ft(3800), inclination: deg(24), azimuth: deg(142) },
      { depthAlongHole: ft(6400), inclination: deg(25), azimuth: deg(143) },
    ],
  },
  tubing: tubing(6380),
  restrictions: [
    { name: "safety valve", kind: "safety valve", depthAlongHole: ft(310), bore: inch(2.313) },
    { name: "landing nipple", kind: "nipple", depthAlongHole: ft(6340), bore: inch(2.313) },
  ],
  mandrels: [
    mandrel("em-07", 1, 1880, "valve-em-0711"),
    mandrel("em-07", 2, 3240, "valve-em-0712"),
    mandrel("em-07", 3, 4380, "valve-em-0713"),
    mandrel("em-07", 4, 5290, "valve-em-0714"),
    mandrel("em-07", 5, 6050, "valve-em-0715"),
  ],
  temperatures: { shutIn: profile(84, 158, 5900), flowing: profile(108, 164, 5900) },
  injectionGas: gas,
  tubingGas: gas,
  annulusLiquid: { state: "none" },
  tubingLiquidGradient: psiFt(0.36),
  annulus: { casingInside: inch(6.184), tubingOutside: inch(2.875) },
  onLift,
  /** Gas enters at mandrel 3 although the casing stands far below its closing pressure. */
  lastFound: {
    day: "2026-11-20",
    injectionAtSurface: psig(742),
    wellhead: psig(128),
    injectionRate: mscf(550),
    survey: survey([0, 128], [1880, 316], [3227, 451], [4283, 556], [5112, 854], [5802, 1103]),
  },
  pressures: {
    maximumShutInWellhead: psig(940),
    fullInjectionAtSurface: psig(1100),
    operatingInjectionAtSurface: psig(890),
  },
  crownValveTurns: 14,
  remarks: "Invented for the demonstration.",
};

const em12: Well = {
  ...em07,
  id: "em-12",
  name: "EM-12",
  path: { kind: "vertical" },
  tubing: tubing(5900),
  restrictions: [
    { name: "landing nipple", kind: "nipple", depthAlongHole: ft(5860), bore: inch(2.313) },
  ],
  mandrels: [
    mandrel("em-12", 1, 1760, "valve-em-1211"),
    mandrel("em-12", 2, 2980, "valve-em-1212"),
    { ...mandrel("em-12", 3, 4050, "valve-em-1213"), orientingSleeve: "no" },
    mandrel("em-12", 4, 4920, "valve-em-1214"),
    mandrel("em-12", 5, 5640),
  ],
  temperatures: { flowing: profile(106, 160, 5640) },
  /** Gas enters at mandrel 2 only, and the casing stands where valve 2 opens and shuts. */
  lastFound: {
    day: "2026-11-19",
    injectionAtSurface: psig(1062),
    wellhead: psig(124),
    injectionRate: mscf(380),
    survey: survey([0, 124], [1760, 300], [2980, 422], [4050, 871], [4920, 1237]),
  },
  pressures: {
    maximumShutInWellhead: psig(880),
    fullInjectionAtSurface: psig(1100),
    operatingInjectionAtSurface: psig(890),
  },
};

const em03: Well = {
  ...em07,
  id: "em-03",
  name: "EM-03",
  path: { kind: "vertical" },
  tubing: tubing(5600),
  restrictions: [
    { name: "safety valve", kind: "safety valve", depthAlongHole: ft(295), bore: inch(2.313) },
    { name: "landing nipple", kind: "nipple", depthAlongHole: ft(5560), bore: inch(2.313) },
  ],
  mandrels: [
    mandrel("em-03", 1, 1820, "valve-em-0311"),
    mandrel("em-03", 2, 3060, "valve-em-0312"),
    mandrel("em-03", 3, 4110, "valve-em-0313"),
    mandrel("em-03", 4, 5180, "valve-em-0314"),
  ],
  temperatures: { shutIn: profile(85, 155, 5600), flowing: profile(107, 161, 5600) },
  /** Gas enters at mandrel 3 and at the orifice below it: more gas than the orifice takes. */
  lastFound: {
    day: "2026-11-18",
    injectionAtSurface: psig(800),
    wellhead: psig(122),
    injectionRate: mscf(1050),
    survey: survey([0, 122], [1820, 304], [3060, 428], [4110, 533], [5180, 650]),
  },
};

const valve = (serial: string, rack: number | undefined, more: Partial<Valve> = {}): Valve => ({
  ...base,
  id: `valve-${serial.toLowerCase()}`,
  serial,
  kind: "injection-operated",
  size: "1 in",
  latch: "ring latch, 1 in",
  latchHolds: lbf(3000),
  bellowsArea: { value: 0.31, unit: "in2" },
  port: inch(0.1875),
  seat: "sharp-edged",
  loadRate: { value: 620, unit: "psi/in" },
  ballDiameter: inch(0.3125),
  length: ft(1.8),
  weight: lb(5),
  ...(rack !== undefined && {
    card: { testRackOpening60F: psig(rack), day: "2026-11-12", by: "valve shop" },
  }),
  ...more,
});

const withoutBellows = (serial: string): Valve => {
  const {
    bellowsArea: _,
    seat: __,
    loadRate: ___,
    ballDiameter: ____,
    ...rest
  } = valve(serial, undefined);
  return rest;
};
const orifice = (serial: string): Valve => ({
  ...withoutBellows(serial),
  kind: "orifice",
  port: inch(0.1875),
});
function dummy(serial: string): Valve {
  const { port: _, ...rest } = withoutBellows(serial);
  return { ...rest, kind: "dummy" };
}

const inUse: Valve[] = [
  valve("EM-0711", 1010),
  valve("EM-0712", 985),
  valve("EM-0713", 955, {
    remarks: "In the pocket since 2024; casing bleeds below its closing pressure.",
  }),
  valve("EM-0714", 935),
  orifice("EM-0715"),
  valve("EM-1211", 1025),
  valve("EM-1212", 1000),
  valve("EM-1213", 970),
  orifice("EM-1214"),
  valve("EM-0311", 1000),
  valve("EM-0312", 975),
  valve("EM-0313", 945),
  orifice("EM-0314"),
  // In stock, set for a job.
  valve("EM-2041", 948, {
    bench: {
      day: "2026-11-12",
      by: "valve shop",
      readings: [
        { opening: psig(949), temperature: degF(60) },
        { opening: psig(947), temperature: degF(60) },
        { opening: psig(950), temperature: degF(61) },
      ],
    },
  }),
  valve("EM-2042", 1011),
  valve("EM-2037", 952),
  // In stock, for whatever is planned next.
  valve("EM-2051", 983),
  valve("EM-2052", 1004),
  orifice("EM-2055"),
  dummy("EM-2060"),
];

const valves: Valve[] = [
  ...inUse.map(withPast),
  ...pulledBefore((serial, rack) => (rack === undefined ? orifice(serial) : valve(serial, rack))),
];

const tool = (
  id: string,
  name: string,
  kind: Tool["kind"],
  length: number,
  diameter: number,
  weight: number,
  more: Partial<Tool> = {},
): Tool => ({
  id,
  name,
  kind,
  length: ft(length),
  outsideDiameter: inch(diameter),
  weight: lb(weight),
  fishingNeck: inch(1.375),
  strength: lbf(9000),
  ...more,
});

const top = [
  tool("rope-socket", "Rope socket", "rope socket", 1, 1.5, 4),
  tool("stem-1", "Stem 1-1/2 in x 5 ft", "stem", 5, 1.5, 29),
  tool("stem-2", "Stem 1-1/2 in x 5 ft", "stem", 5, 1.5, 29),
  tool("jars", "Mechanical jars", "jars", 4.5, 1.5, 24, {
    lengthExtended: ft(6),
    blow: lbf(3600),
  }),
  tool("knuckle", "Knuckle joint", "knuckle joint", 1, 1.5, 4),
];

const string = (
  id: string,
  name: string,
  purpose: ToolString["purpose"],
  tools: Tool[],
): ToolString => ({ ...base, id, name, purpose, tools });

const kickover = (kind: NonNullable<Tool["kickover"]>) =>
  tool("kickover", `Kickover tool, ${kind}`, "kickover tool", 9, 2.25, 58, { kickover: kind });

const strings: ToolString[] = [
  string("string-gauge", "Gauge string, 2.30 in", "gauge", [
    ...top,
    tool("gauge", "Gauge cutter 2.30 in, long body", "gauge cutter", 8, 2.3, 22),
  ]),
  string("string-pull", "Pull string, orienting", "pull", [
    ...top,
    kickover("orienting"),
    tool("pulling", "Pulling tool, shears up", "pulling tool", 1.2, 1.25, 5, {
      shear: { material: "steel", diameter: inch(0.1875), count: 1, planes: 2, direction: "up" },
    }),
  ]),
  string("string-set", "Set string, orienting", "set", [
    ...top,
    kickover("orienting"),
    tool("running", "Running tool", "running tool", 1, 1.25, 5),
  ]),
  string("string-catcher", "Catcher string, for the 2.313 in nipple", "catcher", [
    ...top,
    tool("catcher-running", "Running tool of the catcher", "running tool", 1.5, 1.875, 14),
    tool("catcher", "Catcher with lock, 2.313 in", "other", 4, 2.28, 31),
  ]),
];

const line: Line = {
  ...base,
  id: "line-108",
  name: "Wire 0.108 in, carbon, drum 4",
  diameter: inch(0.108),
  massPerLength: { value: 31.18, unit: "lb/1000 ft" },
  breakingStrength: lbf(2110),
  strengthFrom: "certificate",
  ropeSocketStrength: lbf(1750),
  modulus: { value: 29, unit: "Mpsi" },
  cutBack: [{ day: "2026-11-20", length: ft(60), why: "re-headed" }],
  sour: "not declared",
  lastCutAndTested: "2026-11-20",
};

const item = (
  id: string,
  name: string,
  kind: Stack["items"][number]["kind"],
  usable?: number,
): Stack["items"][number] => ({
  id,
  name,
  kind,
  rating: psig(5000),
  bore: inch(3),
  certificateUntil: "2027-06-30",
  ...(usable !== undefined && { usableLength: ft(usable) }),
});

const stack: Stack = {
  ...base,
  id: "stack-5k",
  name: "5,000 psi stack A",
  items: [
    item("adapter", "Tree adapter", "adapter", 1.5),
    item("wire-valves", "Wire valves, two rams", "wire valves", 2.5),
    item("lower", "Lubricator, lower", "lubricator section", 8),
    item("middle", "Lubricator, middle", "lubricator section", 8),
    item("upper", "Lubricator, upper", "lubricator section", 8),
    item("top", "Lubricator, top", "lubricator section", 8),
    item("catcher", "Tool catcher", "tool catcher"),
    item("packing", "Stuffing box", "packing"),
    { ...item("test-hose", "Test hose and gauge", "hose or gauge"), rating: psig(3000) },
  ],
};

const policy: Policy = { ...base, id: "policy-house", name: "House limits", ...defaultLimits };

const job = (of: Partial<Job> & Pick<Job, "id" | "well" | "mandrel" | "day" | "reason">): Job => ({
  ...base,
  design: { openingAtMandrel: psig(1085), productionAtMandrel: psig(520) },
  expected: {
    wellheadPressure: psig(320),
    fluidLevelAlongHole: ft(2900),
    packingFriction: lbf(30),
    fluidDensity: { value: 4, unit: "lb/ft3" },
    friction: { value: 0.2, unit: "" },
  },
  unit: {
    indicator: "hay pulley",
    lineAngle: { value: 90, unit: "deg" },
    calibratedAngle: { value: 90, unit: "deg" },
    smallestSheave: inch(16),
  },
  release: {
    mostHits: 60,
    mostPull: lbf(1000),
    cutBackAfter: ft(60),
    kickover: "arm folds on a straight pull",
  },
  strings: { gauge: "string-gauge", pull: "string-pull", set: "string-set" },
  line: "line-108",
  stack: "stack-5k",
  policy: "policy-house",
  pins: {
    material: "brass",
    diameter: inch(0.1875),
    planes: 1,
    count: 2,
    batch: "B-118",
  },
  crew: { supervisor: "R. Tamsin", fieldOperator: "J. Corrow", engineer: "L. Ashgrove" },
  sheet: { work: "change out", catcher: false, changes: noChanges },
  ...of,
});

export const jobs = {
  /** Today: ready, issued, to be run. */
  ready: job({
    id: "job-em-07-3",
    well: "em-07",
    mandrel: "em-07-mandrel-3",
    day: MADE_ON,
    reason:
      "Casing bleeds below the closing pressure of valve 3; gas enters high. Engineer and planner agree on mandrel 3.",
    replacement: "valve-em-2041",
  }),
  /** Tomorrow: not ready, with open points of several kinds. */
  notReady: job({
    id: "job-em-12-3",
    well: "em-12",
    mandrel: "em-12-mandrel-3",
    day: TOMORROW,
    reason:
      "Gas enters at mandrel 2 only and the casing stands at the opening pressure of valve 2: valve 3 does not open.",
    replacement: "valve-em-2042",
    pins: { material: "steel", count: 2 },
    crew: { supervisor: "R. Tamsin" },
  }),
  /** Earlier: run and closed, waiting for the engineer. */
  finished: job({
    id: "job-em-03-3",
    well: "em-03",
    mandrel: "em-03-mandrel-3",
    day: BEFORE,
    reason: "Port of valve 3 cut: more gas for the same liquid.",
    replacement: "valve-em-2037",
  }),
};

export const library = {
  wells: [em03, em07, em12],
  valves,
  tools: [],
  strings,
  lines: [line],
  stacks: [stack],
  policies: [policy],
  jobs: Object.values(jobs),
  days: [],
};
