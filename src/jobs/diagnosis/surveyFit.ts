import { atDepth, relieved } from "../../calc/liftNetwork.ts";
import { alongHoleM } from "../../calc/units.ts";
import type { Condition } from "./conditions.ts";
import type { LiftedWell } from "./liftedWell.ts";
import { logStudent } from "./logStudent.ts";
import type { SurveyRun } from "./observations.ts";
import {
  type SurveyEntry,
  type SurveyTemperatures,
  surveyTemperatures,
} from "./surveyTemperature.ts";
import { reading, uncertain } from "./uncertain.ts";

/**
 * How well a survey goes with gas entering where a hypothesis has it enter.
 *
 * Pressure is a straight line as below the entry, less what each part of the gas relieves above its entry, and a bend
 * of the lifted part. How steep and how bent is not known: these are averaged over in closed form, as normals around what
 * the records say, so that only the places of the breaks count. Temperature: see surveyTemperature.ts.
 */
export interface SurveyFit {
  readonly evidence: string;
  /** ln of the likelihood, and of that under "none of these" */
  readonly logOf: (condition: Condition) => number;
  readonly logOfNone: number;
  /** true vertical depth that the survey by itself goes best with, were all gas to enter at one, m */
  readonly entersBy: { readonly mean: number; readonly spread: number } | undefined;
  /** where the stream turns colder than the run of the survey, K; undefined where it does so nowhere clearly */
  readonly colder:
    | { readonly depth: number; readonly mandrel: number | undefined; readonly by: number }
    | undefined;
}

/** Stops beyond these many add no more: what the model has wrong is the same at neighbours. */
const COUNTED = 8;
/** More stops than these are thinned. */
const KEPT = 40;

const verticalOf = (lifted: LiftedWell, alongHole: number) =>
  lifted.path.at(alongHoleM(alongHole)).vertical as number;

/** Stops with a pressure, at true vertical depth, m. */
export function pressuresOf(
  lifted: LiftedWell,
  stops: SurveyRun["stops"],
): { readonly alongHole: number; readonly depth: number; readonly pressure: number }[] {
  return stops.flatMap(({ alongHole, pressure }) =>
    pressure === undefined ? [] : [{ alongHole, depth: verticalOf(lifted, alongHole), pressure }],
  );
}

/** The same of those that are scored. */
export const surveyPressures = (lifted: LiftedWell, run: SurveyRun) =>
  pressuresOf(lifted, thinned(run.stops, KEPT));

export function surveyFit(lifted: LiftedWell, run: SurveyRun): SurveyFit {
  const pressures = surveyPressures(lifted, run);
  const temperatures = thinned(run.stops, KEPT).flatMap(({ alongHole, temperature }) =>
    temperature === undefined ? [] : [{ depth: verticalOf(lifted, alongHole), temperature }],
  );
  const read =
    temperatures.length >= 3 ? surveyTemperatures(lifted, temperatures, run.trust) : undefined;
  const bases: Basis[] = [
    ...(pressures.length >= 3 ? [pressureBasis(lifted, pressures, run.trust)] : []),
    ...(read ? [read.logOf] : []),
  ];
  const logOf = (entries: readonly SurveyEntry[], wellhead: number, wider: number) =>
    bases.reduce((sum, basis) => sum + basis(entries, wellhead, wider), 0);
  // What is none of these: gas entering anywhere, and a fit three times as loose.
  const anywhere = Array.from({ length: 12 }, (_, i) =>
    logOf(
      [{ depth: ((i + 0.5) / 12) * lifted.bottom, share: 1 }],
      pressures[0]?.pressure ?? lifted.wellhead,
      3,
    ),
  );
  const places = Array.from({ length: PLACES }, (_, i) => ((i + 1) / PLACES) * lifted.bottom);
  return {
    evidence: run.evidence,
    logOf: (condition) => logOf(entriesOf(lifted, condition), condition.surface.wellhead, 1),
    logOfNone: bases.length === 0 ? 0 : logMean(anywhere),
    entersBy:
      bases.length === 0
        ? undefined
        : likeliest(places, (depth) =>
            logOf([{ depth, share: 1 }], pressures[0]?.pressure ?? lifted.wellhead, 1),
          ),
    colder: read && colderAt(lifted, read, places),
  };
}

/**
 * Standard deviations and K from which a dip is spoken of, and what has to stay of it whichever stop is left out, since one
 * alone may be wild. Chosen by Latchline, no source.
 */
const SPOKEN = { times: 3, staying: 0.5, dip: 0.5 } as const;
/** ln: a mandrel that goes with the survey nearly as well as the best depth is the place. Chosen by Latchline, no source. */
const AS_WELL = 1;

