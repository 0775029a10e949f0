import type { Gas } from "./gas.ts";
import { gasColumn } from "./gasColumn.ts";
import {
  gasPassage,
  gasPassageMethod,
  type PassageGas,
  STANDARD_BASE,
  standardRate,
} from "./gasPassage.ts";
import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import { absolutePa, kelvin, type VerticalM, verticalM } from "./units.ts";
import { valveMethod } from "./valve.ts";

/**
 * A well on continuous lift as a network: gas comes in through the choke at surface, goes down one side and leaves
 * it through every path that is open. Made to be solved many thousands of times: what does not change from one
 * solve to the next is worked out before (InjectionColumn, PassageTable).
 */
export const liftNetworkMethod: Method = {
  name: "Gas into the well and out of it, in balance",
  formula:
    "q(choke, psupply → pi) = Σ q(path, pi(h) → pt(h)); a bellows path opens at [Pd − R Pother]/(1 − R) + Ps, shuts at Pd + Ps (1 − R), and is open in proportion from there up to a full port",
  source: `${gasPassageMethod.source}; ${valveMethod.source}; friction of the gas going down is not counted`,
  validity: gasPassageMethod.validity,
};

/** ln(pressure at a depth / pressure at surface) of gas at rest, as a + b p + c p², p at surface, absolute, Pa. */
export type Rise = readonly [a: number, b: number, c: number];

/** Pressure at a depth from that at surface, absolute, Pa. */
export function atDepth([a, b, c]: Rise, surface: number): number {
  return surface * Math.exp(a + surface * (b + c * surface));
}

/** Pressure at surface from that at a depth: atDepth turned round. */
export function atSurface(rise: Rise, pressure: number): number {
  let surface = pressure / Math.exp(rise[0]);
  // The rise hangs little on the pressure: each round leaves a hundredth of the error.
  for (let round = 0; round < 6; round += 1) surface *= pressure / atDepth(rise, surface);
  return surface;
}

export interface InjectionColumn {
  /** @param depth true vertical, m, 0 or more; below the deepest of the table its end slope is carried on */
  riseAt(depth: number): Rise;
}

const COLUMN_STEP = 75;

/**
 * Gas at rest at every depth and for any surface pressure, from three integrations.
 *
 * @param deepest    true vertical, m, above 0
 * @param highest    surface pressure that may come up, absolute, Pa; the table is made at 0.15, 0.575 and 1 of it
 * @throws InputError as gasColumn
 * Between the three pressures within 0.02 percent of the integration (tested).
 */
export function injectionColumn(
  gas: Gas,
  temperatures: TemperatureProfile,
  deepest: number,
  highest: number,
): InjectionColumn {
  requireNumber("deepest", deepest, "above 0", (d) => d > 0);
  requireNumber("highest", highest, "above 0", (p) => p > 0);
  const count = Math.max(2, Math.ceil(deepest / COLUMN_STEP));
  const depths: VerticalM[] = Array.from({ length: count + 1 }, (_, i) =>
    verticalM((deepest * i) / count),
  );
  const surfaces = [0.15 * highest, 0.575 * highest, highest] as const;
  const columns = surfaces.map((surface) =>
    gasColumn(absolutePa(surface), verticalM(0), depths, gas, temperatures).pressures.map(
      (pressure) => Math.log(pressure / surface),
    ),
  );
  const [x0, x1, x2] = surfaces;
  const rises = depths.map((_, i): Rise => {
    const [y0, y1, y2] = columns.map((column) => column[i] as number) as [number, number, number];
    const first = (y1 - y0) / (x1 - x0);
    const c = ((y2 - y1) / (x2 - x1) - first) / (x2 - x0);
    const b = first - c * (x0 + x1);
    return [y0 - x0 * (b + c * x0), b, c];
  });
  return {
    riseAt(depth) {
      const place = (depth / deepest) * count;
      const i = Math.min(count - 1, Math.max(0, Math.floor(place)));
      const share = place - i;
      const above = rises[i] as Rise;
      const under = rises[i + 1] as Rise;
      const between = (k: 0 | 1 | 2) => above[k] + share * (under[k] - above[k]);
      return [between(0), between(1), between(2)];
    },
  };
}

