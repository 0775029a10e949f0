import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  gasEntryDip,
  gasHeat,
  heatCapacityRate,
  idealHeatCapacity,
  throttledTemperature,
} from "../../src/calc/gasEntryCooling.ts";
import { M3_S_PER_MSCF_DAY } from "../../src/calc/gasPassage.ts";
import type { InputError } from "../../src/calc/inputError.ts";
import type { LiftedStream } from "../../src/calc/liftedStream.ts";
import { M3_M3_PER_SCF_BARREL, M3_S_PER_BARREL_DAY } from "../../src/calc/oilProperties.ts";
import { absolutePa, fromDegF, fromPsia, kelvin } from "../../src/calc/units.ts";

const methane = { specificGravity: 0.0160425 / 0.0289625, co2: 0, h2s: 0, n2: 0 };
/** 92 percent methane, 5 ethane, 3 propane. */
const lean = { specificGravity: 0.60719, co2: 0, h2s: 0, n2: 0 };
const liftGas = { specificGravity: 0.65, co2: 0.01, h2s: 0, n2: 0.01 };

describe("heat capacity of the ideal gas", () => {
  // Reference equations as evaluated by CoolProp 8.0.0, J/(mol K). 2 percent: what the straight line in molar mass costs.
  it.each([
    { name: "methane, 300 K", gas: methane, t: 300, cp: 35.778 },
    { name: "methane, 350 K", gas: methane, t: 350, cp: 37.963 },
    { name: "a lean gas, 320 K", gas: lean, t: 320, cp: 38.743 },
  ])("is $cp for $name", ({ gas, t, cp }) => {
    expect(Math.abs(idealHeatCapacity(gas, kelvin(t)) / cp - 1)).toBeLessThan(0.02);
  });

  it.each([
    // CO2 37.226 and 39.394, N2 29.126 and 29.166, H2S 34.130 and 34.779 at 300 and 350 K, from the same: taken out of a mixture.
    { key: "co2", molar: 0.0440095, t: 300, cp: 37.226 },
    { key: "co2", molar: 0.0440095, t: 350, cp: 39.394 },
    { key: "n2", molar: 0.0280134, t: 300, cp: 29.126 },
    { key: "n2", molar: 0.0280134, t: 350, cp: 29.166 },
    { key: "h2s", molar: 0.03408088, t: 300, cp: 34.13 },
    { key: "h2s", molar: 0.03408088, t: 350, cp: 34.779 },
  ])("counts $key with $cp at $t K", ({ key, molar, t, cp }) => {
    const share = 0.5;
    const mixed = {
      ...methane,
      specificGravity: (1 - share) * methane.specificGravity + (share * molar) / 0.0289625,
      [key]: share,
    };
    const alone = idealHeatCapacity(methane, kelvin(t));
    const part = (idealHeatCapacity(mixed, kelvin(t)) - (1 - share) * alone) / share;
    expect(Math.abs(part / cp - 1)).toBeLessThan(0.01);
  });
});

describe("Joule-Thomson coefficient", () => {
  // Setzmann and Wagner (1991) for methane, GERG mixing for the lean gas, as evaluated by CoolProp 8.0.0: K/MPa and J/(mol K).
  it.each([
    { name: "methane", gas: methane, t: 280, mpa: 5, jt: 4.572, cp: 42.073 },
    { name: "methane", gas: methane, t: 280, mpa: 10, jt: 3.673, cp: 52.016 },
    { name: "methane", gas: methane, t: 300, mpa: 0.1, jt: 4.322, cp: 35.869 },
    { name: "methane", gas: methane, t: 300, mpa: 5, jt: 3.943, cp: 41.234 },
    { name: "methane", gas: methane, t: 300, mpa: 10, jt: 3.261, cp: 48.165 },
    { name: "methane", gas: methane, t: 350, mpa: 5, jt: 2.785, cp: 41.313 },
    { name: "methane", gas: methane, t: 400, mpa: 0.1, jt: 2.239, cp: 40.652 },
    { name: "methane", gas: methane, t: 400, mpa: 10, jt: 1.736, cp: 45.22 },
    { name: "a lean gas", gas: lean, t: 320, mpa: 8, jt: 3.544, cp: 48.343 },
    { name: "a lean gas", gas: lean, t: 340, mpa: 5, jt: 3.388, cp: 44.327 },
  ])("of $name at $t K and $mpa MPa is $jt less up to 11 percent", ({ gas, t, mpa, jt, cp }) => {
    const heat = gasHeat(gas, { pressure: absolutePa(mpa * 1e6), temperature: kelvin(t) });
    const share = (heat.jouleThomson * 1e6) / jt;
    expect(share).toBeGreaterThan(0.89);
    expect(share).toBeLessThan(1);
    expect(Math.abs(heat.heatCapacity / cp - 1)).toBeLessThan(0.02);
  });

  it("cools methane from 330 K and 10 MPa to 314.4 K at 5 MPa within those 11 percent", () => {
    // At constant enthalpy by the same equation: 314.41 K.
    const after = throttledTemperature(
      methane,
      { pressure: absolutePa(10e6), temperature: kelvin(330) },
      absolutePa(5e6),
    );
    expect((330 - after) / (330 - 314.41)).toBeGreaterThan(0.89);
    expect((330 - after) / (330 - 314.41)).toBeLessThan(1);
  });

  it("does nothing without a drop, and comes back when compressed again", () => {
    const from = { pressure: absolutePa(8e6), temperature: kelvin(340) };
    expect(throttledTemperature(liftGas, from, absolutePa(8e6))).toBe(340);
    const low = throttledTemperature(liftGas, from, absolutePa(4e6));
    const back = throttledTemperature(
      liftGas,
      { pressure: absolutePa(4e6), temperature: low },
      absolutePa(8e6),
    );
    // The midpoint steps' own error, 8 of them over 4 MPa.
    expect(back).toBeCloseTo(340, 1);
  });
});

