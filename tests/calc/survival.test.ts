import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import {
  expectedFailures,
  kaplanMeier,
  type Lifetime,
  logRank,
  poissonAtLeast,
  restrictedMean,
  survivalAt,
  timeToFail,
} from "../../src/calc/survival.ts";

const failed = (...times: number[]): Lifetime[] => times.map((time) => ({ time, failed: true }));
const censored = (...times: number[]): Lifetime[] => times.map((time) => ({ time, failed: false }));

/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, 8.2.1.5: 20 units on test, 6 failures, 4 taken off early, 10 at the
 * end. The handbook gives R(10) = 19/20, R(32) = 19/20 × 18/19, R(56) = 19/20 × 18/19 × 16/17 and the rule for the rest.
 */
const nist = [
  ...failed(10, 32, 56, 98, 122, 181),
  ...censored(50, 100, 125, 150),
  ...censored(...Array.from({ length: 10 }, () => 200)),
];

/** Freireich et al. (1963), Blood 21, 699; as printed in Le, Introductory Biostatistics, example 11.1. Weeks. */
const drug = [
  ...failed(6, 6, 6, 7, 10, 13, 16, 22, 23),
  ...censored(6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35),
];
const placebo = failed(1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23);

describe("share still in service", () => {
  it("is that of the handbook's life test", () => {
    const survival = kaplanMeier(nist).steps.map((step) => step.survival);
    const ratios = [19 / 20, 18 / 19, 16 / 17, 15 / 16, 13 / 14, 10 / 11];
    let product = 1;
    for (const [index, ratio] of ratios.entries()) {
      product *= ratio;
      expect(survival[index]).toBeCloseTo(product, 12);
    }
    expect(survival).toHaveLength(6);
  });

  it("is that of a published table with ties, and ends at 0", () => {
    // Bewick et al., Critical Care 8 (2004) 389, table 2: to three places.
    const { steps } = kaplanMeier([...failed(1, 1, 4, 5, 9, 22), ...censored(6, 9)]);
    expect(
      steps.map(({ time, atRisk, failed: d, survival }) => [time, atRisk, d, survival]),
    ).toEqual([
      [1, 8, 2, expect.closeTo(0.75, 3)],
      [4, 6, 1, expect.closeTo(0.625, 3)],
      [5, 5, 1, expect.closeTo(0.5, 3)],
      [9, 3, 1, expect.closeTo(0.333, 3)],
      [22, 1, 1, 0],
    ]);
    expect(steps.at(-1)).toMatchObject({ low: undefined, high: undefined });
  });

  it("carries the published standard error of a sample without censoring", () => {
    // Lecture notes on the same data (Cox and Oakes, table 1.1): S just before week 10 is 8/21 = 0.381, its error 0.106.
    const step = kaplanMeier(placebo).steps.find(({ time }) => time === 8);
    expect(step?.survival).toBeCloseTo(8 / 21, 12);
    expect(step?.standardError).toBeCloseTo(0.106, 3);
  });

  it("counts what was taken away at the time of a failure as watched until then", () => {
    expect(kaplanMeier(drug).steps[0]).toMatchObject({ time: 6, atRisk: 21, failed: 3 });
    expect(kaplanMeier(drug).steps[0]?.survival).toBeCloseTo(18 / 21, 12);
  });

  it("has its median where half have failed, and none where fewer have", () => {
    // Medians of the two arms, 23 and 8 weeks: Freireich et al. as commonly retold, from memory; 8 follows from the data.
    expect(timeToFail(kaplanMeier(drug), 0.5)).toBe(23);
    expect(timeToFail(kaplanMeier(placebo), 0.5)).toBe(8);
    expect(timeToFail(kaplanMeier(nist), 0.5)).toBeUndefined();
  });

  it("says nothing beyond what was watched", () => {
    expect(survivalAt(kaplanMeier(nist), 200)).toBe(kaplanMeier(nist).steps.at(-1)?.survival);
    expect(survivalAt(kaplanMeier(nist), 201)).toBeUndefined();
    expect(survivalAt(kaplanMeier(placebo), 1000)).toBe(0);
    expect(survivalAt(kaplanMeier(nist), 5)).toBe(1);
  });

  it("refuses nothing at all, and times that cannot be", () => {
    expect(() => kaplanMeier([])).toThrow(InputError);
    expect(() => kaplanMeier(failed(3, -1))).toThrow("lifetimes[1].time");
    expect(() => kaplanMeier(failed(Number.NaN))).toThrow(InputError);
  });

  const lifetimes = fc.array(
    fc.record({ time: fc.integer({ min: 0, max: 50 }), failed: fc.boolean() }),
    { minLength: 1, maxLength: 40 },
  );

  it("falls from 1, stays within its limits, and does not hang on the order", () => {
    fc.assert(
      fc.property(lifetimes, (given) => {
        const { steps } = kaplanMeier(given);
        expect(kaplanMeier([...given].reverse()).steps).toEqual(steps);
        let before = 1;
        for (const { survival, low = survival, high = survival } of steps) {
          expect(survival).toBeLessThan(before);
          expect(low).toBeLessThanOrEqual(survival + 1e-12);
          expect(high).toBeGreaterThanOrEqual(survival - 1e-12);
          before = survival;
        }
      }),
    );
  });

  it("is the plain share where nothing was censored", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 1 }), (times) => {
        for (const { time, survival } of kaplanMeier(failed(...times)).steps) {
          const left = times.filter((each) => each > time).length / times.length;
          expect(survival).toBeCloseTo(left, 10);
        }
      }),
    );
  });
});

