import type { LiftTraverse } from "../../calc/liftTraverse.ts";
import {
  flowingGradientMethod,
  flowingPressure,
  type PressureProfile,
  surveyMethod,
} from "../../calc/pressureProfile.ts";
import type { PressureWithWarnings } from "../../calc/standingColumn.ts";
import { absolutePa, alongHoleM, verticalM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import { valveIn } from "./atMandrel.ts";
import { type Context, part, partGiven, ready, recorded, wellName } from "./context.ts";
import { liftWellhead } from "./onLift.ts";
import { streamGivens, streamTraverse, streamTraverseMethod } from "./streamTraverse.ts";
import { type AnyResultId, from, type Given, type Traced, trace } from "./traced.ts";
import { profileGiven } from "./wellGivens.ts";

/** What fluids leave of the pressure on their way up, on lift: by survey, by stated gradients, or by correlation. */

/** Below the entry, m: over less than this a mean gradient says nothing. */
const LEAST_REST = 30;

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

/** Neither a survey nor gradients say what production stands at, and what flows is known: a correlation says it. */
const streamCounts = ({ programme }: Context): boolean => {
  const { stream, onLift } = programme.well ?? {};
  return stream !== undefined && !(onLift?.liftedGradient && onLift.gradientBelow);
};

function entryGiven(context: Context): Given {
  return {
    symbol: "he",
    name: "Where gas enters, true vertical",
    dimension: "length",
    si: deepestEntry(context),
    origin: {
      kind: "assumed",
      why: "the deepest mandrel that can pass gas, as in an unloaded well",
    },
    needs: [context.path.ok ? "a mandrel that can pass gas" : context.path.missing],
  };
}

/** What a stream's pressures are made of. */
const traverseGivens = (context: Context) => ({
  wellhead: liftWellhead(context),
  entry: entryGiven(context),
  ...streamGivens(context),
});

/** What the flowing gradients are made of. */
function gradientGivens(context: Context) {
  const { well } = context.programme;
  const gradient = (symbol: string, name: string, key: "liftedGradient" | "gradientBelow") =>
    recorded(context, symbol, name, "pressure gradient", well?.onLift?.[key], wellName(context));
  return {
    wellhead: liftWellhead(context),
    lifted: gradient("glifted", "Gradient above the point where gas enters", "liftedGradient"),
    below: gradient("gbelow", "Gradient below it", "gradientBelow"),
    entry: entryGiven(context),
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
  if (streamCounts(context)) return traverseProfile(context);
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

/** By the stream's traverse; undefined while something of it is not known, or cannot be. */
function traverseProfile(context: Context): LiftTraverse | undefined {
  const givens = Object.entries<Given>(traverseGivens(context));
  if (!context.path.ok || !context.flowing.ok || givens.some(([, { si }]) => si === undefined)) {
    return undefined;
  }
  const values = Object.fromEntries(givens.map(([key, { si }]) => [key, si]));
  const found = part("pressure of the stream", () => streamTraverse(context, values as never));
  return found.ok ? found.value : undefined;
}

/**
 * Mean gradients of the stream's traverse, above the place where gas enters a well that is unloaded and below it, Pa/m.
 *
 * @returns undefined while something of the stream is not known, or cannot be
 */
export function traversedGradients(
  context: Context,
): { readonly lifted: number; readonly below: number | undefined } | undefined {
  const profile = traverseProfile(context);
  const entry = deepestEntry(context);
  const wellhead = liftWellhead(context).si;
  if (!profile || !entry || wellhead === undefined) return undefined;
  const there = profile.at(verticalM(entry)).pressure;
  const bottom = profile.points.at(-1);
  const rest = (bottom?.depth ?? entry) - entry;
  return {
    lifted: (there - wellhead) / entry,
    below: bottom && rest > LEAST_REST ? (bottom.pressure - there) / rest : undefined,
  };
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
  if (streamCounts(context)) {
    return trace({
      ...result,
      method: streamTraverseMethod,
      givens: {
        depth: from("h", tvd),
        ...traverseGivens(context),
        profile: profileGiven(context, "flowing"),
      },
      work: (v) => siOf(streamTraverse(context, v).at(verticalM(v.depth))),
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