describe("the dip where gas enters", () => {
  const stream: LiftedStream = {
    liquidRate: 600 * M3_S_PER_BARREL_DAY,
    waterCut: 0.5,
    apiGravity: 35,
    waterGravity: 1.07,
    formationGasRatio: 200 * M3_M3_PER_SCF_BARREL,
    formationGas: { specificGravity: 0.7, co2: 0.01, h2s: 0, n2: 0.01 },
    liftGas,
  };
  const tubing = { pressure: fromPsia(900), temperature: fromDegF(160) };
  const entering = (mscf = 600, psia = 1100, degF = 160) => ({
    gas: liftGas,
    rate: mscf * M3_S_PER_MSCF_DAY,
    upstream: { pressure: fromPsia(psia), temperature: fromDegF(degF) },
  });
  const heatRate = heatCapacityRate(stream, 0, tubing);
  const dip = (given = entering()) => gasEntryDip(given, tubing, heatRate, 600);

  it("has a stream that takes the heat of its oil, its water and its gas", () => {
    // By hand at 71.11 degC: oil 0.46871 kg/s at 1926.8/0.92187 J/(kg K), 979.7 W/K; water 0.59013 kg/s, 9.62 percent of salt,
    // 3,860.7 J/(kg K), 2,278.3; gas 120 Mscf/D, 1.6606 mol/s at its own heat. Tolerance: the rounding of the two.
    const gas = 1.6606 * gasHeat(stream.formationGas, tubing).heatCapacity;
    expect(Math.abs(heatRate - (979.7 + 2278.3 + gas))).toBeLessThan(0.5);
  });

  it("takes more heat with gas in it from below: that gas at its own heat, and oil's heat grows with its temperature", () => {
    const rate = 300 * M3_S_PER_MSCF_DAY;
    const lift =
      ((rate * 101_352.9) / (8.314462618 * 288.70556)) * gasHeat(liftGas, tubing).heatCapacity;
    expect(heatCapacityRate(stream, rate, tubing) - heatRate).toBeCloseTo(lift, 3);
    // By hand: 3.4 J/(kg K) a kelvin over the root of 0.84985, 0.46871 kg/s of oil without gas.
    const warmer = { ...tubing, temperature: kelvin(tubing.temperature + 20) };
    const dead = { ...stream, formationGasRatio: 0 };
    const more = heatCapacityRate(dead, 0, warmer) - heatCapacityRate(dead, 0, tubing);
    expect(more).toBeCloseTo((20 * 3.4 * 0.46871) / Math.sqrt(0.84985), 2);
  });

  it("keeps the heat of both streams", () => {
    const made = dip();
    const gasRate =
      (heatRate * (tubing.temperature - made.mixed)) / (made.mixed - made.gasTemperature);
    const heat = gasHeat(liftGas, { pressure: tubing.pressure, temperature: made.gasTemperature });
    const moles = (600 * M3_S_PER_MSCF_DAY * 101_352.9) / (8.314462618 * 288.70556);
    expect(gasRate / (moles * heat.heatCapacity)).toBeCloseTo(1, 5);
  });

  it("is a kelvin or less through an open valve, and grows with the drop and with the gas", () => {
    expect(dip().dip).toBeGreaterThan(0);
    expect(dip().dip).toBeLessThan(1);
    expect(dip(entering(600, 1500)).dip).toBeGreaterThan(dip().dip);
    expect(dip(entering(1200)).dip).toBeGreaterThan(dip().dip);
    expect(dip(entering(0)).dip).toBe(0);
  });

  it("is a rise where the gas comes down warmer than the stream", () => {
    expect(dip(entering(600, 910, 200)).dip).toBeLessThan(0);
  });

  it("is gone to 1/e a relaxation distance above, and is not there below", () => {
    const made = dip();
    expect(made.dipAt(0)).toBe(made.dip);
    expect(made.dipAt(600) / made.dip).toBeCloseTo(Math.exp(-1), 12);
    expect(made.dipAt(-1)).toBe(0);
  });

  it("never goes beyond the gas's own temperature", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5000, noNaN: true }),
        fc.double({ min: 901, max: 2000, noNaN: true }),
        fc.double({ min: 100, max: 220, noNaN: true }),
        (mscf, psia, degF) => {
          const made = dip(entering(mscf, psia, degF));
          const [low, high] = [tubing.temperature, made.gasTemperature].sort((a, b) => a - b);
          expect(made.mixed).toBeGreaterThanOrEqual((low as number) - 1e-9);
          expect(made.mixed).toBeLessThanOrEqual((high as number) + 1e-9);
        },
      ),
      { numRuns: 50 },
    );
  });

  it.each([
    [
      "a rate against the flow",
      () => gasEntryDip(entering(-1), tubing, heatRate, 600),
      "lift_gas_rate",
    ],
    ["a stream without heat", () => gasEntryDip(entering(), tubing, 0, 600), "heat_rate"],
    ["no distance", () => gasEntryDip(entering(), tubing, heatRate, 0), "relaxation_distance"],
    [
      "no pressure behind the port",
      () => throttledTemperature(liftGas, tubing, absolutePa(0)),
      "downstream_pressure",
    ],
  ])("refuses %s, naming it", (_, ask, key) => {
    try {
      ask();
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).key).toBe(key);
    }
  });
});
