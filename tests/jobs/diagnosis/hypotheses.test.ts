import { describe, expect, it } from "vitest";
import { candidatesOf, priorOfKind } from "../../../src/jobs/diagnosis/hypotheses.ts";
import type { LiftedWell } from "../../../src/jobs/diagnosis/liftedWell.ts";
import type { Pocket } from "../../../src/jobs/diagnosis/pocket.ts";

const orificeAt = (number: number, depth: number): Pocket => ({
  number,
  alongHole: depth,
  depth,
  temperature: 340,
  holds: "orifice",
  bellows: undefined,
  size: 1e-5,
  serial: undefined,
});
const well = {
  pockets: [orificeAt(1, 1000), orificeAt(2, 1050)],
  bottom: 1200,
} as unknown as LiftedWell;

describe("what is thought before anything is read", () => {
  const all = candidatesOf(well, "EM-1", [], "2026-11-20");
  const priorOf = (id: string) =>
    all.find(({ hypothesis }) => hypothesis.id === id)?.prior ?? Number.NaN;

  it("a hole is shared out by the length of tubing, and 150 m for what belongs to a mandrel", () => {
    // 1,000, 50 and 150 m: as 1,150 to 200 to 300
    const [above, between, below] = [
      priorOf("tubing leak above mandrel 1"),
      priorOf("tubing leak between mandrels 1 and 2"),
      priorOf("tubing leak below mandrel 2"),
    ];
    expect(above / between).toBeCloseTo(1150 / 200, 9);
    expect(below / between).toBeCloseTo(300 / 200, 9);
  });
  it("all of it makes 1 with none of these", () => {
    const sum = all.reduce((total, { prior }) => total + prior, 0);
    const kinds = new Set(all.map(({ hypothesis }) => hypothesis.fault.kind));
    const possible = [...kinds].reduce((total, kind) => total + priorOfKind[kind], 0);
    expect(sum).toBeCloseTo(possible / (possible + priorOfKind.none), 9);
  });
});
