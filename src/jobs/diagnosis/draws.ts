import { pseudoRandom } from "../../calc/pseudoRandom.ts";
import { circle } from "../../calc/seat.ts";
import { chokeSize, type LiftedWell } from "./liftedWell.ts";
import { middleOf, type Observations } from "./observations.ts";
import { uncertain } from "./uncertain.ts";

/** What is drawn of one pocket, standard normals unless it says otherwise. */
export interface PocketDraw {
  readonly set: number;
  readonly closing: number;
  readonly temperature: number;
  readonly areaRatio: number;
  readonly passage: number;
  readonly span: number;
}

/** One draw of what is not known of the well itself, whatever is wrong with it. */
export interface WellDraw {
  readonly pockets: readonly PocketDraw[];
  readonly temperature: number;
  readonly column: number;
  readonly lifted: number;
  readonly below: number;
  /** uniform: what shut before */
  readonly wasShut: number;
}

/** One draw of everything that is not known. The same draws serve every hypothesis, so that chance tells none apart. */
export interface Draw extends WellDraw {
  /** of the injection pressure: what is read less what is predicted, today as when the well ran, Pa */
  readonly offset: number;
  /** what has changed since then */
  readonly drift: number;
  /** uniform: size of the hole or the shift that the fault brings, its place, and which of two states it leaves */
  readonly size: number;
  readonly place: number;
  readonly turn: number;
  /** whether a hole is drawn near the size that was asked for, and a normal for how near */
  readonly asNeeded: number;
  readonly near: number;
  /** whether a controller holds the rate */
  readonly held: number;
  /** where the liquid stands in a well that is no longer lifted */
  readonly level: number;
  /** uniform, of the surface: which side of a mixture, and normals for where in it */
  readonly mix: readonly [supply: number, choke: number, wellhead: number];
  readonly surface: readonly [supply: number, choke: number, wellhead: number];
  readonly faultAtSurface: number;
}

const SEED = 20_261_125;

/** Uniform between 0 and 1, and standard normals, always the same ones. */
export function chances() {
  const uniform = pseudoRandom(SEED);
  const normal = () => {
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    return radius * Math.cos(2 * Math.PI * uniform());
  };
  return { uniform, normal };
}
type Chances = ReturnType<typeof chances>;

/** Spread evenly over its range, in an order of its own: what decides most is not left to chance. */
const even01 = (index: number, step: number) => ((index + 0.5) * step) % 1;

export const wellDrawOf = (
  { pockets }: LiftedWell,
  index: number,
  { uniform, normal }: Chances,
): WellDraw => ({
  pockets: pockets.map(() => ({
    set: normal(),
    closing: normal(),
    temperature: normal(),
    areaRatio: normal(),
    passage: normal(),
    span: uniform(),
  })),
  temperature: normal(),
  column: normal(),
  lifted: normal(),
  below: normal(),
  wasShut: even01(index, 0.569840291),
});

/** A draw of the well with one of what may be wrong and of its surface. */
export const drawWith = (
  well: WellDraw,
  offset: number,
  index: number,
  { uniform, normal }: Chances,
): Draw => ({
  ...well,
  offset,
  drift: normal(),
  size: even01(index, 0.6180339887),
  place: even01(index, 0.7548776662),
  turn: even01(index, 0.3027756377),
  asNeeded: even01(index, 0.7320508076),
  near: normal(),
  held: even01(index, 0.2360679775),
  level: even01(index, 0.4142135624),
  mix: [uniform(), uniform(), uniform()],
  surface: [normal(), normal(), normal()],
  faultAtSurface: uniform(),
});

/** What may be wrong at surface, one at a time. */
export type SurfaceCase =
  | "sound"
  | "supply pressure fell"
  | "choke smaller"
  | "choke larger"
  | "back-pressure";

/** The well's surface in one draw: supply, choke and wellhead, and ln of how much the draw counts. */
export interface Surface {
  readonly supply: number;
  /** Cd A, m2; of a controller, wide open */
  readonly choke: number;
  /** rate that a controller holds, m3/s; undefined of a choke */
  readonly held: number | undefined;
  readonly wellhead: number;
  /** the choke, whatever its bean, lets next to nothing by: lift has stopped */
  readonly isShut: boolean;
  readonly weight: number;
}

/** A spread to draw from and its density; in ln for a choke. */
interface Spread {
  readonly draw: (normal: number, uniform: number) => number;
  readonly density: (value: number) => number;
}

const bell = (middle: number, spread: number): Spread => ({
  draw: (normal) => middle + spread * normal,
  density: (value) =>
    Math.exp(-0.5 * ((value - middle) / spread) ** 2) / (spread * Math.sqrt(2 * Math.PI)),
});
const even = (least: number, most: number): Spread => ({
  draw: (_, uniform) => least + (most - least) * uniform,
  density: (value) => (value >= least && value <= most ? 1 / (most - least) : 0),
});

/**
 * Surfaces for every draw, under one case.
 *
 * Half of the draws of what was read are taken around the reading, so that few are wasted where it says the
 * value is not; each then counts by how likely the case makes it over how often it is drawn.
 */
