import { columnPressure, gasDensity } from "./gas.ts";

/**
 * The annulus as a tank: a mass of gas over a level of liquid. Pressure at surface follows from mass and level by a table
 * of columns worked out once, since the gas column's shape does not change with time here.
 */
export interface CasingTruth {
  /** m2 between casing and tubing */
  readonly area: number;
  readonly bottom: number;
  readonly gravity: number;
  readonly liquidDensity: number;
  /** K of the annulus gas at a depth */
  readonly temperatureAt: (depth: number) => number;
}

const LEAST = 1e5;
const MOST = 16e6;
const PRESSURES = 24;
const DEPTHS = 24;

export class Casing {
  readonly #truth: CasingTruth;
  /** [pressure][depth]: pressure at depth over that at surface */
  readonly #ratio: number[][] = [];
  /** [pressure][depth]: kg above the depth */
  readonly #mass: number[][] = [];
  mass = 0;
  /** depth of the liquid's surface */
  level: number;
  pressure: number;

  constructor(truth: CasingTruth, surface: number, level: number) {
    this.#truth = truth;
    for (let i = 0; i < PRESSURES; i += 1) {
      const top = LEAST + ((MOST - LEAST) * i) / (PRESSURES - 1);
      const ratios: number[] = [];
      const masses: number[] = [];
      let mass = 0;
      let before = 0;
      let sumOfTemperatures = 0;
      for (let k = 0; k < DEPTHS; k += 1) {
        const depth = (truth.bottom * k) / (DEPTHS - 1);
        const temperature = truth.temperatureAt(depth);
        sumOfTemperatures += temperature;
        const pressure = columnPressure(top, depth, sumOfTemperatures / (k + 1), truth.gravity);
        const density = gasDensity(pressure, temperature, truth.gravity);
        if (k > 0) mass += (truth.area * truth.bottom * (before + density)) / 2 / (DEPTHS - 1);
        before = density;
        ratios.push(pressure / top);
        masses.push(mass);
      }
      this.#ratio.push(ratios);
      this.#mass.push(masses);
    }
    this.level = level;
    this.pressure = surface;
    this.mass = this.massOf(surface, level);
  }

  #look(table: readonly number[][], pressure: number, depth: number): number {
    const x = Math.max(
      0,
      Math.min(PRESSURES - 1.001, ((pressure - LEAST) / (MOST - LEAST)) * (PRESSURES - 1)),
    );
    const y = Math.max(0, Math.min(DEPTHS - 1.001, (depth / this.#truth.bottom) * (DEPTHS - 1)));
    const i = Math.floor(x);
    const k = Math.floor(y);
    const low = table[i] as number[];
    const high = table[i + 1] as number[];
    const at = (row: number[]) =>
      (row[k] as number) + ((row[k + 1] as number) - (row[k] as number)) * (y - k);
    return at(low) + (at(high) - at(low)) * (x - i);
  }

  massOf(surface: number, level: number): number {
    return this.#look(this.#mass, surface, level);
  }

  /** Surface pressure that the mass has now, by two secant steps from the last one. */
  settle(): void {
    for (let i = 0; i < 2; i += 1) {
      const here = this.massOf(this.pressure, this.level);
      const slope = (this.massOf(this.pressure + 20_000, this.level) - here) / 20_000;
      this.pressure += (this.mass - here) / Math.max(slope, 1e-9);
      this.pressure = Math.max(LEAST, Math.min(MOST, this.pressure));
    }
  }

  pressureAt(depth: number): number {
    const gas = Math.min(depth, this.level);
    const pressure = this.pressure * this.#look(this.#ratio, this.pressure, gas);
    return pressure + Math.max(0, depth - this.level) * this.#truth.liquidDensity * 9.80665;
  }

  /** s that gas takes from surface to a depth at a mass rate that falls by what left on the way. */
  travelTime(depth: number, rateAt: (depth: number) => number): number {
    const steps = 40;
    let time = 0;
    for (let i = 0; i < steps; i += 1) {
      const from = (depth * i) / steps;
      const to = (depth * (i + 1)) / steps;
      const mass =
        this.#look(this.#mass, this.pressure, to) - this.#look(this.#mass, this.pressure, from);
      time += mass / Math.max(1e-6, rateAt((from + to) / 2));
    }
    return time;
  }
}
