import { domeMethod, domePressure } from "../../calc/nitrogen.ts";
import { kelvin } from "../../calc/units.ts";
import {
  domeFromTestRack,
  TEST_RACK_TEMPERATURE,
  testRackOpening,
  type ValveBody,
  valveMethod,
} from "../../calc/valve.ts";
import type { Writer } from "../display.ts";
import { type Quantity, toSI } from "../quantity.ts";
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
  const dome = domeFromTestRack(body, toSI("pressure", opening, shop) as never, shop);
  const there = domePressure(dome, kelvin(toSI("temperature", temperature)), TEST_RACK_TEMPERATURE);
  return testRackOpening(body, there.pressure, shop);
}

const readingsOf = ({ programme }: Context) => programme.replacement?.bench?.readings ?? [];

const inWords = (quantity: Quantity) => `${quantity.value} ${quantity.unit}`;

function readingsGiven(context: Context): Given {
  const readings = readingsOf(context);
  const valve = context.programme.replacement;
  return {
    symbol: "read",
    name: "Openings read on the test rack, each at its temperature",
    dimension: "ratio",
    si: readings.length > 0 ? readings.length : undefined,
    shown: readings
      .map(({ opening, temperature }) => `${inWords(opening)} at ${inWords(temperature)}`)
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
      formula: `each: Pd = (Pread − Ps)(1 − R) at the bench temperature, the charge brought to 60 °F, Pd60 / (1 − R) + Ps; ${formula}`,
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
  readonly state: "passes" | "fails" | "not known";
  readonly says: string;
}

/** The bench readings against the policy: enough of them, alike, and where they should be. */
export function benchJudgements(results: Results, { write }: Writer): Judgement[] {
  const { policy, replacement } = results.context.programme;
  const count = replacement?.bench?.readings.length ?? 0;
  const wanted = policy?.benchReadings?.value;
  const enough: Judgement =
    wanted === undefined
      ? { state: "not known", says: "How many readings are wanted is not in the policy." }
      : count >= wanted
        ? { state: "passes", says: `${count} readings; ${wanted} are asked for.` }
        : {
            state: "not known",
            says: `${count} ${count === 1 ? "reading" : "readings"} so far; ${wanted} are asked for.`,
          };
  const within = (
    id: "bench-spread" | "bench-difference",
    allowed: number | undefined,
    words: (value: string, sign: number) => string,
    mend: string,
  ): Judgement => {
    const value = results.value(id);
    if (value === undefined || allowed === undefined || count === 0) {
      const traced = results.get(id);
      const needs =
        traced?.outcome.state === "missing" ? traced.outcome.needs : ["the policy's limit"];
      return { state: "not known", says: `Not known yet: needs ${needs.join("; ")}.` };
    }
    const said = words(write("pressure difference", Math.abs(value)), Math.sign(value));
    const limit = write("pressure difference", allowed);
    return Math.abs(value) <= allowed
      ? { state: "passes", says: `${said}; ${limit} is allowed.` }
      : { state: "fails", says: `${said}; ${limit} is allowed. ${mend}` };
  };
  const limit = (key: "benchSpread" | "setPressureTolerance") => {
    const stated = policy?.[key];
    return stated && toSI("pressure difference", stated.value);
  };
  return [
    enough,
    within(
      "bench-spread",
      limit("benchSpread"),
      (value) => `The readings lie within ${value} of each other`,
      "Age the valve again and repeat.",
    ),
    within(
      "bench-difference",
      limit("setPressureTolerance"),
      (value, sign) => `The mean is ${value} ${sign < 0 ? "below" : "above"} what is needed`,
      "Set it again.",
    ),
  ];
}
