import { annulusFlow, annulusFlowMethod } from "../../calc/annulusFlow.ts";
import { gasColumn, gasColumnMethod } from "../../calc/gasColumn.ts";
import type { Warning } from "../../calc/method.ts";
import {
  flowingGradientMethod,
  flowingPressure,
  type PressureProfile,
  surveyedPressure,
} from "../../calc/pressureProfile.ts";
import type { PressureWithWarnings } from "../../calc/standingColumn.ts";
import { absolutePa, alongHoleM, M_PER_IN, verticalM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { Mandrel } from "../records/well.ts";
import { type Context, partGiven, productionSide, ready, recorded } from "./context.ts";
import { type AnyResultId, from, type Given, type Traced, trace } from "./traced.ts";
import { gasGiven, profileGiven } from "./wellGivens.ts";

/** The two pressures of a well on lift at a depth: what the gas brings down and what fluids leave on the way up. */

const wellName = ({ programme }: Context) => programme.well?.name ?? "well";
const TYPED = { kind: "record", where: "typed here" } as const;

/** Injection pressure at surface: asked about, last found, or as planned. */
export function injectionAtSurface(context: Context): Given {
  const { scenario, programme, atmosphere } = context;
  const { well } = programme;
  const found = scenario.lift === "as found";
  const quantity = found
    ? well?.lastFound?.injectionAtSurface
    : well?.pressures.operatingInjectionAtSurface;
  const name = found
    ? "Injection pressure at surface, last found"
    : "Operating injection pressure at surface";
  const given = recorded(context, "pi", name, "pressure", quantity, wellName(context));
  const typed = scenario.injectionAtSurface;
  return typed
    ? {
        ...given,
        name: "Injection pressure at surface",
        si: toSI("pressure", typed, atmosphere),
        origin: TYPED,
      }
    : given;
}

/** Pressure at surface of the side that produces, on lift. */
export function liftWellhead(context: Context): Given {
  const { scenario, programme, atmosphere } = context;
  const { well } = programme;
  const found = scenario.lift === "as found";
  const quantity = found ? well?.lastFound?.wellhead : well?.onLift?.wellhead;
  const name = found ? "Wellhead pressure on lift, last found" : "Wellhead pressure on lift";
  const given = recorded(context, "pwh", name, "pressure", quantity, wellName(context));
  const typed = scenario.wellhead;
  return typed
    ? {
        ...given,
        name: "Wellhead pressure",
        si: toSI("pressure", typed, atmosphere),
        origin: TYPED,
      }
    : given;
}

/** Injected gas at a depth, on lift: at rest, its friction being a figure of its own. */
export function injectionAt(context: Context, id: AnyResultId, label: string, tvd: Traced): Traced {
  return trace({
    id,
    label,
    dimension: "pressure",
    method: gasColumnMethod,
    givens: {
      surface: injectionAtSurface(context),
      depth: from("h", tvd),
      gas: gasGiven(context),
      profile: profileGiven(context, "flowing"),
    },
    work: ({ surface, depth }) => {
      const { pressures, warnings } = gasColumn(
        absolutePa(surface),
        verticalM(0),
        [verticalM(depth)],
        ready(context.gas),
        ready(context.flowing),
      );
      const note: Warning = {
        kind: "note",
        text: "friction of the moving gas is not counted here; it stands as a figure of its own",
      };
      return { si: pressures[0] as number, warnings: [...warnings, note] };
    },
  });
}

/** True vertical depth, m, of the deepest mandrel: where gas enters a well that is unloaded. */
function deepestMandrel({ programme, path }: Context): number | undefined {
  const mandrels = programme.well?.mandrels;
  if (!mandrels || !path.ok) return undefined;
  return Math.max(...mandrels.map((mandrel) => verticalOf(path.value, mandrel)));
}

const verticalOf = (
  path: { at(depth: ReturnType<typeof alongHoleM>): { readonly vertical: number } },
  { depthAlongHole }: Mandrel,
) => path.at(alongHoleM(toSI("length", depthAlongHole))).vertical;

/** The stops of the survey, where one was run and nobody asks about another wellhead pressure. */
function survey({ programme, scenario, atmosphere }: Context): PressureProfile | undefined {
  const stops = programme.well?.lastFound?.survey;
  if (!stops || scenario.lift !== "as found" || scenario.wellhead) return undefined;
  return surveyedPressure(
    stops.map((stop) => ({
      depth: verticalM(toSI("length", stop.trueVerticalDepth)),
      pressure: absolutePa(toSI("pressure", stop.pressure, atmosphere)),
    })),
  );
}

/** What the flowing gradients are made of. */
function gradientGivens(context: Context) {
  const { well } = context.programme;
  const gradient = (symbol: string, name: string, key: "liftedGradient" | "gradientBelow") =>
    recorded(context, symbol, name, "pressure gradient", well?.onLift?.[key], wellName(context));
  return {
    wellhead: liftWellhead(context),
    lifted: gradient("glifted", "Gradient above the point where gas enters", "liftedGradient"),
    below: gradient("gbelow", "Gradient below it", "gradientBelow"),
    entry: {
      symbol: "he",
      name: "Where gas enters, true vertical",
      dimension: "length",
      si: deepestMandrel(context),
      origin: { kind: "assumed", why: "the deepest mandrel, as in an unloaded well" },
      needs: ["well path"],
    } satisfies Given as Given,
  };
}

const byGradients = (v: Readonly<Record<"wellhead" | "lifted" | "below" | "entry", number>>) =>
  flowingPressure(absolutePa(v.wellhead), {
    lifted: v.lifted,
    below: v.below,
    entry: verticalM(v.entry),
  });

/** Pressure on the side that produces, on lift, at every depth: by the survey where there is one, by gradients otherwise. */
export function productionProfile(context: Context): PressureProfile | undefined {
  const surveyed = survey(context);
  if (surveyed) return surveyed;
  const { wellhead, lifted, below, entry } = gradientGivens(context);
  if (wellhead.si === undefined || lifted.si === undefined) return undefined;
  if (below.si === undefined || entry.si === undefined) return undefined;
  return byGradients({
    wellhead: wellhead.si,
    lifted: lifted.si,
    below: below.si,
    entry: entry.si,
  });
}

/** The same at one depth, with its working. */
export function productionAt(
  context: Context,
  id: AnyResultId,
  label: string,
  tvd: Traced,
): Traced {
  const { lastFound } = context.programme.well ?? {};
  const surveyed = survey(context);
  const result = { id, label, dimension: "pressure" } as const;
  if (surveyed) {
    return trace({
      ...result,
      method: surveyed.method,
      givens: {
        depth: from("h", tvd),
        survey: partGiven(
          "p(h)",
          `Pressure survey of ${lastFound?.day}`,
          { ok: true, value: surveyed },
          `${lastFound?.survey?.length} stops`,
          wellName(context),
        ),
      },
      work: ({ depth }) => siOf(surveyed.at(verticalM(depth))),
    });
  }
  return trace({
    ...result,
    method: flowingGradientMethod,
    givens: { depth: from("h", tvd), ...gradientGivens(context) },
    work: (v) => siOf(byGradients(v).at(verticalM(v.depth))),
  });
}

const siOf = ({ pressure, warnings }: PressureWithWarnings) => ({ si: pressure, warnings });

/** Drawn steel, and the usual figure for line pipe and casing. From memory (Moody). */
const COMMERCIAL_STEEL = 0.0018 * M_PER_IN;

/** What friction takes from the injected gas on its way to a depth. */
export function frictionAt(
  context: Context,
  id: AnyResultId,
  tvd: Traced,
  alongHole: Given,
): Traced {
  const { well } = context.programme;
  const { scenario } = context;
  const down = productionSide(context.programme) === "tubing" ? "annulus" : "tubing";
  const found = scenario.lift === "as found";
  const where = wellName(context);
  const roughness = recorded(
    context,
    "ε",
    "Roughness of the walls",
    "diameter",
    well?.annulus?.roughness,
    where,
  );
  const outer = recorded(
    context,
    "Dt",
    "Tubing, outside",
    "diameter",
    well?.annulus?.tubingOutside,
    where,
  );
  return trace({
    id,
    label: `Friction of the gas going down the ${down}`,
    dimension: "pressure difference",
    method: annulusFlowMethod,
    givens: {
      surface: injectionAtSurface(context),
      rate: recorded(
        context,
        "q",
        "Injection rate",
        "gas rate",
        found ? well?.lastFound?.injectionRate : well?.onLift?.injectionRate,
        where,
      ),
      outside:
        down === "annulus"
          ? recorded(
              context,
              "Dc",
              "Casing, inside",
              "diameter",
              well?.annulus?.casingInside,
              where,
            )
          : recorded(
              context,
              "Dt",
              "Tubing, inside",
              "diameter",
              well?.stream?.tubingInside,
              where,
            ),
      inside:
        down === "annulus"
          ? outer
          : {
              ...outer,
              name: "Nothing in the tubing",
              si: 0,
              origin: { kind: "assumed", why: "gas goes down the tubing" },
            },
      roughness: well?.annulus?.roughness
        ? roughness
        : {
            ...roughness,
            si: COMMERCIAL_STEEL,
            origin: { kind: "assumed", why: "0.0018 in, commercial steel (from memory)" },
          },
      depth: from("h", tvd),
      alongHole,
      gas: gasGiven(context),
      profile: profileGiven(context, "flowing"),
    },
    work: (v) => {
      const flow = annulusFlow(
        v.rate,
        {
          casingInner: v.outside,
          tubingOuter: v.inside,
          roughness: v.roughness,
          lengthPerDepth: Math.max(1, v.alongHole / v.depth),
        },
        absolutePa(v.surface),
        verticalM(0),
        [verticalM(v.depth)],
        ready(context.gas),
        ready(context.flowing),
      );
      return { si: flow.friction[0] as number, warnings: flow.warnings };
    },
  });
}
