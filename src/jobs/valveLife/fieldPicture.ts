import {
  expectedFailures,
  kaplanMeier,
  type Lifetime,
  type LogRank,
  logRank,
  poissonAtLeast,
  restrictedMean,
  type SurvivalCurve,
  timeToFail,
} from "../../calc/survival.ts";
import type { UnitSystem } from "../display.ts";
import { groupedBy } from "../groupedBy.ts";
import { type PulledCondition, pulledConditions } from "../pulledConditions.ts";
import { toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import type { ValveRun } from "./runs.ts";

/** How long valves last in a field: with those that are still in service counted for what they have lasted so far. */

/** Fewer runs than this say little of a group (common practice). */
export const FEW = 5;

export interface LifeOf {
  readonly title: string;
  readonly runs: number;
  readonly failures: number;
  readonly inService: number;
  readonly curve: SurvivalCurve;
  /** days by which half have failed; undefined where fewer have */
  readonly median: number | undefined;
  /** of the first `to` days, the same for every group beside each other; undefined where too few were watched as long */
  readonly mean:
    | { readonly days: number; readonly standardError: number; readonly to: number }
    | undefined;
  /** against all the others together; undefined where there is nothing to compare */
  readonly beside: LogRank | undefined;
  readonly isFew: boolean;
}

/** A pocket in which valves have failed more than once. */
export interface FailingPocket {
  readonly pocket: string;
  readonly well: ValveRun["well"];
  readonly runs: readonly ValveRun[];
  readonly failures: number;
  /** as many as the field's valves would have had in so many days */
  readonly expected: number;
  /** probability of so many or more by chance alone */
  readonly chance: number;
}

export interface FieldPicture {
  readonly all: LifeOf | undefined;
  readonly byKind: readonly LifeOf[];
  readonly byDepth: readonly LifeOf[];
  readonly modes: readonly { readonly condition: PulledCondition; readonly count: number }[];
  /** pulled and found in no way that anybody wrote down; counted as not failed */
  readonly notSaid: number;
  /** likeliest not by chance first */
  readonly pockets: readonly FailingPocket[];
  /** of how many that were looked at: among many, some fail often by chance */
  readonly pocketsLookedAt: number;
}

const lifetime = ({ days, end }: ValveRun): Lifetime => ({ time: days, failed: end === "failed" });

/** @param runs of valves; dummies are left out, since nothing of them lifts */
export function fieldPicture(runs: readonly ValveRun[], system: UnitSystem): FieldPicture {
  const lifting = runs.filter(({ kind }) => kind !== "dummy");
  const curve = lifting.length > 0 ? kaplanMeier(lifting.map(lifetime)) : undefined;
  const pockets = curve ? failingPockets(lifting, curve) : { failing: [], lookedAt: 0 };
  return {
    all: curve && lifeOf("All valves", lifting, [], curve.watchedTo),
    byKind: groups(lifting, ({ kind }) => kind && kindTitles[kind]),
    byDepth: groups(lifting, ({ depth }) => depth !== undefined && depthTitle(depth, system)),
    modes: pulledConditions.flatMap((condition) => {
      const count = lifting.filter((run) => run.condition === condition).length;
      return count > 0 ? [{ condition, count }] : [];
    }),
    notSaid: lifting.filter(({ end }) => end === "not said").length,
    pockets: pockets.failing,
    pocketsLookedAt: pockets.lookedAt,
  };
}

const kindTitles: Readonly<Record<Valve["kind"], string>> = {
  "injection-operated": "Injection-operated",
  "production-operated": "Production-operated",
  orifice: "Orifice",
  dummy: "Dummy",
};

const bands = {
  field: { step: 2000, unit: "ft" },
  metric: { step: 600, unit: "m" },
} as const;

/** Along hole, in bands that are round in the unit shown. */
function depthTitle(depth: number, system: UnitSystem): string {
  const { step, unit } = bands[system];
  const band = Math.floor(depth / toSI("length", { value: step, unit }));
  return `${band * step} to ${(band + 1) * step} ${unit}`;
}

function groups(
  runs: readonly ValveRun[],
  titleOf: (run: ValveRun) => string | false | undefined,
): LifeOf[] {
  const named = runs.flatMap((run) => {
    const title = titleOf(run);
    return title ? [{ title, run }] : [];
  });
  const byTitle = [...groupedBy(named, ({ title }) => title)].map(([title, of]) => ({
    title,
    own: of.map(({ run }) => run),
  }));
  // Means over different spans cannot stand beside each other.
  const spans = byTitle
    .filter(({ own }) => own.length >= FEW)
    .map(({ own }) => Math.max(...own.map(({ days }) => days)));
  const to = spans.length > 0 ? Math.min(...spans) : undefined;
  return byTitle
    .map(({ title, own }) =>
      lifeOf(
        title,
        own,
        named.flatMap((each) => (each.title === title ? [] : [each.run])),
        to,
      ),
    )
    .sort((a, b) => a.title.localeCompare(b.title, "en", { numeric: true }));
}

function lifeOf(
  title: string,
  own: readonly ValveRun[],
  others: readonly ValveRun[],
  to: number | undefined,
): LifeOf {
  const lifetimes = own.map(lifetime);
  const curve = kaplanMeier(lifetimes);
  const isFew = own.length < FEW;
  const mean = to && !isFew ? restrictedMean(curve, to) : undefined;
  return {
    title,
    runs: curve.count,
    failures: curve.failures,
    inService: own.filter(({ end }) => end === "in service").length,
    curve,
    median: timeToFail(curve, 0.5),
    mean: mean && to ? { days: mean.mean, standardError: mean.standardError, to } : undefined,
    beside: others.length > 0 ? logRank(lifetimes, others.map(lifetime)) : undefined,
    isFew,
  };
}

function failingPockets(
  runs: readonly ValveRun[],
  curve: SurvivalCurve,
): { readonly failing: FailingPocket[]; readonly lookedAt: number } {
  const byPocket = [...groupedBy(runs, ({ pocket }) => pocket)];
  const failing = byPocket
    .map(([pocket, own]): FailingPocket => {
      const failures = own.filter(({ end }) => end === "failed").length;
      const expected = expectedFailures(
        curve,
        own.map(({ days }) => days),
      );
      const chance = poissonAtLeast(failures, expected);
      return { pocket, well: own[0]?.well, runs: own, failures, expected, chance };
    })
    .filter(({ failures }) => failures > 1)
    .sort((a, b) => a.chance - b.chance);
  return { failing, lookedAt: byPocket.length };
}
