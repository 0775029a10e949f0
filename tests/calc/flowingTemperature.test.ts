import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type FlowingStream,
  flowingTemperature,
  flowingTemperatureMethod,
  relaxationDistance,
} from "../../src/calc/flowingTemperature.ts";
import { InputError } from "../../src/calc/inputError.ts";
import { verticalPath, wellPath } from "../../src/calc/path.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  alongHoleM,
  fromDegF,
  fromFeetAlongHole,
  fromFeetVertical,
  fromInches,
  fromPsig,
  KG_M3_PER_LB_FT3,
  KG_PER_LB,
  M_PER_FT,
  RAD_PER_DEG,
  STANDARD_ATMOSPHERE,
  toDegF,
  verticalM,
} from "../../src/calc/units.ts";

/**
 * 2,219 STB/D of 24 API oil, 11 STB/D of water, 1.762 MMscf/D of gas of gravity 0.7, 2.992 in, 150 psig; 173 degF at
 * 5,985 ft, 1.06 degF/100 ft. Rate and density from them with 350 lb/STB and 62.4 lb/ft3 of water, 0.0764 lb/scf of air.
 */
const OIL_GRAVITY = 141.5 / (24 + 131.5);
const example: FlowingStream = {
  massRate: ((350 * (2219 * OIL_GRAVITY + 11) + 0.0764 * 1.762e6 * 0.7) / 86400) * KG_PER_LB,
  tubingInnerDiameter: fromInches(2.992),
  liquidDensity: ((62.4 * (2219 * OIL_GRAVITY + 11)) / 2230) * KG_M3_PER_LB_FT3,
  apiGravity: 24,
  gasGravity: 0.7,
  wellheadPressure: fromPsig(150, STANDARD_ATMOSPHERE),
};
const GRADIENT = 0.0106;
const BOTTOM_FEET = 5985;
const BOTTOM = fromFeetAlongHole(BOTTOM_FEET);

const rockTo = (feet: number, bottomDegF = 173, gradient = GRADIENT) =>
  temperatureProfile([
    { depth: verticalM(0), temperature: fromDegF(bottomDegF - gradient * feet) },
    { depth: fromFeetVertical(feet), temperature: fromDegF(bottomDegF) },
  ]);

const inExample = (stream: FlowingStream = example) =>
  flowingTemperature(stream, rockTo(BOTTOM_FEET), verticalPath(), BOTTOM);

describe("relaxation distance of Shiu and Beggs", () => {
  // Worked values of the correlation in public course material: A 2,089 ft, to the last digit printed.
  it("is 2,089 ft in the worked example", () => {
    expect(Math.abs(relaxationDistance(example) / M_PER_FT - 2089)).toBeLessThan(1);
  });

  // The exponents of the paper, one at a time: what a quantity twice as large does to A.
  it.each([
    ["massRate", 2 ** 0.4882],
    ["liquidDensity", 2 ** 2.915],
    ["tubingInnerDiameter", 2 ** -0.3476],
    ["apiGravity", 2 ** 0.2519],
    ["gasGravity", 2 ** 4.724],
  ] as const)("goes with %s as published", (key, factor) => {
    const doubled = { ...example, [key]: 2 * example[key] };
    expect(relaxationDistance(doubled) / relaxationDistance(example)).toBeCloseTo(factor, 10);
  });

  it("goes with the gauge pressure at the wellhead", () => {
    const doubled = { ...example, wellheadPressure: fromPsig(300, STANDARD_ATMOSPHERE) };
    expect(relaxationDistance(doubled) / relaxationDistance(example)).toBeCloseTo(2 ** 0.2219, 10);
  });

  it.each([
    ["no flow", { massRate: 0 }, "mass_rate"],
    ["a negative diameter", { tubingInnerDiameter: -0.05 }, "tubing_inner_diameter"],
    ["no density", { liquidDensity: 0 }, "liquid_density"],
    ["an oil gravity that is not a number", { apiGravity: Number.NaN }, "api_gravity"],
    ["no gas gravity", { gasGravity: 0 }, "gas_gravity"],
    ["a wellhead open to the air", { wellheadPressure: STANDARD_ATMOSPHERE }, "wellhead_pressure"],
  ])("refuses %s, naming it", (_, wrong, key) => {
    try {
      relaxationDistance({ ...example, ...wrong });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).key).toBe(key);
    }
  });
});

