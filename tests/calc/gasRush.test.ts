import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gasPassage } from "../../src/calc/gasPassage.ts";
import { gasRush } from "../../src/calc/gasRush.ts";
import type { InputError } from "../../src/calc/inputError.ts";
import { circle } from "../../src/calc/seat.ts";
import {
  AIR_MOLAR_MASS,
  absolutePa,
  fromDegF,
  fromInches,
  fromPsia,
  GAS_CONSTANT,
  kelvin,
  N_PER_LBF,
  PA_PER_PSI,
} from "../../src/calc/units.ts";

const ports = { area: 4 * circle(fromInches(0.3125)), dischargeCoefficient: 0.8 };
const gas = { molarMass: 0.65 * AIR_MOLAR_MASS, heatCapacityRatio: 1.27 };
const warm = fromDegF(150);
const tool = fromInches(1.5);

describe("gas rush past a packing stack that clears its bore", () => {
  it("is at most the difference on the widest part of the string", () => {
    // Hand calculation: 100 psi on pi/4 x 1.5² = 1.7671 in2.
    const { most, intoTubing } = gasRush(fromPsia(1100), fromPsia(1000), warm, ports, gas, tool);
    expect(most / N_PER_LBF).toBeCloseTo(176.71, 2);
    expect(intoTubing).toBe(true);
  });

  it("is at least the jet's momentum: twice the difference on what flows, for a small one", () => {
    // Bernoulli: rho v² = 2 Δp, on Cd A. At 1 psi of 1,000 the gas is as good as incompressible, to a thousandth.
    const { least } = gasRush(fromPsia(1001), fromPsia(1000), warm, ports, gas, tool);
    const small = 2 * PA_PER_PSI * ports.dischargeCoefficient * ports.area;
    expect(Math.abs(least / small - 1)).toBeLessThan(1e-3);
  });

  it("is the momentum of gas at the speed of sound where the ports are critical", () => {
    // At the throat T = 2 T1/(k + 1) and v² = k R T/M: textbook gas dynamics.
    const [up, down] = [fromPsia(1200), fromPsia(300)];
    const k = gas.heatCapacityRatio;
    const speed = Math.sqrt(((2 * k) / (k + 1)) * ((GAS_CONSTANT * warm) / gas.molarMass));
    const { rate } = gasPassage(up, down, warm, ports, gas);
    const { least } = gasRush(up, down, warm, ports, gas, tool);
    expect(least).toBeCloseTo(rate * gas.molarMass * speed, 6);
  });

  it("is nothing without a difference", () => {
    expect(gasRush(fromPsia(900), fromPsia(900), warm, ports, gas, tool)).toEqual({
      least: 0,
      most: 0,
      intoTubing: false,
      warnings: [],
    });
  });

  it("is as large the other way, where the gas leaves the tubing and lifts nothing", () => {
    const into = gasRush(fromPsia(1100), fromPsia(1000), warm, ports, gas, tool);
    const out = gasRush(fromPsia(1000), fromPsia(1100), warm, ports, gas, tool);
    expect(out).toEqual({ ...into, intoTubing: false });
  });

  it("keeps least below most, both rising with the difference and the string's width", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 3000, noNaN: true }),
        fc.double({ min: 0, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        (tubing, difference, more, inches) => {
          const at = (psi: number, width: number) =>
            gasRush(fromPsia(tubing + psi), fromPsia(tubing), warm, ports, gas, fromInches(width));
          const first = at(difference, inches);
          const larger = at(difference + more, inches);
          const wider = at(difference, inches * 1.5);
          expect(first.least).toBeLessThanOrEqual(first.most);
          expect(larger.least).toBeGreaterThanOrEqual(first.least * (1 - 1e-9));
          expect(larger.most).toBeGreaterThanOrEqual(first.most);
          expect(wider.least).toBeGreaterThanOrEqual(first.least);
          expect(wider.most).toBeGreaterThanOrEqual(first.most);
        },
      ),
    );
  });

  it.each([
    ["annulus_pressure", 0, 1e6, 340, 0.04],
    ["tubing_pressure", 1e6, Number.NaN, 340, 0.04],
    ["upstream_temperature", 2e6, 1e6, 0, 0.04],
    ["string_diameter", 2e6, 1e6, 340, 0],
  ])("refuses an impossible %s", (key, annulus, tubing, temperature, diameter) => {
    try {
      gasRush(absolutePa(annulus), absolutePa(tubing), kelvin(temperature), ports, gas, diameter);
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).key).toBe(key);
    }
  });
});
