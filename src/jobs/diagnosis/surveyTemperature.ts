import { gasHeat, heatCapacityRate } from "../../calc/gasEntryCooling.ts";
import { atDepth } from "../../calc/liftNetwork.ts";
import { absolutePa, verticalM } from "../../calc/units.ts";
import { part } from "../results/context.ts";
import type { LiftedWell } from "./liftedWell.ts";
import { logStudent } from "./logStudent.ts";
import { reading } from "./uncertain.ts";

/**
 * How well the temperatures of a survey go with gas entering at some depths.
 *
 * They are those of the well on lift, less a dip that begins sharply where gas enters and is taken up by the rock above it.
 * What both have wrong is of three sizes, so that a step between two neighbours tells a place and a smooth bias tells
 * none: lifted, tilted and bent as a whole; off smoothly from depth to depth; and at each stop by itself.
 *
 *   C = LIFT² (1 + t t' + t(1−t) t'(1−t')) + SMOOTH² (1 + √3 d/l) e^(−√3 d/l) + own² δ,  t = depth over that of the well
 */

/** K: the whole profile lifted, tilted over the well, bent. Chosen by Latchline, no source. */
const LIFT = 6;
/**
 * K and m: what a profile on record is off between one depth and another; its few points were each read to a kelvin or two, common
 * practice, and lie some hundred metres apart. Chosen by Latchline, no source.
 */
const SMOOTH = { spread: 1.2, over: 400 } as const;
/** K at a stop by itself, beside the reading: slugs pass while the gauge hangs. Chosen by Latchline, no source. */
const FLUTTER = 0.15;
/** What a dip is off, share of it: gas and liquid that have not met yet, rates, heats. Chosen by Latchline, no source. */
const DIP_SPREAD = 0.5;
/** m below an entry over which its dip fades: depths of stops and mandrels are off by so much. Chosen by Latchline, no source. */
const FADES_BELOW = 10;
/** m above it, where the stream is not on record: some hundred barrels a day. Chosen by Latchline, no source. */
const FADES_ABOVE = 400;
/** Heat that the stream takes over that of the planned gas, and K/Pa of a lift gas, where it is not: as GUESSED_SLIP's well. */
const GUESSED = { ratio: 7, jouleThomson: 4e-6 } as const;
/**
 * Of stops, those that are off by themselves by up to some kelvins, K: a gauge not yet settled, a figure off the wrong line. One at most
 * is reckoned with. Chosen by Latchline, no source.
 */
const WILD = { share: 0.02, over: 20 } as const;
const LOG_WILD = Math.log(WILD.share / (1 - WILD.share) / WILD.over);
/** Stops beyond these many add no more: what the dip's shape has wrong is the same at neighbours. Chosen by Latchline, no source. */
const COUNTED = 12;

/** Gas that enters at a depth. */
export interface SurveyEntry {
  readonly depth: number;
  /** of the planned rate */
  readonly share: number;
  /** injection over producing pressure there, Pa; undefined where nobody asks with a condition */
  readonly drop?: number | undefined;
}

export interface SurveyTemperatures {
  /** @param wider how many times as loose a fit */
  readonly logOf: (entries: readonly SurveyEntry[], wellhead: number, wider: number) => number;
  /**
   * By how much the stream is colder from a depth up than the run of the survey has it, K; how many standard deviations
   * that is, and how many it stays whichever stop is left out
   */
  readonly dipAt: (depth: number) => {
    readonly dip: number;
    readonly times: number;
    readonly staying: number;
  };
}

interface Stop {
  readonly depth: number;
  readonly temperature: number;
}

