import { type LineInHole, lineTension, lineWeights } from "../../calc/lineTension.ts";
import { buoyancyFactor } from "../../calc/pushOut.ts";
import { type AlongHoleM, alongHoleM } from "../../calc/units.ts";
import { atLeast, atMost } from "../checks/compare.ts";
import { pocketsOf } from "../pockets.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import type { Programme } from "../records/programme.ts";
import { pocketSuffix } from "../sheet/changeOut/pocket.ts";
import { fieldById, pocketOfField, stepById } from "../sheet/walk.ts";
import { type JobState, latestReading } from "../state/jobState.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import type { Context } from "./context.ts";
import { density, fluidGiven, holeOf, lineGivens, stringWeight } from "./lineInHole.ts";
import { lightestString } from "./lineResults.ts";
import type { Results } from "./results.ts";
import type { Get, Outcome } from "./traced.ts";

/** The line with a string on it, for the eye: what it should read from top to bottom, what was read, the balance. */

/** What a string is for, in the words of its record. A catcher string is weighed as a gauge string, see `weighedAs`. */
export type Purpose = Exclude<ToolString["purpose"], "catcher">;

/** Neither a catcher nor a gauge string has a valve on it. */
export const weighedAs = ({ purpose }: Pick<ToolString, "purpose">): Purpose =>
  purpose === "catcher" ? "gauge" : purpose;

/** Which way the string moves when the pull is looked at. */
export type Movement = "runningIn" | "hanging" | "pullingOut";

/** Something worked out, or what is missing by name, or why there is no answer. */
export type Worked<T> =
  | ({ readonly state: "known" } & T)
  | Exclude<Outcome, { readonly state: "known" }>;

/** What the indicator should read with a string at many depths along hole, N. */
export interface LineChart extends Readonly<Record<Movement, readonly number[]>> {
  /** [n] rising, m; the other arrays go with it */
  readonly depths: readonly AlongHoleM[];
  /** the largest permitted pull as the indicator shows it */
  readonly limit: number | undefined;
  /** deepest of the depths at which the line would have to be pushed in, at the packing or further down */
  readonly pushed: AlongHoleM | undefined;
}

/** Enough for a line that bends as little as a well path. */
const LEGS = 40;
/** The string loses weight at once where it dips into liquid: a point on either side shows the step, m. */
const EITHER_SIDE = 0.001;

const getOf =
  (results: Results): Get =>
  (id) => {
    const traced = results.get(id);
    if (!traced) throw new Error(`${id}: no result of this job; this is a defect`);
    return traced;
  };

/** The hole with a string in it, and what the indicator shows of its pull: known when the hanging pull is. */
function holeWith(
  results: Results,
  purpose: Purpose,
): Worked<{ readonly hole: LineInHole; readonly indicator: number }> {
  const { context } = results;
  const get = getOf(results);
  const { outcome } = get(`hanging-${purpose}`);
  if (outcome.state !== "known") return outcome;
  const givens = lineGivens(context, get, context.programme.strings[purpose]);
  const values = Object.fromEntries(
    Object.entries(givens).map(([key, { si }]) => [key, si]),
  ) as Record<keyof typeof givens, number>;
  const indicator = results.value("indicator-factor") as number;
  return { state: "known", hole: holeOf(context, values), indicator };
}

/** From surface to the deepest mandrel, or to where the gauge went when that is deeper. */
function chartDepths({ programme, measured }: Context): AlongHoleM[] {
  const mandrels = (programme.well?.mandrels ?? []).map(({ depthAlongHole }) =>
    toSI("length", depthAlongHole),
  );
  const foot = Math.max(...mandrels, measured["gauge depth reached"]?.si ?? 0);
  const planned = programme.job.expected.fluidLevelAlongHole;
  const level = measured["fluid level"]?.si ?? (planned && toSI("length", planned));
  const step = level === undefined ? [] : [level - EITHER_SIDE, level + EITHER_SIDE];
  const even = Array.from({ length: LEGS + 1 }, (_, leg) => (leg / LEGS) * foot);
  return [...new Set([...even, ...mandrels, ...step])]
    .filter((depth) => depth >= 0 && depth <= foot)
    .sort((a, b) => a - b)
    .map(alongHoleM);
}

/** Expected indicator readings with a string, going in, hanging and coming out, at the pressures that stand. */
export function lineChart(results: Results, purpose: Purpose): Worked<LineChart> {
  const found = holeWith(results, purpose);
  if (found.state !== "known") return found;
  const { hole, indicator } = found;
  const depths = chartDepths(results.context);
  const weights = lineWeights(hole, depths);
  const shown = (movement: Movement) => weights.map((each) => each[movement] * indicator);
  return {
    state: "known",
    depths,
    runningIn: shown("runningIn"),
    hanging: shown("hanging"),
    pullingOut: shown("pullingOut"),
    limit: results.value("largest-pull"),
    pushed: depths.findLast((_, index) => (weights[index]?.least ?? 1) <= 0),
  };
}

