import { type EqualisingBand, equaliseMethod, equalisingBand } from "../../calc/equalise.ts";
import type { Method, Warning } from "../../calc/method.ts";
import { minimumCurvatureMethod } from "../../calc/path.ts";
import { type PocketForce, pocketForce, pocketForceMethod } from "../../calc/pocketForce.ts";
import { pressureAtDepth, standingColumnMethod } from "../../calc/standingColumn.ts";
import { absolutePa, alongHoleM, verticalM } from "../../calc/units.ts";
import { type Context, measuredOr, partGiven, ready, recorded } from "./context.ts";
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
const wellName = ({ programme }: Context) => programme.well?.name ?? "well";

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

function allowed(
  context: Context,
  symbol: string,
  name: string,
  key: "annulusAboveTubing" | "tubingAboveAnnulus",
): Given {
  const policy = context.programme.policy?.[key];
  const given = recorded(context, symbol, name, "pressure difference", policy?.value, "policy");
  return policy ? { ...given, origin: { kind: "policy", basis: policy.basis } } : given;
}

/** The three ends of a band are one calculation; whoever asks first does it. */
const bands = new WeakMap<Context, EqualisingBand>();
const wellheadBands = new WeakMap<Context, EqualisingBand>();

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
      above: allowed(context, "Δ+", "Annulus may stand above the tubing by", "annulusAboveTubing"),
      below: allowed(context, "Δ−", "Annulus may stand below the tubing by", "tubingAboveAnnulus"),
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

/**
 * The same from the other side: wellhead pressures between which the difference is within policy, the casing
 * and the fluid level in the tubing staying as they are.
 */
function wellheadEnd(
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
    method: wellheadBandMethod,
    givens: {
      depth: from("h", get("mandrel-tvd")),
      annulus: from("pa", get("annulus-at-mandrel")),
      gas: spaceGasGiven(context, "tubing"),
      profile: profileGiven(context, "shutIn"),
      level: from("hl", get("fluid-level-tvd")),
      gradient: tubingGradient(context),
      above: allowed(context, "Δ+", "Annulus may stand above the tubing by", "annulusAboveTubing"),
      below: allowed(context, "Δ−", "Annulus may stand below the tubing by", "tubingAboveAnnulus"),
    },
    work: (v) => {
      const found =
        wellheadBands.get(context) ??
        equalisingBand(
          absolutePa(v.annulus),
          verticalM(v.depth),
          ready(context.tubingGas),
          ready(context.shutIn),
          // What the annulus may stand above the tubing, the tubing may stand below the annulus.
          { above: v.below, below: v.above },
          { top: verticalM(v.level), gradient: v.gradient },
        );
      wellheadBands.set(context, found);
      return {
        si: found[pick],
        warnings: [...found.warnings, ...gasAssumed(context, "tubing"), levelStays],
      };
    },
  });
}

const wellheadBandMethod: Method = {
  ...equaliseMethod,
  name: "Wellhead pressure that levels annulus and tubing at a mandrel",
  formula:
    "pt(h) = gas column from surface to the fluid level + gradient × height of liquid above the valve; solved for the wellhead pressure at pt(h) = pa(h)",
};

const levelStays: Warning = {
  kind: "note",
  text: "the fluid level in the tubing is taken to stay where it is; gas put in or bled off can move it",
};

function tubingGradient(context: Context): Given {
  return recorded(
    context,
    "g",
    "Gradient of the tubing liquid",
    "pressure gradient",
    context.programme.well?.tubingLiquidGradient,
    wellName(context),
  );
}

function bore(
  context: Context,
  symbol: string,
  name: string,
  key: "upperBore" | "lowerBore",
): Given {
  const { mandrel } = context;
  return recorded(
    context,
    symbol,
    name,
    "diameter",
    mandrel?.[key],
    `mandrel ${mandrel?.number ?? "not chosen"}`,
  );
}

/** What is left of the difference pushes on the valve: up and out is positive. */
function forceOnValve(
  context: Context,
  get: Get,
  id: ResultId,
  label: string,
  pick: keyof PocketForce,
): Traced {
  return trace({
    id,
    label,
    dimension: "force",
    method: pocketForceMethod,
    givens: {
      difference: from("Δp", get("difference-at-mandrel")),
      upper: bore(context, "du", "Upper seal bore of the pocket", "upperBore"),
      lower: bore(context, "dl", "Lower seal bore of the pocket", "lowerBore"),
    },
    work: (v) => ({ si: pocketForce(v.difference, v.upper, v.lower)[pick], warnings: [rush] }),
  });
}

const rush: Warning = {
  kind: "note",
  text: "gas that rushes past the string when a packing stack clears its bore drags on it as well, and is not in this figure",
};

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
  "force-seated": (context, get) =>
    forceOnValve(
      context,
      get,
      "force-seated",
      "Force on the valve while both packings seal, up and out",
      "seated",
    ),
  "force-clear": (context, get) =>
    forceOnValve(
      context,
      get,
      "force-clear",
      "Force on it once the lower packing is clear, up and out",
      "lowerStackClear",
    ),
  "wellhead-level": (context, get) =>
    wellheadEnd(
      context,
      get,
      "wellhead-level",
      "Wellhead pressure that levels the mandrel",
      "level",
    ),
  "wellhead-lowest": (context, get) =>
    wellheadEnd(
      context,
      get,
      "wellhead-lowest",
      "Lowest wellhead pressure within the band",
      "lowest",
    ),
  "wellhead-highest": (context, get) =>
    wellheadEnd(
      context,
      get,
      "wellhead-highest",
      "Highest wellhead pressure within the band",
      "highest",
    ),
  "casing-level": (context, get) =>
    bandEnd(context, get, "casing-level", "Casing pressure that levels the mandrel", "level"),
  "casing-lowest": (context, get) =>
    bandEnd(context, get, "casing-lowest", "Lowest casing pressure within the band", "lowest"),
  "casing-highest": (context, get) =>
    bandEnd(context, get, "casing-highest", "Highest casing pressure within the band", "highest"),
} satisfies Definitions;
