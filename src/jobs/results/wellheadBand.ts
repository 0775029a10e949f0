import { type EqualisingBand, equaliseMethod, equalisingBand } from "../../calc/equalise.ts";
import type { Method, Warning } from "../../calc/method.ts";
import { absolutePa, verticalM } from "../../calc/units.ts";
import { type Context, ready } from "./context.ts";
import { allowedGivens, tubingGradient } from "./levelling.ts";
import { type Definitions, from, type Get, type ResultId, type Traced, trace } from "./traced.ts";
import { gasAssumed, profileGiven, spaceGasGiven } from "./wellGivens.ts";

/**
 * Levelling from the other side: wellhead pressures between which the difference at the mandrel is within
 * policy, the casing and the fluid level in the tubing staying as they are.
 */
const wellheadBands = new WeakMap<Context, EqualisingBand>();

/** One end of the band, or its middle. */
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
      ...allowedGivens(context),
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

export const wellheadBandResults = {
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
} satisfies Definitions;
