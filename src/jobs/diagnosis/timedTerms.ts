import { bleedTime } from "../../calc/casingBleed.ts";
import { atDepth } from "../../calc/liftNetwork.ts";
import { type TracerEntry, tracerTimes } from "../../calc/tracerTime.ts";
import { alongHoleM, PA_PER_PSI } from "../../calc/units.ts";
import type { Writer } from "../display.ts";
import type { Condition } from "./conditions.ts";
import { operatingOf } from "./hypotheses.ts";
import type { LiftedWell } from "./liftedWell.ts";
import { bleedRestOf, notLifted } from "./notLifted.ts";
import type { Bleed, Level, Observations, Tracer } from "./observations.ts";
import type { Fault } from "./ranking.ts";
import { logMean } from "./surveyFit.ts";
import { logHeavy, type Term } from "./term.ts";
import type { Pattern } from "./trendPattern.ts";
import { uncertain } from "./uncertain.ts";

/** Evidence that takes its time: bleeding, tracer, level, charts. */

/** Mean compressibility factor of the gas in the casing. From memory: 0.85 to 0.95 at these pressures. */
const Z_DOWN = 0.88;

/** How far a predicted resting pressure may be off, share of it and Pa. Chosen by Latchline, no source. */
const REST = { share: 0.025, least: 8 * PA_PER_PSI } as const;

const LEVELS = 10;

function bleedTerm(lifted: LiftedWell, bleed: Bleed, writer: Writer): Term {
  const spread = Math.hypot(bleed.spread, REST.share * bleed.to, REST.least);
  const rest = (condition: Condition, place = condition.draw.level) =>
    bleedRestOf(lifted, condition, bleed.from, bleed.wellhead, place);
  // The level is asked at several places in every draw: one place each would leave to chance what goes with the reading.
  const atLevels = ({ draw }: Condition, of: (place: number) => number) =>
    Array.from({ length: LEVELS }, (_, i) => of((draw.level + i / LEVELS) % 1));
  const anyLevel = (condition: Condition, logAt: (place: number) => number) =>
    logMean(atLevels(condition, logAt));
  const nearest = (condition: Condition) =>
    atLevels(condition, (place) => rest(condition, place)).reduce((best, one) =>
      Math.abs(one - bleed.to) < Math.abs(best - bleed.to) ? one : best,
    );
  const { spaces } = lifted;
  const temperature = lifted.supply.temperature + 20;
  const timeLog = (condition: Condition, place: number): number => {
    if (!spaces || bleed.took <= 0 || bleed.from - bleed.to < 20 * PA_PER_PSI) return 0;
    const production = notLifted(
      lifted,
      condition,
      bleed.wellhead ?? condition.surface.wellhead,
      place,
    );
    const to = Math.max(bleed.to, rest(condition, place) + 5 * PA_PER_PSI);
    const time = bleedTime(
      condition.paths,
      production,
      bleed.from,
      Math.min(to, bleed.from - PA_PER_PSI),
      { volume: spaces.volume, temperature, z: Z_DOWN },
      lifted.passage,
    );
    // Left at rest for longer than it took: only too short a time speaks.
    const late = Math.log(bleed.took / time);
    if (!Number.isFinite(late)) return -2;
    return bleed.atRest && late > 0 ? logHeavy(0, 0.6) : logHeavy(late, 0.6);
  };
  const figure = {
    label: bleed.atRest
      ? "Casing, supply shut, came to rest at"
      : "Casing, supply shut, still fell at",
    dimension: "pressure",
    read: bleed.to,
    spread,
    of: (condition: Condition) => rest(condition),
    nearest,
  } as const;
  const noneOfTime = spaces ? -Math.log(4) : 0;
  if (bleed.atRest) {
    return {
      evidence: bleed.evidence,
      kind: "casing bleed",
      logOf: (condition) =>
        anyLevel(
          condition,
          (place) =>
            logHeavy(bleed.to - rest(condition, place), spread) + timeLog(condition, place),
        ),
      logOfNone: -Math.log(Math.max(bleed.from, lifted.operating)) + noneOfTime,
      figure,
    };
  }
  return {
    evidence: bleed.evidence,
    kind: "casing bleed",
    logOf: (condition) =>
      anyLevel(condition, (place) => {
        const above = (bleed.to - rest(condition, place)) / spread;
        return Math.log(0.03 + 0.97 / (1 + Math.exp(-1.7 * above))) + timeLog(condition, place);
      }),
    logOfNone: Math.log(0.4) + noneOfTime,
    says: `Casing, supply shut, still fell at ${writer.write("pressure", bleed.to)}`,
  };
}

/** The deepest entry that takes a part of the gas that counts. */
function deepestEntry(lifted: LiftedWell, { entries, leak, state }: Condition): number {
  const least = 0.03 * Math.max(state.rate, 0.05 * lifted.rate);
  const depths = lifted.pockets.flatMap(({ depth }, i) =>
    (entries[i] ?? 0) > least ? [depth] : [],
  );
  if (leak && leak.rate > least) depths.push(leak.depth);
  return Math.max(0, ...depths);
}

