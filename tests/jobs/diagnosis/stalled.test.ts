import { describe, expect, it } from "vitest";
import type { LiftPath, LiftState } from "../../../src/calc/liftNetwork.ts";
import type { WellDraw } from "../../../src/jobs/diagnosis/draws.ts";
import type { LiftedWell } from "../../../src/jobs/diagnosis/liftedWell.ts";
import { stalledAt } from "../../../src/jobs/diagnosis/stalled.ts";

/** Two points, gas that weighs nothing, liquid of 8 kPa/m: casing 7 MPa. */
const at = (depth: number, gate: LiftPath["gate"] = { kind: "hole" }): LiftPath => ({
  depth,
  rise: [0, 0, 0],
  temperature: 330,
  size: 1e-5,
  gate,
});
const lifted = { gradients: { below: 8000 } } as unknown as LiftedWell;
const draw = { below: 0 } as WellDraw;
const state = (production: number) =>
  ({ surface: 7e6, rates: [1, 0], production: [3e6, production] }) as unknown as LiftState;

describe("a well that lift has not unloaded to its deepest point", () => {
  it("holds up the liquid that the two pressures leave, give or take 60 m", () => {
    // (8.6 − 7.0) MPa / 8 kPa/m = 200 m above 1,500 m.
    const found = stalledAt(lifted, [at(900), at(1500)], state(8.6e6), draw, 1);
    expect(found?.level[0]).toBeCloseTo(1240, 6);
    expect(found?.level[1]).toBeCloseTo(1360, 6);
    expect(found?.top).toBe(900);
    // 1.6 MPa against the 30 psi of its spread: as good as certain.
    expect(found?.logStays).toBeCloseTo(0, 3);
  });
  it("does not stay so where the casing is the higher", () => {
    // Ten times 30 psi (206.8 kPa) over it: −ln(1 + e^10) = −10.00005.
    const found = stalledAt(lifted, [at(900), at(1500)], state(7e6 - 10 * 206_842.7), draw, 1);
    expect(found?.logStays).toBeCloseTo(-10, 2);
  });
  it("lets no liquid by a valve that is shut", () => {
    const shut = at(1500, {
      kind: "bellows",
      operatedBy: "injection",
      dome: 7.5e6,
      areaRatio: 0.1,
      spring: 0,
      span: 1e5,
      was: "shut",
    });
    expect(stalledAt(lifted, [at(900), shut], state(5e6), draw, 1)).toEqual({
      level: [900, 1500],
      top: 900,
      logStays: 0,
    });
  });
  it("is none where nothing deeper could pass gas", () => {
    const blank = { ...at(1500), size: 0 };
    expect(stalledAt(lifted, [at(900), blank], state(8.6e6), draw, 1)).toBeUndefined();
  });
});
