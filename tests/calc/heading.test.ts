import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type HeadingWell, heading } from "../../src/calc/heading.ts";
import type { InputError } from "../../src/calc/inputError.ts";
import { circle } from "../../src/calc/seat.ts";
import { absolutePa, fromInches, GRAVITY } from "../../src/calc/units.ts";
import { atRest, type HeadingWellPrinted, printedWells } from "./published/headingWells.ts";

const well: HeadingWell = {
  gasMassRate: 0.4,
  gasDensity: 60,
  liquidRate: 0.0011,
  productivityIndex: 2e-9,
  orifice: { area: circle(fromInches(0.25)), dischargeCoefficient: 0.9 },
  inflow: 0.0012,
  inflowDensity: 800,
  tubingPressure: absolutePa(6e6),
  depth: 1800,
  tubingVolume: 1800 * circle(0.062),
  casingVolume: 30,
};

const wells = fc.record({
  gasMassRate: fc.double({ min: 0.05, max: 2, noNaN: true }),
  gasDensity: fc.double({ min: 20, max: 150, noNaN: true }),
  liquidRate: fc.double({ min: 2e-4, max: 6e-3, noNaN: true }),
  productivityIndex: fc.double({ min: 1e-10, max: 1e-8, noNaN: true }),
  inch: fc.double({ min: 0.2, max: 1, noNaN: true }),
  casingVolume: fc.double({ min: 5, max: 100, noNaN: true }),
});
const made = ({ inch, ...rest }: { inch: number } & Partial<HeadingWell>): HeadingWell => ({
  ...well,
  ...rest,
  orifice: { area: circle(fromInches(inch)), dischargeCoefficient: 0.9 },
});

/** What a small fall of the tubing's pressure does, by the orifice's own equation and the straight inflow, step by step. */
function answers(given: HeadingWell) {
  const { area, dischargeCoefficient } = given.orifice;
  const through = area * dischargeCoefficient;
  // w = E A sqrt(2 ρ Δp) gives the drop that goes with the rate.
  const drop = (given.gasMassRate / through) ** 2 / (2 * given.gasDensity);
  const fall = 1e-6 * drop;
  const gas = (down: number) => through * Math.sqrt(2 * given.gasDensity * (drop + down));
  const gasGain = gas(fall) / given.gasMassRate - 1;
  const liquidGain = (given.productivityIndex * fall) / given.liquidRate;
  return { fall, gasGain, liquidGain };
}

describe("Asheim's first criterion", () => {
  it("is the liquid's gain over the gas's when the tubing's pressure falls a little", () => {
    fc.assert(
      fc.property(wells, (some) => {
        const given = made(some);
        const { gasGain, liquidGain } = answers(given);
        // The orifice is curved: over a fall of 1e-6 of its drop that is 2.5e-7 of the gain, and rounding 1e-10 over 1e-6.
        expect(heading(given).inflowResponse / (liquidGain / gasGain)).toBeCloseTo(1, 3);
      }),
    );
  });

  it("is 5.97 for the well of its example, which is steady by it alone", () => {
    // By hand: 0.16 * 2e-9 / (60 * 0.0011 * (3.1669e-5 * 0.9)²) = 3.2e-10 / 5.362e-11.
    const answer = heading(well);
    expect(answer.inflowResponse).toBeCloseTo(5.97, 2);
    expect(answer.depletionResponse).toBeUndefined();
    expect(answer.isSteady).toBe(true);
  });
});

describe("Asheim's second criterion", () => {
  it("is the casing's loss of pressure over the tubing's, where the gas gains more", () => {
    fc.assert(
      fc.property(wells, (some) => {
        const given = made(some);
        const answer = heading(given);
        if (answer.depletionResponse === undefined) return;
        const { gasGain, liquidGain } = answers(given);
        const gas = given.gasMassRate / given.gasDensity;
        const density = (qf: number, qg: number) =>
          (given.inflowDensity * qf + given.gasDensity * qg) / (qf + qg);
        // The tubing is filled anew by what enters: its weight changes with the density, at the rate of what passes.
        const lighter =
          density(given.inflow, gas) -
          density(given.inflow * (1 + liquidGain), gas * (1 + gasGain));
        const tubing =
          (GRAVITY * given.depth * lighter * (given.inflow + gas)) / given.tubingVolume;
        // The casing gives more than it gets, an ideal gas at one temperature.
        const casing = (given.tubingPressure * gas * gasGain) / given.casingVolume;
        // Where both gain alike the tubing's change is the difference of two near equals: rounding is left 1 percent.
        if (Math.abs(1 - answer.inflowResponse) < 0.01) return;
        expect(answer.depletionResponse / (casing / tubing)).toBeCloseTo(1, 2);
      }),
    );
  });

  it("has a well head through a large orifice, and settle with a small casing or a small orifice", () => {
    const large = made({ inch: 0.75, casingVolume: 30 });
    expect(heading(large).isSteady).toBe(false);
    expect(heading({ ...large, casingVolume: 1 }).isSteady).toBe(true);
    expect(heading(made({ inch: 0.25 })).isSteady).toBe(true);
  });
});

