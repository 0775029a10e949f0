import { lineTension } from "../../calc/lineTension.ts";
import { buoyancyFactor } from "../../calc/pushOut.ts";
import { alongHoleM } from "../../calc/units.ts";
import { atLeast } from "../checks/compare.ts";
import type { ToolString } from "../records/equipment.ts";
import { getOf, holeWith, type Movement, type Worked, weighedAs } from "./lineChart.ts";
import { density, fluidGiven, stringWeight } from "./lineInHole.ts";
import type { LineReading } from "./lineReadings.ts";
import { lightestString } from "./lineResults.ts";
import type { Results } from "./results.ts";

/** Weight of the lightest string against push-out and packing friction, as a balance to look at. */

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
  of: Omit<Balance, "wanted" | "margin" | "measured">,
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
