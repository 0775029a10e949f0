import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { M3_S_PER_MSCF_DAY } from "../../src/calc/gasPassage.ts";
import { InputError } from "../../src/calc/inputError.ts";
import {
  type LiftedStream,
  streamSection,
  waterCutOfDensity,
} from "../../src/calc/liftedStream.ts";
import { type GasEntry, liftTraverse } from "../../src/calc/liftTraverse.ts";
import { M3_M3_PER_SCF_BARREL, M3_S_PER_BARREL_DAY } from "../../src/calc/oilProperties.ts";
import { verticalPath, wellPath } from "../../src/calc/path.ts";
import type { LiftedWell } from "../../src/calc/streamGradients.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  fromDegF,
  fromFeetAlongHole,
  fromFeetVertical,
  fromInches,
  fromPsia,
  GRAVITY,
  KG_M3_PER_LB_FT3,
  M_PER_FT,
  PA_PER_PSI,
  RAD_PER_DEG,
  toPsia,
  verticalM,
} from "../../src/calc/units.ts";

const SCF = M3_M3_PER_SCF_BARREL;
const liftGas = { specificGravity: 0.65, co2: 0.01, h2s: 0, n2: 0.01 };
const stream = (changed: Partial<LiftedStream> = {}): LiftedStream => ({
  liquidRate: 600 * M3_S_PER_BARREL_DAY,
  waterCut: 0.5,
  apiGravity: 35,
  waterGravity: 1.07,
  formationGasRatio: 200 * SCF,
  formationGas: { specificGravity: 0.7, co2: 0.01, h2s: 0, n2: 0.01 },
  liftGas,
  ...changed,
});
const well = (changed: Partial<LiftedWell> = {}): LiftedWell => ({
  conduit: { outer: fromInches(2.441), inner: 0, roughness: fromInches(0.0018) },
  path: verticalPath(),
  temperatures: temperatureProfile([
    { depth: fromFeetVertical(0), temperature: fromDegF(100) },
    { depth: fromFeetVertical(10000), temperature: fromDegF(200) },
  ]),
  bottom: fromFeetVertical(10000),
  ...changed,
});
const entry = (mscfDay: number, feet = 6000): GasEntry => ({
  depth: fromFeetVertical(feet),
  rate: mscfDay * M3_S_PER_MSCF_DAY,
});
const WHP = fromPsia(135);
const depths = Array.from({ length: 21 }, (_, i) => fromFeetVertical(i * 500));
const psi = (pressure: number) => pressure / PA_PER_PSI;

describe("a stream in its tubing", () => {
  it("has the velocities of a published well at its top", () => {
    // Takacs, Gas Lift Manual, as in the tests of jnoynaert/PressureDrop.jl: 375 STB/D of 41.06 API oil, 480 scf/STB of gas 0.916,
    // 2.441 in, 346.6 psia, 80.3 degF: liquid 0.79 ft/s, gas 1.93 ft/s with z 0.883 and Rs 109.7. Here z is 0.03 lower by another
    // method and Rs 7 percent higher by the newer form, 8 scf/STB of 370 free: 6 percent are asked of the gas.
    const at = streamSection(
      stream({
        liquidRate: 375 * M3_S_PER_BARREL_DAY,
        waterCut: 0,
        apiGravity: 41.06,
        formationGasRatio: 480 * SCF,
        formationGas: { specificGravity: 0.916, co2: 0, h2s: 0, n2: 0 },
      }),
      well().conduit,
      0,
    ).at({ pressure: fromPsia(346.6), temperature: fromDegF(80.3) });
    expect(Math.abs(at.liquidVelocity / M_PER_FT - 0.79)).toBeLessThan(0.01);
    expect(Math.abs(at.gasVelocity / M_PER_FT / 1.93 - 1)).toBeLessThan(0.06);
    expect(Math.abs(at.liquidDensity / KG_M3_PER_LB_FT3 - 49.9)).toBeLessThan(0.5);
  });

  it("loses no mass: what flows at depth is what flows at surface", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 4000, noNaN: true }),
        fc.double({ min: 80, max: 220, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 2000, noNaN: true }),
        (psia, degF, waterCut, lift) => {
          // One gas throughout: its mixture with itself is itself.
          const given = stream({ waterCut, formationGas: liftGas });
          const rate = lift * M3_S_PER_MSCF_DAY;
          const section = streamSection(given, well().conduit, rate);
          const massAt = (p: number, t: number) => {
            const s = section.at({ pressure: fromPsia(p), temperature: fromDegF(t) });
            return s.liquidVelocity * s.liquidDensity + s.gasVelocity * s.gasDensity;
          };
          expect(massAt(psia, degF) / massAt(14.7, 60)).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  it("has the water that makes up a measured density", () => {
    // By hand: oil 849.06, water 1,069.01 kg/m3: 85.34 of 219.95.
    const cut = waterCutOfDensity(934.4, 35, 1.07);
    expect(cut).toBeCloseTo(0.388, 3);
    expect(() => waterCutOfDensity(700, 35, 1.07)).toThrow(InputError);
  });
});

