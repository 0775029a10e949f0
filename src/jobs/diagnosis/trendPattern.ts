/** A pen against time, s and SI. */
export interface Pen {
  readonly at: number;
  readonly value: number;
}

export type Pattern = "steady" | "settled" | "heading" | "saw tooth" | "falling" | "climbing";

export interface TrendPattern {
  readonly pattern: Pattern;
  /** middle of the last third */
  readonly level: number;
  /** half of the difference between the tops and the bottoms of the last third */
  readonly swing: number;
}

/** Of the level: less than this is a pen's own play. Chosen by Latchline, no source. */
const PLAY = 0.015;
/** Swings that make it heading, and how much longer one flank is than the other in a saw tooth. */
const SWINGS = 3;
const LOPSIDED = 2.5;

/**
 * What a pen did: steady, heading (rising and falling again and again), saw tooth (heading with one flank steep),
 * falling or climbing to the end, or settled after it had moved.
 *
 * @param pens at least 4, in any order
 * @returns undefined of fewer, or where they span no time
 */
export function trendPattern(pens: readonly Pen[]): TrendPattern | undefined {
  const sorted = [...pens].sort((a, b) => a.at - b.at);
  const first = sorted[0];
  const last = sorted.at(-1);
  if (sorted.length < 4 || !first || !last || last.at <= first.at) return undefined;
  const lastThird = sorted.filter(({ at }) => at >= last.at - (last.at - first.at) / 3);
  const late = lastThird.length >= 3 ? lastThird : sorted.slice(-3);
  const level = middle(late.map(({ value }) => value));
  const play = Math.max(PLAY * Math.abs(level), 1);
  const swing = (highest(late) - lowest(late)) / 2;
  const { swings, up, down } = swingsOf(sorted, 2 * play);
  if (swings >= SWINGS) {
    const isLopsided = Math.max(up, down) > LOPSIDED * Math.min(up, down);
    return { pattern: isLopsided ? "saw tooth" : "heading", level, swing };
  }
  const half = Math.ceil(late.length / 2);
  const drift =
    middle(late.slice(-half).map(({ value }) => value)) -
    middle(late.slice(0, half).map(({ value }) => value));
  if (Math.abs(drift) > play) return { pattern: drift < 0 ? "falling" : "climbing", level, swing };
  const moved = Math.abs(first.value - level) > 2 * play;
  return { pattern: moved ? "settled" : "steady", level, swing };
}

/** Turns by more than a threshold, and the time spent going up and down between them. */
function swingsOf(pens: readonly Pen[], threshold: number) {
  let swings = 0;
  let up = 0;
  let down = 0;
  let direction = 0;
  let extreme = pens[0] as Pen;
  let turn = extreme;
  for (const pen of pens) {
    const beyond = direction >= 0 ? pen.value > extreme.value : pen.value < extreme.value;
    if (beyond) extreme = pen;
    else if (Math.abs(pen.value - extreme.value) > threshold) {
      if (direction >= 0) up += extreme.at - turn.at;
      else down += extreme.at - turn.at;
      swings += 1;
      turn = extreme;
      direction = pen.value > extreme.value ? 1 : -1;
      extreme = pen;
    }
  }
  return { swings, up, down };
}

const highest = (pens: readonly Pen[]) => Math.max(...pens.map(({ value }) => value));
const lowest = (pens: readonly Pen[]) => Math.min(...pens.map(({ value }) => value));

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return ((sorted[Math.floor(half)] as number) + (sorted[Math.ceil(half) - 1] as number)) / 2;
}