export interface PassageTable {
  /**
   * @param size        Cd A, m2
   * @param upstream    absolute, Pa
   * @param downstream  absolute, Pa; nothing passes where it is at or above upstream
   * @param temperature upstream, K
   * @returns m3/s at STANDARD_BASE
   */
  rate(size: number, upstream: number, downstream: number, temperature: number): number;
}

const TABLE = 512;

/** gasPassage for one gas, its flow function tabulated: within 0.01 percent of it (tested). @throws InputError as gasPassage */
export function passageTable(gas: PassageGas): PassageTable {
  const squares = Float64Array.from({ length: TABLE + 1 }, (_, i) => {
    const { rate } = gasPassage(
      absolutePa(1e6),
      absolutePa(Math.max(1, (1e6 * i) / TABLE)),
      kelvin(300),
      { area: 1, dischargeCoefficient: 1 },
      gas,
    );
    return (standardRate(rate) / 1e6) ** 2 * 300;
  });
  return {
    rate(size, upstream, downstream, temperature) {
      if (downstream >= upstream) return 0;
      const place = (TABLE * downstream) / upstream;
      const i = Math.floor(place);
      const low = squares[i] as number;
      const square = low + (place - i) * ((squares[i + 1] as number) - low);
      return size * upstream * Math.sqrt(square / temperature);
    },
  };
}

/** A bellows that opens and shuts a path. */
export interface BellowsGate {
  readonly kind: "bellows";
  readonly operatedBy: "injection" | "production";
  /** Pd at the valve's temperature, absolute, Pa */
  readonly dome: number;
  readonly areaRatio: number;
  /** Ps, Pa */
  readonly spring: number;
  /** by how much the acting pressure has to exceed the closing pressure for the full port, Pa, above 0 */
  readonly span: number;
  /**
   * How the well got there. Never shut since the well was unloaded from above: open from the closing pressure up.
   * It has been shut: open only once the opening pressure was reached, or while nothing below it passes gas.
   */
  readonly was: "open" | "shut";
}

/** A way for gas from the side it is injected on to the side that produces. */
export interface LiftPath {
  /** true vertical, m */
  readonly depth: number;
  readonly rise: Rise;
  /** of the gas there, K */
  readonly temperature: number;
  /** Cd A, m2, 0 for a path that passes nothing */
  readonly size: number;
  readonly gate: { readonly kind: "hole" } | BellowsGate;
}

/** What gas comes in through. */
export interface Supply {
  /** upstream of the choke, absolute, Pa */
  readonly pressure: number;
  readonly temperature: number;
  /** Cd A of the choke, m2; of a controller, wide open */
  readonly size: number;
  /** rate that a controller holds as long as it can, m3/s; none: the choke is fixed */
  readonly held?: number | undefined;
}

/** What comes in against a pressure at surface, m3/s. */
function comesIn({ pressure, temperature, size, held }: Supply, at: number, table: PassageTable) {
  const through = table.rate(size, pressure, at, temperature);
  return held === undefined ? through : Math.min(held, through);
}

/** Pressures on the producing side at the paths, absolute, Pa, from the gas that enters at each, m3/s. */
export interface ProducingSide {
  /** whether the rates matter: a survey is what it is */
  readonly movesWithRates: boolean;
  pressures(rates: readonly number[]): readonly number[];
}

export interface LiftState {
  /** injection pressure at surface, absolute, Pa */
  readonly surface: number;
  /** m3/s at STANDARD_BASE */
  readonly rate: number;
  /** through each path */
  readonly rates: readonly number[];
  readonly production: readonly number[];
  /** next to nothing passes: the injection side has climbed to the supply pressure */
  readonly atSupply: boolean;
  /** rates and producing pressures had come to rest on each other */
  readonly settled: boolean;
}

export function closingOf({ dome, spring, areaRatio }: BellowsGate): number {
  return dome + spring * (1 - areaRatio);
}

