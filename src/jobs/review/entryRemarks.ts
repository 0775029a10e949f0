import { STOOD_BY } from "../commands/run.ts";
import type { Writer } from "../display.ts";
import { entryInWords } from "../entryInWords.ts";
import type { EntryValue, JobEvent } from "../log/event.ts";
import { fieldById, stepById } from "../sheet/walk.ts";
import type { JobState } from "../state/jobState.ts";
import type { Comparison } from "./planActual.ts";
import type { Remarkable } from "./remarkable.ts";

/** What an engineer looks at of the entries: answers, limits, corrections, what was left out. */

/** Answers that are not good ones, also those that were answered better later. */
export function adverseAnswers(state: JobState): Remarkable[] {
  const sheet = state.programme?.sheet;
  return state.readings.flatMap(({ field: id, value, original, event }): Remarkable[] => {
    const field = sheet && fieldById(sheet, id);
    if (field?.kind !== "choice") return [];
    return [original, value].flatMap((each, index, both): Remarkable[] => {
      if (each.kind !== "choice" || (index === 1 && each === both[0])) return [];
      const choice = field.choices.find((one) => one.value === each.choice);
      if (!choice?.adverse) return [];
      return [{ kind: "answer", title: field.label, says: choice.label, event }];
    });
  });
}

/** Readings off what was expected, or unlikely, that somebody stood by. */
export function stoodBy({ notes, programme }: JobState): Remarkable[] {
  return notes.flatMap(({ text, step, event }): Remarkable[] => {
    if (!text.startsWith(STOOD_BY)) return [];
    const sheet = programme?.sheet;
    const of = sheet && step !== undefined ? stepById(sheet, step)?.title : undefined;
    return [
      {
        kind: "stood by",
        title: of ?? step ?? "Reading",
        says: text.slice(STOOD_BY.length).trim(),
        event,
      },
    ];
  });
}

export function exceededLimits(comparisons: readonly Comparison[], writer: Writer): Remarkable[] {
  return comparisons.flatMap(({ exceedsMost, label, dimension, actual, most, reading }) =>
    exceedsMost && most !== undefined
      ? [
          {
            kind: "limit exceeded" as const,
            title: label,
            says: `${writer.write(dimension, actual)} was read; the limit was ${writer.write(dimension, most)}.`,
            event: reading.event,
          },
        ]
      : [],
  );
}

export function correctionsAndOmissions(state: JobState): Remarkable[] {
  const sheet = state.programme?.sheet;
  const corrected = state.readings.flatMap((reading) =>
    reading.corrections.map(({ event, reason }, index): Remarkable => {
      const before =
        index === 0
          ? reading.original
          : (correctionValue(reading.corrections[index - 1]?.event) ?? reading.original);
      const after = correctionValue(event) ?? reading.value;
      return {
        kind: "correction",
        title: (sheet && fieldById(sheet, reading.field)?.label) ?? reading.field,
        says: `${entryInWords(before)} corrected to ${entryInWords(after)}: ${reason}`,
        event,
      };
    }),
  );
  const left = [...state.leftOut].map(
    ([step, { reason, event }]): Remarkable => ({
      kind: "step left out",
      title: (sheet && stepById(sheet, step)?.title) ?? step,
      says: reason,
      event,
    }),
  );
  return [...corrected, ...left];
}

function correctionValue(event: JobEvent | undefined): EntryValue | undefined {
  return event?.body.type === "correction" ? event.body.value : undefined;
}
