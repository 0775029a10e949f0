import { annulusFlow, annulusFlowMethod } from "../../calc/annulusFlow.ts";
import { gasColumn, gasColumnMethod } from "../../calc/gasColumn.ts";
import type { Warning } from "../../calc/method.ts";
import {
  flowingGradientMethod,
  flowingPressure,
  type PressureProfile,
  surveyMethod,
} from "../../calc/pressureProfile.ts";
import type { PressureWithWarnings } from "../../calc/standingColumn.ts";
import { absolutePa, alongHoleM, M_PER_IN, verticalM } from "../../calc/units.ts";
import { type Quantity, toSI } from "../quantity.ts";
import { valveIn } from "./atMandrel.ts";
import {
  type Context,
  part,
  partGiven,
  productionSide,
  ready,
  recorded,
  wellName,
} from "./context.ts";
import { type AnyResultId, from, type Given, type Traced, trace } from "./traced.ts";
import { gasGiven, profileGiven } from "./wellGivens.ts";

/** The two pressures of a well on lift at a depth: what the gas brings down and what fluids leave on the way up. */

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
    return { symbol, name, dimension: "pressure", si, origin: { kind: "asked" } };
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

/** True vertical depth, m, of the deepest mandrel that can pass gas: where it enters a well that is unloaded. */
function deepestEntry(context: Context): number | undefined {
  const { programme, path } = context;
  if (!path.ok) return undefined;
  const depths = (programme.well?.mandrels ?? [])
    .filter(
      (mandrel) => mandrel.pocketState !== "empty" && valveIn(context, mandrel)?.kind !== "dummy",
    )
    .flatMap(({ depthAlongHole }) => {
      const along = alongHoleM(toSI("length", depthAlongHole));
      const depth = part("depth", () => path.value.at(along).vertical);
      return depth.ok ? [depth.value] : [];
    });
  return depths.length > 0 ? Math.max(...depths) : undefined;
}

/** The survey is what production stands on: it was run, and nobody asks about another wellhead pressure. */
export const surveyCounts = ({ programme, scenario }: Context): boolean =>
  scenario.lift === "as found" &&
  !scenario.wellhead &&
  programme.well?.lastFound?.survey !== undefined;

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
      si: deepestEntry(context),
      origin: {
        kind: "assumed",
        why: "the deepest mandrel that can pass gas, as in an unloaded well",
      },
      needs: [context.path.ok ? "a mandrel that can pass gas" : context.path.missing],
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
  if (surveyCounts(context)) return context.survey.ok ? context.survey.value : undefined;
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
  const result = { id, label, dimension: "pressure" } as const;
  const { survey } = context;
  if (surveyCounts(context)) {
    return trace({
      ...result,
      method: survey.ok ? survey.value.method : surveyMethod,
      givens: {
        depth: from("h", tvd),
        survey: partGiven(
          "p(h)",
          `Pressure survey of ${lastFound?.day}`,
          survey,
          `${lastFound?.survey?.length} stops`,
          wellName(context),
        ),
      },
      work: ({ depth }) => siOf(ready(survey).at(verticalM(depth))),
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
