import type { Typed } from "../../jobs/commands/entry.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import { fieldById } from "../../jobs/sheet/walk.ts";
import type { LiveJob } from "../useJob.ts";

const MOST_OFFERS = 5;

/** Entries worth a tap: people met on this job, or the last reading of the same thing. Never a serial or a batch. */
export function offersFor(field: Field, live: LiveJob): Typed[] {
  const { programme, state } = live;
  if (field.kind === "text" && field.person) {
    const { supervisor, fieldOperator } = programme.job.crew;
    const met = state.readings.flatMap(({ field: id, value }) => {
      const known = fieldById(programme.sheet, id);
      return known?.kind === "text" && known.person && value.kind === "text" ? [value.text] : [];
    });
    const names = [...met.reverse(), fieldOperator, supervisor].filter(
      (name) => name !== undefined,
    );
    return [...new Set(names)].slice(0, MOST_OFFERS).map((text) => ({ text }));
  }
  if (field.kind === "quantity" && field.asBefore) {
    const last = state.readings.findLast(({ field: id }) => {
      const known = fieldById(programme.sheet, id);
      return known?.kind === "quantity" && known.channel === field.channel;
    });
    if (last?.value.kind !== "quantity") return [];
    return [{ text: String(last.value.value), unit: last.value.unit }];
  }
  return [];
}
