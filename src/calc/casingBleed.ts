import { STANDARD_BASE } from "./gasPassage.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { atDepth, atSurface, closingOf, type LiftPath, type PassageTable } from "./liftNetwork.ts";
import type { Method } from "./method.ts";

export const casingBleedMethod: Method = {
  name: "Injection side left to bleed with its supply shut",
  formula:
    "rests at the lowest of: closing pressure of a bellows that is open, producing pressure at a hole; each brought to surface by the gas column. dN/dt = −Σ q(path), N = V p Tb / (z T pb)",
  source:
    "force balance and gas column as in the lift network; storage of a real gas with one mean z",
  validity: [],
};

/**
 * Where the injection side comes to rest with its supply shut.
 *
 * @param paths      [n]
 * @param production [n] producing pressure at each path once lift has died, absolute, Pa
 * @param from       surface pressure at which the supply is shut, absolute, Pa
 * @returns surface pressure, absolute, Pa; `from` where nothing is open
 * @throws InputError for a producing pressure that is missing, and where `from` is not above 0
 * Source: casingBleedMethod.
 */
export function bleedRest(
  paths: readonly LiftPath[],
  production: readonly number[],
  from: number,
): number {
  requirePaths(paths, production);
  requireNumber("from", from, "above 0 absolute", (p) => p > 0);
  let rest = from;
  paths.forEach((path, i) => {
    if (path.size <= 0) return;
    const producing = production[i] as number;
    const { gate } = path;
    let least = producing;
    if (gate.kind === "bellows") {
      if (gate.operatedBy === "production") {
        if (producing <= closingOf(gate)) return;
      } else if (gate.was === "shut") return;
      else least = Math.max(producing, closingOf(gate));
    }
    // Shut, or without a drop, from the beginning.
    if (least >= atDepth(path.rise, from)) return;
    rest = Math.min(rest, atSurface(path.rise, least));
  });
  return rest;
}

const STEPS = 10;

/**
 * How long the injection side takes to bleed from one surface pressure to another.
 *
 *   t = Σ ΔN / q,  N = V p Tb / (z T pb)
 *
 * @param paths      [n]
 * @param production [n] producing pressure at each, absolute, Pa, taken as steady
 * @param from, to   surface pressures, absolute, Pa, `to` the lower
 * @param storage    of the injection side: volume, m3; mean temperature, K; mean compressibility factor z
 * @returns s; Infinity where it comes to rest above `to`
 * @throws InputError for a producing pressure that is missing, pressures in the wrong order, and storage that is not above 0
 * Ten steps of equal pressure, the outflow at the middle of each: within half a percent of closed forms (tested) down to a fifth
 * of the way from where it rests; nearer to that the time grows without limit and this is too short.
 * Source: casingBleedMethod.
 */
export function bleedTime(
  paths: readonly LiftPath[],
  production: readonly number[],
  from: number,
  to: number,
  storage: { readonly volume: number; readonly temperature: number; readonly z: number },
  table: PassageTable,
): number {
  requirePaths(paths, production);
  requireNumber("to", to, "above 0 absolute", (p) => p > 0);
  requireNumber("from", from, `above what it bleeds to (${to} Pa)`, (p) => p > to);
  requireNumber("storage_volume", storage.volume, "above 0", (v) => v > 0);
  requireNumber("storage_temperature", storage.temperature, "above 0 K", (t) => t > 0);
  requireNumber("storage_z", storage.z, "above 0", (z) => z > 0);
  const perPa =
    (storage.volume * STANDARD_BASE.temperature) /
    (storage.z * storage.temperature * STANDARD_BASE.pressure);
  const step = (from - to) / STEPS;
  let time = 0;
  for (let i = 0; i < STEPS; i += 1) {
    const surface = from - (i + 0.5) * step;
    const out = paths.reduce((sum, path, j) => {
      const { gate, size } = path;
      const at = atDepth(path.rise, surface);
      const producing = production[j] as number;
      if (size <= 0 || producing >= at) return sum;
      let share = 1;
      if (gate.kind === "bellows") {
        if (gate.was === "shut") return sum;
        const acting = gate.operatedBy === "injection" ? at : producing;
        share = Math.min(1, (acting - closingOf(gate)) / gate.span);
      }
      return share > 0 ? sum + table.rate(size * share, at, producing, path.temperature) : sum;
    }, 0);
    if (out <= 0) return Number.POSITIVE_INFINITY;
    time += (perPa * step) / out;
  }
  return time;
}

function requirePaths(paths: readonly LiftPath[], production: readonly number[]): void {
  if (production.length !== paths.length) {
    throw new InputError("production", production.length, `one for each of ${paths.length} paths`);
  }
}
