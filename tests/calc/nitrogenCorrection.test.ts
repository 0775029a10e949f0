import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { domePressure } from "../../src/calc/nitrogen.ts";
import { chartFactor, chartFactorMethod } from "../../src/calc/nitrogenCorrection.ts";
import { fromDegF, fromPsia, fromPsig, kelvin, toPsig } from "../../src/calc/units.ts";

const AIR = fromPsia(14.696);

/**
 * Dome psig at 60 degF, degF, real factor. CoolProp's Span equation, gauge over gauge, computed for the project's
 * table of check values, not published.
 */
const REAL: readonly (readonly [dome60: number, degF: number, factor: number])[] = [
  [300, 100, 0.92158],
  [300, 180, 0.79681],
  [300, 300, 0.66254],
  [500, 100, 0.92064],
  [500, 180, 0.7948],
  [500, 300, 0.65994],
  [700, 100, 0.91899],
  [700, 180, 0.79123],
  [700, 300, 0.65519],
  [1000, 100, 0.9162],
  [1000, 140, 0.84556],
  [1000, 180, 0.78519],
  [1000, 220, 0.73297],
  [1000, 260, 0.68736],
  [1000, 300, 0.64716],
  [1500, 100, 0.91151],
  [1500, 180, 0.77511],
  [1500, 300, 0.6339],
  [2000, 100, 0.90718],
  [2000, 140, 0.83044],
  [2000, 180, 0.76592],
  [2000, 220, 0.7109],
  [2000, 260, 0.6634],
  [2000, 300, 0.62198],
];

/** By how much the chart's figure at 60 degF is over the real one, percent. */
const percentOver = (dome60: number) =>
  REAL.filter(([dome]) => dome === dome60).map(
    ([, degF, real]) => 100 * (chartFactor(fromDegF(degF)) / real - 1),
  );

describe("the straight-line factor of the charts", () => {
  // Temperature correction factors of trade handbooks, from memory. Tolerance: half of the last digit.
  it.each([
    [60, 1],
    [100, 0.921],
    [101, 0.919],
    [140, 0.853],
    [180, 0.795],
    [181, 0.794],
    [220, 0.744],
    [221, 0.743],
    [260, 0.699],
    [300, 0.66],
  ])("at %d degF is %d", (degF, factor) => {
    expect(Math.abs(chartFactor(fromDegF(degF)) - factor)).toBeLessThanOrEqual(0.0005);
  });

  it("goes beside the real gas as the source says", () => {
    expect(chartFactorMethod.source).toContain(
      "within 0.5 percent for a dome of 300 to 500 psig at 60 degF and gives up to 2 percent too much for 1,000 psig, 6 percent for 2,000 psig",
    );
    for (const dome of [300, 500]) {
      expect(Math.max(...percentOver(dome).map(Math.abs))).toBeLessThan(0.5);
    }
    // 1.93 and 6.05 percent, both at 300 degF: the words round to whole percents.
    expect(Math.max(...percentOver(1000))).toBeCloseTo(1.927, 2);
    expect(Math.max(...percentOver(2000))).toBeCloseTo(6.053, 2);
    expect(Math.min(...percentOver(1000), ...percentOver(2000))).toBeGreaterThan(0);
  });

  it.each(REAL)(
    "a dome of %d psig warmed to %d degF has the real factor %d",
    (dome60, degF, real) => {
      // Tolerance: half of the reference's last digit, and what two codes of the same equation differ by (2e-5).
      const warm = domePressure(fromPsig(dome60, AIR), fromDegF(60), fromDegF(degF)).pressure;
      expect(Math.abs(dome60 / toPsig(warm, AIR) - real)).toBeLessThan(5e-6 + 2e-5 * real);
    },
  );

  it("falls as the valve gets warmer, and is above 1 below 60 degF", () => {
    expect(chartFactor(fromDegF(40))).toBeGreaterThan(1);
    expect(chartFactor(fromDegF(200))).toBeLessThan(chartFactor(fromDegF(199)));
  });

  it.each([
    ["where the line has no value left", kelvin(30)],
    ["not a number", kelvin(Number.NaN)],
  ])("refuses a temperature %s", (_, temperature) => {
    expect(() => chartFactor(temperature)).toThrow(InputError);
  });
});