export function openingOf({ dome, spring, areaRatio }: BellowsGate, other: number): number {
  return (dome - areaRatio * other) / (1 - areaRatio) + spring;
}

/** What a path passes at an injection pressure there; `isOpen` of a bellows that has not been shut, or has opened again. */
function passes(
  path: LiftPath,
  isOpen: boolean,
  at: number,
  production: number,
  table: PassageTable,
) {
  const { gate, size } = path;
  if (size <= 0 || production >= at) return 0;
  if (gate.kind === "hole") return table.rate(size, at, production, path.temperature);
  if (!isOpen) return 0;
  const acting = gate.operatedBy === "injection" ? at : production;
  const share = Math.min(1, (acting - closingOf(gate)) / gate.span);
  return share <= 0 ? 0 : table.rate(size * share, at, production, path.temperature);
}

const ROUNDS = 8;
/** Of the rates, from one round to the next. */
const SETTLED = 0.02;

/**
 * The well in balance: the surface pressure at which as much comes in as goes out.
 *
 * What goes out rises with that pressure and what comes in falls, so there is one balance for given states of the
 * gates; it is bracketed between next to nothing and the supply pressure. Where no path passes anything the injection side
 * climbs to the supply pressure and the rate is 0; where more could go out than comes in it bleeds down until what
 * is left passes as much as comes in. Gates that have been shut are opened one after the other, each where its
 * opening pressure is reached or nothing below it passes, and stay open: that ends after as many solves as there are gates.
 * Pressures on the producing side and rates are brought to rest on each other, half way a round, in at most 8 rounds.
 *
 * @throws InputError for a supply or a path that cannot be
 */
export function liftState(
  paths: readonly LiftPath[],
  supply: Supply,
  side: ProducingSide,
  table: PassageTable,
): LiftState {
  if (!(supply.pressure > 0 && supply.size > 0)) {
    throw new InputError("supply", supply.pressure, "a pressure and a choke above 0");
  }
  const open = paths.map(({ gate }) => gate.kind === "hole" || gate.was === "open");
  let rates: number[] = paths.map(() => 0);
  const fromBelow = paths.map((_, i) => i).sort((a, b) => depthOf(paths, b) - depthOf(paths, a));
  const deepest = fromBelow.find((i) => (paths[i] as LiftPath).size > 0);
  // Begun as a well that is unloaded to its deepest point: where the column below decides, that is how it got there.
  if (deepest !== undefined) {
    rates[deepest] = comesIn(supply, supply.pressure / 2, table);
  }
  let production = side.pressures(rates);
  let surface = supply.pressure;
  let settled = false;
  for (let round = 0; round < ROUNDS && !settled; round += 1) {
    surface = balance(paths, open, supply, production, table, round > 0 ? surface : undefined);
    while (opensAnother(paths, open, fromBelow, surface, production, table)) {
      surface = balance(paths, open, supply, production, table);
    }
    const now = paths.map((path, i) =>
      passes(path, open[i] as boolean, atDepth(path.rise, surface), production[i] as number, table),
    );
    if (!side.movesWithRates) {
      rates = now;
      settled = true;
      break;
    }
    const total = Math.max(sum(now), sum(rates));
    settled = now.every((rate, i) => Math.abs(rate - (rates[i] as number)) <= SETTLED * total);
    // The last round is not averaged: what is handed back belongs to the pressures it was worked out with.
    if (settled || round === ROUNDS - 1) rates = now;
    else {
      rates = now.map((rate, i) => (round < 2 ? rate : 0.5 * (rate + (rates[i] as number))));
      production = side.pressures(rates);
    }
  }
  const rate = sum(rates);
  return {
    surface,
    rate,
    rates,
    production,
    atSupply: surface > 0.995 * supply.pressure,
    settled,
  };
}

const NEEDED_ROUNDS = 4;

