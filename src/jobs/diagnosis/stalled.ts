import { atDepth, closingOf, type LiftPath, type LiftState } from "../../calc/liftNetwork.ts";
import type { WellDraw } from "./draws.ts";
import type { LiftedWell } from "./liftedWell.ts";
import { uncertain } from "./uncertain.ts";

/** A well that lift has not unloaded to its deepest point. */
export interface Stalled {
  /** true vertical depths between which the liquid on the injection side stands in balance, m */
  readonly level: readonly [top: number, bottom: number];
  /** deepest gas above it: before it has come to balance the level is anywhere from here, m */
  readonly top: number;
  /** ln of how likely it stays so: with more injection than producing pressure at the next valve liquid goes down past it */
  readonly logStays: number;
}

/** m: how far a level by the balance of two columns may be off. Chosen by Latchline, no source. */
const LEVEL_OFF = 60;

/**
 * The liquid that still stands on the injection side above a pocket, in balance through that pocket's valve:
 *
 *   pi(h) + g (b − h) = pt(b)
 *
 * h the level, b the depth of the valve, g the gradient of the liquid, taken as that of the unlifted tubing. Where pi(b) is
 * above pt(b) liquid goes on down and gas comes to the valve: lift does not stay above it. A valve that is shut at
 * pi(b) lets no liquid by either, and the level stands anywhere above it.
 */
export function stalledAt(
  lifted: LiftedWell,
  sound: readonly LiftPath[],
  state: LiftState,
  draw: WellDraw,
  covered: number,
): Stalled | undefined {
  const next = sound.findIndex(({ size }, i) => i >= covered && size > 0);
  const path = sound[next];
  if (!path) return undefined;
  const entry = sound.findLastIndex((_, i) => i < next && (state.rates[i] ?? 0) > 0);
  const top = sound[entry]?.depth ?? 0;
  const injection = atDepth(path.rise, state.surface);
  const { gate } = path;
  const isShut =
    gate.kind === "bellows" && gate.operatedBy === "injection" && injection < closingOf(gate);
  if (isShut) return { level: [top, path.depth], top, logStays: 0 };
  const over = injection - (state.production[next] as number);
  const gradient = lifted.gradients.below * (1 + uncertain.gradientBelow.spread * draw.below);
  // Gas weighs little beside liquid: its pressure at the level is taken as that at the valve.
  const level = Math.max(top, path.depth - Math.max(0, -over) / gradient);
  return {
    level: [Math.max(top, level - LEVEL_OFF), Math.min(path.depth, level + LEVEL_OFF)],
    top,
    logStays: -Math.log1p(Math.exp(Math.min(500, over / uncertain.goesDeeper.spread))),
  };
}
