import { describe, expect, it } from "vitest";
import { pseudoRandom } from "../../src/calc/pseudoRandom.ts";

const N = 10_000;
const drawsOf = (seed: number, draws = N) => {
  const random = pseudoRandom(seed);
  return Array.from({ length: draws }, () => random());
};
const mean = (xs: readonly number[]) => xs.reduce((sum, x) => sum + x, 0) / xs.length;
/** Correlation of two series of uniform numbers; 0 when they know nothing of each other. */
const correlation = (xs: readonly number[], ys: readonly number[]) =>
  12 * mean(xs.map((x, i) => (x - 0.5) * ((ys[i] as number) - 0.5)));

// The numbers are the same at every run, so that a test that passes goes on passing. Tolerances are four standard
// errors of 10,000 draws: fair numbers stray further once in 16,000.
const FOUR_ERRORS = 4 / Math.sqrt(N);

describe.each([1, 2, 12345, 0xffffffff])("numbers from seed %d", (seed) => {
  const draws = drawsOf(seed);

  it("come again from the same seed, and not from another", () => {
    expect(drawsOf(seed, 20)).toEqual(draws.slice(0, 20));
    expect(drawsOf(seed + 1, 20)).not.toEqual(draws.slice(0, 20));
  });

  it("lie in [0, 1)", () => {
    expect(Math.min(...draws)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...draws)).toBeLessThan(1);
  });

  it("have the mean and the spread of even chance", () => {
    // Even chance: variance 1/12; that of the squared distance from the middle 1/80 - 1/144 = 1/180.
    expect(Math.abs(mean(draws) - 0.5)).toBeLessThan(FOUR_ERRORS * Math.sqrt(1 / 12));
    const spread = mean(draws.map((x) => (x - 0.5) ** 2));
    expect(Math.abs(spread - 1 / 12)).toBeLessThan(FOUR_ERRORS * Math.sqrt(1 / 180));
  });

  it("fill sixteen boxes evenly", () => {
    const boxes = new Array<number>(16).fill(0);
    for (const x of draws) boxes[Math.floor(x * 16)] = (boxes[Math.floor(x * 16)] as number) + 1;
    const chiSquare = boxes.reduce((sum, count) => sum + (count - N / 16) ** 2 / (N / 16), 0);
    // 15 degrees of freedom: 37.7 is passed once in 1,000. Too even would be as wrong: below 3.5 once in 1,000.
    expect(chiSquare).toBeLessThan(37.7);
    expect(chiSquare).toBeGreaterThan(3.5);
  });

  it("do not tell the next one, nor those of the next seed", () => {
    expect(Math.abs(correlation(draws, draws.slice(1).concat(0.5)))).toBeLessThan(FOUR_ERRORS);
    expect(Math.abs(correlation(draws, drawsOf(seed + 1)))).toBeLessThan(FOUR_ERRORS);
  });
});
