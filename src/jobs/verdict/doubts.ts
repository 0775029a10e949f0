import { PA_PER_PSI } from "../../calc/units.ts";
import type { Writer } from "../display.ts";
import type { SurfaceGauges } from "../programme.ts";

/** How well the figures of a verdict are known. Nothing is judged finer than this. */

/** Usual ranges of gauges and two-pen recorders on the two sides of a gas-lift well, psi. */
const RANGES = [500, 1000, 2000, 3000, 5000, 10_000];
/** of its range; from memory: what a gauge of grade 1A is good for */
const GAUGE_SHARE = 0.01;

/**
 * What a surface gauge may be off by, Pa: one percent of the smallest usual range that holds the reading.
 *
 * @param gauge above atmosphere, Pa
 */
export function gaugeDoubt(gauge: number): number {
  const psi = gauge / PA_PER_PSI;
  const range = RANGES.find((each) => psi <= each) ?? psi;
  return GAUGE_SHARE * range * PA_PER_PSI;
}

/**
 * A valve that should be shut by this much may be open: its area ratio is no constant, its temperature is known to 10 to
 * 20 °F, its nitrogen set moves (common practice; the area ratio: Decker, SPE 186110).
 */
export const VALVE_AT_LEAST = 20 * PA_PER_PSI;

/** What the weight of the lifted column may be off by; chosen by Latchline, no source. */
export const COLUMN_SHARE = 0.2;

/** What a rate that was read, and the passage of a port, may be off by; chosen by Latchline, no source. */
export const RATE_SHARE = 0.1;

/** Beyond its doubt by less than this many times the doubt, a discrepancy is said to be near the edge. */
export const NEAR_EDGE = 0.5;

/** What a verdict takes its figures to be good for, for whoever reads it. */
export function doubtsInWords(
  injection: number,
  wellhead: number,
  gauges: SurfaceGauges,
  { write }: Pick<Writer, "write">,
): string[] {
  const apart = (si: number) => write("pressure difference", si);
  return [
    `Gauges: ${apart(injection)} on the ${gauges.injection} and ${apart(wellhead)} on the ${gauges.production}, 1 percent of the usual range (from memory).`,
    `Each valve: the band of its opening pressure by the policy, and at least ${apart(VALVE_AT_LEAST)}: a valve that should be shut by that much may be open (common practice; the area ratio is no constant, SPE 186110).`,
    `Production at depth: ${100 * COLUMN_SHARE} percent of the lifted column (chosen by Latchline, no source).`,
    `Gas rates: ${100 * RATE_SHARE} percent of what was read and of what a port passes (chosen by Latchline, no source).`,
    "It does not see a cut seat, a leak or a plug by itself: only that the figures do not fit.",
  ];
}
