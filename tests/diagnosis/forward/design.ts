import type { Chance } from "./chance.ts";
import { columnPressure, gasDensity } from "./gas.ts";
import { chargeAt } from "./nitrogen.ts";
import type { WellTruth } from "./simulation.ts";
import { steadyPressures } from "./tubing.ts";
import {
  ATMOSPHERE,
  BARREL,
  DAY,
  FT,
  fromFahrenheit,
  INCH,
  MSCF,
  PSI,
  STANDARD_AIR,
} from "./units.ts";
import { gasThrough, type ValveTruth } from "./valve.ts";

/**
 * Wells as somebody would have designed them: mandrels spaced down a plot with a safety factor at each transfer, each valve
 * set a little below the one above, an orifice at the bottom.
 */
interface Seat {
  readonly size: "1 in" | "1-1/2 in";
  readonly bellows: number;
  readonly port: number;
  readonly ratio: number;
}

/** Bellows and seat areas of the trade's two sizes; ratios as makers publish them, from memory. */
const seats: readonly Seat[] = [
  { size: "1 in", bellows: 0.31, port: 0.125, ratio: 0.043 },
  { size: "1 in", bellows: 0.31, port: 0.1875, ratio: 0.094 },
  { size: "1 in", bellows: 0.31, port: 0.25, ratio: 0.165 },
  { size: "1-1/2 in", bellows: 0.77, port: 0.1875, ratio: 0.038 },
  { size: "1-1/2 in", bellows: 0.77, port: 0.25, ratio: 0.066 },
  { size: "1-1/2 in", bellows: 0.77, port: 0.3125, ratio: 0.103 },
  { size: "1-1/2 in", bellows: 0.77, port: 0.375, ratio: 0.147 },
];

/** What the office wrote of a valve when it was set. Lengths in inches, pressures Pa absolute. */
export interface DesignedValve {
  readonly kind: ValveTruth["kind"];
  readonly size: Seat["size"];
  readonly bellows: number;
  readonly port: number;
  readonly ratio: number;
  readonly testRack: number | undefined;
  /** psi for an inch of travel */
  readonly loadRate: number;
}

export interface Design {
  readonly pockets: readonly { readonly depth: number; readonly valve: DesignedValve }[];
  readonly kickOff: number;
  readonly operating: number;
  /** kg/s */
  readonly rate: number;
}

export interface DrawnWell {
  readonly truth: WellTruth;
  readonly design: Design;
}

const standardMass = (mscfPerDay: number, gravity: number) =>
  ((mscfPerDay * MSCF) / DAY) * STANDARD_AIR * gravity;

/** Pressure that opens a valve on the tester, from what it shall close at in the well. */
function testRackOf(closing: number, ratio: number, temperature: number): number {
  const at60 = chargeAt(closing, temperature, fromFahrenheit(60));
  return (at60 - ATMOSPHERE * ratio) / (1 - ratio);
}

export function chargeOf(testRack: number, ratio: number): number {
  return testRack * (1 - ratio) + ATMOSPHERE * ratio;
}

function seatFor(
  size: Seat["size"],
  rate: number,
  upstream: number,
  downstream: number,
  gravity: number,
): Seat {
  const fitting = seats.filter((seat) => seat.size === size);
  const density = gasDensity(upstream, 340, gravity);
  const enough = fitting.find(
    ({ port }) =>
      gasThrough((Math.PI / 4) * (port * INCH) ** 2, 0.8, upstream, downstream, density) > rate,
  );
  return (enough ?? fitting.at(-1)) as Seat;
}