/**
 * How large a hole has to be for the well to be in balance at a pressure at surface: liftState asked the other way round.
 *
 * @param paths with the hole among them, whose size is not looked at
 * @param hole  its place in `paths`
 * @param surface injection pressure, absolute, Pa
 * @returns Cd A, m2; undefined where the other paths pass all that comes in, or nothing can pass the hole
 * A gate that has been shut is taken as shut. Producing pressures and rates are brought to rest on each other in 4 rounds.
 */
export function neededSize(
  paths: readonly LiftPath[],
  hole: number,
  surface: number,
  supply: Supply,
  side: ProducingSide,
  table: PassageTable,
): number | undefined {
  const enters = comesIn(supply, surface, table);
  const there = paths[hole] as LiftPath;
  const at = atDepth(there.rise, surface);
  let rates = paths.map((_, i) => (i === hole ? enters : 0));
  let size: number | undefined;
  for (let round = 0; round < NEEDED_ROUNDS; round += 1) {
    const production = side.pressures(rates);
    rates = paths.map((path, i) => {
      if (i === hole) return 0;
      const isOpen = path.gate.kind === "hole" || path.gate.was === "open";
      return passes(path, isOpen, atDepth(path.rise, surface), production[i] as number, table);
    });
    const left = enters - sum(rates);
    const each = table.rate(1, at, production[hole] as number, there.temperature);
    size = left > 0 && each > 0 ? left / each : undefined;
    rates[hole] = Math.max(0, left);
  }
  return size;
}

const sum = (values: readonly number[]) => values.reduce((all, each) => all + each, 0);

/** Opens the gates that this balance opens; false when it opens none. */
function opensAnother(
  paths: readonly LiftPath[],
  open: boolean[],
  fromBelow: readonly number[],
  surface: number,
  production: readonly number[],
  table: PassageTable,
): boolean {
  let passesBelow = false;
  // What passes below a gate lets it stay shut.
  for (const i of fromBelow) {
    const path = paths[i] as LiftPath;
    const at = atDepth(path.rise, surface);
    const other = production[i] as number;
    if (path.gate.kind === "bellows" && !open[i] && path.size > 0) {
      const injection = path.gate.operatedBy === "injection";
      const acting = injection ? at : other;
      const opening = openingOf(path.gate, injection ? other : at);
      if (acting >= opening || (!passesBelow && acting > closingOf(path.gate) && at > other)) {
        open[i] = true;
        return true;
      }
    }
    passesBelow ||= passes(path, open[i] as boolean, at, other, table) > 0;
  }
  return false;
}

const depthOf = (paths: readonly LiftPath[], i: number) => (paths[i] as LiftPath).depth;

/** Of the supply pressure: a hundredth of a psi, far below what a gauge shows. */
const NARROW = 1e-5;
const NEAR = 0.99;

