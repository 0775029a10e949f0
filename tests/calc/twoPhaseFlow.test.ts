import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { frictionFactor } from "../../src/calc/annulusFlow.ts";
import type { InputError } from "../../src/calc/inputError.ts";
import {
  beggsBrill,
  beggsBrillPattern,
  type FlowPipe,
  type TwoPhaseStream,
} from "../../src/calc/twoPhaseFlow.ts";
import {
  absolutePa,
  fromInches,
  fromPsia,
  GRAVITY,
  KG_M3_PER_LB_FT3,
  M_PER_FT,
  PA_PER_PSI,
  RAD_PER_DEG,
} from "../../src/calc/units.ts";

const CP = 1e-3;
const up: FlowPipe = { diameter: 0.062, roughness: 1.5e-5, rise: Math.PI / 2 };
const stream: TwoPhaseStream = {
  liquidVelocity: 1,
  gasVelocity: 3,
  liquidDensity: 850,
  gasDensity: 60,
  liquidViscosity: 1.5e-3,
  gasViscosity: 1.5e-5,
  surfaceTension: 0.015,
};
const P = absolutePa(7e6);

describe("Beggs and Brill in a published well", () => {
  // Takacs, Gas Lift Manual, example of a vertical well, top of the string: 375 STB/D of 41 API oil, 480 scf/STB, 2.441 in,
  // 346.6 psia. Inputs and answer as in the tests of jnoynaert/PressureDrop.jl (test_pressurecorrelations.jl).
  const takacs: TwoPhaseStream = {
    liquidVelocity: 0.79 * M_PER_FT,
    gasVelocity: 1.93 * M_PER_FT,
    liquidDensity: 49.9 * KG_M3_PER_LB_FT3,
    gasDensity: 1.79 * KG_M3_PER_LB_FT3,
    liquidViscosity: 3 * CP,
    gasViscosity: 0.02 * CP,
    surfaceTension: 8e-3,
  };
  const pipe: FlowPipe = {
    diameter: fromInches(2.441),
    roughness: fromInches(0.0006),
    rise: Math.PI / 2,
  };
  const psiFt = (gradient: number) => (gradient * M_PER_FT) / PA_PER_PSI;

  it("is 0.170 psi/ft without the correction of Payne", () => {
    const { gradient, pattern } = beggsBrill(takacs, pipe, fromPsia(346.6), "original");
    expect(pattern).toBe("intermittent");
    // Tolerance: half the last digit.
    expect(Math.abs(psiFt(gradient) - 0.17)).toBeLessThan(0.0005);
  });

  it("has the weight of 0.924 of the holdup with it", () => {
    const original = beggsBrill(takacs, pipe, fromPsia(346.6), "original");
    const payne = beggsBrill(takacs, pipe, fromPsia(346.6));
    expect(payne.holdup / original.holdup).toBeCloseTo(0.924, 12);
  });
});