/** Where the liquid in the injection side stands, between two true vertical depths. */
export function levelBetween(
  lifted: LiftedWell,
  { stalled }: Condition,
): readonly [number, number] {
  return stalled?.level ?? [operatingOf(lifted.pockets)?.depth ?? lifted.bottom, lifted.bottom];
}

function levelTerm(lifted: LiftedWell, level: Level, writer: Writer): Term {
  const depth = lifted.path.at(alongHoleM(Math.max(0, level.alongHole))).vertical as number;
  // A shot is good to a joint or two: the speed of sound is not known better than some percent.
  const blur = level.trust * (0.015 * depth + 10);
  const outside = (top: number, bottom: number) => Math.max(0, top - depth, depth - bottom);
  const within = (top: number, bottom: number) =>
    -Math.log(bottom - top + 2.5 * blur) - 3 * Math.log1p((outside(top, bottom) / blur) ** 2 / 5);
  return {
    evidence: level.evidence,
    kind: "fluid level",
    logOf: (condition) => {
      const balanced = within(...levelBetween(lifted, condition));
      if (condition.stalled) {
        const { level, top } = condition.stalled;
        return logMean([balanced, within(top, level[1])]);
      }
      // Brought on again with the fault in it, it may have unloaded no deeper than where gas enters now.
      const deepest = Math.min(deepestEntry(lifted, condition), lifted.bottom - 1);
      const again = uncertain.broughtOnAgain.spread;
      return logMean([
        Math.log(2 * (1 - again)) + balanced,
        Math.log(2 * again) + within(deepest, lifted.bottom),
      ]);
    },
    logOfNone: -Math.log(lifted.bottom),
    says: `Liquid in the ${lifted.injectionDown === "annulus" ? "annulus" : "tubing"} at ${writer.write("length", level.alongHole)}`,
  };
}

/** Times by the keys of Predicted.tracer, with the share of the gas; undefined without areas. */
export function returnsOf(
  lifted: LiftedWell,
  { state, paths, entries, leak, surface }: Condition,
): { readonly key: string; readonly time: number; readonly share: number }[] | undefined {
  const { spaces } = lifted;
  if (!spaces || state.rate <= 0) return undefined;
  const points: (TracerEntry & { key: string })[] = lifted.pockets.map(
    ({ number, depth, alongHole }, i) => ({
      key: String(number),
      depth,
      alongHole,
      injection: atDepth((paths[i] as (typeof paths)[number]).rise, state.surface),
      production: state.production[i] as number,
      rate: entries[i] ?? 0,
    }),
  );
  const hole = paths[lifted.pockets.length];
  if (leak && hole) {
    points.push({
      key: "leak",
      depth: leak.depth,
      alongHole: lifted.alongHoleAt(leak.depth),
      injection: atDepth(hole.rise, state.surface),
      production: state.production[lifted.pockets.length] as number,
      rate: leak.rate,
    });
  }
  const passing = points
    .filter(({ rate }) => rate > 0.02 * state.rate)
    .sort((a, b) => a.depth - b.depth);
  const times = tracerTimes(passing, {
    downArea: spaces.downArea,
    upArea: spaces.upArea,
    molarMass: lifted.molarMass,
    injection: state.surface,
    wellhead: surface.wellhead,
    temperature: lifted.supply.temperature + 15,
    liquidRate: lifted.stream?.liquidRate ?? GUESSED_LIQUID,
  });
  return passing.map(({ key, rate }, i) => ({
    key,
    time: times[i] as number,
    share: rate / state.rate,
  }));
}

/** 300 bbl/d, where no stream is on record: gas carries the slug, liquid counts little. Chosen by Latchline, no source. */
const GUESSED_LIQUID = 5.5e-4;
/**
 * ln of a time: what area, gas content and slip leave open is the same for all returns of one tracer, what mixing and reading
 * do is each return's own. Chosen by Latchline, no source.
 */
const TIME_OFF = { common: 0.1, own: 0.1 } as const;
export const TIME_SPREAD = Math.hypot(TIME_OFF.common, TIME_OFF.own);
/** Of a normal: the middles of seven parts that are equally likely. */
const SEVENTHS = [-1.465, -0.792, -0.366, 0, 0.366, 0.792, 1.465] as const;

/** ln of the share of a peak: its tail is cut, its foot is shared with the next. Chosen by Latchline, no source. */
const SHARE_SPREAD = 0.35;
/** Share of the gas under which no peak is told from what is round it. Chosen by Latchline, no source. */
const LEAST_SHARE = 0.02;

/**
 * ln of how likely the shares of the returns are beside those that a condition gives: each entry's gas is counted to the returns
 * that its time goes with. Of n shares that make up all of it one is no news.
 */
