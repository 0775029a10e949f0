import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import { verticalPath, wellPath } from "../../src/calc/path.ts";
import { alongHoleM, fromFeetAlongHole, M_PER_FT, RAD_PER_DEG } from "../../src/calc/units.ts";
import { publishedPaths } from "./published/paths.ts";

const station = (md: number, inclination: number, azimuth: number) => ({
  depth: fromFeetAlongHole(md),
  inclination: inclination * RAD_PER_DEG,
  azimuth: azimuth * RAD_PER_DEG,
});

describe("minimum curvature", () => {
  it("gives the worked example: 27.22 N, 19.45 E, 94.01 ft down, 12.95 degrees", () => {
    // drillingformulas.com, 'Minimum Curvature Method' worked example; tolerance: its last digit.
    const [, end] = wellPath([station(3500, 15, 20), station(3600, 25, 45)]).points;
    expect((end?.north ?? 0) / M_PER_FT).toBeCloseTo(27.22, 2);
    expect((end?.east ?? 0) / M_PER_FT).toBeCloseTo(19.45, 2);
    expect((end?.vertical ?? 0) / M_PER_FT - 3500).toBeCloseTo(94.01, 2);
    expect((end?.dogleg ?? 0) / RAD_PER_DEG).toBeCloseTo(12.95, 2);
  });

  // Tolerance stated with the values: 0.03 ft and 1e-5 of the depth.
  it.each(publishedPaths)("gives the true vertical depths of $source", ({ stations, vertical }) => {
    const path = wellPath(stations.map(([md, i, a]) => station(md, i, a)));
    expect(vertical.length).toBeGreaterThan(0);
    for (const [md, tvd] of vertical) {
      const got = path.at(fromFeetAlongHole(md)).vertical / M_PER_FT;
      expect(Math.abs(got - tvd), `${md} ft`).toBeLessThan(0.03 + 1e-5 * tvd);
    }
  });

  it("interpolates on the arc: a point half way is where two half arcs meet", () => {
    const whole = wellPath([station(3500, 15, 20), station(3600, 25, 45)]);
    const half = whole.at(fromFeetAlongHole(3550));
    const twoHalves = wellPath([station(3500, 15, 20), half, station(3600, 25, 45)]);
    expect(twoHalves.points[2]?.vertical).toBeCloseTo(whole.points[1]?.vertical ?? 0, 6);
    expect(twoHalves.points[2]?.north).toBeCloseTo(whole.points[1]?.north ?? 0, 6);
  });

  it("is plain trigonometry where nothing turns, and goes straight on beyond the last station", () => {
    const path = wellPath([station(0, 30, 90), station(1000, 30, 90)]);
    const end = path.at(fromFeetAlongHole(2000));
    expect(end.vertical / M_PER_FT).toBeCloseTo(2000 * Math.cos(30 * RAD_PER_DEG), 6);
    expect(end.east / M_PER_FT).toBeCloseTo(1000, 6);
  });

  it("is the depth along hole in a vertical well", () => {
    expect(verticalPath().at(alongHoleM(1234)).vertical).toBe(1234);
  });

  it.each([
    ["no stations", []],
    ["a depth that does not rise", [station(100, 0, 0), station(100, 1, 0)]],
    ["an inclination beyond 180", [station(100, 187, 0)]],
    ["a hole that turns right round", [station(100, 0, 0), station(200, 180, 0)]],
  ])("refuses %s", (_, stations) => {
    expect(() => wellPath(stations)).toThrow(InputError);
  });

  it("refuses a depth above the first station", () => {
    expect(() => wellPath([station(100, 0, 0)]).at(alongHoleM(1))).toThrow(InputError);
  });
});