/**
 * Against the stability of a published dynamic model (see headingWells.ts) in three wells, choke and gas as far as they go.
 * The model has friction, a choke at surface and gas stored in the tubing, of which the criteria know nothing: in its wells 1
 * and 2 the border between steady and heading stands at F2 of 0.6 to 0.7, not at 1, so that the criteria are on the careful
 * side. Myhr (Analysis and prediction of gas lift stability from field data, NTNU 2017, abstract read at scribd.com) says that
 * wells in the field which such criteria call steady often head all the same, by variations of the outflow.
 */
describe("Asheim's criteria in wells whose stability is known from a published model", () => {
  const rates = Array.from({ length: 14 }, (_, i) => 0.3 + 0.12 * i);
  const openings = [0.1, 0.2, 0.3, 0.5, 0.7, 1];
  const judged = (printed: HeadingWellPrinted, opening: number, rate: number) => {
    const rest = atRest(printed, opening, rate);
    if (!rest) return undefined;
    const inflow = rest.liquidIn / printed.liquidDensity + rest.gasIn / rest.footGasDensity;
    const liquidRate = rest.liquidIn / printed.liquidDensity;
    const answer = heading({
      gasMassRate: rate,
      gasDensity: rest.gasDensity,
      liquidRate,
      productivityIndex: printed.productivity / (1 + printed.gasRatio) / printed.liquidDensity,
      // w = K √(ρ Δp) in print, E A √(2 ρ Δp) here.
      orifice: { area: printed.injection / Math.SQRT2, dischargeCoefficient: 1 },
      inflow,
      inflowDensity: (rest.liquidIn + rest.gasIn) / inflow,
      tubingPressure: absolutePa(rest.tubingFoot),
      depth: printed.length,
      tubingVolume: printed.tubingVolume,
      casingVolume: printed.annulusVolume,
    });
    return { ...answer, staysAtRest: rest.isSteady };
  };
  const every = printedWells.map((printed) => ({
    printed,
    all: openings.flatMap((opening) =>
      rates.flatMap((rate) => judged(printed, opening, rate) ?? []),
    ),
  }));

  it.each(every)("call nothing steady that heads: $printed.name", ({ all }) => {
    expect(all.length).toBeGreaterThan(75);
    const steady = all.filter(({ isSteady }) => isSteady);
    expect(steady.length).toBeGreaterThan(20);
    expect(steady.filter(({ staysAtRest }) => !staysAtRest)).toEqual([]);
  });

  it.each(every.filter(({ printed }) => printed.gasRatio === 0))(
    "call heading what heads: everything with F2 below 0.5: $printed.name",
    ({ all }) => {
      const low = all.filter(({ depletionResponse }) => (depletionResponse ?? 9) < 0.5);
      expect(low.length).toBeGreaterThan(8);
      expect(low.filter(({ staysAtRest }) => staysAtRest)).toEqual([]);
    },
  );

  it.each([printedWells[0], printedWells[1]])(
    "settle with more gas, as the model does: $name",
    (printed) => {
      const at = (rate: number) => judged(printed as HeadingWellPrinted, 1, rate);
      expect([at(0.5)?.isSteady, at(0.5)?.staysAtRest]).toEqual([false, false]);
      expect([at(1.8)?.isSteady, at(1.8)?.staysAtRest]).toEqual([true, true]);
    },
  );

  it("settle with a smaller valve, as the model does", () => {
    const [first] = printedWells as [HeadingWellPrinted];
    const small = judged({ ...first, injection: first.injection / 2 }, 1, 0.8);
    const large = judged(first, 1, 0.8);
    expect([large?.isSteady, large?.staysAtRest]).toEqual([false, false]);
    expect([small?.isSteady, small?.staysAtRest]).toEqual([true, true]);
  });
});

it.each([
  ["no gas", { gasMassRate: 0 }, "gas_mass_rate"],
  ["no inflow", { productivityIndex: 0 }, "productivity_index"],
  ["no casing", { casingVolume: 0 }, "casing_volume"],
  [
    "more than the whole bore",
    { orifice: { area: 1e-5, dischargeCoefficient: 1.2 } },
    "discharge_coefficient",
  ],
  ["gas heavier than the inflow", { gasDensity: 900 }, "gas_density"],
])("refuses %s, naming it", (_, wrong, key) => {
  try {
    heading({ ...well, ...wrong });
    expect.unreachable();
  } catch (error) {
    expect((error as InputError).key).toBe(key);
  }
});