describe("a traverse", () => {
  it("is 917 psia at the entry of its example", () => {
    const traverse = liftTraverse(stream(), well(), [entry(600)], WHP);
    expect(toPsia(traverse.at(fromFeetVertical(6000)).pressure)).toBeCloseTo(917, -1);
  });

  it("moves by less than 0.5 percent when its steps are held to a hundredth of the error", () => {
    // Measured worst 0.35 percent, on 3,000 bbl/D of nearly all water with 300 Mscf/D.
    for (const bpd of [100, 600, 3000]) {
      for (const waterCut of [0, 0.95]) {
        for (const mscf of [0, 300, 2000]) {
          const given = stream({ liquidRate: bpd * M3_S_PER_BARREL_DAY, waterCut });
          const fine = liftTraverse(given, well(), [entry(mscf)], WHP, 3e-6);
          const usual = liftTraverse(given, well(), [entry(mscf)], WHP);
          for (const depth of depths) {
            const share = usual.at(depth).pressure / fine.at(depth).pressure;
            expect(Math.abs(share - 1)).toBeLessThan(0.005);
          }
        }
      }
    }
  });

  it("has the gradient of its flow between its points", () => {
    const traverse = liftTraverse(stream(), well(), [entry(600)], WHP);
    for (const feet of [750, 2750, 4750, 7250, 9250]) {
      const h = 1;
      const depth = fromFeetVertical(feet);
      const slope =
        (traverse.at(verticalM(depth + h)).pressure - traverse.at(verticalM(depth - h)).pressure) /
        (2 * h);
      // A cubic through pressures that are good to 0.03 percent a step.
      expect(Math.abs(slope / traverse.flowAt(depth).gradient - 1)).toBeLessThan(0.02);
    }
  });

  it("weighs what its water weighs where no gas is and hardly anything moves", () => {
    const still = stream({
      liquidRate: 1 * M3_S_PER_BARREL_DAY,
      waterCut: 1,
      formationGasRatio: 0,
    });
    const traverse = liftTraverse(still, well(), [], WHP);
    const head = traverse.at(fromFeetVertical(10000)).pressure - WHP;
    // 1.07 at 62.37 lb/ft3, warmer and so up to 4 percent lighter on the way.
    const cold = 1.07 * 62.37 * KG_M3_PER_LB_FT3 * GRAVITY * 10000 * M_PER_FT;
    expect(head).toBeLessThan(cold);
    expect(head).toBeGreaterThan(0.96 * cold);
  });

  it("grows lighter with more gas until friction takes over", () => {
    const bottom = [0, 100, 200, 400, 800, 1600, 3200, 6400].map((mscf) =>
      psi(
        liftTraverse(stream(), well(), [entry(mscf, 9000)], WHP).at(depths[18] ?? verticalM(0))
          .pressure,
      ),
    );
    const least = bottom.indexOf(Math.min(...bottom));
    expect(least).toBeGreaterThan(1);
    expect(least).toBeLessThan(7);
    for (let i = 1; i <= least; i += 1) expect(bottom[i]).toBeLessThan(bottom[i - 1] as number);
    expect(bottom.at(-1)).toBeGreaterThan(bottom[least] as number);
  });

  it("is heavier below the entry than above, and as if nothing entered below the deepest", () => {
    const traverse = liftTraverse(stream(), well(), [entry(600)], WHP);
    const above = traverse.flowAt(fromFeetVertical(5999)).gradient;
    const below = traverse.flowAt(fromFeetVertical(6001)).gradient;
    expect(below).toBeGreaterThan(1.5 * above);
  });

  it("takes two entries at one depth as one, in any order, and a rate of nothing as none", () => {
    const one = liftTraverse(stream(), well(), [entry(600)], WHP);
    const two = liftTraverse(stream(), well(), [entry(0, 8000), entry(200), entry(400)], WHP);
    const depth = fromFeetVertical(6000);
    expect(psi(two.at(depth).pressure)).toBeCloseTo(psi(one.at(depth).pressure), 6);
  });

  it("lies between its two entries alone when gas is shared by a shallow and a deep one", () => {
    const at = (entries: GasEntry[]) =>
      liftTraverse(stream(), well(), entries, WHP).at(fromFeetVertical(8000)).pressure;
    const shared = at([entry(300, 3000), entry(300, 8000)]);
    expect(shared).toBeLessThan(at([entry(600, 3000)]));
    expect(shared).toBeGreaterThan(at([entry(600, 8000)]));
  });

  it("goes deeper along an inclined hole than down a vertical one, by friction and by its own holdup", () => {
    const path = wellPath([
      { depth: fromFeetAlongHole(0), inclination: 0, azimuth: 0 },
      { depth: fromFeetAlongHole(3000), inclination: 0, azimuth: 0 },
      { depth: fromFeetAlongHole(4000), inclination: 40 * RAD_PER_DEG, azimuth: 0 },
      { depth: fromFeetAlongHole(12000), inclination: 40 * RAD_PER_DEG, azimuth: 0 },
    ]);
    const bottom = fromFeetVertical(8000);
    const rate = { liquidRate: 2500 * M3_S_PER_BARREL_DAY };
    const inclined = liftTraverse(stream(rate), well({ path, bottom }), [entry(600)], WHP);
    const vertical = liftTraverse(stream(rate), well({ bottom }), [entry(600)], WHP);
    const top = fromFeetVertical(3000);
    expect(psi(inclined.at(top).pressure - vertical.at(top).pressure)).toBeCloseTo(0, 0);
    expect(inclined.at(bottom).pressure).toBeGreaterThan(vertical.at(bottom).pressure);
  });

  it("carries the end slope on below its bottom and says so, and says that nobody measured it", () => {
    const traverse = liftTraverse(
      stream(),
      well({ bottom: fromFeetVertical(7000) }),
      [entry(600)],
      WHP,
    );
    const texts = (feet: number) => traverse.at(fromFeetVertical(feet)).warnings.map((w) => w.kind);
    expect(texts(6900)).toEqual(["note"]);
    expect(texts(7100)).toEqual(["note", "outside"]);
    expect(traverse.at(fromFeetVertical(7100)).pressure).toBeGreaterThan(
      traverse.at(fromFeetVertical(7000)).pressure,
    );
  });

  it("comes up an annulus by its hydraulic diameter, and says that it is an approximation", () => {
    const conduit = { outer: fromInches(6.366), inner: fromInches(2.875), roughness: 4.6e-5 };
    const traverse = liftTraverse(stream(), well({ conduit }), [entry(600)], WHP);
    const { warnings } = traverse.at(fromFeetVertical(3000));
    expect(warnings.some((w) => w.kind === "note" && w.text.includes("hydraulic"))).toBe(true);
    expect(traverse.flowAt(fromFeetVertical(100)).friction).toBeLessThan(
      liftTraverse(stream(), well(), [entry(600)], WHP).flowAt(fromFeetVertical(100)).friction,
    );
  });

  it("warns of an oil outside what its correlations were fitted to", () => {
    const { warnings } = liftTraverse(stream({ apiGravity: 12 }), well(), [entry(600)], WHP).at(
      fromFeetVertical(500),
    );
    expect(warnings).toContainEqual(
      expect.objectContaining({
        kind: "outside",
        validity: expect.objectContaining({ quantity: "oil gravity, API" }),
      }),
    );
  });

  it.each([
    ["a well that does not flow", { liquidRate: 0 }, {}, [], 135, "liquid_rate"],
    ["more water than liquid", { waterCut: 1.1 }, {}, [], 135, "water_cut"],
    ["a negative ratio", { formationGasRatio: -1 }, {}, [], 135, "formation_gas_ratio"],
    [
      "a pipe wider than the one about it",
      {},
      { conduit: { outer: 0.06, inner: 0.07, roughness: 0 } },
      [],
      135,
      "inner_diameter",
    ],
    ["no depth", {}, { bottom: verticalM(0) }, [], 135, "bottom"],
    ["gas below the bottom", {}, {}, [entry(100, 10001)], 135, "entries[0].depth"],
    ["gas that goes the other way", {}, {}, [entry(100), entry(-1)], 135, "entries[1].rate"],
    ["no wellhead pressure", {}, {}, [], 0, "wellhead_pressure"],
    ["gas faster than its pressure drives it", {}, {}, [entry(40000)], 20, "gas_velocity"],
  ] as const)("refuses %s, naming it", (_, s, w, entries, psia, key) => {
    try {
      liftTraverse(stream(s), well(w), entries, fromPsia(psia));
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).key).toBe(key);
    }
  });

  it("refuses a hole that runs level above the bottom", () => {
    const path = wellPath([
      { depth: fromFeetAlongHole(0), inclination: 0, azimuth: 0 },
      { depth: fromFeetAlongHole(5000), inclination: 90 * RAD_PER_DEG, azimuth: 0 },
    ]);
    expect(() => liftTraverse(stream(), well({ path }), [], WHP)).toThrow(/level or upward/);
  });
});

describe("a path whose first station lies deep", () => {
  it("is vertical above it, as the path itself has it", () => {
    const path = wellPath([
      { depth: fromFeetAlongHole(3000), inclination: 0, azimuth: 0 },
      { depth: fromFeetAlongHole(4000), inclination: 40 * RAD_PER_DEG, azimuth: 0 },
      { depth: fromFeetAlongHole(9000), inclination: 40 * RAD_PER_DEG, azimuth: 0 },
    ]);
    const bottom = fromFeetVertical(6000);
    const bent = liftTraverse(stream(), well({ path, bottom }), [entry(600)], WHP);
    const straight = liftTraverse(stream(), well({ bottom }), [entry(600)], WHP);
    const feet = fromFeetVertical(2500);
    // Tolerance: the steps of the two end at other depths.
    expect(bent.at(feet).pressure / straight.at(feet).pressure).toBeCloseTo(1, 3);
  });
});