/** A well drawn at random with its design; undefined where the plot gives fewer than three mandrels. */
export function drawWell(chance: Chance): DrawnWell | undefined {
  const gravity = chance.between(0.6, 0.75);
  const small = chance.yes(0.7);
  const perforations = chance.between(5200, 9000) * FT;
  const rockTop = fromFahrenheit(chance.between(65, 85));
  const rockGradient = chance.between(0.011, 0.018) / 1.8 / FT;
  const waterCut = chance.between(0.3, 0.9);
  const api = chance.between(28, 40);
  const oil = (141.5 / (131.5 + api)) * 999;
  const liquidDensity = waterCut * 1060 + (1 - waterCut) * oil;
  const separator = chance.between(75, 160) * PSI + ATMOSPHERE;
  const kickOff = chance.between(950, 1450) * PSI + ATMOSPHERE;
  const mscf = small ? chance.between(350, 800) : chance.between(600, 1300);
  const rate = standardMass(mscf, gravity);
  const tubingInside = (small ? 2.441 : 2.992) * INCH;
  const loadGradient = (liquidDensity + 20) * 9.80665;
  const size = small ? "1 in" : "1-1/2 in";

  const gasAt = (surface: number, depth: number) =>
    columnPressure(surface, depth, rockTop + (rockGradient * depth) / 2 + 6, gravity);
  const hotAt = (depth: number) =>
    rockTop + rockGradient * depth + 0.12 * rockGradient * (perforations - depth);
  const productivity = (chance.between(0.4, 2) * BARREL) / DAY / PSI;
  const reservoirPressure = chance.between(0.28, 0.4) * (PSI / FT) * perforations;
  // The transfer line: a traverse at the rates hoped for, with a safety factor on what it rises.
  const hoped = Math.min(productivity * 0.35 * reservoirPressure, (900 * BARREL) / DAY);
  const grid = Array.from({ length: 61 }, (_, i) => (perforations * i) / 60);
  const traverse = steadyPressures(
    {
      inside: tubingInside,
      bottom: perforations,
      liquidDensity,
      gravity,
      distribution: 1.2,
      drift: 1,
      dissolves: 0,
    },
    separator + 15 * PSI,
    hoped,
    () => rate,
    hotAt,
    grid,
  );
  const factor = chance.between(1.15, 1.35);
  const traverseAt = (depth: number) => {
    const place = Math.min(59, Math.floor((depth / perforations) * 60));
    const [low, high] = [traverse[place] as number, traverse[place + 1] as number];
    return low + (high - low) * ((depth / perforations) * 60 - place);
  };
  const tubingAt = (depth: number) => separator + factor * (traverseAt(depth) - separator);
  const drop = chance.between(18, 30) * PSI;
  const lowest = perforations - chance.between(100, 500) * FT;

  const depths: number[] = [];
  // Surface closing pressure of each valve: the annulus has that at least while the next one is reached.
  const closesAt = (n: number) => kickOff - 15 * PSI - n * drop;
  let casing = kickOff;
  let from = 0;
  let start = separator;
  for (let n = 0; n < 8; n += 1) {
    let depth = from + 100 * FT;
    while (
      depth < lowest &&
      start + loadGradient * (depth - from) < gasAt(casing, depth) - 45 * PSI
    ) {
      depth += 10 * FT;
    }
    depths.push(depth);
    if (depth >= lowest || depth - from < 220 * FT) break;
    from = depth;
    start = tubingAt(depth);
    casing = closesAt(n);
  }
  if (depths.length < 3) return undefined;

  const last = depths.length - 1;
  const operating = closesAt(last - 1) - chance.between(25, 60) * PSI;
  const production = chance.yes(0.1);
  const pockets = depths.map((depth, i): Design["pockets"][number] => {
    const outside = gasAt(closesAt(i), depth);
    const inside = tubingAt(depth);
    const loadRate = chance.between(small ? 350 : 250, small ? 700 : 500);
    if (i === last) {
      const upstream = gasAt(operating, depth);
      const density = gasDensity(upstream, hotAt(depth), gravity);
      let sixtyFourths = 8;
      // At times for less gas than the well gets, and the casing then stands up among the valves above; at times for more.
      const [least, most] = chance.pick([
        [0.55, 0.9],
        [1, 1],
        [1.1, 1.7],
      ] as const);
      const short = chance.between(least, most);
      while (
        sixtyFourths < 28 &&
        gasThrough(
          (Math.PI / 4) * ((sixtyFourths / 64) * INCH) ** 2,
          0.82,
          upstream,
          Math.min(traverseAt(depth), upstream - 40 * PSI),
          density,
        ) <
          rate * short
      ) {
        sixtyFourths += 1;
      }
      const [any] = seats.filter((seat) => seat.size === size);
      return {
        depth,
        valve: {
          kind: "orifice",
          size,
          bellows: any?.bellows ?? 0.31,
          port: sixtyFourths / 64,
          ratio: 0,
          testRack: undefined,
          loadRate,
        },
      };
    }
    const seat = seatFor(size, rate, outside, inside, gravity);
    // Of a production-operated valve the tubing opens it: a little above the pressure to which the valve below draws it.
    const testRack = production
      ? testRackOf(inside + 0.1 * (outside - inside), seat.ratio, hotAt(depth))
      : testRackOf(outside, seat.ratio, hotAt(depth));
    return {
      depth,
      valve: {
        kind: production ? "production-operated" : "injection-operated",
        size,
        bellows: seat.bellows,
        port: seat.port,
        ratio: seat.ratio,
        testRack,
        loadRate,
      },
    };
  });

  const truth: WellTruth = {
    gravity,
    tubingInside,
    tubingOutside: (small ? 2.875 : 3.5) * INCH,
    casingInside: (small && chance.yes(0.5) ? 4.892 : 6.276) * INCH,
    perforations,
    rockTop,
    rockGradient,
    liquidDensity,
    waterCut,
    api,
    productivity,
    reservoirPressure,
    formationGas:
      (1 - waterCut) * chance.between(80, 350) * (MSCF / 1000 / BARREL) * STANDARD_AIR * gravity,
    distribution: chance.between(1.1, 1.22),
    drift: chance.between(0.7, 1.3),
    separator,
    flowline: chance.between(0.5e8, 3e8),
    daysOnLift: chance.between(20, 900),
    pockets: pockets.map(({ depth, valve }) => ({
      depth,
      warmth: chance.between(0.75, 1),
      valve: asBuilt(valve, chance),
    })),
    supply: chance.yes(0.6)
      ? { kind: "rate", rate, pressure: kickOff + chance.between(20, 120) * PSI }
      : {
          kind: "choke",
          diameter: chokeFor(rate, kickOff + 80 * PSI, operating, gravity),
          pressure: kickOff + 80 * PSI,
        },
  };
  return { truth, design: { pockets, kickOff, operating, rate } };
}

function chokeFor(rate: number, supply: number, casing: number, gravity: number): number {
  const density = gasDensity(supply, 310, gravity);
  const unit = gasThrough(Math.PI / 4, 0.85, supply, casing, density);
  return Math.sqrt(rate / unit);
}

/** The valve as it sits in the well: the shop's set and the port's coefficient are not what the card says. */
export function asBuilt(valve: DesignedValve, chance: Chance): ValveTruth {
  const off = chance.normal(1, 0.008);
  return {
    kind: valve.kind,
    port: valve.port * INCH,
    ratio: valve.ratio,
    charge60: valve.testRack === undefined ? 0 : chargeOf(valve.testRack * off, valve.ratio),
    spring: 0,
    loadRate: ((valve.loadRate * PSI) / INCH) * chance.between(0.9, 1.1),
    dischargeCoefficient: chance.between(0.75, 0.9),
    heldOpen: 0,
    clear: 1,
    beside: 0,
  };
}
