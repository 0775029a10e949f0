import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { circle, type Seat, seatSealArea } from "../../src/calc/seat.ts";
import { fromInches, M_PER_IN } from "../../src/calc/units.ts";
import { areaRatio } from "../../src/calc/valve.ts";

const IN2 = M_PER_IN ** 2;
const sharp = (inches: number): Seat => ({ kind: "sharp-edged", bore: fromInches(inches) });
const lapped = (inches: number, seal: number): Seat => ({
  kind: "lapped",
  bore: fromInches(inches),
  sealDiameter: fromInches(seal),
});

describe("the area a sharp-edged seat seals on", () => {
  // Trade and SPE handbook tables, from memory. Tolerance: half of the last digit of area and of R.
  it.each([
    { port: "3/16", bore: 3 / 16, bellows: 0.31, area: 0.0291, r: 0.094 },
    { port: "1/4", bore: 1 / 4, bellows: 0.31, area: 0.0511, r: 0.165 },
    { port: "3/8", bore: 3 / 8, bellows: 0.31, area: 0.1134, r: 0.366 },
    { port: "3/16", bore: 3 / 16, bellows: 0.77, area: 0.0291, r: 0.038 },
    { port: "5/16", bore: 5 / 16, bellows: 0.77, area: 0.0792, r: 0.103 },
    { port: "3/8", bore: 3 / 8, bellows: 0.77, area: 0.1134, r: 0.147 },
    { port: "1/2", bore: 1 / 2, bellows: 0.77, area: 0.2003, r: 0.26 },
  ])(
    "port $port in is $area in2, $r of a bellows of $bellows in2",
    ({ bore, bellows, area, r }) => {
      const seal = seatSealArea(sharp(bore));
      expect(Math.abs(seal / IN2 - area)).toBeLessThanOrEqual(0.00005);
      expect(Math.abs(areaRatio(seal, bellows * IN2) - r)).toBeLessThanOrEqual(0.0005);
    },
  );

  it("is wider than the bore by a circle of 0.005 in, never the bore itself", () => {
    // 1/8 in: 0.01227 in2 of bore, 0.01327 in2 of seal. Geometry; tolerance: half of the last digit.
    expect(Math.abs(circle(fromInches(1 / 8)) / IN2 - 0.01227)).toBeLessThanOrEqual(0.000005);
    expect(Math.abs(seatSealArea(sharp(1 / 8)) / IN2 - 0.01327)).toBeLessThanOrEqual(0.000005);
  });
});

describe("the area a lapped seat seals on", () => {
  it("is the circle of the stated seal diameter, whatever the bore", () => {
    // pi/4 x 0.35^2 = 0.096211 in2.
    expect(seatSealArea(lapped(0.25, 0.35)) / IN2).toBeCloseTo(0.096211, 6);
    expect(seatSealArea(lapped(0.3, 0.35))).toBe(seatSealArea(lapped(0.25, 0.35)));
  });

  it("lies between the bore's circle and four times that", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        (bore, wider) => {
          const area = seatSealArea({ kind: "lapped", bore, sealDiameter: bore * wider });
          expect(area).toBeGreaterThanOrEqual(circle(bore));
          expect(area).toBeLessThanOrEqual(4 * circle(bore));
        },
      ),
    );
  });
});

it.each([
  ["a bore of nothing", sharp(0), "bore"],
  ["a negative bore", sharp(-0.25), "bore"],
  ["a bore that is not a number", sharp(Number.NaN), "bore"],
  ["a lapped seat without a bore", lapped(0, 0.3), "bore"],
  ["a seal inside the bore", lapped(0.25, 0.249), "seal_diameter"],
  ["a radius for a diameter, or inches of something else", lapped(0.25, 0.51), "seal_diameter"],
  ["a seal that is not a number", lapped(0.25, Number.NaN), "seal_diameter"],
])("a seat refuses %s", (_, seat, key) => {
  expect(() => seatSealArea(seat)).toThrow(InputError);
  expect(() => seatSealArea(seat)).toThrow(key);
});