describe("Beggs and Brill against an independent implementation", () => {
  it("is the example of that implementation's documentation", () => {
    // Bell, CalebBell/fluids, Beggs_Brill: 0.6 kg/s, quality 0.1, 0.05 m, level, smooth, 1e7 Pa: 686.9724506803469 Pa.
    const area = (Math.PI / 4) * 0.05 ** 2;
    const { gradient } = beggsBrill(
      {
        liquidVelocity: (0.9 * 0.6) / 915 / area,
        gasVelocity: (0.1 * 0.6) / 2.67 / area,
        liquidDensity: 915,
        gasDensity: 2.67,
        liquidViscosity: 180e-6,
        gasViscosity: 14e-6,
        surfaceTension: 0.0487,
      },
      { diameter: 0.05, roughness: 0, rise: 0 },
      absolutePa(1e7),
      "original",
    );
    // Its wall friction is Colebrook's own; ours lies within 0.004 percent of it.
    expect(Math.abs(gradient / 686.9724506803469 - 1)).toBeLessThan(4e-5);
  });

  // fluids 1.3.1, Beggs_Brill, for the stream above at other velocities and angles, 7e6 Pa, Pa/m.
  it.each([
    { angle: 90, vl: 0.3, vg: 0.5, expected: 4782.8849 },
    { angle: 90, vl: 1, vg: 3, expected: 4413.5554 },
    { angle: 90, vl: 0.05, vg: 8, expected: 1733.774 },
    { angle: 90, vl: 3, vg: 12, expected: 12263.3989 },
    { angle: 60, vl: 0.3, vg: 0.5, expected: 4420.622 },
    { angle: 60, vl: 1, vg: 3, expected: 3947.3697 },
    { angle: 60, vl: 0.05, vg: 8, expected: 1611.7094 },
    { angle: 20, vl: 0.3, vg: 0.5, expected: 1743.6432 },
    { angle: 20, vl: 1, vg: 3, expected: 2082.3506 },
    { angle: 0, vl: 0.3, vg: 0.5, expected: 63.8526 },
    { angle: 0, vl: 1, vg: 3, expected: 868.2387 },
    { angle: 0, vl: 3, vg: 12, expected: 9399.3627 },
    { angle: -30, vl: 0.3, vg: 0.5, expected: -562.6742 },
    { angle: -30, vl: 1, vg: 3, expected: -327.9564 },
    { angle: -30, vl: 0.05, vg: 8, expected: 1014.8046 },
  ])("is $expected Pa/m at $angle deg with $vl and $vg m/s", ({ angle, vl, vg, expected }) => {
    const { gradient } = beggsBrill(
      { ...stream, liquidVelocity: vl, gasVelocity: vg },
      { ...up, rise: angle * RAD_PER_DEG },
      P,
      "original",
    );
    expect(Math.abs(gradient - expected)).toBeLessThan(Math.abs(expected) * 2e-4);
  });

  it("fills no pipe beyond full, where that implementation does", () => {
    // fluids has 11,726 Pa/m at 0.02 and 0.02 m/s, more than the 8,336 Pa/m of a pipe full of that liquid: its holdup is 1.4.
    const slow = { ...stream, liquidVelocity: 0.02, gasVelocity: 0.02 };
    const { holdup, gradient } = beggsBrill(slow, up, P, "original");
    expect(holdup).toBe(1);
    expect(gradient).toBeLessThan(850 * GRAVITY * 1.01);
  });
});

describe("the correction of Payne", () => {
  const holdup = (rise: number, form?: "original") =>
    beggsBrill(stream, { ...up, rise }, P, form).holdup;
  // The factors of the paper; level flow was not corrected. Both holdups lie between no slip and a full pipe.
  it.each([
    { flow: "upward", rise: 0.5, factor: 0.924 },
    { flow: "downward", rise: -0.5, factor: 0.685 },
    { flow: "level", rise: 0, factor: 1 },
  ])("is $factor of the holdup of flow that goes $flow", ({ rise, factor }) => {
    expect(holdup(rise) / holdup(rise, "original")).toBeCloseTo(factor, 12);
  });
});

describe("flow pattern", () => {
  // By hand from the four limits at λ = 0.1: L2 0.272, L3 2.83, L1 157.6; at λ = 0.5: L4 53.4.
  it.each([
    [0.1, 0.2, "segregated"],
    [0.1, 1, "transition"],
    [0.1, 10, "intermittent"],
    [0.1, 160, "distributed"],
    [0.5, 50, "intermittent"],
    [0.5, 60, "distributed"],
    [0.005, 60, "segregated"],
    [0.005, 70, "distributed"],
  ] as const)("at λ %f and Fr %f is %s", (noSlip, froude, pattern) => {
    expect(beggsBrillPattern(noSlip, froude)).toBe(pattern);
  });
});

