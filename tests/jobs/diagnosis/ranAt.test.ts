import { describe, expect, it } from "vitest";
import { liftedWellOf } from "../../../src/jobs/diagnosis/liftedWell.ts";
import { observationsOf } from "../../../src/jobs/diagnosis/observations.ts";
import { ranAtInWords, ranAtOf } from "../../../src/jobs/diagnosis/ranAt.ts";
import { soundDraws } from "../../../src/jobs/diagnosis/soundDraws.ts";
import { uncertain } from "../../../src/jobs/diagnosis/uncertain.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import { investigationOf, mscf, pressures, psig, soundValves, wellWith } from "./liftWell.ts";

const ATM = 101_325;
const PSI = 6894.757;
const OPENED = "2026-11-20T08:00:00.000Z";
const well = wellWith(soundValves);
const found = (day: string): Well => ({
  ...well,
  lastFound: {
    day,
    injectionAtSurface: psig(870),
    wellhead: psig(118),
    injectionRate: mscf(650),
  },
});

describe("how a well is on record to have run", () => {
  it("by its plan, a fortieth of the pressure give or take beside the gauge", () => {
    const [planned, ...more] = ranAtOf(well, ATM, OPENED);
    expect(more).toEqual([]);
    // 890 psig is 6.237 MPa absolute: gauge 5 psi + 0.5 % = 0.0657 MPa; 2.5 % = 0.1559 MPa; together 0.1692 MPa.
    expect(planned?.injection).toBeCloseTo(890 * PSI + ATM, -2);
    expect((planned?.spread ?? 0) / 1e6).toBeCloseTo(0.1692, 3);
  });
  it("by how it was last found, where that was before somebody asked", () => {
    expect(ranAtOf(found("2026-09-01"), ATM, OPENED).map(({ of }) => of)).toEqual([
      "last found",
      "planned",
    ]);
    expect(ranAtOf(found("2026-11-21"), ATM, OPENED).map(({ of }) => of)).toEqual(["planned"]);
  });
  it("not without its rate, and says so", () => {
    const bare: Well = { ...well, onLift: { wellhead: psig(120) } };
    expect(ranAtOf(bare, ATM, OPENED)).toEqual([]);
    expect(ranAtInWords(bare, []).join()).toContain("not on record");
    const [words] = ranAtInWords(found("2026-09-01"), ranAtOf(found("2026-09-01"), ATM, OPENED));
    expect(words).toContain("2026-09-01");
    expect(words).toContain("planned operating pressure");
  });
});

describe("draws of a well that is known to have run", () => {
  const seen = observationsOf(investigationOf(pressures(890, 120)), ATM, "annulus");
  const draws = (of: Well, count: number) => {
    const lifted = liftedWellOf({ well: of, valves: soundValves, policy: undefined }, seen, OPENED);
    if ("needs" in lifted) throw new Error(JSON.stringify(lifted.needs));
    return soundDraws(lifted, count);
  };
  const mean = (values: readonly number[]) =>
    values.reduce((sum, each) => sum + each, 0) / values.length;

  it("a record of a higher pressure gives draws of heavier columns and of a model that reads low", () => {
    const at = (pressure: number) =>
      draws(
        { ...well, pressures: { ...well.pressures, operatingInjectionAtSurface: psig(pressure) } },
        200,
      );
    const [low, high] = [at(760), at(860)];
    // The mean of 200 normals is good to 0.07: the difference of two to 0.1.
    expect(mean(high.map(({ lifted }) => lifted))).toBeGreaterThan(
      mean(low.map(({ lifted }) => lifted)) + 0.2,
    );
    expect(mean(high.map(({ offset }) => offset))).toBeGreaterThan(
      mean(low.map(({ offset }) => offset)),
    );
  });
  it("without a record the model's error is drawn as wide as it is stated", () => {
    const bare: Well = { ...well, pressures: { fullInjectionAtSurface: psig(1100) } };
    const offsets = draws(bare, 800).map(({ offset }) => offset);
    const spread = Math.sqrt(mean(offsets.map((each) => each ** 2)));
    // 2 % of 890 psig; 800 draws give a standard deviation within 2.5 % of itself, three times that here.
    const stated = uncertain.modelPressure.spread * (890 * PSI + ATM);
    expect(Math.abs(spread / stated - 1)).toBeLessThan(0.075);
  });
  it("is the same every time", () => {
    expect(draws(well, 30)).toEqual(draws(well, 30));
  });
});
