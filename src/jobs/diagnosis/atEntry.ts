import { gasEntryDip, heatCapacityRate } from "../../calc/gasEntryCooling.ts";
import { STANDARD_BASE } from "../../calc/gasPassage.ts";
import { heading } from "../../calc/heading.ts";
import { atDepth } from "../../calc/liftNetwork.ts";
import { absolutePa, GAS_CONSTANT, verticalM } from "../../calc/units.ts";
import { part } from "../results/context.ts";
import type { Condition } from "./conditions.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Predicted } from "./ranking.ts";

/** What happens where gas enters: the stream cools there, and the well runs steadily or heads. */

/** Pressures and rate of gas entering at a depth, as the draws have them in the middle. */
export interface EntryAt {
  /** true vertical, m */
  readonly depth: number;
  /** m3/s standard */
  readonly rate: number;
  /** absolute, Pa */
  readonly injection: number;
  readonly production: number;
}

/**
 * By how much the stream is colder at a depth than it would be without the gas that enters there and below, K.
 *
 * @returns undefined where the well's stream is not on record
 */
export function dipsOf(
  lifted: LiftedWell,
  entries: readonly EntryAt[],
): ((depth: number) => number) | undefined {
  const { flowing, relaxation } = lifted.stream ?? {};
  if (!flowing || !relaxation) return undefined;
  const dips = entries.flatMap(({ depth, rate, injection, production }) => {
    const temperature = lifted.temperatures.at(verticalM(depth));
    const below = entries
      .filter((other) => other.depth > depth)
      .reduce((sum, other) => sum + other.rate, 0);
    const tubing = { pressure: absolutePa(production), temperature };
    const dip = part("dip", () =>
      gasEntryDip(
        { gas: flowing.liftGas, rate, upstream: { pressure: absolutePa(injection), temperature } },
        tubing,
        heatCapacityRate(flowing, below, tubing),
        relaxation,
      ),
    );
    return dip.ok ? [{ at: lifted.alongHoleAt(depth), of: dip.value }] : [];
  });
  return (depth) =>
    dips.reduce((sum, { at, of }) => sum + of.dipAt(at - lifted.alongHoleAt(depth)), 0);
}

/** At and below this ratio of tubing to injection pressure the gas does not answer to the tubing: it runs steadily. */
const CRITICAL = 0.55;
/** z of a lift gas at a mandrel, near enough for its density. Chosen by Latchline, no source. */
const Z = 0.9;
/** Of the draws' weight that has to agree. Chosen by Latchline, no source. */
const AGREED = 0.8;

/**
 * Whether the well would run steadily or head, by Asheim's criteria at the place where most of its gas enters.
 *
 * @param weights of the conditions, ln
 * @returns "not known" where productivity index, stream or volumes are not on record, or where the draws do not agree
 */
export function headingOf(
  lifted: LiftedWell,
  conditions: readonly Condition[],
  weights: readonly number[],
): Predicted["heading"] {
  const most = Math.max(...weights);
  let [steady, all] = [0, 0];
  for (const [index, condition] of conditions.entries()) {
    const isSteady = isSteadyIn(lifted, condition);
    if (isSteady === undefined) continue;
    const weight = Number.isFinite(most) ? Math.exp((weights[index] as number) - most) : 1;
    all += weight;
    if (isSteady) steady += weight;
  }
  if (!(all > 0)) return "not known";
  if (steady >= AGREED * all) return "steady";
  return steady <= (1 - AGREED) * all ? "heading" : "not known";
}

function isSteadyIn(lifted: LiftedWell, { state, paths }: Condition): boolean | undefined {
  const { stream, spaces } = lifted;
  const { productivityIndex, liquidRate = 0, liquidDensity = 0, ownGas = 0 } = stream ?? {};
  if (!productivityIndex || !spaces || state.rate <= 0) return undefined;
  const main = state.rates.indexOf(Math.max(...state.rates));
  const path = paths[main];
  const production = state.production[main];
  if (!path || !production || !(path.size > 0)) return undefined;
  const injection = atDepth(path.rise, state.surface);
  if (production <= CRITICAL * injection) return true;
  const { temperature } = path;
  const gasDensity = (injection * lifted.molarMass) / (Z * GAS_CONSTANT * temperature);
  const standardDensity =
    (STANDARD_BASE.pressure * lifted.molarMass) / (GAS_CONSTANT * STANDARD_BASE.temperature);
  const ownInPlace =
    (ownGas * STANDARD_BASE.pressure * Z * temperature) / (production * STANDARD_BASE.temperature);
  const inflow = liquidRate + ownInPlace;
  const length = lifted.alongHoleAt(path.depth);
  const found = part("steadiness", () =>
    heading({
      gasMassRate: state.rate * standardDensity,
      gasDensity,
      liquidRate,
      productivityIndex,
      orifice: { area: path.size, dischargeCoefficient: 1 },
      inflow,
      inflowDensity: (liquidRate * liquidDensity + ownGas * standardDensity) / inflow,
      tubingPressure: absolutePa(production),
      depth: path.depth,
      tubingVolume: spaces.upArea * length,
      casingVolume: spaces.downArea * length,
    }),
  );
  return found.ok ? found.value.isSteady : undefined;
}
