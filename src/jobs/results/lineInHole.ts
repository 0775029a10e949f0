import type { LineInHole } from "../../calc/lineTension.ts";
import { GRAVITY, verticalM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import { type Context, ready, recorded, wellName } from "./context.ts";
import { packingGiven } from "./indicatorResults.ts";
import { from, type Get, type Given } from "./traced.ts";
import { pathGiven } from "./wellGivens.ts";

/** The line, a string on it, and what is round them in the hole: what every pull and stretch is worked out from. */

/** kg/m3 of plain steel. Source: 0.2836 lb/in3 (7,850 kg/m3), as in published bar tables. */
const STEEL_DENSITY = 7850;

export const density: Given = {
  symbol: "ρs",
  name: "Mean density of string and line",
  dimension: "density",
  si: STEEL_DENSITY,
  origin: { kind: "assumed", why: "solid steel" },
};

export const lineName = ({ programme }: Context): string => programme.line?.name ?? "line";

/** Weight of a string in air, N. */
export function stringWeight(string: ToolString): number {
  return string.tools.reduce((sum, tool) => sum + toSI("weight", tool.weight), 0);
}

export function weightGiven(string: ToolString | undefined, name: string): Given {
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

export const diameterGiven = (context: Context): Given =>
  recorded(
    context,
    "d",
    "Line diameter",
    "diameter",
    context.programme.line?.diameter,
    lineName(context),
  );

export const fluidGiven = (context: Context): Given =>
  recorded(
    context,
    "ρf",
    "Density of the gas round the string",
    "density",
    context.programme.job.expected.fluidDensity,
    "job, expected",
  );

export const tubingLiquidGiven = (context: Context): Given =>
  recorded(
    context,
    "g",
    "Gradient of the tubing liquid",
    "pressure gradient",
    context.programme.well?.tubingLiquidGradient,
    wellName(context),
  );

/** Middle of what is met with wire in wet tubing. */
const FRICTION = 0.2;

function frictionGiven(context: Context): Given {
  const { friction } = context.programme.job.expected;
  const given = recorded(
    context,
    "μ",
    "Friction coefficient of wire and string",
    "friction coefficient",
    friction,
    "job, expected",
  );
  return friction
    ? given
    : {
        ...given,
        si: FRICTION,
        origin: { kind: "assumed", why: "0.2, common practice 0.1 to 0.3" },
      };
}

/** Everything that a line with a string on it stands on in this hole. */
export function lineGivens(context: Context, get: Get, string: ToolString | undefined) {
  return {
    weight: weightGiven(string, "Weight of the string in air"),
    diameter: diameterGiven(context),
    linearMass: recorded(
      context,
      "w",
      "Mass per length of the line",
      "mass per length",
      context.programme.line?.massPerLength,
      lineName(context),
    ),
    path: pathGiven(context),
    friction: frictionGiven(context),
    packing: packingGiven(get),
    pushOut: from("F", get("push-out")),
    gas: fluidGiven(context),
    gradient: tubingLiquidGiven(context),
    level: from("hl", get("fluid-level-tvd")),
    density,
  };
}

type LineValues = Readonly<Record<keyof ReturnType<typeof lineGivens>, number>>;

/** The same, ready for the calculation. */
export const holeOf = (context: Context, v: LineValues): LineInHole => ({
  line: { diameter: v.diameter, linearMass: v.linearMass },
  string: { inAir: v.weight, meanDensity: v.density },
  fluids: { gasDensity: v.gas, liquidDensity: v.gradient / GRAVITY, level: verticalM(v.level) },
  path: ready(context.path),
  friction: v.friction,
  pushOut: v.pushOut,
  packingFriction: v.packing,
});