describe("temperature of a flowing well", () => {
  it("is 130 degF at the wellhead of the worked example", () => {
    // The same course material: 130 degF within 2, for A 2,089 ft; the equation itself gives 130.4.
    expect(Math.abs(toDegF(inExample().at(verticalM(0))) - 130)).toBeLessThan(2);
  });

  it("is Ramey's equation with one gradient in a vertical well", () => {
    const profile = inExample();
    const a = profile.relaxationDistance / M_PER_FT;
    // At the ends of the legs the answer is exact: 1e-9 is rounding.
    for (const { depth, temperature } of profile.points) {
      const up = BOTTOM_FEET - depth / M_PER_FT;
      const ramey = 173 - GRADIENT * up + GRADIENT * a * (1 - Math.exp(-up / a));
      expect(Math.abs(toDegF(temperature) - ramey)).toBeLessThan(1e-9);
    }
  });

  it("stays within 0.1 K of the curve between its points, whatever the rate", () => {
    // The worst of a chord of 100 ft on the curve is g 100 ft / 8, where A is near 100 ft; here g is 1.8 degF/100 ft.
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 10, noNaN: true }),
        fc.double({ min: 0, max: BOTTOM_FEET, noNaN: true }),
        (share, feet) => {
          const stream = { ...example, massRate: share * example.massRate };
          const rock = rockTo(BOTTOM_FEET, 173, 0.018);
          const profile = flowingTemperature(stream, rock, verticalPath(), BOTTOM);
          const a = profile.relaxationDistance / M_PER_FT;
          const up = BOTTOM_FEET - feet;
          const ramey = 173 - 0.018 * up + 0.018 * a * (1 - Math.exp(-up / a));
          const off = toDegF(profile.at(fromFeetVertical(feet))) - ramey;
          expect(Math.abs(off) / 1.8).toBeLessThan(0.1);
        },
      ),
      { numRuns: 200 },
    );
  });

  it("is the temperature of the rock when hardly anything flows", () => {
    const rock = rockTo(BOTTOM_FEET);
    const profile = inExample({ ...example, massRate: 1e-12 });
    // A is then some millimetres, and what it lifts is g A.
    for (const { depth, temperature } of profile.points) {
      expect(Math.abs(temperature - rock.at(depth))).toBeLessThan(1e-3);
    }
  });

  it("runs beside the rock, warmer by gradient times A, far above the bottom of a long well", () => {
    const feet = 60_000;
    const profile = flowingTemperature(
      example,
      rockTo(feet, 700),
      verticalPath(),
      fromFeetAlongHole(feet),
    );
    const a = profile.relaxationDistance / M_PER_FT;
    const rockAtSurface = 700 - GRADIENT * feet;
    // 60,000 ft are 29 times A: exp(-29) is gone.
    expect(toDegF(profile.at(verticalM(0))) - rockAtSurface).toBeCloseTo(GRADIENT * a, 6);
  });

  it("loses its heat along the hole, so that an inclined well comes up cooler", () => {
    const slant = wellPath([
      { depth: alongHoleM(0), inclination: 60 * RAD_PER_DEG, azimuth: 0 },
      { depth: fromFeetAlongHole(1000), inclination: 60 * RAD_PER_DEG, azimuth: 0 },
    ]);
    const profile = flowingTemperature(
      example,
      rockTo(BOTTOM_FEET),
      slant,
      fromFeetAlongHole(2 * BOTTOM_FEET),
    );
    const a = profile.relaxationDistance / M_PER_FT;
    // At 60 degrees the rock cools by half the gradient for each foot along hole.
    const half = GRADIENT / 2;
    const up = 2 * BOTTOM_FEET;
    const ramey = 173 - half * up + half * a * (1 - Math.exp(-up / a));
    expect(toDegF(profile.at(verticalM(0)))).toBeCloseTo(ramey, 8);
    expect(profile.at(verticalM(0))).toBeLessThan(inExample().at(verticalM(0)));
  });

  it("reaches the wellhead when the survey starts below it", () => {
    const late = wellPath([{ depth: fromFeetAlongHole(3500), inclination: 0, azimuth: 0 }]);
    const profile = flowingTemperature(example, rockTo(BOTTOM_FEET), late, BOTTOM);
    expect(profile.at(verticalM(0))).toBeCloseTo(inExample().at(verticalM(0)), 9);
  });

  it("lies between the rock beside it and the bottom, and is warmer above when more flows", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        fc.double({ min: 1.01, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        (share, more, part) => {
          const rock = rockTo(BOTTOM_FEET);
          const depth = fromFeetVertical(part * BOTTOM_FEET);
          const slow = inExample({ ...example, massRate: share * example.massRate }).at(depth);
          const fast = inExample({ ...example, massRate: more * share * example.massRate });
          expect(slow).toBeGreaterThan(rock.at(depth));
          expect(fast.at(depth)).toBeGreaterThan(slow);
          expect(fast.at(depth)).toBeLessThan(fromDegF(173));
        },
      ),
      { numRuns: 100 },
    );
  });

  it("says at every depth that it is a correlation, and beyond the bottom that it is carried on", () => {
    const profile = inExample();
    expect(profile.method.name).toBe(flowingTemperatureMethod.name);
    expect(profile.warningsAt(fromFeetVertical(3000))).toMatchObject([{ kind: "note" }]);
    expect(profile.warningsAt(fromFeetVertical(7000))).toMatchObject([
      { kind: "note" },
      { kind: "outside", method: flowingTemperatureMethod.name },
    ]);
  });

  it("passes on that the rock's temperature was carried on beyond its points", () => {
    const shallow = rockTo(4000);
    const profile = flowingTemperature(example, shallow, verticalPath(), BOTTOM);
    expect(profile.warningsAt(verticalM(100))).toMatchObject([
      { kind: "note" },
      { kind: "outside", method: shallow.method.name },
    ]);
  });

  it.each([
    ["a bottom at surface", 0],
    ["a bottom deeper than any hole", 30_000],
    ["a bottom that is not a number", Number.NaN],
  ])("refuses %s", (_, bottom) => {
    expect(() =>
      flowingTemperature(example, rockTo(BOTTOM_FEET), verticalPath(), alongHoleM(bottom)),
    ).toThrow(InputError);
  });

  it("refuses a hole that runs upward, where one depth has two temperatures", () => {
    const hook = wellPath([
      { depth: alongHoleM(0), inclination: 0, azimuth: 0 },
      { depth: alongHoleM(1000), inclination: 0, azimuth: 0 },
      { depth: alongHoleM(1500), inclination: 100 * RAD_PER_DEG, azimuth: 0 },
    ]);
    expect(() => flowingTemperature(example, rockTo(BOTTOM_FEET), hook, alongHoleM(2000))).toThrow(
      /runs level or upward/,
    );
  });
});
