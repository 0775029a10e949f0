import { type LineInHole, lineWeights } from "../../calc/lineTension.ts";
import { type AlongHoleM, alongHoleM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import type { Context } from "./context.ts";
import { holeOf, lineGivens } from "./lineInHole.ts";
import type { Results } from "./results.ts";
import type { Get, Outcome } from "./traced.ts";

/** The line with a string on it, for the eye: what it should read from top to bottom. */

/** Whose weights are worked out. A catcher string has none of its own: it is weighed as a gauge string, see `weighedAs`. */
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

export const getOf =
  (results: Results): Get =>
  (id) => {
    const traced = results.get(id);
    if (!traced) throw new Error(`${id}: no result of this job; this is a defect`);
    return traced;
  };

/** The hole with a string in it, and what the indicator shows of its pull: known when the hanging pull is. */
export function holeWith(
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
