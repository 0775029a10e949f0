import { domeMethod, domePressure } from "../../calc/nitrogen.ts";
import { absolutePa, kelvin } from "../../calc/units.ts";
import {
  domeFromTestRack,
  TEST_RACK_TEMPERATURE,
  testRackOpening,
  type ValveBody,
  valveMethod,
} from "../../calc/valve.ts";
import { asEntered, displayUnit, formatNumber, type Writer } from "../display.ts";
import { fromSI, toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import type { Context } from "./context.ts";
import type { Results } from "./results.ts";
import { type Definitions, from, type Given, type ResultId, type Traced, trace } from "./traced.ts";
import { bodyGivens, bodyOf, fromShop, shopAtmosphere, shopGiven } from "./valveGivens.ts";

/** What the test rack read of the replacement, brought to 60 °F, and what that says of the setting. */

/** One opening as it was read. */
export type BenchReading = NonNullable<Valve["bench"]>["readings"][number];

/**
 * A reading brought to 60 °F: the charge it stands for, at constant volume, and the opening that charge has there.
 *
 * @returns gauge counted in the shop, as absolute Pa
 */
function at60(
  body: ValveBody,
  { opening, temperature }: BenchReading,
  valve: Valve | undefined,
): number {
  const shop = shopAtmosphere(valve);
  const dome = domeFromTestRack(body, absolutePa(toSI("pressure", opening, shop)), shop);
  const there = domePressure(dome, kelvin(toSI("temperature", temperature)), TEST_RACK_TEMPERATURE);
  return testRackOpening(body, there.pressure, shop);
}

const readingsOf = ({ programme }: Context) => programme.replacement?.bench?.readings ?? [];

function readingsGiven(context: Context): Given {
  const readings = readingsOf(context);
  const valve = context.programme.replacement;
  return {
    symbol: "read",
    name: "Openings read on the test rack, each at its temperature",
    dimension: "ratio",
    si: readings.length > 0 ? readings.length : undefined,
    shown: readings
      .map(({ opening, temperature }) => `${asEntered(opening)} at ${asEntered(temperature)}`)
      .join("; "),
    origin: {
      kind: "record",
      where: valve ? `bench of valve ${valve.serial}` : "replacement valve",
    },
  };
}

/** A figure made from all readings at 60 °F. */
function fromReadings(
  context: Context,
  id: ResultId,
  label: string,
  dimension: "pressure" | "pressure difference",
  formula: string,
  make: (at60: readonly number[]) => number,
): Traced {
  const valve = context.programme.replacement;
  return trace({
    id,
    label,
    dimension,
    method: {
      name: "Test-rack readings at 60 °F",
      formula: `each: Pd = (Pread − Ps)(1 − R) + R patm at the bench temperature, the charge brought to 60 °F, (Pd60 − R patm) / (1 − R) + Ps, all absolute but Ps; ${formula}`,
      source: `${valveMethod.source}; ${domeMethod.source}`,
      validity: domeMethod.validity,
    },
    givens: {
      ...bodyGivens(context, valve),
      readings: readingsGiven(context),
      shop: shopGiven(valve),
    },
    work: (v) => {
      const body = bodyOf(valve, v);
      return { si: make(readingsOf(context).map((reading) => at60(body, reading, valve))) };
    },
  });
}

const mean = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export const benchResults = {
  "bench-mean": (context) =>
    fromReadings(
      context,
      "bench-mean",
      "Test-rack opening at 60 °F, mean of the readings",
      "pressure",
      "mean",
      (values) => fromShop(context, context.programme.replacement, mean(values)),
    ),
  "bench-spread": (context) =>
    fromReadings(
      context,
      "bench-spread",
      "Largest less smallest reading, at 60 °F",
      "pressure difference",
      "largest − smallest",
      (values) => Math.max(...values) - Math.min(...values),
    ),
  "bench-difference": (_, get) =>
    trace({
      id: "bench-difference",
      label: "Bench less what is needed",
      dimension: "pressure difference",
      method: { name: "Difference", formula: "mean − needed", source: "arithmetic", validity: [] },
      givens: {
        mean: from("mean", get("bench-mean")),
        needed: from("needed", get("test-rack-needed")),
      },
      work: (v) => ({ si: v.mean - v.needed }),
    }),
} satisfies Definitions;

/** Whether something holds, fails, or cannot be told yet. */
export interface Judgement {
  readonly what: "count" | "spread" | "mean";
  readonly state: "passes" | "fails" | "not known";
  readonly says: string;
}

/** The bench readings against the policy: enough of them, alike, and where they should be. */
export function benchJudgements(results: Results, writer: Writer): Judgement[] {
  const { policy, replacement } = results.context.programme;
  const count = replacement?.bench?.readings.length ?? 0;
  const wanted = policy?.benchReadings?.value;
  const judged = (what: Judgement["what"], state: Judgement["state"], says: string): Judgement => ({
    what,
    state,
    says,
  });
  const enough = wanted !== undefined && count >= wanted;
  const readings = `${count} ${count === 1 ? "reading" : "readings"}`;
  const counted =
    wanted === undefined
      ? judged("count", "not known", "How many readings are wanted is not in the policy.")
      : judged(
          "count",
          enough ? "passes" : "not known",
          enough
            ? `${readings}; ${wanted} are asked for.`
            : `${readings} so far; ${wanted} are asked for.`,
        );
  const within = (
    what: "spread" | "mean",
    id: "bench-spread" | "bench-difference",
    key: "benchSpread" | "setPressureTolerance",
    words: (value: string, sign: number) => string,
    mend: string,
  ): Judgement => {
    const stated = policy?.[key];
    const traced = results.get(id);
    if (!enough) return judged(what, "not known", "Judged when there are enough readings.");
    if (!stated) return judged(what, "not known", "What is allowed is not in the policy.");
    if (traced?.outcome.state !== "known") {
      const needs =
        traced?.outcome.state === "missing" ? traced.outcome.needs.join("; ") : "an answer";
      return judged(what, "not known", `Not known yet: needs ${needs}.`);
    }
    const { si } = traced.outcome;
    const allowed = toSI("pressure difference", stated.value);
    const passes = Math.abs(si) <= allowed;
    const said = words(apart(Math.abs(si), allowed, writer), Math.sign(si));
    const limit = writer.write("pressure difference", allowed);
    return judged(
      what,
      passes ? "passes" : "fails",
      `${said}; ${limit} is allowed.${passes ? "" : ` ${mend}`}`,
    );
  };
  return [
    counted,
    within(
      "spread",
      "bench-spread",
      "benchSpread",
      (value) => `The readings lie within ${value} of each other`,
      "Age the valve again and repeat.",
    ),
    within(
      "mean",
      "bench-difference",
      "setPressureTolerance",
      (value, sign) => `The mean is ${value} ${sign < 0 ? "below" : "above"} what is needed`,
      "Set it again.",
    ),
  ];
}

/** A difference so written that it can be told from the limit it is held against. */
function apart(si: number, limit: number, writer: Writer): string {
  const rounded = writer.write("pressure difference", si);
  if (si <= limit || rounded !== writer.write("pressure difference", limit)) return rounded;
  const unit = displayUnit(writer.system, "pressure difference");
  return `${formatNumber(fromSI("pressure difference", si, unit), 2)} ${unit}`;
}