/** Where the string is when its line pull is read. */
type Stop = "surface" | "on the way" | "mandrel";

/** A field of the run sheet that takes a line pull, and where the string is when it is read. */
interface LinePull {
  readonly field: string;
  readonly at: Stop;
  /** the field that says the depth, or says it more closely */
  readonly depth?: string;
  /** the expected pull it is held against; none where the line pulls on what holds */
  readonly against?: Movement;
}

/** Every line pull that the run sheet takes. The first two are read in the first 100 ft. */
export const linePulls: readonly LinePull[] = [
  { field: "pull-in", at: "surface", against: "runningIn" },
  { field: "pull-out", at: "surface", against: "pullingOut" },
  ...onTheWay("upper"),
  ...onTheWay("lower"),
  { field: "hanging", at: "mandrel", against: "hanging" },
  { field: "pick-up", at: "mandrel", against: "pullingOut" },
  { field: "slack-off", at: "mandrel", against: "runningIn" },
  { field: "key-pull", at: "mandrel", depth: "pocket-depth" },
  { field: "latch-pull", at: "mandrel", depth: "pocket-depth" },
  { field: "pull-largest", at: "mandrel", depth: "pocket-depth" },
  { field: "test-pull-force", at: "mandrel", depth: "set-depth" },
  { field: "shear-largest", at: "mandrel", depth: "set-depth" },
];

function onTheWay(stop: "upper" | "lower"): LinePull[] {
  const at = { at: "on the way", depth: `${stop}-stop` } as const;
  return [
    { field: `${stop}-hanging`, ...at, against: "hanging" },
    { field: `${stop}-pick-up`, ...at, against: "pullingOut" },
    { field: `${stop}-slack-off`, ...at, against: "runningIn" },
  ];
}

/** A line pull that was read on location, as the indicator showed it. */
export interface LineReading {
  readonly field: string;
  readonly label: string;
  /** of the string that hung on the line */
  readonly purpose: Purpose;
  readonly at: Stop;
  readonly depth: AlongHoleM;
  /** N */
  readonly si: number;
  readonly against: Movement | undefined;
  /** what the calculation says there, N; undefined where it says nothing */
  readonly expected: number | undefined;
  /** above the largest permitted pull */
  readonly overLimit: boolean;
  readonly takenAt: string;
  readonly by: string;
}

/** Readings that every pocket has of its own, by where their depth is read. */
const ofPocket: readonly (string | undefined)[] = ["pocket-depth", "set-depth"];

/** Where a field is read when it is read at a mandrel, m: the gauge goes to the lowest of several. */
function mandrelOf({ sheet, well }: Programme, field: string): number | undefined {
  const pocket = pocketOfField(sheet, field);
  const mandrel = well?.mandrels.find(({ id }) => id === pocket);
  return mandrel && toSI("length", mandrel.depthAlongHole);
}

/**
 * The latest reading of every line pull of the sheet, in the order they were taken.
 *
 * @param results of the pocket whose readings are meant, where the job has several
 */
export function lineReadings(state: JobState, results: Results): LineReading[] {
  const { programme } = state;
  if (!programme) return [];
  const { atmosphere } = results.context;
  const limit = results.value("largest-pull");
  const place = pocketsOf(programme.job).indexOf(results.context.programme.job.mandrel);
  const suffix = pocketSuffix(Math.max(0, place));
  return linePulls
    .map((pull) =>
      ofPocket.includes(pull.depth)
        ? { ...pull, field: `${pull.field}${suffix}`, depth: `${pull.depth}${suffix}` }
        : pull,
    )
    .flatMap(({ field, at, depth: depthField, against }) => {
      const reading = latestReading(state, field);
      const si = quantitySI(reading, atmosphere);
      const purpose = reading && stepById(programme.sheet, reading.step)?.string;
      if (!reading || si === undefined || !purpose) return [];
      const closer =
        depthField === undefined
          ? undefined
          : quantitySI(latestReading(state, depthField), atmosphere);
      const planned =
        at === "mandrel"
          ? (mandrelOf(programme, field) ?? results.value("target-depth"))
          : undefined;
      const depth = at === "surface" ? 0 : (closer ?? planned);
      if (depth === undefined) return [];
      const read: LineReading = {
        field,
        label: fieldById(programme.sheet, field)?.label ?? field,
        purpose,
        at,
        depth: alongHoleM(depth),
        si,
        against,
        expected: against && expectedAt(results, purpose, alongHoleM(depth), against),
        overLimit: limit !== undefined && !atMost(si, limit),
        takenAt: reading.takenAt,
        by: reading.event.actor.name,
      };
      return [{ read, place: state.readings.indexOf(reading) }];
    })
    .sort((one, other) => one.place - other.place)
    .map(({ read }) => read);
}

