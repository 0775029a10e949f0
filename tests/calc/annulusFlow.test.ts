import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Annulus,
  annulusFlow,
  annulusFlowMethod,
  frictionFactor,
  gasDensity,
  gasMassRate,
  gasViscosity,
} from "../../src/calc/annulusFlow.ts";
import type { Gas } from "../../src/calc/gas.ts";
import { gasByGravity, gasByGravityMethod } from "../../src/calc/gasByGravity.ts";
import { gasColumn } from "../../src/calc/gasColumn.ts";
import { InputError } from "../../src/calc/inputError.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  AIR_MOLAR_MASS,
  absolutePa,
  fromDegF,
  fromFeetVertical,
  fromInches,
  fromPsia,
  GAS_CONSTANT,
  GRAVITY,
  KG_M3_PER_LB_FT3,
  KG_PER_LB,
  kelvin,
  M_PER_FT,
  verticalM,
} from "../../src/calc/units.ts";

/** Standard m3/s of a million standard cubic feet a day. */
const MMSCF_D = (1e6 * M_PER_FT ** 3) / 86400;
const SURFACE = verticalM(0);
const liftGas = gasByGravity({ specificGravity: 0.65, co2: 0.01, h2s: 0, n2: 0.01 });
const temperatures = temperatureProfile([
  { depth: SURFACE, temperature: fromDegF(90) },
  { depth: fromFeetVertical(3000), temperature: fromDegF(140) },
  { depth: fromFeetVertical(10000), temperature: fromDegF(230) },
]);
const narrow: Annulus = {
  casingInner: fromInches(4.892),
  tubingOuter: fromInches(2.875),
  roughness: fromInches(0.0018),
  lengthPerDepth: 1,
};

const at = (
  rate: number,
  { annulus = narrow, psia = 1000, feet = [6000] }: Partial<Conditions> = {},
) =>
  annulusFlow(
    rate * MMSCF_D,
    annulus,
    fromPsia(psia),
    SURFACE,
    feet.map(fromFeetVertical),
    liftGas,
    temperatures,
  );
interface Conditions {
  annulus: Annulus;
  psia: number;
  feet: number[];
}

describe("density of a gas", () => {
  it("is p M / (z R T)", () => {
    // Methane's molar mass as an ideal gas at 15 degC and 1 atm: 0.6785 kg/m3, by arithmetic with R = 8.314462618.
    const ideal = { molarMass: 0.016043, z: () => 1 } as unknown as Gas;
    const state = { pressure: absolutePa(101_325), temperature: kelvin(288.15) };
    expect(gasDensity(ideal, state)).toBeCloseTo(0.6785, 4);
  });
});

describe("gas viscosity of Lee, Gonzalez and Eakin", () => {
  it("is 0.0173 cP in the handbook's example", () => {
    // Ahmed, Reservoir Engineering Handbook, chapter 2, from memory: gravity 0.72 (20.85 g/mol), 2,000 psia, 140 degF,
    // z 0.78, 8.3 lb/ft3: K 119.72, X 5.35, Y 1.33, 0.0173 cP. Tolerance: half the last digit.
    const mu = gasViscosity(0.02085, 8.3 * KG_M3_PER_LB_FT3, fromDegF(140));
    expect(Math.abs(mu * 1000 - 0.0173)).toBeLessThan(0.00005);
  });

  it("is 0.017 cP within the last digit in a second one", () => {
    // Worked values in public course material: gravity 0.7, 2,000 psia, 160 degF, z 0.75.
    const density = (2000 * 0.7 * 28.9625) / (0.75 * 10.7316 * 619.67);
    const mu = gasViscosity(0.7 * AIR_MOLAR_MASS, density * KG_M3_PER_LB_FT3, fromDegF(160));
    expect(Math.abs(mu * 1000 - 0.017)).toBeLessThan(0.001);
  });

  it("rises with density, and with temperature in thin gas", () => {
    const thin = gasViscosity(0.019, 0, fromDegF(100));
    expect(gasViscosity(0.019, 100, fromDegF(100))).toBeGreaterThan(thin);
    expect(gasViscosity(0.019, 0, fromDegF(200))).toBeGreaterThan(thin);
  });

  it.each([
    ["no molar mass", 0, 50, 300, "molar_mass"],
    ["a negative density", 0.019, -1, 300, "density"],
    ["absolute zero", 0.019, 50, 0, "temperature"],
  ])("refuses %s, naming it", (_, molarMass, density, t, key) => {
    try {
      gasViscosity(molarMass, density, t as ReturnType<typeof fromDegF>);
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).key).toBe(key);
    }
  });
});

