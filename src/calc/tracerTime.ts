import { STANDARD_BASE } from "./gasPassage.ts";
import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { GAS_CONSTANT, GRAVITY } from "./units.ts";

export const tracerTimeMethod: Method = {
  name: "Time of a slug of tracer gas, down with the injected gas and up with what is produced",
  formula:
    "down: Σ A Δn / ṅ, n = (p(h) − psurface) / (M g) mol/m2 of gas at rest, ṅ the gas that passes the stretch; up: Σ ΔL / vg, vg = 1.2 (vsg + vsl) + 0.5 m/s",
  source:
    "hydrostatics gives the content of a gas column by its weight; drift flux with 1.2 and 0.5 m/s, from memory (Zuber and Findlay, 1965), the second rounded up from that of a large bubble",
  validity: [],
};

/** Where gas leaves the injection side, from the top down. */
export interface TracerEntry {
  /** true vertical and along hole, m */
  readonly depth: number;
  readonly alongHole: number;
  /** injection and producing pressure there, absolute, Pa */
  readonly injection: number;
  readonly production: number;
  /** m3/s at STANDARD_BASE that enter there */
  readonly rate: number;
}

export interface TracerWell {
  /** free areas of the side the gas goes down and of the side that produces, m2 */
  readonly downArea: number;
  readonly upArea: number;
  readonly molarMass: number;
  /** at surface, absolute, Pa */
  readonly injection: number;
  readonly wellhead: number;
  /** mean, K */
  readonly temperature: number;
  /** of all that is produced as liquid, m3/s */
  readonly liquidRate: number;
}

/** Mean compressibility factor of gas on its way up. From memory: 0.85 to 0.95 at these pressures. */
const Z_UP = 0.9;
const STEPS = 6;

/**
 * When the tracer that enters at each depth is back at surface.
 *
 * @param entries [n] from the top down
 * @param well    areas, gas, surface pressures, liquid
 * @returns [n] s after it was put in; Infinity of an entry that no gas reaches
 * @throws InputError for areas, a molar mass or a temperature that is not above 0, a rate below 0, and an entry above the one before it
 * Holds for steady lift. Mixing on the way is not in it: the time is that of the middle of a slug.
 * Source: see tracerTimeMethod.
 */
export function tracerTimes(entries: readonly TracerEntry[], well: TracerWell): number[] {
  requireWell(well);
  requireEntries(entries);
  const perRate = STANDARD_BASE.pressure / (GAS_CONSTANT * STANDARD_BASE.temperature);
  let through = entries.reduce((sum, { rate }) => sum + rate, 0);
  let down = 0;
  let before = { depth: 0, alongHole: 0, injection: well.injection };
  const times: number[] = [];
  for (const [i, entry] of entries.entries()) {
    const longer =
      entry.depth > before.depth
        ? (entry.alongHole - before.alongHole) / (entry.depth - before.depth)
        : 1;
    const moles =
      (well.downArea * longer * (entry.injection - before.injection)) / (well.molarMass * GRAVITY);
    down += through > 0 ? moles / (through * perRate) : Number.POSITIVE_INFINITY;
    through -= entry.rate;
    before = entry;
    times.push(down + rising(entries, i, well));
  }
  return times;
}

/** From an entry up to the wellhead, through the gas of this and all entries that it passes. */
function rising(entries: readonly TracerEntry[], from: number, well: TracerWell): number {
  let time = 0;
  for (let i = from; i >= 0; i -= 1) {
    const low = entries[i] as TracerEntry;
    const top = entries[i - 1];
    const topPressure = top?.production ?? well.wellhead;
    const length = low.alongHole - (top?.alongHole ?? 0);
    const gas = entries.slice(i).reduce((sum, { rate }) => sum + rate, 0);
    for (let step = 0; step < STEPS; step += 1) {
      const share = (step + 0.5) / STEPS;
      const pressure = topPressure + share * (low.production - topPressure);
      const inSitu =
        (gas * STANDARD_BASE.pressure * well.temperature * Z_UP) /
        (Math.max(pressure, 1) * STANDARD_BASE.temperature);
      const speed = (1.2 * (inSitu + well.liquidRate)) / well.upArea + 0.5;
      time += length / STEPS / speed;
    }
  }
  return time;
}

function requireWell(well: TracerWell): void {
  const positive: readonly [string, number][] = [
    ["down_area", well.downArea],
    ["up_area", well.upArea],
    ["molar_mass", well.molarMass],
    ["temperature", well.temperature],
  ];
  for (const [key, value] of positive) requireNumber(key, value, "above 0", (x) => x > 0);
  requireNumber("liquid_rate", well.liquidRate, "0 or more", (q) => q >= 0);
}

function requireEntries(entries: readonly TracerEntry[]): void {
  entries.forEach(({ depth, rate }, index) => {
    requireNumber(`entries[${index}].rate`, rate, "0 or more", (q) => q >= 0);
    const above = entries[index - 1]?.depth ?? 0;
    requireNumber(`entries[${index}].depth`, depth, `at or below ${above} m`, (h) => h >= above);
  });
}
