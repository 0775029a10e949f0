import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { pocketForce } from "../../src/calc/pocketForce.ts";
import { fromInches, N_PER_LBF, PA_PER_PSI } from "../../src/calc/units.ts";

const lbf = (psi: number, upper: number, lower: number) => {
  const force = pocketForce(psi * PA_PER_PSI, fromInches(upper), fromInches(lower));
  return {
    seated: force.seated / N_PER_LBF,
    lowerStackClear: force.lowerStackClear / N_PER_LBF,
  };
};

describe("force on a valve in its pocket", () => {
  // This project's table of check values: bores from memory, low confidence; forces by statics on them. Tolerance: its last
  // digit halved. 1.031 in: 0.8348 in2, 0.996 in: 0.7791; 1.562 in: 1.9162, 1.496 in: 1.7577.
  it.each([
    [200, 1.031, 0.996, 11.1, 167.0],
    [500, 1.031, 0.996, 27.9, 417.4],
    [200, 1.562, 1.496, 31.7, 383.2],
    [500, 1.562, 1.496, 79.3, 958.1],
    [-300, 1.562, 1.496, -47.6, -574.9],
  ])(
    "%d psi on bores of %d and %d in: %d lbf seated, %d with the lower stack clear",
    (psi, upper, lower, seated, clear) => {
      const force = lbf(psi, upper, lower);
      expect(Math.abs(force.seated - seated)).toBeLessThanOrEqual(0.05);
      expect(Math.abs(force.lowerStackClear - clear)).toBeLessThanOrEqual(0.05);
    },
  );

  it("pushes out with the annulus above the tubing, in with the tubing above, not at all when level", () => {
    expect(lbf(100, 1.562, 1.496).seated).toBeGreaterThan(0);
    expect(lbf(-100, 1.562, 1.496).seated).toBeLessThan(0);
    expect(lbf(0, 1.562, 1.496)).toEqual({ seated: 0, lowerStackClear: 0 });
  });

  it("balances a seated valve whose bores are equal", () => {
    expect(lbf(500, 1, 1).seated).toBe(0);
    // pi/4 x 1 in2 x 500 psi
    expect(lbf(500, 1, 1).lowerStackClear).toBeCloseTo(392.699, 3);
  });

  it("is larger with the lower stack clear than seated, by the lower bore", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2000, max: 2000, noNaN: true }),
        fc.double({ min: 0.5, max: 2, noNaN: true }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (psi, upper, share) => {
          const { seated, lowerStackClear } = lbf(psi, upper, upper * share);
          expect(Math.abs(lowerStackClear)).toBeGreaterThanOrEqual(Math.abs(seated));
          expect(lowerStackClear - seated).toBeCloseTo(
            (psi * Math.PI * (upper * share) ** 2) / 4,
            6,
          );
        },
      ),
    );
  });

  it.each([
    ["a lower bore wider than the upper one", 100, 1, 1.1, "upper_bore"],
    ["no lower bore", 100, 1, 0, "lower_bore"],
    ["an upper bore that is not a number", 100, Number.NaN, 1, "upper_bore"],
    ["an upper bore without end", 100, Number.POSITIVE_INFINITY, 1, "upper_bore"],
    ["a difference that is not a number", Number.NaN, 1, 1, "difference"],
  ])("refuses %s", (_, psi, upper, lower, key) => {
    expect(() => lbf(psi, upper, lower)).toThrow(InputError);
    expect(() => lbf(psi, upper, lower)).toThrow(key);
  });
});
