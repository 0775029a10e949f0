import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";

/** How long things last, from what has failed and from what had not failed when it was last looked at. */

export const kaplanMeierMethod: Method = {
  name: "Share still in service, Kaplan and Meier (1958)",
  formula:
    "S(t) = Π (1 − dᵢ/nᵢ) over the times tᵢ ≤ t at which something failed; s² = S² Σ dᵢ / (nᵢ (nᵢ − dᵢ)); limits on ln(−ln S), ± 1.96 standard errors",
  source:
    "Kaplan and Meier, J. Am. Stat. Assoc. 53 (1958) 457; standard error of Greenwood (1926); NIST/SEMATECH e-Handbook of Statistical Methods, 8.2.1.5",
  validity: [],
};

export const restrictedMeanMethod: Method = {
  name: "Mean time in service up to a limit",
  formula: "μ(τ) = ∫ S(t) dt from 0 to τ; s² = Σ (∫ S dt from tᵢ to τ)² dᵢ / (nᵢ (nᵢ − dᵢ))",
  source:
    "area under the curve of Kaplan and Meier; Klein and Moeschberger, Survival Analysis, section 4.5, from memory",
  validity: [],
};

export const logRankMethod: Method = {
  name: "Log-rank test of two groups",
  formula:
    "χ² = (O − E)² / V, E = Σ d n₁/n, V = Σ d (n₁/n)(1 − n₁/n)(n − d)/(n − 1), one degree of freedom",
  source: "Mantel, Cancer Chemother. Rep. 50 (1966) 163, from memory",
  validity: [],
};

/** How long one thing was watched, and whether it failed then. */
export interface Lifetime {
  /** in any unit of time, all of them in the same one, 0 or more */
  readonly time: number;
  /** false: it had not failed when it was last looked at (censored) */
  readonly failed: boolean;
}

export interface SurvivalStep {
  readonly time: number;
  /** n, watched just before; what was taken away at the same time counts */
  readonly atRisk: number;
  /** d, failed at this time */
  readonly failed: number;
  /** S from this time on, up to the next step */
  readonly survival: number;
  /** of S, by Greenwood */
  readonly standardError: number;
  /** limits that hold S in 95 of 100 such samples; undefined where S is 0 and says nothing of its spread */
  readonly low: number | undefined;
  readonly high: number | undefined;
}

export interface SurvivalCurve {
  /** one for each time at which something failed, rising; empty where nothing did */
  readonly steps: readonly SurvivalStep[];
  /** the longest time anything was watched: the curve says nothing beyond */
  readonly watchedTo: number;
  readonly count: number;
  readonly failures: number;
}

const Z95 = 1.959963984540054;

/**
 * Share that is still in service, against time.
 *
 *   S(t) = Π (1 - d_i / n_i) over the failure times t_i up to t
 *
 * @param lifetimes [n], in any order
 * @returns the steps of S, 1 before the first
 * @throws InputError where nothing is given, or a time is negative or not finite
 * Holds where what was taken out without having failed would have lasted as any other.
 * @example kaplanMeier([{ time: 10, failed: true }, { time: 50, failed: false }]).steps[0].survival  // 0.5
 * Source: see kaplanMeierMethod.
 */
export function kaplanMeier(lifetimes: readonly Lifetime[]): SurvivalCurve {
  if (lifetimes.length === 0) throw new InputError("lifetimes", 0, "one or more");
  for (const [index, { time }] of lifetimes.entries()) {
    requireNumber(`lifetimes[${index}].time`, time, "0 or more", (t) => t >= 0);
  }
  const sorted = [...lifetimes].sort((a, b) => a.time - b.time);
  const steps: SurvivalStep[] = [];
  let survival = 1;
  let greenwood = 0;
  for (let first = 0; first < sorted.length; ) {
    const { time } = sorted[first] as Lifetime;
    let next = first;
    let failed = 0;
    for (; next < sorted.length && sorted[next]?.time === time; next += 1) {
      if (sorted[next]?.failed) failed += 1;
    }
    const atRisk = sorted.length - first;
    first = next;
    if (failed === 0) continue;
    survival *= 1 - failed / atRisk;
    greenwood += failed / (atRisk * (atRisk - failed));
    steps.push({ time, atRisk, failed, survival, ...spread(survival, greenwood) });
  }
  return {
    steps,
    watchedTo: sorted.at(-1)?.time ?? 0,
    count: sorted.length,
    failures: steps.reduce((sum, { failed }) => sum + failed, 0),
  };
}

/** Of S, from the sum of Greenwood's formula; the limits stay between 0 and 1. */
function spread(
  survival: number,
  greenwood: number,
): Pick<SurvivalStep, "standardError" | "low" | "high"> {
  if (survival <= 0) return { standardError: 0, low: undefined, high: undefined };
  const factor = Math.exp((Z95 * Math.sqrt(greenwood)) / -Math.log(survival));
  return {
    standardError: survival * Math.sqrt(greenwood),
    low: survival ** factor,
    high: survival ** (1 / factor),
  };
}

/**
 * S at a time.
 *
 * @param time in the unit of the curve's times
 * @returns undefined beyond the longest time that anything was watched, unless S is 0 by then
 * Source: see kaplanMeierMethod.
 */
