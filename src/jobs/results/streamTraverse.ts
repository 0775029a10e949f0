import type { GravityAndImpurities } from "../../calc/gasByGravity.ts";
import { type LiftedStream, waterCutOfDensity } from "../../calc/liftedStream.ts";
import { type LiftTraverse, liftTraverse, liftTraverseMethod } from "../../calc/liftTraverse.ts";
import {
  AIR_MOLAR_MASS,
  absolutePa,
  alongHoleM,
  type VerticalM,
  verticalM,
} from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { Well } from "../records/well.ts";
import { type Context, part, productionSide, ready, recorded, wellName } from "./context.ts";
import { COMMERCIAL_STEEL } from "./onLift.ts";
import type { Given } from "./traced.ts";

/** Pressure of a lifted stream by correlation, where neither a survey nor gradients say it. */

/** Of produced water where nobody has said it: some 70 g of salt a litre. From memory. */
const WATER_GRAVITY = 1.05;

export const streamTraverseMethod = liftTraverseMethod;

/** What the traverse is made of, beside wellhead pressure and the place where gas enters. */
export function streamGivens(context: Context) {
  const { well } = context.programme;
  const where = wellName(context);
  const found = context.scenario.lift === "as found";
  const stream = well?.stream;
  const annulus = productionSide(context.programme) === "annulus";
  return {
    liquid: recorded(context, "qL", "Liquid", "liquid rate", stream?.liquidRate, where),
    density: recorded(
      context,
      "ρL",
      "Density of the liquid",
      "density",
      stream?.liquidDensity,
      where,
    ),
    api: recorded(context, "API", "API gravity of the oil", "ratio", stream?.oilApiGravity, where),
    gasRate: recorded(context, "qg", "Gas, all of it", "gas rate", stream?.gasRate, where),
    gasGravity: recorded(context, "γg", "Gravity of that gas", "ratio", stream?.gasGravity, where),
    lift: recorded(
      context,
      "qi",
      "Injection rate",
      "gas rate",
      found ? well?.lastFound?.injectionRate : well?.onLift?.injectionRate,
      where,
    ),
    outer: annulus
      ? recorded(context, "Dc", "Casing, inside", "diameter", well?.annulus?.casingInside, where)
      : recorded(context, "Dt", "Tubing, inside", "diameter", stream?.tubingInside, where),
    inner: annulus
      ? recorded(context, "Do", "Tubing, outside", "diameter", well?.annulus?.tubingOutside, where)
      : ({
          symbol: "Do",
          name: "Nothing in the tubing",
          dimension: "diameter",
          si: 0,
          origin: { kind: "assumed", why: "production comes up the tubing" },
        } satisfies Given as Given),
    water: {
      symbol: "γw",
      name: "Gravity of the water",
      dimension: "ratio",
      si: WATER_GRAVITY,
      origin: { kind: "assumed", why: "1.05, from memory" },
    } satisfies Given as Given,
  };
}

type StreamValues = Readonly<Record<keyof ReturnType<typeof streamGivens>, number>>;

/**
 * The stream's pressures down to the deepest place that anybody asks for.
 *
 * @param entry where the lift gas enters, true vertical, m
 * @throws InputError as liftTraverse, or where the liquid's density is not between oil and water
 */
export function streamTraverse(
  context: Context,
  v: StreamValues & { readonly wellhead: number; readonly entry: number },
): LiftTraverse {
  return liftTraverse(
    streamOf(context, v),
    {
      conduit: { outer: v.outer, inner: v.inner, roughness: COMMERCIAL_STEEL },
      path: ready(context.path),
      temperatures: ready(context.flowing),
      bottom: bottomOf(context, v.entry),
    },
    [{ depth: verticalM(v.entry), rate: v.lift }],
    absolutePa(v.wellhead),
  );
}

function streamOf(context: Context, v: StreamValues): LiftedStream {
  return {
    liquidRate: v.liquid,
    waterCut: waterCutOfDensity(v.density, v.api, v.water),
    apiGravity: v.api,
    waterGravity: v.water,
    formationGasRatio: Math.max(0, v.gasRate - v.lift) / v.liquid,
    formationGas: pure(v.gasGravity),
    liftGas: liftGasOf(context) ?? pure(v.gasGravity),
  };
}

/** The well's stream as its record has it; undefined while something of it is not known, or cannot be. */
export function liftedStreamOf(context: Context): LiftedStream | undefined {
  const givens = Object.entries<Given>(streamGivens(context));
  if (givens.some(([, { si }]) => si === undefined)) return undefined;
  const values = Object.fromEntries(givens.map(([key, { si }]) => [key, si]));
  const stream = part("stream", () => streamOf(context, values as StreamValues));
  return stream.ok ? stream.value : undefined;
}

const pure = (specificGravity: number): GravityAndImpurities => ({
  specificGravity,
  co2: 0,
  h2s: 0,
  n2: 0,
});

function liftGasOf({ programme, gas }: Context): GravityAndImpurities | undefined {
  const { specificGravity, co2, h2s, n2 } = programme.well?.injectionGas ?? {};
  if (specificGravity && co2 && h2s && n2) {
    return {
      specificGravity: specificGravity.value,
      co2: toSI("fraction", co2),
      h2s: toSI("fraction", h2s),
      n2: toSI("fraction", n2),
    };
  }
  return gas.ok ? pure(gas.value.molarMass / AIR_MOLAR_MASS) : undefined;
}

/** The deepest of mandrels, entry and the place where the well's fluids come in. */
function bottomOf({ programme, path }: Context, entry: number): VerticalM {
  const { mandrels = [], stream }: Partial<Pick<Well, "mandrels" | "stream">> =
    programme.well ?? {};
  const along = [
    ...mandrels.map(({ depthAlongHole }) => depthAlongHole),
    ...(stream ? [stream.entersAlongHole] : []),
  ];
  const depths = along.map(
    (depth) => ready(path).at(alongHoleM(toSI("length", depth))).vertical as number,
  );
  return verticalM(Math.max(entry, ...depths));
}
