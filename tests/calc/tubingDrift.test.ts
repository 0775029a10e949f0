import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { driftDiameter } from "../../src/calc/tubingDrift.ts";
import { fromInches, M_PER_IN } from "../../src/calc/units.ts";

describe("drift of tubing", () => {
  // API Specification 5CT as a pipe maker's public chart tabulates it; the two 9.5 and 10.5 lb/ft rows of 4-1/2 in from a
  // public casing table; those marked are from memory. Printed to a thousandth, of a bore that is itself rounded (3/32 is
  // 0.09375): the tolerance is that thousandth.
  it.each([
    ["2-3/8", 2.375, 1.995, 1.901],
    ["2-7/8", 2.875, 2.441, 2.347],
    ["3-1/2, 9.2 lb/ft", 3.5, 2.992, 2.867],
    ["3-1/2, 10.2 lb/ft", 3.5, 2.922, 2.797],
    ["4", 4, 3.548, 3.423],
    ["4-1/2, 12.6 lb/ft", 4.5, 3.958, 3.833],
    ["4-1/2, 9.5 lb/ft", 4.5, 4.09, 3.965],
    ["4-1/2, 10.5 lb/ft", 4.5, 4.052, 3.927],
    ["2-7/8, 8.6 lb/ft (memory)", 2.875, 2.259, 2.165],
    ["2-3/8, 5.8 lb/ft (memory)", 2.375, 1.867, 1.773],
    ["3-1/2, 12.7 lb/ft (memory)", 3.5, 2.75, 2.625],
    ["5-1/2, 15.5 lb/ft (memory)", 5.5, 4.95, 4.825],
    ["5-1/2, 17 lb/ft (memory)", 5.5, 4.892, 4.767],
  ])("%s in", (_, outside, inside, drift) => {
    const got = driftDiameter(fromInches(outside), fromInches(inside)) / M_PER_IN;
    expect(Math.abs(got - drift)).toBeLessThanOrEqual(0.001);
  });

  it("refuses a size that the rule does not cover, and a bore that leaves no wall or no drift", () => {
    const attempt = (outside: number, inside: number) => () =>
      driftDiameter(fromInches(outside), fromInches(inside));
    expect(attempt(3.2, 2.6)).toThrow(InputError);
    expect(attempt(9.625, 8.8)).toThrow("outside_diameter");
    expect(attempt(0.5, 0.4)).toThrow("outside_diameter");
    expect(attempt(2.875, 2.875)).toThrow("inside_diameter");
    expect(attempt(2.875, 0.05)).toThrow("inside_diameter");
    expect(attempt(2.875, Number.NaN)).toThrow(InputError);
  });
});
