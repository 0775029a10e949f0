import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { largestPull, type WellFluids } from "../../src/calc/linePull.ts";
import { lineTension } from "../../src/calc/lineTension.ts";
import { lubricatorFit } from "../../src/calc/lubricatorFit.ts";
import { verticalPath } from "../../src/calc/path.ts";
import { expectedMaximum, testPressure } from "../../src/calc/pressureEnvelope.ts";
import { pushOutBalance, pushOutForce, type StringWeight } from "../../src/calc/pushOut.ts";
import {
  alongHoleM,
  fromInches,
  fromPsia,
  fromPsig,
  KG_M3_PER_LB_FT3,
  KG_PER_LB,
  M_PER_FT,
  N_PER_LBF,
  RAD_PER_DEG,
  toPsig,
  verticalM,
} from "../../src/calc/units.ts";

const AIR = fromPsia(14.696);
const STEEL = 490 * KG_M3_PER_LB_FT3;

describe("push-out at the packing", () => {
  // Pressure x area; the formula is stated in the training sheet "Slickline Calculations" (scribd.com 551811074),
  // numbers by arithmetic. lbf per 1,000 psi; tolerance: the last digit.
  it.each([
    [0.072, 4.072],
    [0.092, 6.648],
    [0.108, 9.161],
    [0.125, 12.272],
    [0.16, 20.106],
  ])("of a %d in wire is %d lbf per 1,000 psi", (inches, lbf) => {
    const force = pushOutForce(fromPsig(1000, AIR), AIR, fromInches(inches));
    expect(force / N_PER_LBF).toBeCloseTo(lbf, 3);
  });

  // Statics, worked for this project's table of check values; tolerance: the last digit.
  it.each([
    {
      wire: 0.072,
      psig: 500,
      packing: 20,
      weight: 60,
      fluid: 2,
      deg: 0,
      push: 2.036,
      net: 37.719,
      needed: 22.126,
      ratio: 2.71173,
    },
    {
      wire: 0.092,
      psig: 1500,
      packing: 30,
      weight: 95,
      fluid: 5,
      deg: 0,
      push: 9.971,
      net: 54.059,
      needed: 40.383,
      ratio: 2.35245,
    },
    {
      wire: 0.108,
      psig: 2500,
      packing: 40,
      weight: 150,
      fluid: 8,
      deg: 10,
      push: 22.902,
      net: 82.407,
      needed: 64.933,
      ratio: 2.31008,
    },
    {
      wire: 0.125,
      psig: 4000,
      packing: 50,
      weight: 210,
      fluid: 62.4,
      deg: 0,
      push: 49.087,
      net: 84.17,
      needed: 113.547,
      ratio: 1.84945,
    },
    {
      wire: 0.125,
      psig: 5000,
      packing: 60,
      weight: 120,
      fluid: 12,
      deg: 35,
      push: 61.359,
      net: -25.468,
      needed: 151.872,
      ratio: 0.79014,
    },
  ])("leaves $net lbf of $weight lbf at $psig psig on $wire in wire", (c) => {
    const force = pushOutForce(fromPsig(c.psig, AIR), AIR, fromInches(c.wire));
    const balance = pushOutBalance(
      force,
      c.packing * N_PER_LBF,
      { inAir: c.weight * N_PER_LBF, meanDensity: STEEL },
      c.fluid * KG_M3_PER_LB_FT3,
      c.deg * RAD_PER_DEG,
    );
    expect(balance.pushOut / N_PER_LBF).toBeCloseTo(c.push, 3);
    expect(balance.netDownward / N_PER_LBF).toBeCloseTo(c.net, 3);
    expect(balance.weightNeeded / N_PER_LBF).toBeCloseTo(c.needed, 3);
    expect(balance.ratio).toBeCloseTo(c.ratio, 5);
  });

  it("balances at the weight it says is needed", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 70, noNaN: true }),
        (pushOut, packing, deg) => {
          fc.pre(pushOut + packing > 1);
          const angle = deg * RAD_PER_DEG;
          const first = pushOutBalance(
            pushOut,
            packing,
            { inAir: 1, meanDensity: STEEL },
            100,
            angle,
          );
          const string = { inAir: first.weightNeeded, meanDensity: STEEL };
          const balance = pushOutBalance(pushOut, packing, string, 100, angle);
          expect(Math.abs(balance.netDownward)).toBeLessThan(1e-9 * first.weightNeeded);
          expect(balance.ratio).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  it("has no ratio where nothing pushes out, and refuses a string that floats", () => {
    const string = { inAir: 400, meanDensity: STEEL };
    expect(pushOutBalance(0, 0, string, 0).ratio).toBeUndefined();
    expect(() => pushOutBalance(10, 0, string, 8000)).toThrow(InputError);
    expect(() => pushOutBalance(10, -1, string, 0)).toThrow(InputError);
    expect(() => pushOutBalance(10, 0, string, 0, Math.PI / 2)).toThrow(InputError);
  });
});

