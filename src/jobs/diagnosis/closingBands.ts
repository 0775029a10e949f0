import { mandrelResultId } from "../results/atMandrel.ts";
import type { Results } from "../results/results.ts";
import type { MandrelResultId } from "../results/traced.ts";
import { mandrelStates } from "../results/wholeWell.ts";

/** Where the injection at surface comes to rest when a valve shuts: a band beside the pens. */
export interface ClosingPressureAtSurface {
  readonly mandrel: number;
  readonly serial: string;
  /** absolute, Pa */
  readonly at: number;
  readonly least: number;
  readonly most: number;
  /** whose working stands behind it */
  readonly results: readonly [at: MandrelResultId, band: MandrelResultId];
}

/**
 * The closing pressures at surface of the valves that injection shuts, from the top down. A valve of which something is
 * not known has none: its figures say what they need.
 */
export function closingBands(results: Results): ClosingPressureAtSurface[] {
  return mandrelStates(results).flatMap(({ mandrel, valve }): ClosingPressureAtSurface[] => {
    if (valve?.kind !== "injection-operated") return [];
    const ids = [
      mandrelResultId("closing-at-surface", mandrel.number),
      mandrelResultId("closing-band", mandrel.number),
    ] as const;
    const [at, widest] = ids.map((id) => results.value(id));
    if (at === undefined || widest === undefined) return [];
    return [
      {
        mandrel: mandrel.number,
        serial: valve.serial,
        at,
        least: at - widest,
        most: at + widest,
        results: ids,
      },
    ];
  });
}
