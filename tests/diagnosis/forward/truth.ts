import type { Fault } from "../../../src/jobs/diagnosis/ranking.ts";
import type { Chance } from "./chance.ts";
import {
  isBellows,
  type Moment,
  type PocketTruth,
  Simulation,
  type WellTruth,
} from "./simulation.ts";
import { FT, HOUR, INCH, PSI } from "./units.ts";
import type { ValveTruth } from "./valve.ts";

/** What a well does, as the mean of some hours. SI. */
export interface Seen {
  readonly casing: number;
  /** largest less smallest of the kept moments */
  readonly casingSwing: number;
  readonly wellhead: number;
  readonly gasIn: number;
  readonly liquidOut: number;
  readonly gasOut: number;
  readonly level: number;
  /** share of the gas by pocket, and the leak last */
  readonly shares: readonly number[];
}

export function seen(moments: readonly Moment[]): Seen {
  const mean = (of: (moment: Moment) => number) =>
    moments.reduce((sum, moment) => sum + of(moment), 0) / moments.length;
  const casings = moments.map(({ casing }) => casing);
  const through = (moments[0]?.through ?? []).map((_, i) => mean((one) => one.through[i] ?? 0));
  const all = Math.max(
    1e-9,
    through.reduce((sum, rate) => sum + rate, 0),
  );
  return {
    casing: mean(({ casing }) => casing),
    casingSwing: Math.max(...casings) - Math.min(...casings),
    wellhead: mean(({ wellhead }) => wellhead),
    gasIn: mean(({ gasIn }) => gasIn),
    liquidOut: mean(({ liquidOut }) => liquidOut),
    gasOut: mean(({ gasOut }) => gasOut),
    level: mean(({ level }) => level),
    shares: through.map((rate) => rate / all),
  };
}

/** Unloads a well until its annulus level and its casing pressure have come to rest, two days at most. */
export function unload(truth: WellTruth): { simulation: Simulation; atRest: boolean; now: Seen } {
  const simulation = new Simulation(truth, "full");
  let before = seen(simulation.run(4 * HOUR, 600));
  for (let hours = 4; hours < 48; hours += 4) {
    const now = seen(simulation.run(4 * HOUR, 600));
    const still =
      Math.abs(now.level - before.level) < 4 &&
      Math.abs(now.casing - before.casing) < 5 * PSI &&
      Math.abs(now.liquidOut - before.liquidOut) < 0.1 * (now.liquidOut + 1e-5);
    if (still) return { simulation, atRest: true, now };
    before = now;
  }
  return { simulation, atRest: false, now: before };
}

/** Gas goes in at the lowest pocket and nowhere else. */
export const isOnItsOrifice = (now: Seen, pockets: number) => (now.shares[pockets - 1] ?? 0) > 0.93;

export interface DrawnFault {
  readonly fault: Fault;
  readonly truth: WellTruth;
  /** the well had to be brought on again with the fault in it, or it came while the well ran */
  readonly came: "while running" | "before unloading";
}

const withValve = (
  truth: WellTruth,
  index: number,
  change: (valve: ValveTruth) => ValveTruth,
): WellTruth => ({
  ...truth,
  pockets: truth.pockets.map((pocket, i) =>
    i === index ? { ...pocket, valve: change(pocket.valve) } : pocket,
  ),
});

const kinds = [
  ["stuck open", 14],
  ["leaking", 10],
  ["plugged", 9],
  ["set too low", 9],
  ["set too high", 7],
  ["latch or packing leaks", 7],
  ["wrong depth", 7],
  ["tubing leak", 9],
  ["supply", 12],
  ["back-pressure at surface", 8],
  ["nothing downhole", 8],
] as const;
export type DrawnKind = (typeof kinds)[number][0];

