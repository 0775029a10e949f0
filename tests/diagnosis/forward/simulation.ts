import { Casing } from "./casing.ts";
import { gasDensity, specificGasConstant } from "./gas.ts";
import { streamTemperatures } from "./temperature.ts";
import { cellEnds, Tubing } from "./tubing.ts";
import { ATMOSPHERE, GRAVITY } from "./units.ts";
import {
  closingForce,
  gasThrough,
  liquidThrough,
  moveStem,
  openArea,
  type ValveTruth,
} from "./valve.ts";

export interface PocketTruth {
  readonly depth: number;
  readonly valve: ValveTruth;
  /** where the valve's temperature lies between rock (0) and stream (1) */
  readonly warmth: number;
}

/** What a controller or a choke lets in. */
export type Supply =
  | { readonly kind: "rate"; readonly rate: number; readonly pressure: number }
  | { readonly kind: "choke"; readonly diameter: number; readonly pressure: number };

export interface WellTruth {
  readonly gravity: number;
  readonly tubingInside: number;
  readonly tubingOutside: number;
  readonly casingInside: number;
  readonly perforations: number;
  readonly rockTop: number;
  /** K/m */
  readonly rockGradient: number;
  readonly liquidDensity: number;
  readonly waterCut: number;
  readonly api: number;
  /** m3/(s Pa) */
  readonly productivity: number;
  readonly reservoirPressure: number;
  /** kg of the formation's gas with a m3 of liquid */
  readonly formationGas: number;
  readonly distribution: number;
  readonly drift: number;
  readonly separator: number;
  /** Pa for (m3/s of mixture)²: the flowline */
  readonly flowline: number;
  readonly daysOnLift: number;
  readonly pockets: readonly PocketTruth[];
  readonly leak?: { readonly depth: number; readonly area: number } | undefined;
  readonly supply: Supply;
}

export interface Moment {
  readonly time: number;
  readonly casing: number;
  readonly wellhead: number;
  /** kg/s */
  readonly gasIn: number;
  readonly liquidOut: number;
  readonly gasOut: number;
  readonly level: number;
  /** kg/s through each pocket, and the leak last */
  readonly through: readonly number[];
}

/** of the tubing, about */
const CELLS = 30;
/** Of the stream's temperatures, m: as fine as they are worked out. */
const GRID = 10;
const STEP = 5;
const COEFFICIENT_OF_CHOKE = 0.85;
/** kg of gas that a m3 of oil dissolves for a Pa; about 0.2 scf/bbl/psi of a medium oil, Standing (1947) near 140 degF */
const OIL_DISSOLVES = 4.4e-6;

/** The well in time: supply in, valves between annulus and tubing, formation in, wellhead out. */
export class Simulation {
  truth: WellTruth;
  readonly casing: Casing;
  readonly tubing: Tubing;
  time = 0;
  wellhead: number;
  supplyOpen = true;
  #travel: number[];
  #closing: number[];
  #gasRate: number[];
  #liquidRate = 0;
  #nextTemperatures = 0;
  /** K of the stream at every GRID from the wellhead down */
  #stream: number[] = [];
  readonly gasAccount = { intoCasing: 0, outOfCasing: 0 };

  constructor(truth: WellTruth, level: "full" | number) {
    this.truth = truth;
    const { tubingOutside, casingInside, perforations, liquidDensity, gravity } = truth;
    // At rest, both spaces stand as high as the reservoir holds them.
    const atRest = Math.max(
      0,
      perforations - (truth.reservoirPressure - ATMOSPHERE) / (liquidDensity * GRAVITY),
    );
    this.wellhead = truth.separator;
    this.casing = new Casing(
      {
        area: (Math.PI / 4) * (casingInside ** 2 - tubingOutside ** 2),
        bottom: perforations,
        gravity,
        liquidDensity,
        temperatureAt: (depth) => this.rockAt(depth) + 6,
      },
      level === "full" ? 2 * ATMOSPHERE : truth.separator * 3,
      level === "full" ? Math.max(30, atRest) : level,
    );
    this.tubing = new Tubing(
      {
        inside: truth.tubingInside,
        bottom: perforations,
        liquidDensity,
        gravity,
        distribution: truth.distribution,
        drift: truth.drift,
        dissolves: OIL_DISSOLVES * (1 - truth.waterCut),
      },
      cellEnds(
        perforations,
        truth.pockets.map(({ depth }) => depth),
        perforations / CELLS,
      ),
      atRest,
      this.wellhead,
    );
    this.#travel = truth.pockets.map(() => 0);
    this.#closing = truth.pockets.map(() => 0);
    this.#gasRate = [...truth.pockets.map(() => 0), 0];
    this.#warm();
  }

  rockAt(depth: number): number {
    return this.truth.rockTop + this.truth.rockGradient * depth;
  }

  /** Another valve, supply or separator from now on; the state of the well stays. */
  change(truth: WellTruth): void {
    this.truth = truth;
    this.#warm();
  }

