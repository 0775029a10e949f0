import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { domePressure, nitrogenPressure, nitrogenState } from "../../src/calc/nitrogen.ts";
import {
  absolutePa,
  fromDegF,
  fromPsia,
  fromPsig,
  kelvin,
  STANDARD_ATMOSPHERE,
  toPsig,
} from "../../src/calc/units.ts";
import { coolPropDomes, coolPropStates, spanTable } from "./published/nitrogen.ts";

const MOLAR_MASS = 0.02801348;
/** The atmosphere that the check values count gauge pressure from. */
const AIR = fromPsia(14.696);

describe("nitrogen density", () => {
  // Tolerance 2e-5: what the check values state between two codes of the same equation. 0.02 % was asked for.
  it.each(coolPropStates)("at %d degF and %d psia", (degF, psia, density, z, gerg) => {
    const state = nitrogenState(fromPsia(psia), fromDegF(degF));
    expect(Math.abs(state.density / density - 1)).toBeLessThan(2e-5);
    expect(Math.abs(state.z / z - 1)).toBeLessThan(2e-5);
    // Second opinion, another equation: the two agree within 0.011 %.
    expect(Math.abs(state.density / gerg - 1)).toBeLessThan(1.1e-4);
    expect(state.warnings).toEqual([]);
  });

  // Tolerance: half of the last digit printed. The point at 80 K is below what is solved here.
  it.each(spanTable.filter(([t]) => t > 200))(
    "as the paper's table prints it at %d K, %d MPa",
    (t, megapascal, printed) => {
      const { molarDensity } = nitrogenState(absolutePa(megapascal * 1e6), kelvin(t));
      const digits = String(printed).split(".")[1]?.length ?? 0;
      expect(Math.abs(molarDensity / 1000 - printed)).toBeLessThanOrEqual(0.5 * 10 ** -digits);
    },
  );

  it("is 3988.27 mol/m3 at 300 K and 10 MPa", () => {
    // Check point of the equation's coefficients as CoolProp keeps them.
    expect(nitrogenState(absolutePa(10e6), kelvin(300)).molarDensity).toBeCloseTo(3988.27, 2);
  });

  it("never fails inside the range, costs at most 8 evaluations, and gives the pressure back", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 400, noNaN: true }),
        fc.double({ min: 0.1, max: 5000, noNaN: true }),
        (degF, psia) => {
          const temperature = fromDegF(degF);
          const state = nitrogenState(fromPsia(psia), temperature);
          expect(state.evaluations).toBeLessThanOrEqual(8);
          const back = nitrogenPressure(state.density / MOLAR_MASS, temperature);
          expect(Math.abs(back / fromPsia(psia) - 1)).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it("runs into the ideal gas when thin", () => {
    expect(nitrogenState(fromPsia(0.01), fromDegF(60)).z).toBeCloseTo(1, 5);
  });

  it("warns outside the checked range and still answers", () => {
    const { warnings, density } = nitrogenState(fromPsia(6000), fromDegF(450));
    expect(warnings.map((w) => w.kind === "outside" && w.validity.quantity)).toEqual([
      "temperature",
      "pressure",
    ]);
    expect(density).toBeGreaterThan(0);
  });

  it.each([
    ["a pressure of zero", 0, 300],
    ["a negative pressure", -1, 300],
    ["not a number", Number.NaN, 300],
    ["a pressure beyond the solve", 300e6, 300],
    ["a temperature near the critical one", 1e6, 130],
    ["no temperature", 1e6, Number.NaN],
  ])("refuses %s", (_, p, t) => {
    expect(() => nitrogenState(absolutePa(p), kelvin(t))).toThrow(InputError);
  });
});

describe("a dome brought to another temperature", () => {
  it.each(coolPropDomes)(
    "%d psig at %d degF, brought to %d degF, is %d psig",
    (from, t1, t2, to) => {
      const answer = domePressure(fromPsig(from, AIR), fromDegF(t1), fromDegF(t2));
      expect(Math.abs(toPsig(answer.pressure, AIR) / to - 1)).toBeLessThan(2e-5);
    },
  );

  it("comes back to where it started when warmed again", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 3000, noNaN: true }),
        fc.double({ min: 20, max: 400, noNaN: true }),
        fc.double({ min: 20, max: 400, noNaN: true }),
        (psig, t1, t2) => {
          const start = fromPsig(psig, STANDARD_ATMOSPHERE);
          const there = domePressure(start, fromDegF(t1), fromDegF(t2)).pressure;
          const back = domePressure(there, fromDegF(t2), fromDegF(t1)).pressure;
          expect(Math.abs(back / start - 1)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it("rises with temperature", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 3000, noNaN: true }),
        fc.double({ min: 60, max: 399, noNaN: true }),
        (psig, t) => {
          const start = fromPsig(psig, STANDARD_ATMOSPHERE);
          const cooler = domePressure(start, fromDegF(60), fromDegF(t)).pressure;
          const warmer = domePressure(start, fromDegF(60), fromDegF(t + 1)).pressure;
          expect(warmer).toBeGreaterThan(cooler);
        },
      ),
    );
  });
});