function colderAt(
  lifted: LiftedWell,
  read: SurveyTemperatures,
  places: readonly number[],
): SurveyFit["colder"] {
  const likeliestOf = <T extends { readonly depth: number }>(all: readonly T[]) =>
    all
      .map((one) => ({ ...one, ...read.dipAt(one.depth) }))
      .filter(
        ({ times, staying, dip }) =>
          times >= SPOKEN.times && staying >= SPOKEN.staying && dip >= SPOKEN.dip,
      )
      .reduce<(T & { dip: number; times: number }) | undefined>(
        (best, one) => (best && best.times >= one.times ? best : one),
        undefined,
      );
  const mandrel = likeliestOf(lifted.pockets);
  const place = likeliestOf(places.map((depth) => ({ depth })));
  if (mandrel && !(place && (place.times ** 2 - mandrel.times ** 2) / 2 > AS_WELL))
    return { depth: mandrel.depth, mandrel: mandrel.number, by: mandrel.dip };
  return place && { depth: place.depth, mandrel: undefined, by: place.dip };
}

/** Depths at which a survey is asked where gas enters. */
const PLACES = 80;

function likeliest(depths: readonly number[], logOf: (depth: number) => number) {
  const logs = depths.map(logOf);
  const most = Math.max(...logs);
  if (!Number.isFinite(most)) return undefined;
  const weights = logs.map((log) => Math.exp(log - most));
  const all = weights.reduce((sum, each) => sum + each, 0);
  const meanOf = (of: (depth: number) => number) =>
    depths.reduce((sum, depth, i) => sum + ((weights[i] as number) / all) * of(depth), 0);
  const mean = meanOf((depth) => depth);
  return { mean, spread: Math.sqrt(meanOf((depth) => (depth - mean) ** 2)) };
}

export function entriesOf(
  lifted: LiftedWell,
  { entries, leak, paths, state }: Condition,
): SurveyEntry[] {
  const over = (index: number) => {
    const path = paths[index];
    const production = state.production[index];
    return path && production !== undefined
      ? Math.max(0, atDepth(path.rise, state.surface) - production)
      : undefined;
  };
  const all = lifted.pockets.map(({ depth }, i) => ({
    depth,
    share: (entries[i] ?? 0) / lifted.rate,
    drop: over(i),
  }));
  return leak
    ? [...all, { depth: leak.depth, share: leak.rate / lifted.rate, drop: over(all.length) }]
    : all;
}

export function logMean(logs: readonly number[]): number {
  const most = Math.max(...logs);
  if (!Number.isFinite(most)) return -Infinity;
  return most + Math.log(logs.reduce((sum, each) => sum + Math.exp(each - most), 0) / logs.length);
}

function thinned<T>(all: readonly T[], most: number): readonly T[] {
  if (all.length <= most) return all;
  return Array.from(
    { length: most },
    (_, i) => all[Math.round((i * (all.length - 1)) / (most - 1))] as T,
  );
}

/** @param wider how many times as loose a fit */
type Basis = (entries: readonly SurveyEntry[], wellhead: number, wider: number) => number;

function pressureBasis(
  lifted: LiftedWell,
  stops: readonly { readonly depth: number; readonly pressure: number }[],
  doubt: number,
): Basis {
  const { gradients } = lifted;
  const relief = gradients.below - gradients.lifted;
  const noise = stops.map(({ pressure }) =>
    Math.hypot(
      doubt * (reading.surveyPressure.spread + reading.surveyPressure.share * pressure),
      uncertain.modelSurvey.spread * pressure,
    ),
  );
  const logNoise = noise.reduce((sum, sigma) => sum + Math.log(sigma), 0);
  const sums = new Sums(5);
  return (given, wellhead, wider) => {
    const entries = given.filter(({ share }) => share > 0.01).sort((a, b) => a.depth - b.depth);
    const deepest = entries.at(-1)?.depth ?? 0;
    // From the top: what relieves each stretch is the gas that passes there.
    let through = entries.reduce((sum, { share }) => sum + share, 0);
    let above = 0;
    const stretches = entries.map(({ depth, share }) => {
      const stretch = { from: above, to: depth, relieved: relieved(through, gradients.slip) };
      through -= share;
      above = depth;
      return stretch;
    });
    sums.clear();
    for (let i = 0; i < stops.length; i += 1) {
      const { depth, pressure } = stops[i] as (typeof stops)[number];
      let reliefLength = 0;
      for (const stretch of stretches) {
        const length = Math.min(depth, stretch.to) - stretch.from;
        if (length > 0) reliefLength += length * stretch.relieved;
      }
      const inside = Math.min(depth, deepest);
      // Of the gradient above the entry, over its depth from -1/2 to 1/2 and twice over that: weight grows downwards, friction
      // upwards, so that it bends most at the foot.
      const t = deepest > 0 ? inside / deepest : 0;
      const bend = (deepest * t * (t - 1)) / 2;
      const foot = deepest * t * (t - 1) * (2 * t - 1);
      const middle =
        wellhead + gradients.below * depth - relief * reliefLength + 0.3 * gradients.lifted * bend;
      const sigma = (noise[i] as number) * wider;
      sums.column[0] = 1.5e5 / sigma;
      sums.column[1] = (0.15 * gradients.below * depth) / sigma;
      sums.column[2] = (0.3 * relief * reliefLength) / sigma;
      sums.column[3] = (0.5 * gradients.lifted * bend) / sigma;
      sums.column[4] = (0.4 * gradients.lifted * foot) / sigma;
      sums.add((pressure - middle) / sigma);
    }
    return counted(stops.length) * sums.logHeavy(logNoise + stops.length * Math.log(wider));
  };
}

