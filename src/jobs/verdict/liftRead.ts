import type { JobEvent } from "../log/event.ts";
import { surfaceGauges } from "../programme.ts";
import type { Dimension, Quantity } from "../quantity.ts";
import { type JobState, type LiftObserved, latestReading } from "../state/jobState.ts";

/** What was read of the well on lift after the change-out, and where it was read. */
export interface LiftRead {
  readonly from: "lift observed" | "run sheet";
  readonly event: JobEvent;
  readonly takenAt: string;
  readonly by: string;
  /** in words: a recorder, a gauge, the run sheet */
  readonly source: string;
  /** of the side that the gas goes down */
  readonly injectionAtSurface: Quantity<"pressure">;
  /** of the side that produces */
  readonly wellhead: Quantity<"pressure">;
  readonly injectionRate?: Quantity<"gas rate">;
  readonly liquidRate?: Quantity<"liquid rate">;
}

/**
 * Of those that stand: by when it was read, not by when it was entered; of two at one moment the later entry mends the
 * one before.
 */
function latestOf(observed: readonly LiftObserved[]): LiftObserved | undefined {
  const readAt = (each: LiftObserved) => Date.parse(each.observed.takenAt);
  return observed
    .filter(({ corrected }) => !corrected)
    .reduce<LiftObserved | undefined>(
      (last, each) => (last && readAt(last) > readAt(each) ? last : each),
      undefined,
    );
}

/**
 * What was last read of the well on lift; where nothing was, what the run sheet took when the crew left.
 *
 * @returns undefined where neither has both pressures
 */
export function liftRead(state: JobState): LiftRead | undefined {
  const last = latestOf(state.observed);
  if (last) {
    const { takenAt, source, injectionAtSurface, wellhead, injectionRate, liquidRate } =
      last.observed;
    return {
      from: "lift observed",
      event: last.event,
      takenAt,
      by: last.event.actor.name,
      source,
      injectionAtSurface,
      wellhead,
      ...(injectionRate && { injectionRate }),
      ...(liquidRate && { liquidRate }),
    };
  }
  const casing = latestReading(state, "final-casing");
  const tubing = latestReading(state, "final-wellhead");
  const casingRead = quantityOf(state, "final-casing", "pressure");
  const tubingRead = quantityOf(state, "final-wellhead", "pressure");
  if (!casing || !tubing || !casingRead || !tubingRead) return undefined;
  const downTubing = surfaceGauges(state.programme).injection === "tubing";
  const injectionRate = quantityOf(state, "final-gas", "gas rate");
  const liquidRate = quantityOf(state, "final-liquid", "liquid rate");
  return {
    from: "run sheet",
    event: casing.event,
    takenAt: casing.takenAt,
    by: casing.event.actor.name,
    source: "run sheet, when the crew left",
    injectionAtSurface: downTubing ? tubingRead : casingRead,
    wellhead: downTubing ? casingRead : tubingRead,
    ...(injectionRate && { injectionRate }),
    ...(liquidRate && { liquidRate }),
  };
}

function quantityOf<D extends Dimension>(
  state: JobState,
  field: string,
  dimension: D,
): Quantity<D> | undefined {
  const value = latestReading(state, field)?.value;
  if (value?.kind !== "quantity" || value.dimension !== dimension) return undefined;
  return { value: value.value, unit: value.unit } as Quantity<D>;
}
