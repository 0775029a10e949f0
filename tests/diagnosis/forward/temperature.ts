import { DAY } from "./units.ts";

/**
 * Temperature of the stream: it relaxes towards the rock over a distance that grows with the mass carried (Ramey, JPT April
 * 1962, steady form), and drops where gas that has been throttled comes in.
 */
export interface Stream {
  /** kg/s of liquid; of gas from the formation */
  readonly liquid: number;
  readonly formationGas: number;
  /** J/(kg K) of the liquid */
  readonly liquidHeat: number;
}

export interface Entry {
  readonly depth: number;
  /** kg/s */
  readonly gas: number;
  /** Pa across the valve */
  readonly drop: number;
}

const ROCK_CONDUCTIVITY = 2.4;
const ROCK_DIFFUSIVITY = 1e-6;
const GAS_HEAT = 2300;
/** K/Pa, light natural gas near 100 degF and 60 bar, from memory */
const JOULE_THOMSON = 3.5e-6;

/**
 * @param days     on lift, for how far the rock round the hole has warmed
 * @param radius   of the hole
 * @param rockAt   undisturbed temperature
 * @param depths   rising
 * @returns K at each depth
 */
export function streamTemperatures(
  stream: Stream,
  entries: readonly Entry[],
  bottom: number,
  rockAt: (depth: number) => number,
  radius: number,
  days: number,
  depths: readonly number[],
): number[] {
  // Line source at long time, Ramey's equation for his f(t).
  const f = -Math.log(radius / (2 * Math.sqrt(ROCK_DIFFUSIVITY * days * DAY))) - 0.29;
  const step = 10;
  let carried = stream.liquid * stream.liquidHeat + stream.formationGas * GAS_HEAT;
  let temperature = rockAt(bottom);
  const out = depths.map(() => temperature);
  let next = depths.length - 1;
  for (let depth = bottom; depth >= 0; depth -= step) {
    while (next >= 0 && (depths[next] ?? 0) >= depth) {
      out[next] = temperature;
      next -= 1;
    }
    const relaxation = Math.max(20, (carried * f) / (2 * Math.PI * ROCK_CONDUCTIVITY));
    temperature += (rockAt(depth) - temperature) * (1 - Math.exp(-step / relaxation));
    for (const entry of entries) {
      if (entry.gas <= 0 || entry.depth > depth || entry.depth <= depth - step) continue;
      const brought = entry.gas * GAS_HEAT;
      // The gas comes down the annulus at about the stream's temperature there.
      temperature -= (brought * JOULE_THOMSON * entry.drop) / (carried + brought);
      carried += brought;
    }
  }
  while (next >= 0) {
    out[next] = temperature;
    next -= 1;
  }
  return out;
}