export function surveyTemperatures(
  lifted: LiftedWell,
  stops: readonly Stop[],
  doubt: number,
): SurveyTemperatures {
  const count = stops.length;
  const own = Math.hypot(doubt * reading.surveyTemperature.spread, FLUTTER);
  const offs = stops.map(
    ({ depth, temperature }) => temperature - lifted.temperatures.at(verticalM(depth)),
  );
  const relaxation = lifted.stream?.relaxation ?? FADES_ABOVE;
  const dipOf = dipsBy(lifted);
  const errorsOf = (wider: number) => {
    const errors = errorsBeside(stops, lifted.bottom, wider * SMOOTH.spread, wider * own);
    return {
      ...errors,
      offs: spanOf(errors.inverse, count, (i) => offs[i] as number),
      shapes: new Map<number, Span>(),
    };
  };
  const known = new Map<number, ReturnType<typeof errorsOf>>();
  const at = (wider: number) => {
    const errors = known.get(wider) ?? errorsOf(wider);
    known.set(wider, errors);
    return errors;
  };
  const isPocket = new Set(lifted.pockets.map(({ depth }) => depth));
  const shapeOf = ({ inverse, shapes }: ReturnType<typeof errorsOf>, entry: number) => {
    const cached = shapes.get(entry);
    if (cached) return cached;
    const shape = spanOf(inverse, count, (i) => {
      const above = entry - (stops[i] as Stop).depth;
      return Math.exp(above >= 0 ? -above / relaxation : above / FADES_BELOW);
    });
    // Of a hole in the tubing each draw has another depth.
    if (isPocket.has(entry)) shapes.set(entry, shape);
    return shape;
  };
  const dips: Span = { of: new Float64Array(count), weighed: new Float64Array(count) };
  return {
    logOf: (entries, _, wider) => {
      const errors = at(wider);
      dips.of.fill(0);
      dips.weighed.fill(0);
      for (const entry of entries) {
        if (!(entry.share > 0.01)) continue;
        const dip = dipOf(entry, entries);
        const shape = shapeOf(errors, entry.depth);
        for (let i = 0; i < count; i += 1) {
          (dips.of[i] as number) += dip * (shape.of[i] as number);
          (dips.weighed[i] as number) += dip * (shape.weighed[i] as number);
        }
      }
      // r = read less predicted, a what the dips have wrong in common: (C + a aᵀ)⁻¹ = C⁻¹ − C⁻¹a (C⁻¹a)ᵀ / (1 + aᵀC⁻¹a).
      let [plain, along, length] = [0, 0, 1];
      for (let i = 0; i < count; i += 1) {
        const dip = dips.of[i] as number;
        const weighed = (errors.offs.weighed[i] as number) + (dips.weighed[i] as number);
        plain += ((errors.offs.of[i] as number) + dip) * weighed;
        along += DIP_SPREAD * dip * weighed;
        length += DIP_SPREAD ** 2 * dip * (dips.weighed[i] as number);
      }
      const square = plain - along ** 2 / length;
      const logRoot = errors.logRoot + Math.log(length) / 2;
      const all = logStudent(count, square, logRoot);
      // One stop left out: the square is less by w²/k and |C| by the factor k, w and k of that stop in C⁻¹r and on the diagonal of C⁻¹.
      let sum = 1;
      for (let i = 0; i < count; i += 1) {
        const common = DIP_SPREAD * (dips.weighed[i] as number);
        const weighed =
          (errors.offs.weighed[i] as number) +
          (dips.weighed[i] as number) -
          (common * along) / length;
        const diagonal = (errors.inverse[i * count + i] as number) - common ** 2 / length;
        sum += Math.exp(
          LOG_WILD +
            logStudent(
              count - 1,
              square - weighed ** 2 / diagonal,
              logRoot + Math.log(diagonal) / 2,
            ) -
            all,
        );
      }
      return Math.min(1, COUNTED / count) * (all + Math.log(sum));
    },
    dipAt: (depth) => {
      const errors = at(1);
      const { inverse, offs: off } = errors;
      const shape = shapeOf(errors, depth);
      let [along, length] = [0, 0];
      for (let i = 0; i < count; i += 1) {
        along -= (shape.weighed[i] as number) * (off.of[i] as number);
        length += (shape.weighed[i] as number) * (shape.of[i] as number);
      }
      const left = stops.map((_, i) => {
        const [s, o] = [shape.weighed[i] as number, off.weighed[i] as number];
        const diagonal = inverse[i * count + i] as number;
        return (along + (s * o) / diagonal) / Math.sqrt(Math.max(1e-9, length - s ** 2 / diagonal));
      });
      return { dip: along / length, times: along / Math.sqrt(length), staying: Math.min(...left) };
    },
  };
}

/**
 * K by which gas cools the stream where it enters: throttled by the drop over the hole it cools itself, and then takes its
 * share of the heat of what it meets (gasEntryCooling.ts, with one Joule-Thomson coefficient for the well).
 */
