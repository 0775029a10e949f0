import { bleedRest } from "../../calc/casingBleed.ts";
import { atDepth } from "../../calc/liftNetwork.ts";
import { belowEntry, type Condition } from "./conditions.ts";
import type { Surface } from "./draws.ts";
import type { LiftedWell } from "./liftedWell.ts";

/** A well whose gas has stopped: somebody shut the supply, or the choke shut by itself. */

/** Share of draws in which the well goes on flowing, as on lift, while its casing bleeds. Chosen by Latchline, no source. */
const FLOWS_ON = 0.25;

/**
 * Producing pressures once the gas has stopped. Some wells flow on. The others die: their liquid stands at a level that hangs on
 * a reservoir pressure nobody has, so anywhere down to the deepest mandrel, with gas above it. What is held open above the
 * level bleeds to a column of gas, what lies below it to the liquid as well.
 */
export function notLifted(
  lifted: LiftedWell,
  { state, surface, paths, draw }: Condition,
  wellhead: number,
  place: number,
): number[] {
  if (place < FLOWS_ON) {
    return state.production.map((pressure) =>
      Math.max(lifted.atmosphere, pressure - surface.wellhead + wellhead),
    );
  }
  const level = (deepestOf(lifted) * (place - FLOWS_ON)) / (1 - FLOWS_ON);
  return standingAt(lifted, paths, draw, wellhead, level);
}

const deepestOf = (lifted: LiftedWell) => lifted.pockets.at(-1)?.depth ?? lifted.bottom;

/** Producing pressures with liquid up to a level and gas above it. */
function standingAt(
  lifted: LiftedWell,
  paths: Condition["paths"],
  draw: Condition["draw"],
  wellhead: number,
  level: number,
): number[] {
  const below = belowEntry(lifted, draw);
  return paths.map(
    ({ depth, rise }) => atDepth(rise, wellhead) + below * Math.max(0, depth - level),
  );
}

export function bleedRestOf(
  lifted: LiftedWell,
  condition: Condition,
  from: number,
  wellhead = condition.surface.wellhead,
  place = condition.draw.level,
): number {
  const production = notLifted(lifted, condition, wellhead, place);
  return bleedRest(condition.paths, production, Math.max(from, condition.state.surface));
}

/**
 * The sound well behind a choke that lets next to nothing by: it no longer flows, its casing has bled from what it ran at to
 * where it rests, and its liquid stands anywhere down to the deepest mandrel.
 *
 * @param soundly the same draw with nothing wrong
 */
export function stopped(lifted: LiftedWell, soundly: Condition, surface: Surface): Condition {
  const { paths, draw, state } = soundly;
  const standing = deepestOf(lifted) * draw.level;
  const production = standingAt(lifted, paths, draw, surface.wellhead, standing);
  const none = paths.map(() => 0);
  return {
    ...soundly,
    state: {
      surface: bleedRest(paths, production, state.surface),
      rate: 0,
      rates: none,
      production,
      atSupply: false,
      settled: true,
    },
    entries: none,
    standing,
    surface,
    weight: 0,
  };
}
