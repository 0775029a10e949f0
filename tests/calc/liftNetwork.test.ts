import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gasByGravity } from "../../src/calc/gasByGravity.ts";
import { gasColumn } from "../../src/calc/gasColumn.ts";
import { gasPassage, standardRate } from "../../src/calc/gasPassage.ts";
import {
  atDepth,
  atSurface,
  injectionColumn,
  type LiftPath,
  liftedPressures,
  liftState,
  neededSize,
  type ProducingSide,
  passageTable,
  slipOf,
} from "../../src/calc/liftNetwork.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  absolutePa,
  fromDegF,
  fromPsia,
  kelvin,
  PA_PER_PSI,
  verticalM,
} from "../../src/calc/units.ts";

const gas = gasByGravity({ specificGravity: 0.65, co2: 0.01, h2s: 0, n2: 0.01 });
const temperatures = temperatureProfile([
  { depth: verticalM(0), temperature: fromDegF(100) },
  { depth: verticalM(2000), temperature: fromDegF(170) },
]);
const passing = { molarMass: gas.molarMass, heatCapacityRatio: 1.27 };
const table = passageTable(passing);
const column = injectionColumn(gas, temperatures, 2000, fromPsia(1500));
const psi = (value: number) => fromPsia(value) as number;

const at = (pressures: readonly number[]): ProducingSide => ({
  movesWithRates: false,
  pressures: () => pressures,
});
const hole = (depth: number, size: number): LiftPath => ({
  depth,
  rise: column.riseAt(depth),
  temperature: 300,
  size,
  gate: { kind: "hole" },
});
const bellows = (depth: number, closing: number, was: "open" | "shut", size = 1e-5): LiftPath => ({
  ...hole(depth, size),
  gate: {
    kind: "bellows",
    operatedBy: "injection",
    dome: closing,
    areaRatio: 0.1,
    spring: 0,
    span: psi(30),
    was,
  },
});
const supply = { pressure: psi(1100), temperature: 300, size: 8e-6 };

describe("the tables that the network stands on", () => {
  // Tolerance: 0.02 percent, a fifth of a psi at 1,000 psi, which no gauge shows.
  it.each([300, 700, 1000, 1400])("gas column from %i psia at surface", (surface) => {
    for (const depth of [150, 990, 1640, 2000]) {
      const { pressures } = gasColumn(
        fromPsia(surface),
        verticalM(0),
        [verticalM(depth)],
        gas,
        temperatures,
      );
      const answer = atDepth(column.riseAt(depth), psi(surface));
      expect(Math.abs(answer / (pressures[0] as number) - 1)).toBeLessThan(2e-4);
      expect(atSurface(column.riseAt(depth), answer) / psi(surface)).toBeCloseTo(1, 8);
    }
  });
  it.each([0.1, 0.6, 0.9, 0.99])("gas through a port at a pressure ratio of %d", (ratio) => {
    const exact = gasPassage(
      absolutePa(6e6),
      absolutePa(6e6 * ratio),
      kelvin(310),
      { area: 2e-5, dischargeCoefficient: 0.8 },
      passing,
    );
    const answer = table.rate(1.6e-5, 6e6, 6e6 * ratio, 310);
    expect(Math.abs(answer / standardRate(exact.rate) - 1)).toBeLessThan(1e-4);
  });
});

