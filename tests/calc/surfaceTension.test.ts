import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { oilSurfaceTension, waterSurfaceTension } from "../../src/calc/surfaceTension.ts";
import { absolutePa, fromDegF, fromPsia, kelvin } from "../../src/calc/units.ts";

const DYN_CM = 1e-3;

describe("surface tension of oil", () => {
  it("is that of a published example before the gas goes into it", () => {
    // petroleumoffice.com, PO.PVT.IFT.GasOil.ByBakerSwerdloff.SI(35, 93.33 degC, 17,237 kPa): 3.294628 dyn/cm, which is the dead
    // oil's 28.5015 by exp(-8.6306e-4 p), another fit of the chart for gas in solution. Its pressure carries five digits.
    const dead = 3.294628 / Math.exp(-8.6306e-4 * 2500.02);
    const sigma = oilSurfaceTension(absolutePa(1e-6), kelvin(93.33 + 273.15), 35);
    expect(sigma / DYN_CM).toBeCloseTo(dead, 3);
  });

  it("falls with gas in solution as the other fit of the chart does, up to 1,000 psia", () => {
    // Measured worst 12.1 percent, at 200 psia, of which Beggs and Brill see the fourth root. Above, the two part: 5.4 for 3.3 at 2,500.
    for (let psia = 100; psia <= 1000; psia += 100) {
      const other = 28.5015 * Math.exp(-8.6306e-4 * psia);
      const sigma = oilSurfaceTension(fromPsia(psia), fromDegF(200), 35) / DYN_CM;
      expect(Math.abs(sigma / other - 1)).toBeLessThan(0.125);
    }
  });

  it("goes straight from 68 to 100 degF, stays beyond, and never reaches nothing", () => {
    const at = (degF: number, psia = 500) =>
      oilSurfaceTension(fromPsia(psia), fromDegF(degF), 30) / DYN_CM;
    expect(at(84)).toBeCloseTo((at(68) + at(100)) / 2, 9);
    expect(at(40)).toBe(at(68));
    expect(at(300)).toBe(at(100));
    expect(at(150, 20000)).toBe(1);
  });
});

describe("surface tension of water", () => {
  it("is that of water against its vapour at the atmosphere", () => {
    // IAPWS (1994) as evaluated by CoolProp 8.0.0: 72.31 dyn/cm at 74 degF. Within 1 percent: the fit is to gas, not vapour.
    const sigma = waterSurfaceTension(fromPsia(14.696), fromDegF(74)) / DYN_CM;
    expect(Math.abs(sigma / 72.31 - 1)).toBeLessThan(0.01);
  });

  it("falls with pressure and with heat", () => {
    const at = (psia: number, degF: number) => waterSurfaceTension(fromPsia(psia), fromDegF(degF));
    expect(at(2000, 150)).toBeLessThan(at(500, 150));
    expect(at(500, 250)).toBeLessThan(at(500, 150));
  });
});

it("is not given without a pressure or an oil", () => {
  expect(() => oilSurfaceTension(fromPsia(0), fromDegF(100), 30)).toThrow(InputError);
  expect(() => oilSurfaceTension(fromPsia(100), fromDegF(100), -5)).toThrow(InputError);
  expect(() => waterSurfaceTension(fromPsia(-1), fromDegF(100))).toThrow(InputError);
});