describe("what two-phase flow has to do whatever the correlation", () => {
  const positive = (min: number, max: number) =>
    fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map(Math.exp);
  const streams = fc.record({
    liquidVelocity: positive(0.001, 5),
    gasVelocity: positive(0.001, 15),
    liquidDensity: positive(700, 1100),
    gasDensity: positive(1, 200),
    liquidViscosity: positive(2e-4, 0.1),
    gasViscosity: positive(1e-5, 3e-5),
    surfaceTension: positive(1e-3, 0.07),
  });

  it("keeps the holdup of flow upward between no slip and full", () => {
    fc.assert(
      fc.property(streams, fc.double({ min: 0.01, max: Math.PI / 2, noNaN: true }), (s, rise) => {
        const { holdup, noSlip } = beggsBrill(s, { ...up, rise }, P);
        expect(holdup).toBeGreaterThanOrEqual(noSlip);
        expect(holdup).toBeLessThanOrEqual(1);
      }),
      { numRuns: 1000 },
    );
  });

  it("weighs between its gas and its liquid, and rubs against the flow", () => {
    fc.assert(
      fc.property(streams, (s) => {
        const { elevation, friction, gradient } = beggsBrill(s, up, P);
        expect(elevation).toBeGreaterThanOrEqual(s.gasDensity * GRAVITY * (1 - 1e-12));
        expect(elevation).toBeLessThanOrEqual(s.liquidDensity * GRAVITY * (1 + 1e-12));
        expect(friction).toBeGreaterThan(0);
        expect(gradient).toBeGreaterThanOrEqual(elevation + friction);
      }),
      { numRuns: 1000 },
    );
  });

  it("grows lighter with more gas until friction takes over", () => {
    const gradients = Array.from(
      { length: 60 },
      (_, i) => beggsBrill({ ...stream, gasVelocity: 0.3 * 1.09 ** i }, up, P).gradient,
    );
    const least = gradients.indexOf(Math.min(...gradients));
    expect(least).toBeGreaterThan(10);
    expect(least).toBeLessThan(55);
    expect(gradients[0]).toBeGreaterThan(1.3 * Math.min(...gradients));
    expect(gradients.at(-1)).toBeGreaterThan(1.3 * Math.min(...gradients));
  });

  it("is Darcy's flow of the one that is alone", () => {
    const darcy = (v: number, rho: number, mu: number) =>
      rho * GRAVITY +
      (frictionFactor((rho * v * up.diameter) / mu, up.roughness / up.diameter) * rho * v * v) /
        (2 * up.diameter);
    const liquid = beggsBrill({ ...stream, gasVelocity: 0 }, up, P);
    expect(liquid.pattern).toBe("liquid");
    expect(liquid.gradient).toBeCloseTo(darcy(1, 850, 1.5e-3), 9);
    const gas = beggsBrill({ ...stream, liquidVelocity: 0 }, up, P);
    expect(gas.pattern).toBe("gas");
    expect(gas.elevation + gas.friction).toBeCloseTo(darcy(3, 60, 1.5e-5), 9);
  });

  it("comes to the liquid alone as the gas goes", () => {
    const bare = beggsBrill({ ...stream, gasVelocity: 0 }, up, P).gradient;
    const last = beggsBrill({ ...stream, gasVelocity: 1e-6 }, up, P).gradient;
    expect(Math.abs(last / bare - 1)).toBeLessThan(1e-4);
  });

  it.each([
    ["a negative liquid velocity", { liquidVelocity: -1 }, {}, 7e6, "liquid_velocity"],
    ["nothing that flows", { liquidVelocity: 0, gasVelocity: 0 }, {}, 7e6, "liquid_velocity"],
    ["no density", { liquidDensity: 0 }, {}, 7e6, "liquid_density"],
    ["no surface tension", { surfaceTension: 0 }, {}, 7e6, "surface_tension"],
    ["no pipe", {}, { diameter: 0 }, 7e6, "diameter"],
    ["a pipe turned over", {}, { rise: 2 }, 7e6, "rise"],
    ["no pressure", {}, {}, 0, "pressure"],
    ["gas faster than pressure drives it", { gasVelocity: 300 }, {}, 1e5, "gas_velocity"],
  ])("refuses %s, naming it", (_, s, pipe, pressure, key) => {
    try {
      beggsBrill({ ...stream, ...s }, { ...up, ...pipe }, absolutePa(pressure));
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).key).toBe(key);
    }
  });
});