/** A fault at random; of a kind that is asked for, where one is. */
export function drawFault(healthy: WellTruth, chance: Chance, asked?: DrawnKind): DrawnFault {
  const { pockets } = healthy;
  const last = pockets.length - 1;
  const bellows = pockets.flatMap((pocket, i) => (isBellows(pocket) ? [i] : []));
  const upper = chance.pick(bellows);
  const kind = asked ?? chance.weighed(kinds);
  const running = (fault: Fault, truth: WellTruth): DrawnFault => ({
    fault,
    truth,
    came: "while running",
  });
  switch (kind) {
    case "stuck open":
      return running(
        { kind, mandrel: upper + 1 },
        withValve(healthy, upper, (valve) => ({ ...valve, heldOpen: chance.between(0.45, 1) })),
      );
    case "leaking":
      return running(
        { kind, mandrel: upper + 1 },
        withValve(healthy, upper, (valve) => ({ ...valve, heldOpen: chance.between(0.06, 0.35) })),
      );
    case "latch or packing leaks": {
      const index = chance.whole(0, last);
      const hole = chance.between(0.06, 0.25) * INCH;
      return running(
        { kind, mandrel: index + 1 },
        withValve(healthy, index, (valve) => ({ ...valve, beside: (Math.PI / 4) * hole ** 2 })),
      );
    }
    case "plugged": {
      // The one that works, or one that is wanted on the way down.
      const index = chance.yes(0.7) ? last : upper;
      return {
        fault: { kind, mandrel: index + 1 },
        truth: withValve(healthy, index, (valve) => ({ ...valve, clear: chance.between(0, 0.15) })),
        came: index === last ? "while running" : "before unloading",
      };
    }
    case "set too low":
    case "set too high": {
      const by = chance.between(0.05, 0.14) * (kind === "set too low" ? -1 : 1);
      return {
        fault: { kind, mandrel: upper + 1 },
        truth: withValve(healthy, upper, (valve) => ({
          ...valve,
          charge60: valve.charge60 * (1 + by),
        })),
        came: kind === "set too low" ? "while running" : "before unloading",
      };
    }
    case "wrong depth": {
      const other = upper === last ? last - 1 : upper + 1;
      const [a, b] = [pockets[upper] as PocketTruth, pockets[other] as PocketTruth];
      return {
        fault: { kind, mandrel: upper + 1, other: other + 1 },
        truth: {
          ...healthy,
          pockets: pockets.map((pocket, i) =>
            i === upper
              ? { ...pocket, valve: b.valve }
              : i === other
                ? { ...pocket, valve: a.valve }
                : pocket,
          ),
        },
        came: "before unloading",
      };
    }
    case "tubing leak": {
      const index = chance.whole(0, last - 1);
      const above = pockets[index]?.depth ?? 0;
      const below = pockets[index + 1]?.depth ?? above;
      const depth = above + chance.between(0.2, 0.8) * (below - above);
      const hole = chance.between(0.07, 0.3) * INCH;
      return running(
        { kind, depthM: depth },
        { ...healthy, leak: { depth, area: (Math.PI / 4) * hole ** 2 } },
      );
    }
    case "supply": {
      const what = chance.pick(["supply pressure fell", "choke smaller", "choke larger"] as const);
      const { supply } = healthy;
      const fell = chance.between(0.68, 0.92);
      const times =
        what === "choke smaller" ? chance.between(0.25, 0.65) : chance.between(1.5, 2.4);
      const changed =
        what === "supply pressure fell"
          ? { ...supply, pressure: supply.pressure * fell }
          : supply.kind === "rate"
            ? { ...supply, rate: supply.rate * times }
            : { ...supply, diameter: supply.diameter * Math.sqrt(times) };
      return running({ kind, what }, { ...healthy, supply: changed });
    }
    case "back-pressure at surface":
      return running(
        { kind },
        { ...healthy, separator: healthy.separator + chance.between(60, 260) * PSI },
      );
    case "nothing downhole":
      // The formation gives less, or nothing at all has changed.
      return running(
        { kind },
        { ...healthy, productivity: healthy.productivity * chance.pick([1, 0.8, 0.6]) },
      );
  }
}

/** Whether a fault is to be seen at all: one that changes nothing makes nobody look. */
export function shows(before: Seen, after: Seen): boolean {
  const moved = after.shares.some((share, i) => Math.abs(share - (before.shares[i] ?? 0)) > 0.08);
  return (
    moved ||
    Math.abs(after.casing - before.casing) > 12 * PSI ||
    Math.abs(after.wellhead - before.wellhead) > 15 * PSI ||
    Math.abs(after.gasIn - before.gasIn) > 0.06 * before.gasIn ||
    after.level < before.level - 50 * FT
  );
}
