import {
  hangingPull,
  hangingPullMethod,
  largestPull,
  largestPullMethod,
} from "../../calc/linePull.ts";
import { pushOutBalance, pushOutForce, pushOutMethod } from "../../calc/pushOut.ts";
import { absolutePa, GRAVITY, verticalM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import { atmosphereGiven, type Context, measuredOr, recorded } from "./context.ts";
import { wellheadGiven } from "./levelling.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";

/** Push-out, what the line may carry and what it should read, from the wellhead pressure that stands. */

/** kg/m3 of plain steel. Source: 0.2836 lb/in3 (7,850 kg/m3), as in published bar tables. */
const STEEL_DENSITY = 7850;

/** Weight of a string in air, N. */
export function stringWeight(string: ToolString): number {
  return string.tools.reduce((sum, tool) => sum + toSI("weight", tool.weight), 0);
}

/** The string with least weight: the one that push-out is hardest on. */
function lightest(context: Context): ToolString | undefined {
  const strings = Object.values(context.programme.strings).filter((s) => s !== undefined);
  return strings.sort((a, b) => stringWeight(a) - stringWeight(b))[0];
}

function weightGiven(string: ToolString | undefined, name: string): Given {
  return {
    symbol: "W",
    name,
    dimension: "weight",
    si: string && stringWeight(string),
    origin: {
      kind: "record",
      where: string ? `${string.name}, ${string.tools.length} tools` : "tool string",
    },
  };
}

const density: Given = {
  symbol: "ρs",
  name: "Mean density of string and line",
  dimension: "density",
  si: STEEL_DENSITY,
  origin: { kind: "assumed", why: "solid steel" },
};

const lineName = ({ programme }: Context) => programme.line?.name ?? "line";

const diameter = (context: Context) =>
  recorded(
    context,
    "d",
    "Line diameter",
    "diameter",
    context.programme.line?.diameter,
    lineName(context),
  );

const fluid = (context: Context) =>
  recorded(
    context,
    "ρf",
    "Density of the gas round the string",
    "density",
    context.programme.job.expected.fluidDensity,
    "job, expected",
  );

/** Just under the closed valve the hole is vertical and no wire weight helps: the least of the job. */
function balanceGivens(context: Context, get: Get) {
  return {
    pushOut: from("F", get("push-out")),
    friction: measuredOr(
      context.measured["packing friction"],
      recorded(
        context,
        "Fp",
        "Packing friction",
        "force",
        context.programme.job.expected.packingFriction,
        "job, expected",
      ),
    ),
    fluid: fluid(context),
    density,
    weight: weightGiven(lightest(context), "Weight of the lightest string in air"),
  };
}

function balance(v: {
  pushOut: number;
  friction: number;
  weight: number;
  density: number;
  fluid: number;
}) {
  const string = { inAir: v.weight, meanDensity: v.density };
  return pushOutBalance(v.pushOut, v.friction, string, v.fluid);
}

function hanging(
  context: Context,
  get: Get,
  id: ResultId,
  label: string,
  string: ToolString | undefined,
): Traced {
  return trace({
    id,
    label,
    dimension: "force",
    method: hangingPullMethod,
    givens: {
      weight: weightGiven(string, "Weight of the string in air"),
      depth: from("h", get("mandrel-tvd")),
      inclination: from("θ", get("mandrel-inclination")),
      diameter: diameter(context),
      linearMass: recorded(
        context,
        "w",
        "Mass per length of the line",
        "mass per length",
        context.programme.line?.massPerLength,
        lineName(context),
      ),
      pushOut: from("F", get("push-out")),
      gas: fluid(context),
      gradient: recorded(
        context,
        "g",
        "Gradient of the tubing liquid",
        "pressure gradient",
        context.programme.well?.tubingLiquidGradient,
        context.programme.well?.name ?? "well",
      ),
      level: from("hl", get("fluid-level-tvd")),
      density,
    },
    work: (v) => ({
      si: hangingPull(
        { diameter: v.diameter, linearMass: v.linearMass },
        { inAir: v.weight, meanDensity: v.density },
        {
          gasDensity: v.gas,
          liquidDensity: v.gradient / GRAVITY,
          level: verticalM(v.level),
        },
        verticalM(v.depth),
        v.inclination,
        v.pushOut,
      ),
      warnings: [
        {
          kind: "note",
          text: "without drag: going in reads less, coming out more; a sign, never proof of what hangs below",
        },
      ],
    }),
  });
}

export const lineResults = {
  "push-out": (context) =>
    trace({
      id: "push-out",
      label: "Push-out on the line",
      dimension: "force",
      method: {
        ...pushOutMethod,
        name: "Push-out at the packing",
        formula: "F = (p − patm) π d² / 4",
      },
      givens: {
        wellhead: wellheadGiven(context),
        diameter: diameter(context),
        atmosphere: atmosphereGiven(context),
      },
      work: (v) => ({ si: pushOutForce(absolutePa(v.wellhead), context.atmosphere, v.diameter) }),
    }),
  "push-out-ratio": (context, get) =>
    trace({
      id: "push-out-ratio",
      label: "Effective weight over push-out and packing friction",
      dimension: "ratio",
      method: pushOutMethod,
      givens: balanceGivens(context, get),
      // Nothing pushes and nothing rubs: any weight beats it.
      work: (v) => ({ si: balance(v).ratio ?? Number.POSITIVE_INFINITY }),
    }),
  "weight-needed": (context, get) =>
    trace({
      id: "weight-needed",
      label: "Weight in air that only just balances",
      dimension: "weight",
      method: pushOutMethod,
      givens: balanceGivens(context, get),
      work: (v) => ({ si: balance(v).weightNeeded }),
    }),
  "hanging-gauge": (context, get) =>
    hanging(
      context,
      get,
      "hanging-gauge",
      "Line pull with the gauge string hanging at the mandrel",
      context.programme.strings.gauge,
    ),
  "hanging-pull": (context, get) =>
    hanging(
      context,
      get,
      "hanging-pull",
      "Line pull with the pull string hanging at the mandrel",
      context.programme.strings.pull,
    ),
  "hanging-set": (context, get) =>
    hanging(
      context,
      get,
      "hanging-set",
      "Line pull with the set string hanging at the mandrel",
      context.programme.strings.set,
    ),
  "largest-pull": (context) => {
    const { line, policy } = context.programme;
    return trace({
      id: "largest-pull",
      label: "Largest permitted line pull at surface",
      dimension: "force",
      method: largestPullMethod,
      givens: {
        strength: recorded(
          context,
          "Fb",
          `Breaking strength (${line?.strengthFrom ?? "not given"})`,
          "force",
          line?.breakingStrength,
          lineName(context),
        ),
        fraction: {
          symbol: "f",
          name: "Fraction of it allowed",
          dimension: "ratio",
          si: policy?.lineFraction.value,
          origin: policy
            ? { kind: "policy", basis: policy.lineFraction.basis }
            : { kind: "record", where: "policy" },
        },
        socket: recorded(
          context,
          "Fs",
          "Rope socket strength",
          "force",
          line?.ropeSocketStrength,
          lineName(context),
        ),
      },
      work: (v) => ({ si: largestPull(v.strength, v.fraction, v.socket) }),
    });
  },
} satisfies Definitions;