describe("line pull", () => {
  const wire = {
    diameter: fromInches(0.108),
    linearMass: (31.18 * KG_PER_LB) / (1000 * M_PER_FT),
  };

  const pullInAVerticalHole = (string: StringWeight, fluids: WellFluids) =>
    lineTension(
      {
        line: wire,
        string,
        fluids,
        path: verticalPath(),
        friction: 0.2,
        pushOut: 0,
        packingFriction: 0,
      },
      alongHoleM(6000 * M_PER_FT),
    ).hanging;

  it("hanging in air without pressure is the weight of string and wire", () => {
    // Hand calculation: 31.18 lb per 1,000 ft x 6,000 ft + 150 lb.
    const pull = pullInAVerticalHole(
      { inAir: 150 * N_PER_LBF, meanDensity: STEEL },
      { gasDensity: 0, liquidDensity: 1000, level: verticalM(9000) },
    );
    expect(pull / N_PER_LBF).toBeCloseTo(31.18 * 6 + 150, 6);
  });

  it("loses in liquid what it displaces, and only below the level", () => {
    // Hand calculation: 2,000 ft of wire and the string stand in water (62.4 lb/ft3), 4,000 ft in vacuum.
    const wireDensity = wire.linearMass / ((Math.PI * wire.diameter ** 2) / 4);
    const water = 62.4 * KG_M3_PER_LB_FT3;
    const pull = pullInAVerticalHole(
      { inAir: 150 * N_PER_LBF, meanDensity: STEEL },
      { gasDensity: 0, liquidDensity: water, level: verticalM(4000 * M_PER_FT) },
    );
    const expected = 31.18 * (4 + 2 * (1 - water / wireDensity)) + 150 * (1 - 62.4 / 490);
    expect(pull / N_PER_LBF).toBeCloseTo(expected, 6);
  });

  it("is capped by the weaker of wire and rope socket", () => {
    expect(largestPull(2109, 0.5)).toBeCloseTo(1054.5, 9);
    expect(largestPull(2109, 0.5, 900)).toBe(900);
    expect(() => largestPull(2109, 1.2)).toThrow(InputError);
  });
});

describe("lubricator length", () => {
  // Arithmetic on the project's reference cases; the third ends exactly at nothing to spare.
  it.each([
    { usable: [2.5, 8, 8], string: 14.2, valve: 2, margin: 2, spare: 0.3, fits: true },
    { usable: [8, 8], string: 12.5, valve: 2, margin: 5, spare: -3.5, fits: false },
    { usable: [4, 8, 8, 8], string: 21.4, valve: 1.6, margin: 5, spare: 0, fits: true },
  ])("leaves $spare ft", ({ usable, string, valve, margin, spare, fits }) => {
    const fit = lubricatorFit(
      usable.map((feet) => feet * M_PER_FT),
      string * M_PER_FT,
      valve * M_PER_FT,
      margin * M_PER_FT,
    );
    expect(fit.spare / M_PER_FT).toBeCloseTo(spare, 9);
    expect(fit.fits).toBe(fits);
  });
});

describe("test pressure", () => {
  it("counts the factor on gauge pressure of the larger of shut-in and injection", () => {
    const expected = expectedMaximum(fromPsig(900, AIR), fromPsig(1200, AIR));
    expect(toPsig(testPressure(expected, AIR, 1.25), AIR)).toBeCloseTo(1500, 9);
    expect(() => testPressure(expected, AIR, 0.9)).toThrow(InputError);
  });
});
