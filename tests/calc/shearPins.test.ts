import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shearPinsOperation } from "../../src/calc/door/lineOperations.ts";
import { runOperation } from "../../src/calc/door/operation.ts";
import type { InputError } from "../../src/calc/inputError.ts";
import { shearForce } from "../../src/calc/shearPins.ts";
import { fromInches, N_PER_LBF, PA_PER_PSI } from "../../src/calc/units.ts";

describe("shear pins", () => {
  // This project's table of check values: area x strength x planes x count, strengths from public tables of materials (brass 32 and
  // 45 ksi, SAE 1020 280 MPa, 6061-T6 207 MPa, structural steel 345 MPa). Tolerance: the last digit printed, halved; the
  // first three are printed to a tenth.
  it.each([
    ["brass C36000 half hard (H02)", 0.125, 1, 1, 32000, 392.7],
    ["brass C36000 half hard (H02)", 0.125, 2, 1, 32000, 785.4],
    ["brass C36000 half hard (H02)", 0.125, 2, 2, 32000, 1570.8],
    ["brass C36000 half hard (H02)", 0.1875, 1, 2, 32000, 1767.15],
    ["brass C36000 half hard (H02)", 0.1875, 2, 1, 32000, 1767.15],
    ["brass C36000 half hard (H02)", 0.25, 1, 1, 32000, 1570.8],
    ["brass C36000 half hard (H02)", 0.25, 1, 2, 32000, 3141.59],
    ["brass C36000 half hard (H02)", 0.25, 2, 2, 32000, 6283.19],
    ["brass C36000 half hard (H02)", 0.3125, 1, 1, 32000, 2454.37],
    ["brass C36000 full hard (H04)", 0.125, 1, 1, 45000, 552.23],
    ["brass C36000 full hard (H04)", 0.125, 1, 2, 45000, 1104.47],
    ["brass C36000 full hard (H04)", 0.1875, 1, 2, 45000, 2485.05],
    ["brass C36000 full hard (H04)", 0.25, 1, 1, 45000, 2208.93],
    ["brass C36000 full hard (H04)", 0.3125, 1, 1, 45000, 3451.46],
    ["brass C36000 full hard (H04)", 0.3125, 1, 2, 45000, 6902.91],
    ["aluminium 6061-T6", 0.125, 1, 2, 30000, 736.31],
    ["aluminium 6061-T6", 0.1875, 1, 1, 30000, 828.35],
    ["aluminium 6061-T6", 0.25, 1, 1, 30000, 1472.62],
    ["aluminium 6061-T6", 0.25, 1, 2, 30000, 2945.24],
    ["aluminium 6061-T6", 0.3125, 1, 2, 30000, 4601.94],
    ["mild steel SAE 1020 cold drawn", 0.125, 1, 1, 40600, 498.24],
    ["mild steel SAE 1020 cold drawn", 0.1875, 1, 1, 40600, 1121.03],
    ["mild steel SAE 1020 cold drawn", 0.1875, 1, 2, 40600, 2242.07],
    ["mild steel SAE 1020 cold drawn", 0.25, 1, 2, 40600, 3985.9],
    ["mild steel SAE 1020 cold drawn", 0.3125, 1, 1, 40600, 3113.98],
    ["structural steel Q235", 0.125, 1, 1, 50000, 613.59],
    ["structural steel Q235", 0.125, 1, 2, 50000, 1227.18],
    ["structural steel Q235", 0.1875, 1, 2, 50000, 2761.17],
    ["structural steel Q235", 0.25, 1, 1, 50000, 2454.37],
    ["structural steel Q235", 0.3125, 1, 1, 50000, 3834.95],
    ["structural steel Q235", 0.3125, 1, 2, 50000, 7669.9],
  ])(
    "%s, %d in, %d of them in %d planes at %d psi: %d lbf",
    (_, diameter_in, count, planes, psi, lbf) => {
      const { force_lbf } = runOperation(shearPinsOperation, {
        diameter_in,
        count,
        planes,
        shear_strength_psi: psi,
      });
      const printed = lbf * 10 === Math.round(lbf * 10) ? 0.05 : 0.005;
      expect(Math.abs((force_lbf as number) - lbf)).toBeLessThanOrEqual(printed);
    },
  );

  it("adds pins and planes, and goes with the square of the diameter", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        fc.integer({ min: 1, max: 8 }),
        fc.double({ min: 1000, max: 100000, noNaN: true }),
        (inches, count, psi) => {
          const force = (d: number, n: number, m: number) =>
            shearForce(fromInches(d), n, m, psi * PA_PER_PSI) / N_PER_LBF;
          const one = force(inches, 1, 1);
          expect(force(inches, count, 2) / (one * 2 * count)).toBeCloseTo(1, 12);
          expect(force(2 * inches, 1, 1) / (4 * one)).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  it.each([
    ["diameter", 0, 1, 1, 1e8],
    ["count", 0.003, 0, 1, 1e8],
    ["count", 0.003, 1.5, 1, 1e8],
    ["planes", 0.003, 1, 3, 1e8],
    ["shear_strength", 0.003, 1, 1, Number.NaN],
  ])("refuses an impossible %s: %#", (key, diameter, count, planes, strength) => {
    try {
      shearForce(diameter, count, planes, strength);
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).key).toBe(key);
    }
  });
});