describe("a well in balance", () => {
  it("a hole twice the choke's size, both at the speed of sound, takes the pressure there to half of the supply", () => {
    // Critical flow goes with size times upstream pressure; both at 300 K: 8 × 1,100 = 16 × 550.
    const state = liftState([hole(1000, 16e-6)], supply, at([psi(150)]), table);
    expect(atDepth(column.riseAt(1000), state.surface) / PA_PER_PSI).toBeCloseTo(550, 1);
  });
  it("climbs to the supply pressure where nothing is open", () => {
    const state = liftState([bellows(1000, psi(1500), "shut")], supply, at([psi(400)]), table);
    expect(state).toMatchObject({ rate: 0, atSupply: true, surface: supply.pressure });
  });
  it("rests between the closing pressure of an open bellows and its full port", () => {
    const path = bellows(1000, psi(900), "open", 3e-5);
    const state = liftState([path], supply, at([psi(400)]), table);
    const there = atDepth(path.rise, state.surface) / PA_PER_PSI;
    expect(there).toBeGreaterThan(900);
    expect(there).toBeLessThan(930);
  });
  it("leaves a bellows shut between closing and opening while a hole below passes, and opens it when that is plugged", () => {
    // Opens at (900 − 0.1 × 400) / 0.9 = 955.6 psia.
    const upper = bellows(1000, psi(900), "shut", 3e-5);
    const running = liftState([upper, hole(1600, 8.4e-6)], supply, at([psi(400), psi(600)]), table);
    const there = atDepth(upper.rise, running.surface) / PA_PER_PSI;
    expect(there).toBeGreaterThan(900);
    expect(there).toBeLessThan(955.6);
    expect(running.rates[0]).toBe(0);
    const plugged = liftState([upper, hole(1600, 0)], supply, at([psi(400), psi(600)]), table);
    expect(plugged.rates[0]).toBeGreaterThan(0);
    expect(atDepth(upper.rise, plugged.surface) / PA_PER_PSI).toBeLessThan(930);
  });
  it("opens a valve that production operates by the pressure on that side", () => {
    const byProduction: LiftPath = {
      ...hole(1000, 1e-5),
      gate: {
        kind: "bellows",
        operatedBy: "production",
        dome: psi(500),
        areaRatio: 0.1,
        spring: 0,
        span: psi(30),
        was: "open",
      },
    };
    const rateAt = (production: number) =>
      liftState([byProduction], supply, at([psi(production)]), table).rate;
    expect(rateAt(480)).toBe(0);
    expect(rateAt(560)).toBeGreaterThan(0);
  });

  const wells = fc.record({
    sizes: fc.array(fc.double({ min: 0, max: 4e-5, noNaN: true }), { minLength: 1, maxLength: 8 }),
    closings: fc.array(fc.double({ min: 300, max: 1300, noNaN: true }), {
      minLength: 8,
      maxLength: 8,
    }),
    kinds: fc.array(fc.constantFrom("hole", "open", "shut"), { minLength: 8, maxLength: 8 }),
    production: fc.array(fc.double({ min: 30, max: 1300, noNaN: true }), {
      minLength: 8,
      maxLength: 8,
    }),
    choke: fc.double({ min: 1e-6, max: 4e-5, noNaN: true }),
    pressure: fc.double({ min: 300, max: 1400, noNaN: true }),
  });
  type Drawn = typeof wells extends fc.Arbitrary<infer T> ? T : never;
  const pathsOf = ({ sizes, closings, kinds }: Drawn) =>
    sizes.map((size, i) => {
      const depth = 300 + 200 * i;
      const kind = kinds[i];
      return kind === "hole" || kind === undefined
        ? hole(depth, size)
        : bellows(depth, psi(closings[i] as number), kind as "open" | "shut", size);
    });
  const solved = (drawn: Drawn, pressure = drawn.pressure, kind?: "open") => {
    const paths = pathsOf(
      kind ? { ...drawn, kinds: drawn.kinds.map((k) => (k === "shut" ? kind : k)) } : drawn,
    );
    const production = drawn.production.slice(0, paths.length).map(psi);
    const from = { pressure: psi(pressure), temperature: 300, size: drawn.choke };
    return { from, state: liftState(paths, from, at(production), table) };
  };

  it("passes as much as comes in, whatever is open", () => {
    fc.assert(
      fc.property(wells, (drawn) => {
        const { from, state } = solved(drawn);
        const into = table.rate(from.size, from.pressure, state.surface, from.temperature);
        const most = table.rate(from.size, from.pressure, 0.3 * from.pressure, from.temperature);
        // The pressure is found to a hundredth of a psi; without a drop the rate rises steeply with it.
        expect(Math.abs(into - state.rate)).toBeLessThan(0.02 * most);
        expect(state.rates.every((rate) => rate >= 0)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
  it("more supply never lowers the injection pressure where no gate has been shut", () => {
    fc.assert(
      fc.property(wells, fc.double({ min: 1, max: 1.4, noNaN: true }), (drawn, more) => {
        const less = solved(drawn, drawn.pressure, "open").state.surface;
        const raised = solved(drawn, drawn.pressure * more, "open").state.surface;
        expect(raised).toBeGreaterThan(less - 200);
      }),
      { numRuns: 200 },
    );
  });
  it("brings rates and producing pressures to rest on each other", () => {
    const depths = [500, 1600];
    const gradients = { lifted: 2300, below: 8000, design: 0.13, slip: 0.4 };
    const side: ProducingSide = {
      movesWithRates: true,
      pressures: (rates) => liftedPressures(depths, rates, 9e5, gradients),
    };
    const state = liftState([hole(500, 2e-6), hole(1600, 8e-6)], supply, side, table);
    expect(state.settled).toBe(true);
    const again = liftedPressures(depths, state.rates, 9e5, gradients);
    expect((again[1] as number) / (state.production[1] as number)).toBeCloseTo(1, 1);
  });
});

describe("pressures of a lifted column", () => {
  it("runs by the design's gradient above the entry of the design's gas and by the dead one below", () => {
    const answer = liftedPressures([1000, 1500, 2000], [0, 5, 0], 1e6, {
      lifted: 2000,
      below: 9000,
      design: 5,
      slip: 0.4,
    });
    // 1 MPa + 1,000 × 2,000; + 500 × 2,000; + 500 × 9,000.
    expect(answer).toEqual([3e6, 4e6, 8.5e6]);
  });
  it("is a dead column without gas", () => {
    expect(
      liftedPressures([1000], [0], 1e6, { lifted: 2000, below: 9000, design: 5, slip: 0.4 }),
    ).toEqual([10e6]);
  });
  it("is relieved by half of the design's gas as drift flux has it", () => {
    // s(1/2) = 0.5 × 1.4 / 0.9 = 0.7778; 9,000 − 7,000 × 0.7778 = 3,556 Pa/m over 1,000 m.
    const [answer] = liftedPressures([1000], [2.5], 1e6, {
      lifted: 2000,
      below: 9000,
      design: 5,
      slip: 0.4,
    });
    expect((answer as number) / 1e6).toBeCloseTo(4.5556, 3);
  });
  it("never loses the weight and friction of the gas, however much of it there is", () => {
    // s = 1.4 × 100 / 100.4 = 1.394 would leave 8,000 − 7,850 × 1.394, below nothing; half of 150 Pa/m stays.
    expect(
      liftedPressures([1000], [500], 1e6, { lifted: 150, below: 8000, design: 5, slip: 0.4 }),
    ).toEqual([1e6 + 75_000]);
  });
});

describe("how soon gas relieves a column", () => {
  const own = { lift: 0.223, own: 0, liquid: 9.2e-4 };
  it("is 0.35 of the design's for 680 Mscf/d and 500 bbl/d in 2.441 in at 4 MPa", () => {
    // 0.223 × 0.101325/4 × 320/288.7 / 0.003019 = 2.074 m/s of lift gas; (0.3047 + 0.4167) / 2.074, by hand.
    expect(slipOf(own, 0.003019, 4e6, 320)).toBeCloseTo(0.348, 2);
  });
  it("grows with the well's own gas, since that has relieved it before", () => {
    // as much gas of its own as is lifted with: one more.
    expect(slipOf({ ...own, own: 0.223 }, 0.003019, 4e6, 320)).toBeCloseTo(1.348, 2);
  });
});

describe("the hole that a pressure asks for", () => {
  const depths = [900, 1600];
  const paths = [hole(900, 1), hole(1600, 8e-6)];
  const side: ProducingSide = {
    movesWithRates: true,
    pressures: (rates) =>
      liftedPressures(depths, rates, 9e5, { lifted: 2300, below: 8000, design: 0.13, slip: 0.4 }),
  };
  it("brings the well to balance at that pressure", () => {
    const size = neededSize(paths, 0, 4.5e6, supply, side, table) as number;
    const sized = paths.map((path, i) => (i === 0 ? { ...path, size } : path));
    // Rates settle to 2 percent in both, and the pressure goes with them.
    expect(liftState(sized, supply, side, table).surface / 4.5e6).toBeCloseTo(1, 1);
  });
  it("is none where the others pass more than comes in", () => {
    const level: ProducingSide = { movesWithRates: false, pressures: () => [3e6, 3e6] };
    const wide = [hole(900, 1), hole(900, 8e-4)];
    expect(neededSize(wide, 0, 4.5e6, supply, level, table)).toBeUndefined();
  });
});

describe("a controller", () => {
  const dead: ProducingSide = { movesWithRates: false, pressures: () => [3e6] };
  const wide = { ...supply, size: 10 * supply.size };
  it("holds its rate however low the injection pressure falls", () => {
    const rates = [4e-6, 8e-6].map(
      (size) => liftState([hole(1200, size)], { ...wide, held: 0.05 }, dead, table).rate,
    );
    for (const rate of rates) expect(rate).toBeCloseTo(0.05, 3);
  });
  it("passes no more than its valve does wide open", () => {
    const choked = liftState([hole(1200, 4e-6)], supply, dead, table);
    const held = liftState([hole(1200, 4e-6)], { ...supply, held: 1e3 }, dead, table);
    expect(held.surface).toBe(choked.surface);
  });
});
