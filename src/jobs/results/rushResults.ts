import { gasRush, gasRushMethod } from "../../calc/gasRush.ts";
import { buoyancyFactor } from "../../calc/pushOut.ts";
import { circle } from "../../calc/seat.ts";
import { absolutePa, kelvin } from "../../calc/units.ts";
import { type Context, ready, recorded } from "./context.ts";
import { largestDiameter } from "./envelopeResults.ts";
import { density, fluidGiven, weightGiven } from "./lineInHole.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";

/** What gas that rushes through the pocket does to the pull string, as bounds. */

const HEAT_CAPACITY_RATIO = 1.27;

function rush(
  context: Context,
  get: Get,
  id: ResultId,
  label: string,
  pick: "least" | "most",
): Traced {
  const { pull } = context.programme.strings;
  const { mandrel } = context;
  return trace({
    id,
    label,
    dimension: "force",
    method: gasRushMethod,
    givens: {
      annulus: from("pa", get("annulus-at-mandrel")),
      tubing: from("pt", get("tubing-at-mandrel")),
      temperature: from("T", get("temperature-shut-in")),
      ports: {
        ...recorded(
          context,
          "dp",
          "Ports of the pocket, as wide as its lower seal bore",
          "diameter",
          mandrel?.lowerBore,
          `mandrel ${mandrel?.number ?? "not chosen"}`,
        ),
      },
      string: {
        symbol: "ds",
        name: "Largest outside diameter of the pull string",
        dimension: "diameter",
        si: pull && largestDiameter(pull),
        origin: { kind: "record", where: pull?.name ?? "pull string" },
      } as Given,
      ratio: {
        symbol: "k",
        name: "Heat capacity ratio of the gas",
        dimension: "ratio",
        si: HEAT_CAPACITY_RATIO,
        origin: { kind: "assumed", why: "1.27, usual for lift gas (from memory)" },
      } as Given,
    },
    work: (v) => {
      const found = gasRush(
        absolutePa(v.annulus),
        absolutePa(v.tubing),
        kelvin(v.temperature),
        { area: circle(v.ports), dischargeCoefficient: 1 },
        { molarMass: ready(context.annulusGas).molarMass, heatCapacityRatio: v.ratio },
        v.string,
      );
      const down = {
        kind: "note" as const,
        text: "the tubing stands higher: gas leaves it, and the force is down",
      };
      return {
        si: found[pick],
        warnings: [...found.warnings, ...(found.intoTubing ? [] : [down])],
      };
    },
  });
}

export const rushResults = {
  "rush-least": (context, get) =>
    rush(context, get, "rush-least", "Gas rush on the pull string, at least", "least"),
  "rush-most": (context, get) =>
    rush(context, get, "rush-most", "Gas rush on the pull string, at most", "most"),
  "rush-over-weight": (context, get) =>
    trace({
      id: "rush-over-weight",
      label: "That, over the weight of the pull string in its gas",
      dimension: "ratio",
      method: {
        name: "Gas rush against weight",
        formula: "most / (W (1 − ρf/ρs)); above 1 the string can be blown up the hole",
        source: `arithmetic; ${gasRushMethod.source}`,
        validity: [],
      },
      givens: {
        most: from("F", get("rush-most")),
        weight: weightGiven(context.programme.strings.pull, "Weight of the pull string in air"),
        fluid: fluidGiven(context),
        density,
      },
      work: (v) => ({ si: v.most / (v.weight * buoyancyFactor(v.fluid, v.density)) }),
    }),
} satisfies Definitions;
