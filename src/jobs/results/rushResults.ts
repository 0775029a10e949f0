import { gasRush, gasRushMethod } from "../../calc/gasRush.ts";
import type { Warning } from "../../calc/method.ts";
import { buoyancyFactor } from "../../calc/pushOut.ts";
import { circle } from "../../calc/seat.ts";
import { absolutePa, GRAVITY, kelvin } from "../../calc/units.ts";
import { type Context, ready, recorded } from "./context.ts";
import { largestDiameter } from "./envelopeResults.ts";
import { density, fluidGiven, tubingLiquidGiven, weightGiven } from "./lineInHole.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";

/** What gas that rushes through the pocket does to the pull string: estimates under lower and upper assumptions. */

const HEAT_CAPACITY_RATIO = 1.27;

/** What each figure leaves out stands beside it: neither is a bound that the well keeps to. */
const assumptions = {
  least:
    "an estimate, no floor: only what the jet itself carries; the drag of the gas in the gap along the string is left out",
  most: "an estimate, no cap: the whole difference on the widest part of the string; the drag of the gas in the gap along the string is left out",
} as const;

const GOES_DOWN: Warning = {
  kind: "note",
  text: "the tubing stands higher: gas leaves it, and the force is down",
};

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
      return {
        si: found[pick],
        warnings: [
          ...found.warnings,
          { kind: "note", text: assumptions[pick] },
          ...(v.annulus < v.tubing ? [GOES_DOWN] : []),
        ],
      };
    },
  });
}

export const rushResults = {
  "rush-least": (context, get) =>
    rush(context, get, "rush-least", "Gas rush on the pull string, lower assumptions", "least"),
  "rush-most": (context, get) =>
    rush(context, get, "rush-most", "Gas rush on the pull string, upper assumptions", "most"),
  "rush-over-weight": (context, get) =>
    trace({
      id: "rush-over-weight",
      label: "That, over what holds the pull string down at the mandrel",
      dimension: "ratio",
      method: {
        name: "Gas rush against weight",
        formula:
          "upper F / (W (1 − ρ/ρs) cos i), ρ of what stands at the mandrel; above 1 the string can be blown up the hole; 0 where the gas leaves the tubing",
        source: `arithmetic; ${gasRushMethod.source}`,
        validity: [],
      },
      givens: {
        rush: from("F", get("rush-most")),
        annulus: from("pa", get("annulus-at-mandrel")),
        tubing: from("pt", get("tubing-at-mandrel")),
        weight: weightGiven(context.programme.strings.pull, "Weight of the pull string in air"),
        inclination: from("i", get("mandrel-inclination")),
        tvd: from("h", get("mandrel-tvd")),
        level: from("hl", get("fluid-level-tvd")),
        gas: fluidGiven(context),
        gradient: tubingLiquidGiven(context),
        density,
      },
      work: (v) => {
        if (v.annulus < v.tubing) return { si: 0, warnings: [GOES_DOWN] };
        const fluid = v.tvd > v.level ? v.gradient / GRAVITY : v.gas;
        const down = v.weight * buoyancyFactor(fluid, v.density) * Math.cos(v.inclination);
        // Nothing holds it down along a hole that lies flat.
        return { si: down > 0 ? v.rush / down : Number.POSITIVE_INFINITY };
      },
    }),
} satisfies Definitions;
