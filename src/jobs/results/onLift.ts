import { annulusFlow, annulusFlowMethod } from "../../calc/annulusFlow.ts";
import { gasColumn, gasColumnMethod } from "../../calc/gasColumn.ts";
import type { Warning } from "../../calc/method.ts";
import { absolutePa, M_PER_IN, verticalM } from "../../calc/units.ts";
import { type Quantity, toSI } from "../quantity.ts";
import { type Context, productionSide, ready, recorded, wellName } from "./context.ts";
import { type AnyResultId, from, type Given, type Traced, trace } from "./traced.ts";
import { gasGiven, profileGiven } from "./wellGivens.ts";

/** Pressures at surface of a well on lift, and what the injected gas brings down. */

/** A surface pressure of the well on lift: asked about, last found, or as planned. */
function surface(
  context: Context,
  asked: "injectionAtSurface" | "wellhead",
  symbol: string,
  name: string,
  planned: Quantity<"pressure"> | undefined,
): Given {
  const { scenario, programme, atmosphere } = context;
  const typed = scenario[asked];
  if (typed) {
    const si = toSI("pressure", typed, atmosphere);
    const { readBy } = scenario;
    const origin = readBy
      ? ({ kind: "measured", ...readBy } as const)
      : ({ kind: "asked" } as const);
    return { symbol, name, dimension: "pressure", si, origin };
  }
  return scenario.lift === "as found"
    ? recorded(
        context,
        symbol,
        `${name}, last found`,
        "pressure",
        programme.well?.lastFound?.[asked],
        wellName(context),
      )
    : recorded(context, symbol, name, "pressure", planned, wellName(context));
}

export const injectionAtSurface = (context: Context): Given =>
  surface(
    context,
    "injectionAtSurface",
    "pi",
    "Operating injection pressure at surface",
    context.programme.well?.pressures.operatingInjectionAtSurface,
  );

/** Pressure at surface of the side that produces, on lift. */
export const liftWellhead = (context: Context): Given =>
  surface(
    context,
    "wellhead",
    "pwh",
    "Wellhead pressure on lift",
    context.programme.well?.onLift?.wellhead,
  );

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

/** Drawn steel, and the usual figure for line pipe and casing. From memory (Moody). */
export const COMMERCIAL_STEEL = 0.0018 * M_PER_IN;

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
