import { atDepth, liftedPressures } from "../../calc/liftNetwork.ts";
import { verticalM } from "../../calc/units.ts";
import { dipsOf, headingOf } from "./atEntry.ts";
import { belowEntry, gradientsOf, injectionRead } from "./conditions.ts";
import type { Judged } from "./judged.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Expected, Predicted } from "./ranking.ts";
import { returnsOf, TIME_SPREAD } from "./timedTerms.ts";
import { uncertain } from "./uncertain.ts";

/** Of the draws' weight, what has to have a value for a middle of it to be one. Chosen by Latchline, no source. */
const ENOUGH = 0.2;

/**
 * Middle and spread of what the draws give, each counted by its ln weight. A draw in which there is no such value is left
 * out; undefined where too few are left.
 */
export function expectedOf(
  values: readonly number[],
  logWeights: readonly number[],
): Expected | undefined {
  const most = Math.max(...logWeights);
  let all = 0;
  let sum = 0;
  let mean = 0;
  let square = 0;
  for (const [i, value] of values.entries()) {
    const weight = Number.isFinite(most) ? Math.exp((logWeights[i] as number) - most) : 1;
    if (!(weight > 0)) continue;
    all += weight;
    if (!Number.isFinite(value)) continue;
    sum += weight;
    const off = value - mean;
    mean += (weight / sum) * off;
    square += weight * off * (value - mean);
  }
  if (!(sum > 0 && sum >= ENOUGH * all)) return undefined;
  return { mean, spread: Math.sqrt(Math.max(0, square / sum)) };
}

/** Of the draws' weight on each side of the reach. */
const TAIL = 0.05;

/**
 * Middle of what the draws give and the ends between which nine in ten of them lie, each counted by its ln weight; undefined
 * as expectedOf.
 */
export function reachOf(
  values: readonly number[],
  logWeights: readonly number[],
): { readonly low: number; readonly middle: number; readonly high: number } | undefined {
  if (!expectedOf(values, logWeights)) return undefined;
  const most = Math.max(...logWeights);
  const draws = values
    .map((value, i) => ({
      value,
      weight: Number.isFinite(most) ? Math.exp((logWeights[i] as number) - most) : 1,
    }))
    .filter(({ value }) => Number.isFinite(value))
    .sort((a, b) => a.value - b.value);
  const all = draws.reduce((sum, { weight }) => sum + weight, 0);
  const at = (share: number) => {
    let below = 0;
    const found = draws.find(({ weight }) => {
      below += weight;
      return below >= share * all;
    });
    return (found ?? draws.at(-1))?.value ?? Number.NaN;
  };
  return { low: at(TAIL), middle: at(0.5), high: at(1 - TAIL) };
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
    )?.mean;
    if (share !== undefined && share > 0.005) entry[String(number)] = share;
  });
  const leaks = expected(({ leak, state }) =>
    leak && state.rate > 0 ? leak.rate / state.rate : 0,
  )?.mean;
  if (leaks !== undefined && leaks > 0.005) entry.leak = leaks;
  const temperatureSpread = Math.max(
    uncertain.temperatureOfWell.spread,
    lifted.temperatureUncertainty,
  );
  const entering = lifted.pockets.flatMap(({ depth }, i) => {
    const rate = expected(({ entries }) => entries[i] ?? 0)?.mean ?? 0;
    const injection = expected(({ paths, state }) => {
      const path = paths[i];
      return path ? atDepth(path.rise, state.surface) : Number.NaN;
    })?.mean;
    const production = expected(({ state }) => state.production[i] ?? Number.NaN)?.mean;
    if (!(rate > 0.02 * lifted.rate) || !injection || !production) return [];
    return [{ depth, rate, injection, production }];
  });
  const dipAt = dipsOf(lifted, entering);
  return {
    injectionAtSurface: expected(injectionRead),
    injectionRate: expected(({ state }) => state.rate),
    profile: depths.flatMap((depth, i) => {
      const pressure = expectedOf(
        lines.map((line) => line[i] as number),
        before,
      );
      const mean = lifted.temperatures.at(verticalM(depth)) - (dipAt?.(depth) ?? 0);
      return pressure
        ? [{ depth, pressure, temperature: { mean, spread: temperatureSpread } }]
        : [];
    }),
    entry,
    tracer: tracerOf(lifted, conditions, before),
    heading: headingOf(lifted, conditions, before),
  };
}

function profileOf(
  lifted: LiftedWell,
  { draw, inflow, surface, entries, leak, standing }: Judged["conditions"][number],
  depths: readonly number[],
): number[] {
  if (standing !== undefined) {
    const below = belowEntry(lifted, draw);
    return depths.map(
      (depth) =>
        atDepth(lifted.column.riseAt(depth), surface.wellhead) +
        below * Math.max(0, depth - standing),
    );
  }
  const gradients = gradientsOf(lifted, draw, draw.drift, inflow);
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
      .flatMap(([key, { values, weights }]) => {
        const expected = expectedOf(values, weights);
        if (!expected) return [];
        const { mean, spread } = expected;
        return [[key, { mean, spread: Math.hypot(spread, TIME_SPREAD * mean) }]];
      }),
  );
}