const counted = (stops: number) => Math.min(1, COUNTED / stops);

/**
 * ln density of residuals r (in standard deviations) whose covariance is 1 + B Bᵀ, as a multivariate Student's t. B is [n][k]: each unknown's spread times what it does to each stop. Gathered stop by stop into
 * the same few numbers again and again: it is asked for every draw.
 */
class Sums {
  readonly unknowns: number;
  /** the row of B of the stop that is added next */
  readonly column: Float64Array;
  /** M = 1 + BᵀB, lower half, row after row; v = Bᵀr */
  readonly #m: Float64Array;
  readonly #v: Float64Array;
  #square = 0;
  #count = 0;

  constructor(unknowns: number) {
    this.unknowns = unknowns;
    this.column = new Float64Array(unknowns);
    this.#m = new Float64Array(unknowns * unknowns);
    this.#v = new Float64Array(unknowns);
  }

  clear(): void {
    this.#m.fill(0);
    for (let a = 0; a < this.unknowns; a += 1) this.#m[a * this.unknowns + a] = 1;
    this.#v.fill(0);
    this.#square = 0;
    this.#count = 0;
  }

  add(residual: number): void {
    const k = this.unknowns;
    for (let a = 0; a < k; a += 1) {
      const x = this.column[a] as number;
      (this.#v[a] as number) += x * residual;
      for (let b = 0; b <= a; b += 1)
        (this.#m[a * k + b] as number) += x * (this.column[b] as number);
    }
    this.#square += residual * residual;
    this.#count += 1;
  }

  /** @param logSigma sum of ln of the standard deviations that the residuals were divided by */
  logHeavy(logSigma: number): number {
    const k = this.unknowns;
    const n = this.#count;
    const m = this.#m;
    const v = this.#v;
    // rᵀ(1 + BBᵀ)⁻¹r = rᵀr − vᵀM⁻¹v and |1 + BBᵀ| = |M|; by Cholesky M = L Lᵀ, w = L⁻¹ v, in place.
    let square = this.#square;
    let logDeterminant = 0;
    for (let a = 0; a < k; a += 1) {
      for (let b = 0; b < a; b += 1) {
        let x = m[a * k + b] as number;
        for (let c = 0; c < b; c += 1) x -= (m[a * k + c] as number) * (m[b * k + c] as number);
        m[a * k + b] = x / (m[b * k + b] as number);
      }
      let diagonal = m[a * k + a] as number;
      let right = v[a] as number;
      for (let c = 0; c < a; c += 1) {
        const l = m[a * k + c] as number;
        diagonal -= l * l;
        right -= l * (v[c] as number);
      }
      const root = Math.sqrt(Math.max(diagonal, 1e-12));
      m[a * k + a] = root;
      v[a] = right / root;
      logDeterminant += 2 * Math.log(root);
      square -= (v[a] as number) ** 2;
    }
    return logStudent(n, square, logDeterminant / 2 + logSigma);
  }
}

/** Pressures of a survey at any depth: straight between stops, below them as the well fills, above them to the wellhead. */
export function surveyedAt(
  stops: readonly { readonly depth: number; readonly pressure: number }[],
  lifted: LiftedWell,
): ((depth: number) => number) | undefined {
  const rising = stops.filter(
    ({ depth }, i) => i === 0 || depth > (stops[i - 1]?.depth ?? 0) + 0.5,
  );
  const first = rising[0];
  const last = rising.at(-1);
  if (rising.length < 2 || !first || !last) return undefined;
  return (depth) => {
    const least = lifted.atmosphere;
    if (depth <= first.depth) {
      return Math.max(least, first.pressure - (first.depth - depth) * lifted.gradients.lifted);
    }
    if (depth >= last.depth) return last.pressure + (depth - last.depth) * lifted.gradients.below;
    const next = rising.findIndex((stop) => stop.depth >= depth);
    const a = rising[next - 1] ?? first;
    const b = rising[next] ?? last;
    return Math.max(
      least,
      a.pressure + ((depth - a.depth) / (b.depth - a.depth)) * (b.pressure - a.pressure),
    );
  };
}
