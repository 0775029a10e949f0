import { toSI } from "../quantity.ts";
import type { Channel, Measured, Measurements } from "../results/measurements.ts";
import { fieldById, pocketOfField } from "../sheet/walk.ts";
import type { JobState, Reading } from "./jobState.ts";

/** A reading of a channel in SI; undefined when its field feeds none. */
export function channelReading(
  state: JobState,
  reading: Reading,
  atmosphere: number,
): (Measured & { readonly channel: Channel }) | undefined {
  const sheet = state.programme?.sheet;
  const field = sheet && fieldById(sheet, reading.field);
  if (field?.kind !== "quantity" || !field.channel || reading.value.kind !== "quantity") {
    return undefined;
  }
  return {
    channel: field.channel,
    si: quantitySI(reading, atmosphere) as number,
    at: reading.takenAt,
    by: reading.event.actor.name,
    event: reading.standsOn,
  };
}

/** A reading's quantity in SI, or undefined when it is not a quantity. */
export function quantitySI(reading: Reading | undefined, atmosphere: number): number | undefined {
  if (reading?.value.kind !== "quantity") return undefined;
  const { dimension, value, unit } = reading.value;
  return toSI(dimension, { value, unit } as never, atmosphere);
}

/** What is read of one pocket or its valve and says nothing of another. */
const ofOnePocket: readonly Channel[] = ["tagged mandrel depth", "card set pressure"];

/**
 * The latest reading of every channel, with what two of them show of packing friction.
 *
 * @param pocket mandrel, by its id, whose own readings are meant; undefined: the job's first
 */
export function measurementsOf(state: JobState, atmosphere: number, pocket?: string): Measurements {
  const { programme } = state;
  const wanted = pocket ?? programme?.job.mandrel;
  const isOfAnother = (field: string) =>
    programme && (pocketOfField(programme.sheet, field) ?? programme.job.mandrel) !== wanted;
  const latest: Partial<Record<Channel | "packing friction", Measured>> = {};
  const takenBack = new Set<string>();
  for (const { field, value, setAside } of state.readings) {
    if (setAside) continue;
    if (value.kind === "none") takenBack.add(field);
    else takenBack.delete(field);
  }
  for (const reading of state.readings) {
    if (reading.setAside || takenBack.has(reading.field)) continue;
    const measured = channelReading(state, reading, atmosphere);
    if (!measured) continue;
    if (ofOnePocket.includes(measured.channel) && isOfAnother(reading.field)) continue;
    latest[measured.channel] = measured;
  }
  const going = latest["pull going in"];
  const coming = latest["pull coming out"];
  // Half of the difference between moving in and moving out (common practice, in the first 100 ft). Swapped
  // figures measure nothing; the step refuses them, and what came in by another way is not used.
  if (going && coming && coming.si >= going.si) {
    latest["packing friction"] = { ...coming, si: (coming.si - going.si) / 2 };
  }
  return latest;
}