describe("friction factor", () => {
  /** Colebrook's equation by its own fixed point, which draws in from any start. */
  const colebrook = (re: number, k: number) => {
    let x = 8;
    for (let i = 0; i < 100; i += 1) x = -2 * Math.log10(k / 3.7 + (2.51 * x) / re);
    return x ** -2;
  };

  it("is Serghides' and Colebrook's published value at Re 1e5 and roughness 1e-4", () => {
    // Bell, fluids (open source), examples of both equations: 0.01851358983 and 0.01851386608.
    expect(frictionFactor(1e5, 1e-4)).toBeCloseTo(0.01851358983180063, 12);
    expect(colebrook(1e5, 1e-4)).toBeCloseTo(0.018513866077471648, 12);
  });

  it.each([
    // DOE-HDBK-1012/3-92, fluid flow, friction factor example: read from the Moody chart. Tolerance: a chart reading.
    { source: "chart", re: 4e4, k: 0.01, f: 0.04, within: 0.001 },
    // Lyons, Guo and Seidel, Air and Gas Drilling Manual, pages 8-32 and 5-42: annuli 0.668/0.552 ft of 0.00015 ft and
    // 0.521/0.240 ft of 0.0042 ft, fully rough. Printed to three decimals and cut off, not rounded.
    { source: "cased annulus", re: 1e8, k: 0.00015 / (0.668 - 0.552), f: 0.021, within: 0.001 },
    { source: "open annulus", re: 1e8, k: 0.0042 / (0.521 - 0.24), f: 0.043, within: 0.001 },
  ])("is $f from a $source at Re $re", ({ re, k, f, within }) => {
    expect(Math.abs(frictionFactor(re, k) - f)).toBeLessThan(within);
  });

  it("stays within 0.004 percent of Colebrook's equation over the turbulent Moody chart", () => {
    // Measured worst 0.0031 percent, on a smooth wall near Re 178,000; the bound is that, rounded up.
    fc.assert(
      fc.property(
        fc.double({ min: Math.log(4000), max: Math.log(1e8), noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (logRe, k) => {
          const re = Math.exp(logRe);
          expect(Math.abs(frictionFactor(re, k) / colebrook(re, k) - 1)).toBeLessThan(4e-5);
        },
      ),
      { numRuns: 2000 },
    );
    expect(Math.abs(frictionFactor(178_356, 0) / colebrook(178_356, 0) - 1)).toBeLessThan(4e-5);
  });

  it("is finite on a fully rough wall, where its extrapolation has nothing left to work on", () => {
    expect(frictionFactor(1e300, 0.05)).toBeCloseTo((2 * Math.log10(3.7 / 0.05)) ** -2, 12);
  });

  it("is 64/Re in laminar flow and goes over into turbulent flow without a step", () => {
    expect(frictionFactor(1000, 0.001)).toBe(0.064);
    for (const re of [2100, 4000]) {
      // Across the join the argument moves by 2e-9 of itself; the slope between is nowhere steeper than 1.
      const step = frictionFactor(re * (1 + 1e-9), 0.001) / frictionFactor(re * (1 - 1e-9), 0.001);
      expect(Math.abs(step - 1)).toBeLessThan(1e-8);
    }
  });

  it("moves by less than 10 percent for 20 percent of viscosity", () => {
    for (const k of [0, 1e-5, 1e-4, 1e-3, 0.01]) {
      for (let re = 5000; re < 1e8; re *= 1.5) {
        const f = frictionFactor(re, k);
        expect(Math.abs(frictionFactor(re / 1.2, k) / f - 1)).toBeLessThan(0.1);
        expect(Math.abs(frictionFactor(re / 0.8, k) / f - 1)).toBeLessThan(0.1);
      }
    }
  });

  it("refuses a Reynolds number of nothing and a negative roughness", () => {
    expect(() => frictionFactor(0, 0.001)).toThrow(InputError);
    expect(() => frictionFactor(1e5, -0.001)).toThrow(InputError);
  });
});

describe("mass of a standard rate", () => {
  it("is a pound-mole for 379.4 standard cubic feet", () => {
    // 379.4 scf/lbmol, common practice (60 degF, 14.7 psia); tolerance: half its last digit.
    const feet = KG_PER_LB / gasMassRate(M_PER_FT ** 3, { ...liftGas, molarMass: 1e-3 });
    expect(Math.abs(feet - 379.4)).toBeLessThan(0.05);
  });

  it("keeps the sign of the rate", () => {
    expect(gasMassRate(-1, liftGas)).toBe(-gasMassRate(1, liftGas));
  });
});

describe("gas moving down an annulus", () => {
  it("is gasColumn to the last digit when nothing moves", () => {
    const depths = [9000, 0, 3000].map(fromFeetVertical);
    const still = gasColumn(fromPsia(1000), SURFACE, depths, liftGas, temperatures);
    const moving = at(0, { feet: [9000, 0, 3000] });
    expect(moving.pressures).toEqual(still.pressures);
    expect(moving.atRest).toEqual(still.pressures);
    expect(moving.friction).toEqual([0, 0, 0]);
    expect(moving.largestFriction).toBe(0);
    expect(moving.warnings).toEqual(still.warnings);
  });

  it("is the closed form for an ideal gas at one temperature on a fully rough wall", () => {
    // dp/dh = a p - b/p with a = M g/(R T), b = f G² R T/(2 Dh M): p² = p0² e^(2ah) - (b/a)(e^(2ah) - 1).
    const t = fromDegF(120);
    const m = 0.65 * AIR_MOLAR_MASS;
    const gas: Gas = { method: gasByGravityMethod, molarMass: m, z: () => 1, warningsAt: () => [] };
    const level = temperatureProfile([
      { depth: SURFACE, temperature: t },
      { depth: fromFeetVertical(8000), temperature: t },
    ]);
    const dh = narrow.casingInner - narrow.tubingOuter;
    const annulus = { ...narrow, roughness: 0.05 * dh };
    const rate = 3 * MMSCF_D;
    const area = (Math.PI / 4) * (narrow.casingInner ** 2 - narrow.tubingOuter ** 2);
    const flux = gasMassRate(rate, gas) / area;
    const a = (m * GRAVITY) / (GAS_CONSTANT * t);
    const b = (frictionFactor(1e8, 0.05) * flux ** 2 * GAS_CONSTANT * t) / (2 * dh * m);
    const p0 = 7e6;
    const h = 8000 * M_PER_FT;
    const grown = Math.exp(2 * a * h);
    const exact = Math.sqrt(p0 ** 2 * grown - (b / a) * (grown - 1));
    const flow = annulusFlow(rate, annulus, absolutePa(p0), SURFACE, [verticalM(h)], gas, level);
    // The wall is not rough without end: at Re some 4e5 f is still 0.1 percent above its limit.
    expect((flow.friction[0] ?? 0) / (p0 * Math.sqrt(grown) - exact)).toBeCloseTo(1, 2);
    expect(Math.abs((flow.pressures[0] ?? 0) / exact - 1)).toBeLessThan(1e-4);
  });

  it("takes a rate too small to square as none", () => {
    expect(at(1e-300).pressures).toEqual(at(0).pressures);
  });

  it("has more pressure at depth than at rest when it moves up", () => {
    const [up] = at(-2).friction;
    const [down] = at(2).friction;
    expect(up).toBeLessThan(0);
    expect(down).toBeGreaterThan(0);
    expect(at(-2).largestFriction).toBe(-(up ?? 0));
  });

  it("comes back to the surface pressure when integrated upward at the same rate", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 600, max: 2000, noNaN: true }),
        fc.double({ min: 100, max: 9000, noNaN: true }),
        (rate, psia, feet) => {
          const down = at(rate, { psia, feet: [feet] }).pressures[0] ?? absolutePa(0);
          const up = annulusFlow(
            rate * MMSCF_D,
            narrow,
            down,
            fromFeetVertical(feet),
            [SURFACE],
            liftGas,
            temperatures,
          );
          // As for the column at rest: the integration's own error.
          expect(Math.abs((up.pressures[0] ?? 0) / fromPsia(psia) - 1)).toBeLessThan(1e-7);
        },
      ),
      { numRuns: 50 },
    );
  });

  it("loses more to friction the faster, the longer, the narrower and the rougher its way", () => {
    fc.assert(
      fc.property(
        // From 0.1 on the flow is turbulent: in laminar flow the wall's roughness does nothing.
        fc.double({ min: 0.1, max: 2, noNaN: true }),
        fc.double({ min: 1.05, max: 1.5, noNaN: true }),
        (rate, more) => {
          const friction = at(rate).friction[0] ?? 0;
          const loss = (changed: Partial<Annulus>) =>
            at(rate, { annulus: { ...narrow, ...changed } }).friction[0] ?? 0;
          expect(at(more * rate).friction[0]).toBeGreaterThan(friction);
          expect(loss({ lengthPerDepth: more })).toBeGreaterThan(friction);
          expect(loss({ casingInner: more * narrow.casingInner })).toBeLessThan(friction);
          expect(loss({ roughness: 2 * more * narrow.roughness })).toBeGreaterThan(friction);
        },
      ),
      { numRuns: 50 },
    );
  });

  it("takes a pipe as an annulus with nothing in it", () => {
    const pipe = { ...narrow, casingInner: fromInches(2.441), tubingOuter: 0 };
    expect(at(1, { annulus: pipe }).friction[0]).toBeGreaterThan(at(1).friction[0] ?? 0);
  });

  it("warns when the neglected acceleration begins to count", () => {
    const { warnings } = at(8, { psia: 100, feet: [50] });
    expect(warnings).toMatchObject([
      { kind: "outside", method: annulusFlowMethod.name, validity: { quantity: "ρ v² / p" } },
    ]);
    expect(at(2).warnings).toEqual([]);
  });

  it("says where friction would have used up the pressure", () => {
    try {
      at(12, { psia: 300, feet: [9000] });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).key).toBe("rate");
      expect((error as InputError).allowed).toMatch(/smaller: by [\d]+ ft true vertical/);
    }
  });

  it.each([
    ["a rate that is not a number", Number.NaN, {}, "rate"],
    ["no casing", 1, { casingInner: 0 }, "casing_inner"],
    ["tubing as wide as the casing", 1, { tubingOuter: fromInches(4.892) }, "tubing_outer"],
    ["tubing of negative width", 1, { tubingOuter: -0.01 }, "tubing_outer"],
    ["a negative roughness", 1, { roughness: -1e-5 }, "roughness"],
    ["a hole shorter than it is deep", 1, { lengthPerDepth: 0.9 }, "length_per_depth"],
  ])("refuses %s, naming it", (_, rate, wrong, key) => {
    try {
      at(rate, { annulus: { ...narrow, ...wrong } });
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).key).toBe(key);
    }
  });
});
