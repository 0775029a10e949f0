import { describe, expect, it } from "vitest";
import { bleedRest, bleedTime } from "../../src/calc/casingBleed.ts";
import { STANDARD_BASE } from "../../src/calc/gasPassage.ts";
import { type BellowsGate, type LiftPath, passageTable } from "../../src/calc/liftNetwork.ts";
import { PA_PER_PSI } from "../../src/calc/units.ts";

const table = passageTable({ molarMass: 0.019, heatCapacityRatio: 1.27 });
const psi = (value: number) => value * PA_PER_PSI;

// At surface, so that pressures there and at the path are one.
const hole = (size: number): LiftPath => ({
  depth: 0,
  rise: [0, 0, 0],
  temperature: 300,
  size,
  gate: { kind: "hole" },
});
const bellows = (closing: number, changed: Partial<BellowsGate> = {}): LiftPath => ({
  ...hole(1e-5),
  gate: {
    kind: "bellows",
    operatedBy: "injection",
    dome: closing,
    areaRatio: 0.1,
    spring: 0,
    span: psi(30),
    was: "open",
    ...changed,
  },
});
const storage = { volume: 40, temperature: 310, z: 0.9 };
const perPa = (40 * STANDARD_BASE.temperature) / (0.9 * 310 * STANDARD_BASE.pressure);
/** q / p at the speed of sound, of a size of 1e-5 m2 */
const k = table.rate(1e-5, 1e6, 1e5, 300) / 1e6;
const time = (
  paths: readonly LiftPath[],
  production: readonly number[],
  from: number,
  to: number,
) => bleedTime(paths, production, psi(from), psi(to), storage, table);

describe("where the injection side comes to rest", () => {
  const rest = (paths: readonly LiftPath[], production: readonly number[]) =>
    bleedRest(paths, production, psi(900)) / PA_PER_PSI;
  const upper = bellows(psi(700));

  it("is the closing pressure of the valve that shuts last", () => {
    expect(rest([upper, bellows(psi(650))], [psi(200), psi(300)])).toBeCloseTo(650, 9);
  });
  it("is the producing pressure where a hole is open", () => {
    expect(rest([upper, hole(1e-6)], [psi(200), psi(310)])).toBeCloseTo(310, 9);
  });
  it("is the producing pressure where that is above the closing pressure", () => {
    expect(rest([upper], [psi(720)])).toBeCloseTo(720, 9);
  });
  it("is the producing pressure of a valve that the producing side holds open", () => {
    const by = { operatedBy: "production" } as const;
    expect(rest([bellows(psi(300), by)], [psi(310)])).toBeCloseTo(310, 9);
    expect(rest([bellows(psi(300), by)], [psi(290)])).toBeCloseTo(900, 9);
  });
  it("is where it stands when nothing is open, or the producing side stands higher", () => {
    expect(rest([bellows(psi(700), { was: "shut" }), hole(0)], [psi(200), psi(200)])).toBe(900);
    expect(rest([hole(1e-6)], [psi(950)])).toBe(900);
  });
});

describe("how long the injection side takes to bleed", () => {
  it("is the time of its content through a hole at the speed of sound", () => {
    // N = V p Tb / (z T pb) and q = k p: t = (V Tb / (z T pb)) / k · ln(p1/p2).
    const expected = (perPa / k) * Math.log(900 / 600);
    // Ten steps of a logarithm that falls by a third: within 0.1 percent.
    expect(time([hole(1e-5)], [psi(100)], 900, 600) / expected).toBeCloseTo(1, 3);
  });
  it("grows as a bellows closes: in proportion to how far it stands above its closing pressure", () => {
    // q = k p (p − pc)/span: t = (V Tb / (z T pb)) · span/(k pc) · [ln((p − pc)/p)] from p2 to p1; pc 500, span 400.
    const expected =
      ((perPa * 400) / (k * 500)) * (Math.log((900 - 500) / 900) - Math.log((600 - 500) / 600));
    const path = bellows(psi(500), { span: psi(400) });
    // Ten steps of 30 psi down to 100 psi above the closing pressure: within half a percent.
    expect(time([path], [psi(100)], 900, 600) / expected).toBeCloseTo(1, 2);
  });
  it("is that of the full port while the producing side holds the bellows open", () => {
    const path = bellows(psi(60), { operatedBy: "production", span: psi(30) });
    expect(time([path], [psi(100)], 900, 600)).toBe(time([hole(1e-5)], [psi(100)], 900, 600));
    // Half of its span open: half the port, twice the time.
    const half = bellows(psi(85), { operatedBy: "production", span: psi(30) });
    expect(time([half], [psi(100)], 900, 600)).toBeCloseTo(
      2 * time([hole(1e-5)], [psi(100)], 900, 600),
      3,
    );
  });
  it("has no end where nothing is open, or all has shut above where it should come to", () => {
    const never = Number.POSITIVE_INFINITY;
    expect(time([bellows(psi(500), { was: "shut" })], [psi(100)], 900, 600)).toBe(never);
    expect(time([bellows(psi(700))], [psi(100)], 900, 600)).toBe(never);
    expect(time([hole(1e-5)], [psi(650)], 900, 600)).toBe(never);
  });
});

describe("what cannot bleed", () => {
  it.each([
    ["no producing pressure for a path", () => time([hole(1e-5)], [], 900, 600), "production"],
    ["a bleed upward", () => time([hole(1e-5)], [psi(100)], 600, 900), "from"],
    ["a bleed to nothing", () => time([hole(1e-5)], [psi(100)], 900, 0), "to"],
    [
      "a casing without volume",
      () =>
        bleedTime([hole(1e-5)], [psi(100)], psi(900), psi(600), { ...storage, volume: 0 }, table),
      "storage_volume",
    ],
    ["a rest from no pressure", () => bleedRest([hole(1e-5)], [psi(100)], Number.NaN), "from"],
  ])("is refused by name: %s", (_, work, key) => {
    expect(work).toThrow(expect.objectContaining({ key }));
  });
});