function dipsBy(lifted: LiftedWell): (entry: SurveyEntry, all: readonly SurveyEntry[]) => number {
  const { operating, rate, temperatures, bottom, wellhead, gradients, column } = lifted;
  const { flowing } = lifted.stream ?? {};
  const found =
    flowing &&
    part("heat of stream and gas", () => {
      const temperature = temperatures.at(verticalM(bottom / 2));
      const inTubing = { pressure: absolutePa(0.4 * operating), temperature };
      const own = heatCapacityRate(flowing, 0, inTubing);
      return {
        ratio: own / (heatCapacityRate(flowing, rate, inTubing) - own),
        jouleThomson: gasHeat(flowing.liftGas, {
          pressure: absolutePa(0.7 * operating),
          temperature,
        }).jouleThomson,
      };
    });
  const { ratio, jouleThomson } = found?.ok ? found.value : GUESSED;
  return ({ depth, share, drop }, all) => {
    const over =
      drop ??
      Math.max(0, atDepth(column.riseAt(depth), operating) - wellhead - depth * gradients.lifted);
    const through = all.reduce(
      (sum, other) => sum + (other.depth > depth ? Math.max(0, other.share) : 0),
      share,
    );
    return (jouleThomson * over * share) / (ratio + through);
  };
}

/** A figure for each stop, and C⁻¹ times it. */
interface Span {
  readonly of: Float64Array;
  readonly weighed: Float64Array;
}

function spanOf(inverse: Float64Array, count: number, at: (stop: number) => number): Span {
  const [of, weighed] = [new Float64Array(count), new Float64Array(count)];
  for (let i = 0; i < count; i += 1) of[i] = at(i);
  for (let i = 0; i < count; i += 1) {
    let sum = 0;
    for (let k = 0; k < count; k += 1)
      sum += (inverse[i * count + k] as number) * (of[k] as number);
    weighed[i] = sum;
  }
  return { of, weighed };
}

/**
 * The stops' errors beside one another.
 *
 * @returns C⁻¹, row after row, and ln of the root of |C|, by Cholesky
 */
function errorsBeside(
  stops: readonly Stop[],
  bottom: number,
  smooth: number,
  own: number,
): { readonly inverse: Float64Array; readonly logRoot: number } {
  const n = stops.length;
  // L of C = L Lᵀ, and W = L⁻¹.
  const [root, white] = [new Float64Array(n * n), new Float64Array(n * n)];
  let logRoot = 0;
  for (let a = 0; a < n; a += 1) {
    for (let b = 0; b <= a; b += 1) {
      const [one, other] = [(stops[a] as Stop).depth, (stops[b] as Stop).depth];
      const [t, u] = [one / bottom, other / bottom];
      const apart = (Math.sqrt(3) * Math.abs(one - other)) / SMOOTH.over;
      let x =
        LIFT ** 2 * (1 + t * u + t * (1 - t) * u * (1 - u)) +
        smooth ** 2 * (1 + apart) * Math.exp(-apart) +
        (a === b ? own ** 2 : 0);
      for (let k = 0; k < b; k += 1) x -= (root[a * n + k] as number) * (root[b * n + k] as number);
      // own² at the least, but for rounding.
      root[a * n + b] =
        a === b ? Math.sqrt(Math.max(x, own ** 2 / 2)) : x / (root[b * n + b] as number);
    }
    const diagonal = root[a * n + a] as number;
    logRoot += Math.log(diagonal);
    for (let b = 0; b <= a; b += 1) {
      let x = a === b ? 1 : 0;
      for (let k = b; k < a; k += 1)
        x -= (root[a * n + k] as number) * (white[k * n + b] as number);
      white[a * n + b] = x / diagonal;
    }
  }
  const inverse = new Float64Array(n * n);
  for (let a = 0; a < n; a += 1) {
    for (let b = 0; b <= a; b += 1) {
      let sum = 0;
      for (let k = a; k < n; k += 1)
        sum += (white[k * n + a] as number) * (white[k * n + b] as number);
      inverse[a * n + b] = sum;
      inverse[b * n + a] = sum;
    }
  }
  return { inverse, logRoot };
}