function logOfShares(
  returns: Tracer["returns"],
  predicted: readonly { readonly time: number; readonly share: number }[],
  spread: number,
  trust: number,
): number {
  const read = returns.map(({ share }) => share ?? 0);
  const all = read.reduce((sum, share) => sum + share, 0);
  const expected = returns.map(() => 0);
  for (const { time, share } of predicted) {
    const likely = returns.map(({ after }) => Math.exp(logHeavy(Math.log(after / time), spread)));
    const sum = likely.reduce((total, each) => total + each, 0);
    if (!(sum > 0)) continue;
    likely.forEach((each, i) => {
      (expected[i] as number) += (share * each) / sum;
    });
  }
  const came = expected.reduce((sum, share) => sum + share, 0);
  if (!(came > 0)) return -(returns.length - 1) * Math.log(SHARES_OPEN);
  const logs = read.map((share, i) =>
    logHeavy(
      Math.log(
        Math.max(LEAST_SHARE, share / all) / Math.max(LEAST_SHARE, (expected[i] as number) / came),
      ),
      SHARE_SPREAD * trust,
    ),
  );
  return (1 - 1 / returns.length) * logs.reduce((sum, log) => sum + log, 0);
}

/** A share is open over so much of its logarithm where nothing is known of it. */
const SHARES_OPEN = 3;

/**
 * −ln of how likely a return is not written down, for each part of the gas that it brings: a fifth is overlooked once in
 * four times, half of the gas hardly ever. Chosen by Latchline, no source.
 */
const MISSED = { each: 7, most: 4 } as const;

function tracerTerm(lifted: LiftedWell, tracer: Tracer, writer: Writer): Term {
  const common = Math.hypot(TIME_OFF.common, lifted.stream ? 0 : 0.12);
  const own = Math.hypot(TIME_OFF.own, 0.04 * tracer.trust);
  const spread = Math.hypot(common, own);
  const { returns } = tracer;
  const hasShares = returns.length > 1 && returns.every(({ share }) => (share ?? 0) > 0);
  // One return in 25 is of no entry, and then anywhere over some 4 in ln of time. Chosen by Latchline, no source.
  const stray = 0.01;
  // Returns are written as times of peaks: to the minute, whatever the share.
  return {
    evidence: tracer.evidence,
    kind: "tracer",
    logOf: (condition) => {
      const predicted = returnsOf(lifted, condition) ?? [];
      const times = logMean(
        SEVENTHS.map((part) =>
          returns.reduce(
            (sum, { after }) =>
              sum +
              Math.log(
                predicted.reduce(
                  (all, { time, share }) =>
                    all + share * Math.exp(logHeavy(Math.log(after / time) - part * common, own)),
                  stray,
                ),
              ),
            0,
          ),
        ),
      );
      const missed = predicted
        .filter(
          ({ time }) => !returns.some(({ after }) => Math.abs(Math.log(after / time)) < 3 * spread),
        )
        .reduce((sum, { share }) => sum + Math.min(MISSED.most, MISSED.each * share), 0);
      return times - missed + (hasShares ? logOfShares(returns, predicted, own, tracer.trust) : 0);
    },
    logOfNone:
      -returns.length * Math.log(4) -
      (hasShares ? (returns.length - 1) * Math.log(SHARES_OPEN) : 0),
    says: `Tracer back after ${tracer.returns.map(({ after }) => writer.write("duration", after)).join(" and ")}`,
    shows: "where gas enters",
  };
}

/** How likely a chart shows each pattern, by what is wrong. Chosen by Latchline, no source; weak on purpose. */
function logOfPattern(pattern: Pattern, { kind }: Fault): number {
  const unsteady: Readonly<Record<Fault["kind"], number>> = {
    "nothing downhole": 0.12,
    supply: 0.2,
    "back-pressure at surface": 0.2,
    "tubing leak": 0.3,
    "stuck open": 0.35,
    leaking: 0.25,
    plugged: 0.2,
    "set too low": 0.3,
    "set too high": 0.2,
    "latch or packing leaks": 0.3,
    "wrong depth": 0.25,
    "multi-point": 0.4,
  };
  const heads = unsteady[kind];
  if (pattern === "heading" || pattern === "saw tooth") return Math.log(heads / 2);
  const falls = kind === "supply" ? 0.15 : 0.08;
  if (pattern === "falling" || pattern === "climbing") return Math.log(falls / 2);
  return Math.log((1 - heads - falls) / 2);
}

/** Everything that takes its time, as terms. */
export function timedTerms(lifted: LiftedWell, seen: Observations, writer: Writer): Term[] {
  return [
    ...seen.bleeds.map((bleed) => bleedTerm(lifted, bleed, writer)),
    ...seen.levels.map((level) => levelTerm(lifted, level, writer)),
    ...(lifted.spaces ? seen.tracers.map((tracer) => tracerTerm(lifted, tracer, writer)) : []),
    ...seen.patterns.map(
      ({ evidence, pattern }): Term => ({
        evidence,
        kind: "trend",
        logOf: (_, fault) => logOfPattern(pattern, fault),
        logOfNone: Math.log(0.15),
        says: `Chart of the injection pressure: ${pattern}`,
      }),
    ),
  ];
}
