import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import {
  type FlowingGradients,
  flowingPressure,
  type PressurePoint,
  surveyedPressure,
} from "../../src/calc/pressureProfile.ts";
import {
  absolutePa,
  fromFeetVertical,
  fromPsia,
  M_PER_FT,
  PA_PER_PSI,
  toPsia,
} from "../../src/calc/units.ts";

const point = (feet: number, psia: number): PressurePoint => ({
  depth: fromFeetVertical(feet),
  pressure: fromPsia(psia),
});
const psiPerFoot = (gradient: number) => (gradient * PA_PER_PSI) / M_PER_FT;

describe("a pressure survey", () => {
  const survey = surveyedPressure([
    point(1000, 300),
    point(3000, 500),
    point(4000, 700),
    point(6000, 1500),
  ]);
  const at = (feet: number) => survey.at(fromFeetVertical(feet));

  it.each([
    [1000, 300],
    [2000, 400],
    [3000, 500],
    [3250, 550],
    [4000, 700],
    [5000, 1100],
    [6000, 1500],
  ])("at %d ft is %d psia, without a warning", (feet, psia) => {
    expect(toPsia(at(feet).pressure)).toBeCloseTo(psia, 9);
    expect(at(feet).warnings).toEqual([]);
  });

  it.each([
    // 0.1 psi/ft above the first stop, 0.4 below the last.
    { where: "above the first stop", feet: 500, psia: 250 },
    { where: "below the last stop", feet: 6500, psia: 1700 },
  ])("$where carries the end slope on, and says so", ({ feet, psia }) => {
    const { pressure, warnings } = at(feet);
    expect(toPsia(pressure)).toBeCloseTo(psia, 9);
    expect(warnings).toMatchObject([
      {
        kind: "outside",
        value: fromFeetVertical(feet),
        validity: {
          quantity: "true vertical depth",
          from: fromFeetVertical(1000),
          to: fromFeetVertical(6000),
        },
      },
    ]);
  });

  it("gives no pressure where the slope carried on has used it up", () => {
    // 1,000 psia at 5,000 ft, 0.4 psi/ft: nothing is left from 2,500 ft up.
    const steep = surveyedPressure([point(5000, 1000), point(6000, 1400)]);
    expect(toPsia(steep.at(fromFeetVertical(2600)).pressure)).toBeCloseTo(40, 9);
    expect(() => steep.at(fromFeetVertical(2490))).toThrow(InputError);
    expect(() => steep.at(fromFeetVertical(Number.NaN))).toThrow(InputError);
  });

  it("may have a gas cushion, in which the pressure falls with depth nowhere but as measured", () => {
    const falling = surveyedPressure([point(0, 500), point(1000, 490), point(2000, 800)]);
    expect(toPsia(falling.at(fromFeetVertical(500)).pressure)).toBeCloseTo(495, 9);
  });

  it("goes through every stop and never beyond its neighbours", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            step: fc.double({ min: 1, max: 3000, noNaN: true }),
            psia: fc.double({ min: 15, max: 5000, noNaN: true }),
          }),
          { minLength: 2, maxLength: 12 },
        ),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (stops, share) => {
          let feet = 0;
          const points = stops.map(({ step, psia }) => {
            feet += step;
            return point(feet, psia);
          });
          const made = surveyedPressure(points);
          points.forEach(({ depth, pressure }, index) => {
            expect(Math.abs(made.at(depth).pressure / pressure - 1)).toBeLessThan(1e-12);
            const next = points[index + 1];
            if (!next) return;
            const between = made.at(
              fromFeetVertical((depth + share * (next.depth - depth)) / M_PER_FT),
            ).pressure;
            const [low, high] = [pressure, next.pressure].sort((a, b) => a - b);
            expect(between).toBeGreaterThanOrEqual((low as number) * (1 - 1e-12));
            expect(between).toBeLessThanOrEqual((high as number) * (1 + 1e-12));
          });
        },
      ),
    );
  });

  it.each([
    ["no stop", [], "survey"],
    ["one stop", [point(1000, 300)], "survey"],
    ["two stops at one depth", [point(1000, 300), point(1000, 310)], "survey[1].depth"],
    ["stops from the bottom up", [point(2000, 400), point(1000, 300)], "survey[1].depth"],
    ["a depth that is not a number", [point(Number.NaN, 300), point(1000, 400)], "survey[0].depth"],
    ["a vacuum", [point(1000, 0), point(2000, 400)], "survey[0].pressure"],
    ["a pressure below nothing", [point(1000, 300), point(2000, -5)], "survey[1].pressure"],
    [
      "a pressure that is not a number",
      [point(1000, 300), point(2000, Number.NaN)],
      "survey[1].pressure",
    ],
  ])("refuses %s", (_, points, key) => {
    expect(() => surveyedPressure(points)).toThrow(InputError);
    expect(() => surveyedPressure(points)).toThrow(key);
  });
});

describe("flowing gradients: 0.1 psi/ft down to 5,000 ft, 0.4 below, 100 psia at the wellhead", () => {
  const gradients: FlowingGradients = {
    lifted: psiPerFoot(0.1),
    below: psiPerFoot(0.4),
    entry: fromFeetVertical(5000),
  };
  const profile = flowingPressure(fromPsia(100), gradients);

  it.each([
    [0, 100],
    [1000, 200],
    [4999, 599.9],
    [5000, 600],
    [5001, 600.4],
    [7000, 1400],
  ])("at %d ft stand %d psia", (feet, psia) => {
    expect(toPsia(profile.at(fromFeetVertical(feet)).pressure)).toBeCloseTo(psia, 9);
    expect(profile.at(fromFeetVertical(feet)).warnings).toEqual([]);
  });

  it("is one line where both gradients are the same, and where gas enters at the surface", () => {
    const same = flowingPressure(fromPsia(100), { ...gradients, below: gradients.lifted });
    const none = flowingPressure(fromPsia(100), { ...gradients, entry: fromFeetVertical(0) });
    expect(toPsia(same.at(fromFeetVertical(7000)).pressure)).toBeCloseTo(800, 9);
    expect(toPsia(none.at(fromFeetVertical(7000)).pressure)).toBeCloseTo(2900, 9);
  });

  it.each([
    ["a negative gradient above", { lifted: -1 }, "lifted_gradient"],
    ["a negative gradient below", { below: -1 }, "gradient_below"],
    ["a gradient that is not a number", { below: Number.NaN }, "gradient_below"],
    ["gas that enters above the surface", { entry: fromFeetVertical(-10) }, "entry_depth"],
  ])("refuses %s", (_, change, key) => {
    const act = () => flowingPressure(fromPsia(100), { ...gradients, ...change });
    expect(act).toThrow(InputError);
    expect(act).toThrow(key);
  });

  it.each([0, -1, Number.NaN])("refuses a wellhead pressure of %d Pa", (pascal) => {
    expect(() => flowingPressure(absolutePa(pascal), gradients)).toThrow("wellhead_pressure");
  });
});
