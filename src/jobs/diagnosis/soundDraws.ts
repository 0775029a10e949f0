import { liftedPressures, liftState } from "../../calc/liftNetwork.ts";
import { gradientsOf, soundPaths } from "./conditions.ts";
import { chances, type Draw, drawWith, type WellDraw, wellDrawOf } from "./draws.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { RanAt } from "./ranAt.ts";
import { uncertain } from "./uncertain.ts";

/** Draws that are looked at for each that is kept. */
const LOOKED_AT = 8;

/**
 * Draws of a well that is known to have run.
 *
 * Of many draws of what is not known those are kept, as often as they deserve it, in which the sound well runs as it is on
 * record: on its deepest point, at that injection pressure for that rate. What is left between record and draw is
 * the model's own error and stays with the draw, so that the change from the record is what speaks afterwards. Each
 * record may be of something else; a draw that goes with none counts by that chance.
 */
export function soundDraws(lifted: LiftedWell, count: number): Draw[] {
  const chance = chances();
  const looked = Array.from(
    { length: lifted.ranAt.length > 0 ? LOOKED_AT * count : count },
    (_, i) => {
      const well = wellDrawOf(lifted, i, chance);
      return { well, ...likelihoodOf(lifted, well, chance) };
    },
  );
  const all = looked.reduce((sum, { likely }) => sum + likely, 0);
  // Taken at even steps of their sum: each as often as its share of it, but for less than one.
  let taken = 0;
  let reached = looked[0]?.likely ?? 0;
  return Array.from({ length: count }, (_, i) => {
    const step = ((i + 0.5) / count) * all;
    while (reached < step && taken < looked.length - 1) {
      taken += 1;
      reached += looked[taken]?.likely ?? 0;
    }
    const { well, offset } = looked[taken] as (typeof looked)[number];
    return drawWith(well, offset, i, chance);
  });
}

/** How likely the records are in a draw, and a draw of what the model has wrong beside them, Pa. */
function likelihoodOf(
  lifted: LiftedWell,
  well: WellDraw,
  { uniform, normal }: ReturnType<typeof chances>,
): { readonly likely: number; readonly offset: number } {
  const own = (uncertain.modelPressure.spread * lifted.operating) ** 2;
  let [likely, mean, variance] = [1, 0, own];
  for (const ran of lifted.ranAt) {
    const { injection, isDeepest, isReached } = soundAt(lifted, well, ran);
    const off = ran.injection - injection - mean;
    const total = variance + ran.spread ** 2;
    const right =
      (1 - ran.wrong) *
      (Math.exp((-0.5 * off ** 2) / total) / Math.sqrt(2 * Math.PI * total)) *
      (isDeepest ? 1 : uncertain.ranHigher.spread) *
      (isReached ? 1 : UNREACHED);
    const wrong = ran.wrong / (0.6 * ran.injection);
    likely *= right + wrong;
    if (uniform() * (right + wrong) >= right) continue;
    mean += (variance / total) * off;
    variance *= ran.spread ** 2 / total;
  }
  return { likely, offset: mean + Math.sqrt(variance) * normal() };
}

/** A draw in which the rate of the record does not go through is hardly how the well ran. */
const UNREACHED = 0.05;
/** A controller that holds the rate lets more through than any record asks for. */
const WIDE_OPEN = 10;
/** Of the gas: the rest may be what a valve at rest lets by. */
const NEARLY_ALL = 0.85;

/** The sound well in a draw at the rate and wellhead pressure of a record. */
function soundAt(lifted: LiftedWell, well: WellDraw, { rate, wellhead, injection }: RanAt) {
  const paths = soundPaths(lifted, well);
  const depths = paths.map(({ depth }) => depth);
  const gradients = gradientsOf(lifted, well, 0, 1);
  const highest = Math.max(lifted.supply.pressure, 1.1 * injection);
  const state = liftState(
    paths,
    {
      pressure: highest,
      temperature: lifted.supply.temperature,
      size: WIDE_OPEN * lifted.choke,
      held: rate,
    },
    {
      movesWithRates: true,
      pressures: (rates) => liftedPressures(depths, rates, wellhead, gradients),
    },
    lifted.passage,
  );
  const operating = lifted.pockets.findLastIndex(({ size }) => size > 0);
  return {
    injection: state.surface,
    isDeepest: (state.rates[operating] ?? 0) >= NEARLY_ALL * state.rate,
    isReached: state.rate >= 0.9 * rate,
  };
}