export function survivalAt(curve: SurvivalCurve, time: number): number | undefined {
  const survival = curve.steps.findLast((step) => step.time <= time)?.survival ?? 1;
  return time > curve.watchedTo && survival > 0 ? undefined : survival;
}

/**
 * The time by which a share has failed: the first at which S is at or below 1 - share.
 *
 * @param share between 0 and 1, both excluded; 0.5 gives the median
 * @returns in the unit of the curve's times; undefined where fewer have failed so far
 * @throws InputError for a share that is none
 * Source: see kaplanMeierMethod.
 */
export function timeToFail(curve: SurvivalCurve, share: number): number | undefined {
  requireNumber("share", share, "between 0 and 1", (s) => s > 0 && s < 1);
  // A product of ratios misses a round share by its last digit.
  return curve.steps.find(({ survival }) => survival <= 1 - share + 1e-12)?.time;
}

/**
 * Mean time in service up to a limit: what a plain mean cannot give while some are still in service.
 *
 *   μ(τ) = ∫ S(t) dt from 0 to τ
 *
 * @param to τ; beyond the longest time watched S is not known
 * @returns the mean and its standard error, in the unit of the times
 * @throws InputError where `to` is not above 0, or beyond what was watched while some have not failed
 * Source: see restrictedMeanMethod.
 */
export function restrictedMean(
  curve: SurvivalCurve,
  to: number,
): { readonly mean: number; readonly standardError: number } {
  const { steps, watchedTo } = curve;
  requireNumber("to", to, "above 0", (t) => t > 0);
  if (survivalAt(curve, to) === undefined) {
    throw new InputError("to", to, `at most ${watchedTo}, the longest time watched`);
  }
  const within = steps.filter(({ time }) => time < to);
  /** area under S from a step to the limit, by the step's place */
  const areas = within.map((_, place) =>
    within.slice(place).reduce((area, { time, survival }, index, rest) => {
      const end = rest[index + 1]?.time ?? to;
      return area + survival * (end - time);
    }, 0),
  );
  const variance = within.reduce((sum, { atRisk, failed }, index) => {
    if (atRisk === failed) return sum;
    return sum + ((areas[index] as number) ** 2 * failed) / (atRisk * (atRisk - failed));
  }, 0);
  const mean = (within[0]?.time ?? to) + (areas[0] ?? 0);
  return { mean, standardError: Math.sqrt(variance) };
}

export interface LogRank {
  /** O, failures in the first group */
  readonly observed: number;
  /** E, as many as there would be if both groups lasted alike */
  readonly expected: number;
  readonly chiSquare: number;
  /** probability that groups that last alike differ by so much by chance */
  readonly chance: number;
}

/**
 * Whether two groups last differently by more than chance.
 *
 * @returns undefined where the groups never stood beside each other with something failing
 * @throws as kaplanMeier
 * Holds for groups of some size: with fewer than about 10 failures it is a hint (common practice).
 * Source: see logRankMethod.
 */
export function logRank(
  first: readonly Lifetime[],
  second: readonly Lifetime[],
): LogRank | undefined {
  const pooled = kaplanMeier([...first, ...second]);
  let [observed, expected, variance] = [0, 0, 0];
  for (const { time, atRisk: n, failed: d } of pooled.steps) {
    const n1 = first.filter((each) => each.time >= time).length;
    observed += first.filter((each) => each.time === time && each.failed).length;
    expected += (d * n1) / n;
    if (n > 1) variance += (d * (n1 / n) * (1 - n1 / n) * (n - d)) / (n - 1);
  }
  if (variance === 0) return undefined;
  const chiSquare = (observed - expected) ** 2 / variance;
  return { observed, expected, chiSquare, chance: erfc(Math.sqrt(chiSquare / 2)) };
}

/**
 * Expected number of failures of things that lasted so long, if each was as any other: the cumulated hazard of the
 * whole, Σ dᵢ/nᵢ, summed over their times.
 *
 * @param curve of all things together
 * @param times how long each of some of them lasted, in the curve's unit
 * @returns their number
 * Source: Nelson (1969) and Aalen (1978), from memory.
 */
export function expectedFailures(curve: SurvivalCurve, times: readonly number[]): number {
  return times.reduce(
    (sum, until) =>
      sum +
      curve.steps
        .filter(({ time }) => time <= until)
        .reduce((hazard, { failed, atRisk }) => hazard + failed / atRisk, 0),
    0,
  );
}

/**
 * Probability of so many failures or more where some are expected, by Poisson.
 *
 * @param count whole, 0 or more
 * @param mean  expected, 0 or more
 * @returns 0 to 1
 * @throws InputError for a count or a mean that cannot be
 * @example poissonAtLeast(2, 1)  // 0.2642
 * Source: Poisson's distribution.
 */
export function poissonAtLeast(count: number, mean: number): number {
  requireNumber("count", count, "a whole number, 0 or more", (c) => Number.isInteger(c) && c >= 0);
  requireNumber("mean", mean, "0 or more", (m) => m >= 0);
  let term = Math.exp(-mean);
  let below = 0;
  for (let k = 0; k < count; k += 1) {
    below += term;
    term *= mean / (k + 1);
  }
  return Math.max(0, 1 - below);
}

/** 1 - erf(x) for x of 0 or more, within 1.5e-7: Abramowitz and Stegun (1964), 7.1.26. */
function erfc(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const series =
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t;
  return series * Math.exp(-x * x);
}