describe("mean time in service up to a limit", () => {
  it("is the plain mean, and its error the plain one, where all have failed", () => {
    const { mean, standardError } = restrictedMean(kaplanMeier(placebo), 23);
    const times = placebo.map(({ time }) => time);
    const plain = times.reduce((a, b) => a + b, 0) / 21;
    const variance = times.reduce((sum, t) => sum + (t - plain) ** 2, 0) / 21;
    expect(mean).toBeCloseTo(plain, 10);
    expect(standardError).toBeCloseTo(Math.sqrt(variance / 21), 10);
  });

  it("is the area under the steps by hand", () => {
    // S: 1 to 2, 2/3 to 4 (one of three gone at 2; one of two left at 4 gone), 1/3 to 6
    const curve = kaplanMeier([...failed(2, 4), ...censored(6)]);
    expect(restrictedMean(curve, 6).mean).toBeCloseTo(2 + 2 * (2 / 3) + 2 * (1 / 3), 12);
    expect(restrictedMean(curve, 3).mean).toBeCloseTo(2 + 2 / 3, 12);
  });

  it("is the limit itself where nothing failed before it", () => {
    expect(restrictedMean(kaplanMeier(censored(5, 9)), 9)).toEqual({ mean: 9, standardError: 0 });
  });

  it("refuses a limit beyond what was watched", () => {
    expect(() => restrictedMean(kaplanMeier(nist), 201)).toThrow("at most 200");
    expect(() => restrictedMean(kaplanMeier(nist), 0)).toThrow(InputError);
  });
});

describe("two groups beside each other", () => {
  it("differ as the published test says", () => {
    // survdiff of R's package survival on these data: O 21 and 9, E 10.7 and 19.3, chi-square 16.8, p = 4.17e-05
    // (worked exercise published at rpubs, 79128).
    const test = logRank(drug, placebo);
    expect(test?.observed).toBe(9);
    expect(test?.expected).toBeCloseTo(19.3, 1);
    expect(test?.chiSquare).toBeCloseTo(16.8, 1);
    expect(test?.chance).toBeCloseTo(4.17e-5, 6);
  });

  it("differ by the same whichever is named first", () => {
    const [one, other] = [logRank(drug, placebo), logRank(placebo, drug)];
    expect(one?.chiSquare).toBeCloseTo(other?.chiSquare ?? 0, 10);
    expect(other?.expected).toBeCloseTo(10.7, 1);
  });

  it("say nothing where nothing failed beside each other", () => {
    expect(logRank(censored(3), censored(4))).toBeUndefined();
    expect(logRank(failed(5), censored(1))).toBeUndefined();
  });
});

describe("failures expected of so many days", () => {
  it("add up to those that were seen", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ time: fc.integer({ min: 0, max: 30 }), failed: fc.boolean() }), {
          minLength: 1,
          maxLength: 30,
        }),
        (given) => {
          const curve = kaplanMeier(given);
          const times = given.map(({ time }) => time);
          expect(expectedFailures(curve, times)).toBeCloseTo(curve.failures, 8);
        },
      ),
    );
  });

  it("are a chance by Poisson", () => {
    // 1 - e⁻¹ (1 + 1), by hand
    expect(poissonAtLeast(2, 1)).toBeCloseTo(0.26424, 5);
    expect(poissonAtLeast(0, 3)).toBe(1);
    expect(poissonAtLeast(1, 0)).toBe(0);
    expect(() => poissonAtLeast(1.5, 1)).toThrow(InputError);
  });
});
