import { describe, expect, it } from "vitest";
import type { InputError } from "../../src/calc/inputError.ts";
import { fromDegF, fromPsia, KG_M3_PER_LB_FT3 } from "../../src/calc/units.ts";
import { saltOf, waterState } from "../../src/calc/waterProperties.ts";

describe("fresh water of McCain's forms", () => {
  // IAPWS-95 (density) and IAPWS 2008 (viscosity) as evaluated by CoolProp 8.0.0. Measured: McCain's density lies up
  // to 0.6 percent off; his viscosity 9 percent below at the cold end of its range and 9 percent above at 3,000 psia, where his
  // rise with pressure is several times that of fresh water. The bounds are those, rounded up; friction takes a quarter of them.
  it.each([
    { degF: 100, psia: 500, density: 994.51, viscosity: 6.813e-4 },
    { degF: 150, psia: 1500, density: 984.69, viscosity: 4.3206e-4 },
    { degF: 200, psia: 2000, density: 969.24, viscosity: 3.0629e-4 },
    { degF: 250, psia: 3000, density: 952.18, viscosity: 2.3509e-4 },
  ])("is $density kg/m3 at $degF degF and $psia psia", (row) => {
    const state = waterState(fromPsia(row.psia), fromDegF(row.degF), 1);
    expect(Math.abs(state.density / row.density - 1)).toBeLessThan(0.007);
    expect(Math.abs(state.viscosity / row.viscosity - 1)).toBeLessThan(0.1);
  });
});

describe("salt", () => {
  it("is 10 percent in water of 66.9 lb/ft3", () => {
    // By hand from the polynomial: 62.368 + 4.38603 + 0.160074 = 66.914.
    expect(saltOf(66.914104 / 62.368)).toBeCloseTo(10, 6);
    expect(saltOf(1)).toBe(0);
  });

  it("makes water heavier and thicker", () => {
    const at = (gravity: number) => waterState(fromPsia(1000), fromDegF(150), gravity);
    expect(at(1.1).density / at(1).density).toBeCloseTo(1.1, 12);
    expect(at(1.1).viscosity).toBeGreaterThan(at(1).viscosity);
    expect(at(1).density).toBeGreaterThan(60 * KG_M3_PER_LB_FT3);
  });
});

it.each([
  ["water lighter than fresh", 0.9, 100, 500, "water_gravity"],
  ["ice", 1, 32, 500, "temperature"],
  ["no pressure", 1, 100, 0, "pressure"],
])("water refuses %s, naming it", (_, gravity, degF, psia, key) => {
  try {
    waterState(fromPsia(psia), fromDegF(degF), gravity);
    expect.unreachable();
  } catch (error) {
    expect((error as InputError).key).toBe(key);
  }
});
