import { liftedPressures } from "../../calc/liftNetwork.ts";
import { verticalM } from "../../calc/units.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Judged } from "./rank.ts";
import type { Expected, Predicted } from "./ranking.ts";
import { returnsOf, TIME_SPREAD } from "./timedTerms.ts";
import { uncertain } from "./uncertain.ts";

/** Middle and spread of what the draws give, each counted by its ln weight. */
export function expectedOf(values: readonly number[], logWeights: readonly number[]): Expected {
  const most = Math.max(...logWeights);
  let sum = 0;
  let mean = 0;
  let square = 0;
  for (const [i, value] of values.entries()) {
    const weight = Number.isFinite(most) ? Math.exp((logWeights[i] as number) - most) : 1;
    if (weight === 0) continue;
    sum += weight;
    const off = value - mean;
    mean += (weight / sum) * off;
    square += weight * off * (value - mean);
  }
  return { mean, spread: Math.sqrt(Math.max(0, square / sum)) };
}

const DEPTHS = 24;

/** What the well would show if the hypothesis were true. */
export function predictedOf(lifted: LiftedWell, { conditions, before }: Judged): Predicted {
  const expected = (of: (condition: Judged["conditions"][number]) => number) =>
    expectedOf(conditions.map(of), before);
  const depths = Array.from({ length: DEPTHS + 1 }, (_, i) => (i * lifted.bottom) / DEPTHS);
  const lines = conditions.map((condition) => profileOf(lifted, condition, depths));
  const entry: Record<string, number> = {};
  lifted.pockets.forEach(({ number }, i) => {
    const share = expected(({ entries, state }) =>
      state.rate > 0 ? (entries[i] ?? 0) / state.rate : 0,
    ).mean;
    if (share > 0.005) entry[String(number)] = share;
  });
  const leaks = expected(({ leak, state }) =>
    leak && state.rate > 0 ? leak.rate / state.rate : 0,
  ).mean;
  if (leaks > 0.005) entry.leak = leaks;
  const temperatureSpread = Math.max(
    uncertain.temperatureOfWell.spread,
    lifted.temperatureUncertainty,
  );
  return {
    injectionAtSurface: expected(({ state }) => state.surface),
    injectionRate: expected(({ state }) => state.rate),
    profile: depths.map((depth, i) => ({
      depth,
      pressure: expectedOf(
        lines.map((line) => line[i] as number),
        before,
      ),
      temperature: { mean: lifted.temperatures.at(verticalM(depth)), spread: temperatureSpread },
    })),
    entry,
    tracer: tracerOf(lifted, conditions, before),
    heading: "not known",
  };
}

function profileOf(
  lifted: LiftedWell,
  { draw, surface, entries, leak }: Judged["conditions"][number],
  depths: readonly number[],
): number[] {
  const below =
    lifted.gradients.below * Math.max(0.3, 1 + uncertain.gradientBelow.spread * draw.below);
  const gradients = {
    lifted: Math.min(
      below,
      lifted.gradients.lifted * Math.max(0.2, 1 + uncertain.liftedGradient.spread * draw.lifted),
    ),
    below,
    design: lifted.rate,
  };
  const all = [
    ...lifted.pockets.map(({ depth }, i) => ({ depth, rate: entries[i] ?? 0 })),
    ...(leak ? [leak] : []),
    ...depths.map((depth) => ({ depth, rate: 0 })),
  ];
  return liftedPressures(
    all.map(({ depth }) => depth),
    all.map(({ rate }) => rate),
    surface.wellhead,
    gradients,
  ).slice(-depths.length);
}

function tracerOf(
  lifted: LiftedWell,
  conditions: Judged["conditions"],
  before: readonly number[],
): Record<string, Expected> {
  const times = new Map<string, { values: number[]; weights: number[] }>();
  conditions.forEach((condition, i) => {
    for (const { key, time, share } of returnsOf(lifted, condition) ?? []) {
      if (!Number.isFinite(time)) continue;
      const of = times.get(key) ?? { values: [], weights: [] };
      of.values.push(time);
      of.weights.push((before[i] as number) + Math.log(share));
      times.set(key, of);
    }
  });
  const least = conditions.length / 20;
  return Object.fromEntries(
    [...times]
      .filter(([, { values }]) => values.length > least)
      .map(([key, { values, weights }]) => {
        const { mean, spread } = expectedOf(values, weights);
        return [key, { mean, spread: Math.hypot(spread, TIME_SPREAD * mean) }];
      }),
  );
}
