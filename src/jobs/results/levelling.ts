import { type EqualisingBand, equaliseMethod, equalisingBand } from "../../calc/equalise.ts";
import { minimumCurvatureMethod } from "../../calc/path.ts";
import { pressureAtDepth, standingColumnMethod } from "../../calc/standingColumn.ts";
import { absolutePa, alongHoleM, verticalM } from "../../calc/units.ts";
import {
  type Context,
  measuredOr,
  partGiven,
  policyGiven,
  ready,
  recorded,
  wellName,
} from "./context.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";
import { gasAssumed, pathGiven, profileGiven, spaceGasGiven } from "./wellGivens.ts";

/**
 * Annulus against tubing at the target mandrel, both at rest: what stands there now, and the casing
 * surface pressures between which the difference is within policy.
 */
const column = (context: Context, get: Get) => ({
  depth: from("h", get("mandrel-tvd")),
  gas: spaceGasGiven(context, "annulus"),
  profile: profileGiven(context, "shutIn"),
});

export function wellheadGiven(context: Context): Given {
  return measuredOr(
    context.measured["wellhead pressure"],
    recorded(
      context,
      "pwh",
      "Wellhead pressure",
      "pressure",
      context.programme.job.expected.wellheadPressure,
      "job, expected",
    ),
  );
}

/** Nothing stands in for a casing pressure that was not read. */
function casingGiven(context: Context): Given {
  return measuredOr(context.measured["casing pressure"], {
    symbol: "pc",
    name: "Casing pressure at surface",
    dimension: "pressure",
    si: undefined,
    origin: { kind: "record", where: "to be read on location" },
  });
}

function annulusLiquidGiven(context: Context): Given {
  return partGiven(
    "liquid",
    "Liquid in the annulus",
    context.annulusLiquid,
    annulusInWords(context),
    wellName(context),
  );
}

function annulusInWords({ programme }: Context): string {
  const liquid = programme.well?.annulusLiquid;
  if (!liquid || liquid.state === "not known") return "not known";
  if (liquid.state === "none") return "none above the mandrel";
  const { topTrueVertical, gradient } = liquid;
  return `from ${topTrueVertical.value} ${topTrueVertical.unit} true vertical, ${gradient.value} ${gradient.unit}`;
}

/** How far annulus and tubing may stand apart, either way. */
export const allowedGivens = (context: Context) => ({
  above: policyGiven(
    context,
    "Δ+",
    "Annulus may stand above the tubing by",
    "pressure difference",
    "annulusAboveTubing",
  ),
  below: policyGiven(
    context,
    "Δ−",
    "Annulus may stand below the tubing by",
    "pressure difference",
    "tubingAboveAnnulus",
  ),
});

/** The three ends of a band are one calculation; whoever asks first does it. */
const bands = new WeakMap<Context, EqualisingBand>();

function bandEnd(
  context: Context,
  get: Get,
  id: ResultId,
  label: string,
  pick: "level" | "lowest" | "highest",
): Traced {
  return trace({
    id,
    label,
    dimension: "pressure",
    method: equaliseMethod,
    givens: {
      ...column(context, get),
      tubing: from("pt", get("tubing-at-mandrel")),
      annulusLiquid: annulusLiquidGiven(context),
      ...allowedGivens(context),
    },
    work: (v) => {
      const found =
        bands.get(context) ??
        equalisingBand(
          absolutePa(v.tubing),
          verticalM(v.depth),
          ready(context.annulusGas),
          ready(context.shutIn),
          { above: v.above, below: v.below },
          ready(context.annulusLiquid),
        );
      bands.set(context, found);
      return { si: found[pick], warnings: [...found.warnings, ...gasAssumed(context, "annulus")] };
    },
  });
}

export function tubingGradient(context: Context): Given {
  return recorded(
    context,
    "g",
    "Gradient of the tubing liquid",
    "pressure gradient",
    context.programme.well?.tubingLiquidGradient,
    wellName(context),
  );
}

export const levellingResults = {
  "fluid-level-tvd": (context) =>
    trace({
      id: "fluid-level-tvd",
      label: "Fluid level in the tubing, true vertical",
      dimension: "length",
      method: minimumCurvatureMethod,
      givens: {
        level: measuredOr(
          context.measured["fluid level"],
          recorded(
            context,
            "Ll",
            "Fluid level in the tubing along hole",
            "length",
            context.programme.job.expected.fluidLevelAlongHole,
            "job, expected",
          ),
        ),
        path: pathGiven(context),
      },
      work: (v) => ({ si: ready(context.path).at(alongHoleM(v.level)).vertical }),
    }),
  "tubing-at-mandrel": (context, get) =>
    trace({
      id: "tubing-at-mandrel",
      label: "Tubing pressure at the mandrel, shut in",
      dimension: "pressure",
      method: standingColumnMethod,
      givens: {
        ...column(context, get),
        gas: spaceGasGiven(context, "tubing"),
        wellhead: wellheadGiven(context),
        level: from("hl", get("fluid-level-tvd")),
        gradient: tubingGradient(context),
      },
      work: (v) => {
        const { pressure, warnings } = pressureAtDepth(
          absolutePa(v.wellhead),
          verticalM(v.depth),
          ready(context.tubingGas),
          ready(context.shutIn),
          { top: verticalM(v.level), gradient: v.gradient },
        );
        return { si: pressure, warnings: [...warnings, ...gasAssumed(context, "tubing")] };
      },
    }),
  "annulus-at-mandrel": (context, get) =>
    trace({
      id: "annulus-at-mandrel",
      label: "Annulus pressure at the mandrel",
      dimension: "pressure",
      method: standingColumnMethod,
      givens: {
        ...column(context, get),
        casing: casingGiven(context),
        annulusLiquid: annulusLiquidGiven(context),
      },
      work: (v) => {
        const { pressure, warnings } = pressureAtDepth(
          absolutePa(v.casing),
          verticalM(v.depth),
          ready(context.annulusGas),
          ready(context.shutIn),
          ready(context.annulusLiquid),
        );
        return { si: pressure, warnings: [...warnings, ...gasAssumed(context, "annulus")] };
      },
    }),
  "difference-at-mandrel": (_, get) =>
    trace({
      id: "difference-at-mandrel",
      label: "Annulus less tubing at the mandrel",
      dimension: "pressure difference",
      method: {
        name: "Difference at the mandrel",
        formula: "pa(h) − pt(h)",
        source: "arithmetic",
        validity: [],
      },
      givens: {
        annulus: from("pa", get("annulus-at-mandrel")),
        tubing: from("pt", get("tubing-at-mandrel")),
      },
      work: (v) => ({ si: v.annulus - v.tubing }),
    }),
  "casing-level": (context, get) =>
    bandEnd(context, get, "casing-level", "Casing pressure that levels the mandrel", "level"),
  "casing-lowest": (context, get) =>
    bandEnd(context, get, "casing-lowest", "Lowest casing pressure within the band", "lowest"),
  "casing-highest": (context, get) =>
    bandEnd(context, get, "casing-highest", "Highest casing pressure within the band", "highest"),
} satisfies Definitions;
