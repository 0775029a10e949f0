import { fieldInWords } from "../entryInWords.ts";
import type { EntryValue } from "../log/event.ts";
import { fieldById } from "../sheet/walk.ts";
import type { JobState, Reading } from "../state/jobState.ts";
import { when } from "./when.ts";

/** A reading as it stands, with every correction beside what it corrected. */
export function readingInWords({ programme }: JobState, reading: Reading): string {
  const field = programme && fieldById(programme.sheet, reading.field);
  const written = (value: EntryValue) => fieldInWords(field, value);
  const corrected = reading.corrections.map(({ event, reason }) => {
    const to = event.body.type === "correction" ? event.body.value : undefined;
    const done = to?.kind === "none" ? "taken back" : `corrected${to ? ` to ${written(to)}` : ""}`;
    return `${done} on ${when(event.at)} by ${event.actor.name}: ${reason}`;
  });
  const notes = [
    ...(corrected.length > 0 ? [`entered as ${written(reading.original)}`, ...corrected] : []),
    ...(reading.setAside ? [`set aside: of the attempt before ${when(reading.setAside.at)}`] : []),
  ];
  const stands = written(reading.value);
  return notes.length === 0 ? stands : `${stands} (${notes.join("; ")})`;
}

export const labelOf = ({ programme }: JobState, field: string) =>
  (programme && fieldById(programme.sheet, field)?.label) ?? field;