function expectedAt(
  results: Results,
  purpose: Purpose,
  depth: AlongHoleM,
  movement: Movement,
): number | undefined {
  const found = holeWith(results, purpose);
  if (found.state !== "known") return undefined;
  const [weights] = lineWeights(found.hole, [depth]);
  return weights && weights[movement] * found.indicator;
}

/** What acts on a string at one place, N, all of it along the line. */
export interface Balance {
  /** up, at the packing */
  readonly pushOut: number;
  /** against going in, at the packing */
  readonly packing: number;
  /** against going in, of line and string on the tubing */
  readonly drag: number;
  /** down: weight of the string in what is round it, along the hole */
  readonly string: number;
  /** down: the line's own, the same way */
  readonly line: number;
  /** weight that the policy's ratio asks for against push-out and packing friction */
  readonly wanted: number | undefined;
  /** weight beyond that, negative when it falls short; exactly what is asked counts as none short */
  readonly margin: number | undefined;
  /** what is left to go down with; negative: it does not go */
  readonly net: number;
  /** weight by the readings of the line with the same string, push-out added to what they show */
  readonly measured: number | undefined;
}

/** The lightest string against push-out: just under the closed valve, and at the mandrel where its line helps. */
export function balances(
  results: Results,
  readings: readonly LineReading[],
): Readonly<Record<"surface" | "mandrel", Worked<Balance>>> {
  return { surface: atSurface(results, readings), mandrel: atMandrel(results, readings) };
}

/** What the policy asks, and what the indicator says of the weight: half-way between in and out no friction counts. */
function judged(
  results: Results,
  of: Omit<Balance, "wanted" | "margin" | "net" | "measured">,
  shown: readonly (number | undefined)[],
): Balance {
  const ratio = results.context.programme.policy?.pushOutRatio.value;
  const wanted = ratio === undefined ? undefined : ratio * (of.pushOut + of.packing);
  const weight = of.string + of.line;
  const margin = wanted === undefined ? undefined : weight - wanted;
  const read = shown.filter((si) => si !== undefined);
  const mean = read.reduce((sum, si) => sum + si, 0) / shown.length;
  const indicator = results.value("indicator-factor");
  return {
    ...of,
    wanted,
    margin:
      margin !== undefined && atLeast(weight, wanted as number) ? Math.max(0, margin) : margin,
    net: weight - of.pushOut - of.packing - of.drag,
    measured:
      read.length === shown.length && indicator !== undefined
        ? mean / indicator + of.pushOut
        : undefined,
  };
}

function atSurface(results: Results, readings: readonly LineReading[]): Worked<Balance> {
  const { context } = results;
  const get = getOf(results);
  const { outcome } = get("push-out-ratio");
  if (outcome.state !== "known") return outcome;
  const string = lightestString(context) as ToolString;
  const share = buoyancyFactor(fluidGiven(context).si as number, density.si as number);
  const read = (field: Movement) =>
    readings.find(
      ({ at, against, purpose }) =>
        at === "surface" && against === field && purpose === string.purpose,
    )?.si;
  const acts = {
    pushOut: results.value("push-out") as number,
    packing: results.value("packing-friction") as number,
    drag: 0,
    string: stringWeight(string) * share,
    line: 0,
  };
  return {
    state: "known",
    ...judged(results, acts, [read("runningIn"), read("pullingOut")]),
  };
}

function atMandrel(results: Results, readings: readonly LineReading[]): Worked<Balance> {
  const string = lightestString(results.context);
  const depth = results.value("target-depth");
  if (!string) return { state: "missing", needs: ["tool string"] };
  const found = holeWith(results, weighedAs(string));
  if (found.state !== "known") return found;
  if (depth === undefined) return { state: "missing", needs: ["Target mandrel, along hole"] };
  const { hole } = found;
  const { profile } = lineTension(hole, alongHoleM(depth));
  const [top, tool] = [profile[0], profile.at(-1)];
  const [down, own] = [top?.hanging ?? 0, tool?.hanging ?? 0];
  const hanging = readings.find(
    ({ at, against, purpose }) =>
      at === "mandrel" && against === "hanging" && purpose === string.purpose,
  );
  const acts = {
    pushOut: hole.pushOut,
    packing: hole.packingFriction,
    drag: down - (top?.runningIn ?? 0),
    string: own,
    line: down - own,
  };
  return { state: "known", ...judged(results, acts, [hanging?.si]) };
}
