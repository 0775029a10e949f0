import { deviation, gasDensity, specificGasConstant } from "./gas.ts";
import { GRAVITY } from "./units.ts";

/**
 * The tubing as a stack of cells that hold liquid and gas, moved in time. No sound waves: pressure is the weight and
 * friction of what stands above, and each cell passes upward what it cannot hold. Gas slips by drift flux,
 *
 *   jg = αg (C0 j + vd),  C0 1.2,  vd 0.35 sqrt(g D)
 *
 * Source: Zuber and Findlay (J. Heat Transfer 87, 1965) with Nicklin's constants for slugs (1962); both fade to no slip as
 * liquid gets scarce, as a film has no bubbles to rise.
 */
export interface TubingTruth {
  readonly inside: number;
  /** bottom of the lowest cell: where the formation flows in */
  readonly bottom: number;
  readonly liquidDensity: number;
  readonly gravity: number;
  readonly distribution: number;
  /** times 0.35 sqrt(g D) */
  readonly drift: number;
  /** kg of gas that a m3 of the liquid dissolves for each Pa */
  readonly dissolves: number;
}

interface Cell {
  /** depth of its upper end, and how far down it reaches from there, m */
  readonly top: number;
  readonly height: number;
  liquid: number;
  gas: number;
  temperature: number;
  /** at its middle, and at its upper end */
  pressure: number;
  topPressure: number;
  gasDensity: number;
  /** z R T, worked out anew every few steps: it hardly changes from one to the next */
  energy: number;
  /** m/s of both, out of its top */
  speed: number;
  gasSpeed: number;
  source: number;
}

const FRICTION = 0.02;
/** share of gas above which slugs give way to a film */
const FILM = 0.6;
/** share of a cell's misfit that goes in one step */
const CATCH_UP = 0.1;
/** each cell's z is worked out anew once in so many steps */
const REFRESH = 8;

/** Gas runs at `times` the speed of both and `plus`; fading where gas fills nearly all. */
function slipAt(share: number, distribution: number, rise: number) {
  const fade = share < FILM ? 1 : Math.max(0, (1 - share) / (1 - FILM));
  return { times: 1 + (distribution - 1) * fade, plus: rise * fade };
}

/**
 * The same law at rest in time: pressures down the tubing at steady rates.
 *
 * @param gasAt kg/s of free gas that rises past a depth
 */
export function steadyPressures(
  truth: TubingTruth,
  top: number,
  liquid: number,
  gasAt: (depth: number) => number,
  temperatureAt: (depth: number) => number,
  depths: readonly number[],
): number[] {
  const area = (Math.PI / 4) * truth.inside ** 2;
  const rise = truth.drift * 0.35 * Math.sqrt(GRAVITY * truth.inside);
  const step = 15;
  let pressure = top;
  let depth = 0;
  return depths.map((wanted) => {
    while (depth < wanted) {
      const length = Math.min(step, wanted - depth);
      const density = gasDensity(pressure, temperatureAt(depth), truth.gravity);
      const gas = gasAt(depth) / density / area;
      const speed = gas + liquid / area;
      let share = 0.5;
      for (let i = 0; i < 30; i += 1) {
        const slip = slipAt(share, truth.distribution, rise);
        share += 0.5 * (Math.min(1, gas / (slip.times * speed + slip.plus)) - share);
      }
      const mixed = share * density + (1 - share) * truth.liquidDensity;
      pressure += (mixed * GRAVITY + (FRICTION * mixed * speed ** 2) / (2 * truth.inside)) * length;
      depth += length;
    }
    return pressure;
  });
}

/**
 * Lower ends of cells of about a height, one of them at each depth where gas comes in: gas lightens what is above its entry
 * and nothing below it.
 *
 * @param entries rising, between 0 and the bottom; one nearer to the one above than half a height gets no end of its own
 */
export function cellEnds(bottom: number, entries: readonly number[], about: number): number[] {
  const ends: number[] = [];
  let from = 0;
  for (const to of [...entries, bottom]) {
    if (to - from < about / 2 && to !== bottom) continue;
    const cells = Math.max(1, Math.round((to - from) / about));
    for (let i = 1; i <= cells; i += 1) ends.push(from + ((to - from) * i) / cells);
    from = to;
  }
  return ends;
}

export class Tubing {
  readonly cells: Cell[];
  readonly #area: number;
  readonly #truth: TubingTruth;
  readonly #rise: number;
  #turn = 0;
  bottomPressure = 0;
  liquidOut = 0;
  gasOut = 0;
  /** what went in and out since the beginning */
  readonly account = { liquidIn: 0, liquidOut: 0, gasIn: 0, gasOut: 0 };

  /** @param ends of the cells, rising; the last is the bottom */
  constructor(truth: TubingTruth, ends: readonly number[], levelDepth: number, wellhead: number) {
    this.#truth = truth;
    this.#area = (Math.PI / 4) * truth.inside ** 2;
    this.#rise = truth.drift * 0.35 * Math.sqrt(GRAVITY * truth.inside);
    let pressure = wellhead;
    this.cells = ends.map((end, i) => {
      const top = ends[i - 1] ?? 0;
      const height = end - top;
      const volume = this.#area * height;
      const filled = Math.max(0, Math.min(1, (end - levelDepth) / height));
      const density = gasDensity(pressure, 320, truth.gravity);
      const liquid = filled * 0.999 * volume;
      const topPressure = pressure;
      pressure += filled * truth.liquidDensity * GRAVITY * height;
      return {
        top,
        height,
        liquid,
        gas: (volume - liquid) * density,
        temperature: 320,
        pressure,
        topPressure,
        gasDensity: density,
        energy: pressure / density,
        speed: 0,
        gasSpeed: 0,
        source: 0,
      };
    });
    this.weigh(wellhead);
  }