export function surfacesOf(
  lifted: LiftedWell,
  seen: Observations,
  draws: readonly Draw[],
  which: SurfaceCase,
): Surface[] {
  const nominal = lifted.supply.pressure;
  const supply =
    which === "supply pressure fell"
      ? even(...times(uncertain.supplyFell.spread, nominal))
      : bell(nominal, uncertain.supplyPressure.spread * nominal);
  const rateOr = (sound: number) =>
    which === "choke smaller"
      ? even(...logs(uncertain.chokeSmaller.spread))
      : which === "choke larger"
        ? even(...logs(uncertain.chokeLarger.spread))
        : bell(0, sound);
  const choke = rateOr(uncertain.choke.spread);
  // Ice shuts a bean that is as it is meant to be, and as somebody reads it.
  const bean = bell(0, uncertain.choke.spread);
  const rate = rateOr(uncertain.heldRate.spread);
  const back = uncertain.backPressure.spread;
  const wellheadSpread =
    uncertain.wellhead.spread * (lifted.wellhead - lifted.atmosphere) + WELLHEAD_LEAST;
  const wellhead =
    which === "back-pressure"
      ? even(lifted.wellhead + back[0], lifted.wellhead + back[1])
      : bell(lifted.wellhead, wellheadSpread);
  const readSupply = middleOf(seen.supplyPressure);
  const readWellhead = middleOf(seen.wellhead);
  const implied = impliedChoke(lifted, seen);
  const readRate = middleOf(seen.rate);
  const aroundRate =
    readRate && readRate > 0 ? bell(bounded(Math.log(readRate / lifted.rate)), 0.1) : undefined;
  const around = {
    supply: readSupply === undefined ? undefined : bell(readSupply, 0.01 * readSupply),
    choke: implied === undefined ? undefined : bell(implied, 0.15),
    wellhead:
      readWellhead === undefined ? undefined : bell(readWellhead, 0.02 * readWellhead + 20_000),
  };
  return draws.map((draw) => {
    const isShut = which === "choke smaller" && draw.turn < uncertain.chokeShut.spread;
    // Where somebody read a choke there is one.
    const isHeld = !isShut && seen.choke.length === 0 && draw.held < uncertain.held.spread;
    const [a, b, c] = [
      mixed(supply, around.supply, draw, 0),
      isHeld
        ? mixed(rate, aroundRate, draw, 1)
        : mixed(isShut ? bean : choke, around.choke, draw, 1),
      mixed(wellhead, around.wellhead, draw, 2),
    ];
    // The column is made for so much and no more.
    const highest = Math.min(1.5 * nominal, Math.max(a.value, 1.2 * lifted.atmosphere));
    return {
      supply: highest,
      choke: lifted.choke * (isHeld ? WIDE_OPEN : Math.exp(b.value)),
      held: isHeld ? lifted.rate * Math.exp(b.value) : undefined,
      wellhead: Math.max(c.value, lifted.atmosphere),
      isShut,
      weight: a.weight + b.weight + c.weight,
    };
  });
}

/** A controller's valve wide open, over the choke that would give the planned rate. Chosen by Latchline, no source. */
const WIDE_OPEN = 4;
const WELLHEAD_LEAST = 70_000; // Pa, 10 psi

const times = ([least, most]: readonly [number, number], by: number) =>
  [least * by, most * by] as const;
const logs = ([least, most]: readonly [number, number]) =>
  [Math.log(least), Math.log(most)] as const;

function mixed(prior: Spread, around: Spread | undefined, draw: Draw, which: 0 | 1 | 2) {
  const { mix, surface, faultAtSurface } = draw;
  const fromReading = around !== undefined && mix[which] < 0.5;
  const value = (fromReading ? around : prior).draw(surface[which], faultAtSurface);
  if (!around) return { value, weight: 0 };
  const likely = prior.density(value);
  return {
    value,
    weight:
      likely > 0
        ? Math.log(likely) - Math.log(0.5 * likely + 0.5 * around.density(value))
        : -Infinity,
  };
}

/** ln of the choke that the readings ask for over the one that is meant to be. */
function impliedChoke(lifted: LiftedWell, seen: Observations): number | undefined {
  const read = middleOf(seen.choke);
  if (read !== undefined) return bounded(Math.log(chokeSize(read) / lifted.choke));
  const rate = middleOf(seen.rate);
  const injection = middleOf(seen.injection);
  if (rate === undefined || injection === undefined || rate <= 0) return undefined;
  const supply = middleOf(seen.supplyPressure) ?? lifted.supply.pressure;
  const perArea = lifted.passage.rate(
    1,
    supply,
    Math.min(injection, 0.97 * supply),
    lifted.supply.temperature,
  );
  return bounded(Math.log(rate / perArea / lifted.choke));
}

const bounded = (value: number) => Math.min(1.5, Math.max(-2.5, value));

/** Between two limits, evenly in the logarithm. */
export const logBetween = ([least, most]: readonly [number, number], uniform: number) =>
  least * (most / least) ** uniform;

export const holeOf = (across: number) => 0.8 * circle(across);
