import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { equalisingBand } from "../../src/calc/equalise.ts";
import { gasByGravity } from "../../src/calc/gasByGravity.ts";
import { InputError } from "../../src/calc/inputError.ts";
import { pressureAtDepth, surfacePressureFor } from "../../src/calc/standingColumn.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  fromDegF,
  fromFeetVertical,
  fromPsia,
  fromPsig,
  M_PER_FT,
  PA_PER_PSI,
  toPsig,
  verticalM,
} from "../../src/calc/units.ts";

const AIR = fromPsia(14.696);
const GAS = gasByGravity({ specificGravity: 0.6573, co2: 0.01, h2s: 0, n2: 0.01 });
const TEMPERATURES = temperatureProfile([
  { depth: verticalM(0), temperature: fromDegF(100) },
  { depth: fromFeetVertical(8000), temperature: fromDegF(200) },
]);

describe("levelling annulus and tubing at a mandrel", () => {
  it("asks 1,000 psig of casing for 1,152.45 psig in the tubing at 6,000 ft", () => {
    // The gas column of the table of check values turned round: NIST AGA8 DETAIL, 1,000 psig gives 1,152.45 at 6,000 ft. Its tolerance, 0.2 %.
    const { pressure } = surfacePressureFor(
      fromPsig(1152.45, AIR),
      fromFeetVertical(6000),
      GAS,
      TEMPERATURES,
    );
    expect(Math.abs(toPsig(pressure, AIR) / 1000 - 1)).toBeLessThan(0.002);
  });

  it("takes a liquid's weight off first", () => {
    // 1,000 ft of 0.433 psi/ft above the valve: 433 psi. What is left stands at 5,000 ft under the same gas.
    const liquid = { top: fromFeetVertical(5000), gradient: (0.433 * PA_PER_PSI) / M_PER_FT };
    const withLiquid = surfacePressureFor(
      fromPsig(1500, AIR),
      fromFeetVertical(6000),
      GAS,
      TEMPERATURES,
      liquid,
    );
    const gasOnly = surfacePressureFor(
      fromPsig(1500 - 433, AIR),
      fromFeetVertical(5000),
      GAS,
      TEMPERATURES,
    );
    expect(withLiquid.pressure).toBeCloseTo(gasOnly.pressure, 3);
  });

  it("goes down and up to the same pressure, liquid or not", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 2000, noNaN: true }),
        fc.double({ min: 500, max: 8000, noNaN: true }),
        fc.option(fc.double({ min: 0, max: 9000, noNaN: true })),
        (psig, feet, top) => {
          const depth = fromFeetVertical(feet);
          const liquid =
            top === null
              ? undefined
              : { top: fromFeetVertical(top), gradient: (0.4 * PA_PER_PSI) / M_PER_FT };
          const surface = fromPsig(psig, AIR);
          const down = pressureAtDepth(surface, depth, GAS, TEMPERATURES, liquid).pressure;
          const up = surfacePressureFor(down, depth, GAS, TEMPERATURES, liquid).pressure;
          expect(Math.abs(up / surface - 1)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("has a band round the level, whose ends give the allowed difference at the valve", () => {
    const depth = fromFeetVertical(6000);
    const tubing = fromPsig(1000, AIR);
    const band = equalisingBand(tubing, depth, GAS, TEMPERATURES, {
      below: 100 * PA_PER_PSI,
      above: 50 * PA_PER_PSI,
    });
    const difference = (surface: typeof tubing) =>
      (pressureAtDepth(surface, depth, GAS, TEMPERATURES).pressure - tubing) / PA_PER_PSI;
    expect(difference(band.level)).toBeCloseTo(0, 4);
    expect(difference(band.lowest)).toBeCloseTo(-100, 4);
    expect(difference(band.highest)).toBeCloseTo(50, 4);
  });

  it("has a vacuum for its low end where every low casing pressure is within the band", () => {
    const band = { below: 100 * PA_PER_PSI, above: 50 * PA_PER_PSI };
    const shallow = equalisingBand(
      fromPsig(60, AIR),
      fromFeetVertical(2000),
      GAS,
      TEMPERATURES,
      band,
    );
    expect(shallow.lowest).toBe(0);
    expect(shallow.level).toBeGreaterThan(AIR);
    expect(shallow.warnings.some((each) => each.kind === "note" && /vacuum/.test(each.text))).toBe(
      true,
    );
  });

  it("says that no casing pressure can do it when the liquid alone weighs more", () => {
    const liquid = { top: fromFeetVertical(500), gradient: (0.45 * PA_PER_PSI) / M_PER_FT };
    expect(() =>
      surfacePressureFor(fromPsig(1000, AIR), fromFeetVertical(6000), GAS, TEMPERATURES, liquid),
    ).toThrow(InputError);
  });
});