  #warm(): void {
    const { truth, tubing } = this;
    const depths = Array.from(
      { length: Math.ceil(truth.perforations / GRID) + 1 },
      (_, i) => GRID * i,
    );
    const rate = Math.max(this.#liquidRate, 2e-5);
    this.#stream = streamTemperatures(
      {
        liquid: rate * truth.liquidDensity,
        formationGas: rate * truth.formationGas,
        liquidHeat: 4180 * truth.waterCut + 2000 * (1 - truth.waterCut),
      },
      [...truth.pockets, ...(truth.leak ? [truth.leak] : [])].map(({ depth }, i) => ({
        depth,
        gas: this.#gasRate[truth.pockets[i] ? i : truth.pockets.length] ?? 0,
        drop: Math.max(0, this.casing.pressureAt(depth) - tubing.pressureAt(depth)),
      })),
      truth.perforations,
      (depth) => this.rockAt(depth),
      0.11,
      truth.daysOnLift,
      depths,
    );
    for (const cell of tubing.cells) cell.temperature = this.streamAt(cell.top + cell.height / 2);
    this.#closing = truth.pockets.map((pocket) =>
      closingForce(pocket.valve, this.temperatureOf(pocket)),
    );
    this.#nextTemperatures = this.time + 1200;
  }

  streamAt(depth: number): number {
    const place = depth / GRID;
    const above = Math.max(0, Math.min(this.#stream.length - 2, Math.floor(place)));
    const a = this.#stream[above] as number;
    const b = this.#stream[above + 1] as number;
    return a + (b - a) * (place - above);
  }

  temperatureOf({ depth, warmth }: PocketTruth): number {
    return this.rockAt(depth) + warmth * (this.streamAt(depth) - this.rockAt(depth));
  }

  #supplied(): number {
    if (!this.supplyOpen) return 0;
    const { supply, gravity } = this.truth;
    const density = gasDensity(supply.pressure, 310, gravity);
    const diameter = supply.kind === "choke" ? supply.diameter : 0.012;
    const most = gasThrough(
      (Math.PI / 4) * diameter ** 2,
      COEFFICIENT_OF_CHOKE,
      supply.pressure,
      this.casing.pressure,
      density,
    );
    return supply.kind === "choke" ? most : Math.min(supply.rate, most);
  }

  step(): Moment {
    const { truth, casing, tubing } = this;
    if (this.time >= this.#nextTemperatures) this.#warm();
    tubing.weigh(this.wellhead);
    const gasIn = this.#supplied();
    casing.mass += gasIn * STEP;
    this.gasAccount.intoCasing += gasIn * STEP;
    const through = truth.pockets.map((pocket, i) => {
      const outside = casing.pressureAt(pocket.depth);
      const inside = tubing.pressureAt(pocket.depth);
      const travel = moveStem(
        pocket.valve,
        this.#closing[i] ?? 0,
        this.#travel[i] ?? 0,
        outside,
        inside,
        STEP,
      );
      this.#travel[i] = travel;
      return this.#pass(
        pocket.depth,
        openArea(pocket.valve, travel),
        pocket.valve.dischargeCoefficient,
        outside,
        inside,
      );
    });
    const { leak } = truth;
    through.push(
      leak
        ? this.#pass(
            leak.depth,
            leak.area,
            0.7,
            casing.pressureAt(leak.depth),
            tubing.pressureAt(leak.depth),
          )
        : 0,
    );
    through.forEach((rate, i) => {
      this.#gasRate[i] = 0.995 * (this.#gasRate[i] ?? 0) + 0.005 * rate;
    });
    casing.settle();
    const drawn = Math.max(
      0,
      truth.productivity * (truth.reservoirPressure - tubing.bottomPressure),
    );
    tubing.move(drawn, drawn * truth.formationGas, STEP);
    this.#liquidRate = 0.995 * this.#liquidRate + 0.005 * drawn;
    const top = tubing.cells[0];
    const mixture = tubing.liquidOut + tubing.gasOut / Math.max(0.1, top?.gasDensity ?? 1);
    const back = truth.separator + truth.flowline * mixture ** 2;
    this.wellhead += (Math.min(back, 3 * truth.separator) - this.wellhead) * (STEP / 90);
    this.time += STEP;
    return {
      time: this.time,
      casing: casing.pressure,
      wellhead: this.wellhead,
      gasIn,
      liquidOut: tubing.liquidOut,
      gasOut: tubing.gasOut,
      level: casing.level,
      through,
    };
  }

  #pass(depth: number, area: number, coefficient: number, outside: number, inside: number): number {
    const { casing, tubing, truth } = this;
    if (area <= 0 || outside <= inside) return 0;
    if (depth > casing.level + 0.1) {
      const annulus = (Math.PI / 4) * (truth.casingInside ** 2 - truth.tubingOutside ** 2);
      const most = (depth - casing.level) * annulus;
      const volume = Math.min(
        most,
        liquidThrough(area, outside - inside, truth.liquidDensity) * STEP,
      );
      casing.level += volume / annulus;
      tubing.addLiquid(depth, volume);
      return 0;
    }
    const density = outside / (0.9 * specificGasConstant(truth.gravity) * this.rockAt(depth));
    const rate = gasThrough(area, coefficient, outside, inside, density);
    casing.mass -= rate * STEP;
    this.gasAccount.outOfCasing += rate * STEP;
    tubing.addGas(depth, rate * STEP);
    return rate;
  }

  /** Runs for a while, and keeps a moment every so often as the mean over that span. */
  run(seconds: number, every: number): Moment[] {
    const kept: Moment[] = [];
    const end = this.time + seconds;
    while (this.time < end) {
      const sum = { casing: 0, wellhead: 0, gasIn: 0, liquidOut: 0, gasOut: 0, level: 0 };
      const through = [...this.truth.pockets.map(() => 0), 0];
      const steps = Math.max(1, Math.round(every / STEP));
      for (let i = 0; i < steps; i += 1) {
        const moment = this.step();
        for (const key of [
          "casing",
          "wellhead",
          "gasIn",
          "liquidOut",
          "gasOut",
          "level",
        ] as const) {
          sum[key] += moment[key] / steps;
        }
        moment.through.forEach((rate, k) => {
          through[k] = (through[k] ?? 0) + rate / steps;
        });
      }
      kept.push({ time: this.time, ...sum, through });
    }
    return kept;
  }
}

export const isBellows = ({ valve }: PocketTruth) =>
  valve.kind === "injection-operated" || valve.kind === "production-operated";