function balance(
  paths: readonly LiftPath[],
  open: readonly boolean[],
  supply: Supply,
  production: readonly number[],
  table: PassageTable,
  near?: number,
): number {
  const excess = (surface: number) => {
    let out = -comesIn(supply, surface, table);
    for (let i = 0; i < paths.length; i += 1) {
      const path = paths[i] as LiftPath;
      if (path.size <= 0 || !open[i]) continue;
      out += passes(path, true, atDepth(path.rise, surface), production[i] as number, table);
    }
    return out;
  };
  let low = 0.001 * supply.pressure;
  let high = supply.pressure;
  let lowExcess = Number.NaN;
  let highExcess = Number.NaN;
  if (near !== undefined) {
    // From one round to the next the balance moves little: a narrow bracket where it holds, one end of it where not.
    const [under, over] = [NEAR * near, Math.min(high, near / NEAR)];
    const underExcess = excess(under);
    if (underExcess < 0) {
      low = under;
      lowExcess = underExcess;
      const overExcess = excess(over);
      if (overExcess > 0) {
        high = over;
        highExcess = overExcess;
      }
    } else {
      high = under;
      highExcess = underExcess;
    }
  }
  if (Number.isNaN(highExcess)) highExcess = excess(high);
  if (highExcess <= 0) return high;
  if (Number.isNaN(lowExcess)) lowExcess = excess(low);
  if (lowExcess >= 0) return low;
  // False position with Illinois' halving, which keeps the bracket and does not stall on one end.
  let side = 0;
  for (let i = 0; i < 60 && high - low > NARROW * supply.pressure; i += 1) {
    const guess = (low * highExcess - high * lowExcess) / (highExcess - lowExcess);
    // Every fourth step halves: near no drop the rate has an upright tangent, where straight lines creep.
    const x = i % 4 === 3 || !(guess > low && guess < high) ? (low + high) / 2 : guess;
    const value = excess(x);
    if (Math.abs(value) < 1e-9) return x;
    if (value < 0) {
      low = x;
      lowExcess = value;
      if (side === -1) highExcess /= 2;
      side = -1;
    } else {
      high = x;
      highExcess = value;
      if (side === 1) lowExcess /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}

/**
 * Pressures on the producing side by stated gradients, with gas entering at several depths.
 *
 *   g = gbelow − (gbelow − glifted) s(Q / Qdesign),  s(x) = x (1 + k) / (x + k), at least glifted / 2,
 *
 * Q the gas that has entered at or below a stretch: no gas, no relief; the design's gas, the design's gradient; more gas
 * relieves ever less. s is how the share of gas in a column grows by drift flux, see slipOf. No gas takes the gradient to
 * nothing: its own weight and friction stay. That half of the design's is left is chosen by Latchline, no source.
 *
 * @param depths  [n] of the paths, m, in any order
 * @param entries [n] gas that enters at each, in any one unit of rate, and the design's in the same
 * @returns [n] absolute, Pa
 */
export function liftedPressures(
  depths: readonly number[],
  entries: readonly number[],
  wellhead: number,
  gradients: {
    readonly lifted: number;
    readonly below: number;
    readonly design: number;
    /** k, see slipOf */
    readonly slip: number;
  },
): number[] {
  const order = depths
    .map((_, i) => i)
    .sort((a, b) => (depths[a] as number) - (depths[b] as number));
  let through = sum(entries);
  let pressure = wellhead;
  let depth = 0;
  const answers: number[] = depths.map(() => 0);
  for (const i of order) {
    const next = depths[i] as number;
    const relief = relieved(through / gradients.design, gradients.slip);
    const slope = gradients.below - (gradients.below - gradients.lifted) * relief;
    pressure += (next - depth) * Math.max(slope, gradients.lifted / 2);
    depth = next;
    answers[i] = pressure;
    through -= entries[i] as number;
  }
  return answers;
}

/** s of liftedPressures: 0 without gas, 1 at the design's, 1 + k at most. */
export function relieved(share: number, slip: number): number {
  const gas = Math.max(0, share);
  return gas === 0 ? 0 : (gas * (1 + slip)) / (gas + slip);
}

/**
 * k of liftedPressures: how much of the design's gas it takes to relieve half of what any amount could.
 *
 *   α = vg / (1.2 (vg + vl) + 0.5 m/s);  with own gas vo already there, α(vo + x v) − α(vo) ∝ x / (x + k),
 *   k = (vo + vl + 0.5/1.2 m/s) / v
 *
 * α the share of gas in the column, all v at the pressure of the middle of the lifted column: v of the design's lift gas, vo
 * of the well's own, vl of the liquid.
 *
 * @param lift, own m3/s at STANDARD_BASE, lift above 0; liquid m3/s
 * @param area      free, m2
 * @param pressure  mean, absolute, Pa; temperature mean, K
 * Source: drift flux (Zuber and Findlay, 1965), 1.2 and 0.5 m/s as in tracerTimeMethod, from memory.
 */
export function slipOf(
  stream: { readonly lift: number; readonly own: number; readonly liquid: number },
  area: number,
  pressure: number,
  temperature: number,
): number {
  const speedOf = (standard: number) =>
    (standard * STANDARD_BASE.pressure * temperature) /
    (pressure * STANDARD_BASE.temperature * area);
  return (speedOf(stream.own) + stream.liquid / area + 0.5 / 1.2) / speedOf(stream.lift);
}
