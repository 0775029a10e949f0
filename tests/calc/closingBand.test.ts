import { describe, expect, it } from "vitest";
import { type ClosingSetting, closingBand } from "../../src/calc/closingBand.ts";
import type { Gas } from "../../src/calc/gas.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import { absolutePa, fromDegF, M_PER_FT, PA_PER_PSI, verticalM } from "../../src/calc/units.ts";

const psia = (value: number) => absolutePa(value * PA_PER_PSI);
const inPsi = (pa: number) => pa / PA_PER_PSI;

/** An ideal gas of gravity 0.65: its column can be worked out by hand. */
const ideal = {
  molarMass: (0.65 * 28.9625) / 1000,
  z: () => 1,
  warningsAt: () => [],
} as unknown as Gas;
const at60 = temperatureProfile([
  { depth: verticalM(0), temperature: fromDegF(60) },
  { depth: verticalM(2000), temperature: fromDegF(60) },
]);
const setting: ClosingSetting = {
  body: { kind: "injection-operated", areaRatio: 0.1, springPressure: 0 },
  testRack: psia(1000),
  shopAtmosphere: psia(14.7),
  setTolerance: psia(5),
  temperatureUncertainty: 10 / 1.8,
  depth: verticalM(5000 * M_PER_FT),
  gas: ideal,
  temperatures: at60,
};

describe("a closing pressure brought to surface", () => {
  // By hand. Charge 1000 (1 − 0.1) + 0.1 · 14.7 = 901.47 psia; at 60 degF it stays so and is the closing pressure.
  // Column of an ideal gas: 0.01875 · 0.65 · 5000 ft / 519.67 degR = 0.11726; exp(−0.11726) = 0.88935.
  const column = 0.88935;
  const band = closingBand(setting);

  it("is the charge less the gas above the valve", () => {
    // 901.47 · 0.88935 = 801.72; 0.01875 is rounded to four figures.
    expect(inPsi(band.atSurface)).toBeCloseTo(801.72, 0);
  });

  it("moves with the set pressure by (1 − R) of it, less what the column takes", () => {
    expect(band.perSetPressure).toBeCloseTo(0.9 * column, 3);
  });

  it("moves with the temperature as nitrogen does, and the column grows lighter with it", () => {
    // Nitrogen between the published pairs of 60 and 150 degF (668.17 to 800, 995.61 to 1200 psig): 2.00 psi/degF at
    // 887 psig. To surface 2.00 · 0.88935 = 1.78; the lighter column adds 801.7 · 0.11726 / 519.67 = 0.18.
    // 3 %: the pairs are means over 90 degF, and this is the slope at 60.
    const perDegF = inPsi(band.perKelvin) / 1.8;
    expect(Math.abs(perDegF / 1.962 - 1)).toBeLessThan(0.03);
  });

  it("may differ by both at their limits the same way", () => {
    const byHand = 0.9 * column * 5 + 1.962 * 10;
    expect(Math.abs(inPsi(band.widest) / byHand - 1)).toBeLessThan(0.03);
    expect(closingBand({ ...setting, setTolerance: 0, temperatureUncertainty: 0 }).widest).toBe(0);
  });

  it("of a valve that its spring carries takes the tolerance into the spring", () => {
    const sprung = closingBand({
      ...setting,
      body: { ...setting.body, springPressure: psia(985.3) },
      temperatureUncertainty: 0,
    });
    // Nothing but air in the dome: 14.7 + 985.3 · 0.9 = 901.47 psia, and ± 5 (1 − 0.1) of the spring.
    expect(inPsi(sprung.atSurface)).toBeCloseTo(801.72, 0);
    expect(inPsi(sprung.widest)).toBeCloseTo(5 * 0.9 * column, 1);
  });

  it("refuses a tolerance that cannot be", () => {
    expect(() => closingBand({ ...setting, setTolerance: -1 })).toThrow(/set_tolerance/);
    expect(() => closingBand({ ...setting, temperatureUncertainty: Number.NaN })).toThrow(
      /temperature_uncertainty/,
    );
  });
});