  /** Pressures from the top down. */
  weigh(wellhead: number): void {
    const { liquidDensity, gravity, inside } = this.#truth;
    let pressure = wellhead;
    this.#turn = (this.#turn + 1) % REFRESH;
    for (let i = 0; i < this.cells.length; i += 1) {
      const cell = this.cells[i] as Cell;
      const held = cell.liquid / (this.#area * cell.height);
      const mixed = held * liquidDensity + (1 - held) * cell.gasDensity;
      const friction = (FRICTION * mixed * cell.speed * Math.abs(cell.speed)) / (2 * inside);
      const rise = (mixed * GRAVITY + friction) * cell.height;
      cell.topPressure = pressure;
      cell.pressure = pressure + rise / 2;
      if (i % REFRESH === this.#turn) {
        cell.energy =
          deviation(cell.pressure, cell.temperature, gravity) *
          specificGasConstant(gravity) *
          cell.temperature;
      }
      cell.gasDensity = cell.pressure / cell.energy;
      pressure += rise;
    }
    this.bottomPressure = pressure;
  }

  pressureAt(depth: number): number {
    const index = this.#indexOf(depth);
    const { top, height, topPressure } = this.cells[index] as Cell;
    const foot = this.cells[index + 1]?.topPressure ?? this.bottomPressure;
    return topPressure + ((foot - topPressure) * (depth - top)) / height;
  }

  /** s that gas takes from a depth up to the wellhead, as it runs now. */
  gasUpFrom(depth: number): number {
    return this.cells.reduce(
      (time, { top, height, gasSpeed }) =>
        time + Math.max(0, Math.min(height, depth - top)) / Math.max(0.05, gasSpeed),
      0,
    );
  }

  /** Which cell a depth lies in; an end belongs to the cell above it. */
  #indexOf(depth: number): number {
    const below = this.cells.findIndex(({ top }) => top >= depth);
    return below < 0 ? this.cells.length - 1 : Math.max(0, below - 1);
  }

  /** Where what comes in at a depth begins to count: the cell above the nearest end. */
  #entryCell(depth: number): Cell {
    const cell = this.cells[this.#indexOf(depth)] as Cell;
    const above = this.cells[this.#indexOf(depth) - 1];
    return above && depth - cell.top < cell.height / 2 ? above : cell;
  }

  /** Gas that enters at a depth in the coming step, kg. */
  addGas(depth: number, mass: number): void {
    this.#entryCell(depth).source += mass;
    this.account.gasIn += mass;
  }

  addLiquid(depth: number, volume: number): void {
    this.#entryCell(depth).liquid += volume;
    this.account.liquidIn += volume;
  }

  /**
   * One step, from the bottom up.
   *
   * @param liquidIn m3/s from the formation
   * @param gasIn    kg/s from the formation
   */
  move(liquidIn: number, gasIn: number, step: number): void {
    const { distribution, dissolves } = this.#truth;
    const area = this.#area;
    let liquid = liquidIn * step;
    let gas = gasIn * step;
    this.account.liquidIn += liquid;
    this.account.gasIn += gas;
    for (let i = this.cells.length - 1; i >= 0; i -= 1) {
      const cell = this.cells[i] as Cell;
      const above = i > 0 ? (this.cells[i - 1] as Cell) : undefined;
      // What comes in pushes as much out. What the cell holds too much or too little, since pressure has changed, follows
      // over some steps: at once it would ring.
      const came = gas + cell.source;
      const holds = (mass: number, volumeOfLiquid: number) =>
        mass - Math.min(mass, dissolves * cell.pressure * volumeOfLiquid);
      const held = holds(cell.gas, cell.liquid) / cell.gasDensity;
      const misfit = cell.liquid + held - area * cell.height;
      const share = held / (cell.liquid + held);
      const excess = liquid + holds(came, liquid) / cell.gasDensity + CATCH_UP * misfit;
      cell.liquid += liquid;
      cell.gas += came;
      cell.source = 0;
      const free = holds(cell.gas, cell.liquid);
      const dissolved = cell.gas - free;
      const freeVolume = free / cell.gasDensity;
      const speed = excess / (area * step);
      const slip = slipAt(share, distribution, this.#rise);
      let gasVolume = share * (slip.times * speed + slip.plus) * area * step;
      gasVolume = Math.max(0, Math.min(0.95 * freeVolume, gasVolume));
      let liquidVolume = excess - gasVolume;
      if (liquidVolume > 0.95 * cell.liquid) liquidVolume = 0.95 * cell.liquid;
      if (liquidVolume < 0) {
        // Liquid runs back from the cell above; none comes back from the flowline.
        liquidVolume = above ? -Math.min(-liquidVolume, 0.4 * above.liquid) : 0;
      }
      const withLiquid =
        liquidVolume > 0 && cell.liquid > 0 ? dissolved * (liquidVolume / cell.liquid) : 0;
      const gasMass = gasVolume * cell.gasDensity + withLiquid;
      cell.liquid -= liquidVolume;
      cell.gas -= gasMass;
      cell.speed += 0.3 * ((gasVolume + liquidVolume) / (area * step) - cell.speed);
      cell.gasSpeed += 0.3 * (gasVolume / (area * step * Math.max(0.02, share)) - cell.gasSpeed);
      liquid = liquidVolume;
      gas = gasMass;
    }
    this.account.liquidOut += liquid;
    this.account.gasOut += gas;
    this.liquidOut = liquid / step;
    this.gasOut = gas / step;
  }

  held(): { liquid: number; gas: number } {
    let liquid = 0;
    let gas = 0;
    for (const cell of this.cells) {
      liquid += cell.liquid;
      gas += cell.gas;
    }
    return { liquid, gas };
  }
}
