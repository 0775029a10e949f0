import { asEntered, type Writer } from "./display.ts";
import type { EntryValue, JobEvent } from "./log/event.ts";
import { type BrokenLink, brokenLinks } from "./log/verify.ts";
import type { Dimension } from "./quantity.ts";
import type { ResultId } from "./results/traced.ts";
import { fieldById, stepById } from "./sheet/walk.ts";
import { resultsAt } from "./state/holdState.ts";
import { foldInOrder, type JobState, type Reading } from "./state/jobState.ts";
import { quantitySI } from "./state/measurementsOf.ts";
import { progressOf } from "./state/progress.ts";

/** A reading beside what the calculations said it should be at that moment. */
export interface Comparison {
  readonly reading: Reading;
  readonly label: string;
  readonly dimension: Dimension;
  readonly actual: number;
  readonly expected: number | undefined;
  readonly expectedResult: ResultId | undefined;
  readonly most: number | undefined;
  readonly exceedsMost: boolean;
}

/** Something an engineer has to look at, with the event it comes from. */
export interface Remarkable {
  readonly kind:
    | "exception"
    | "hold point voided"
    | "hold point passed unreleased"
    | "correction"
    | "step left out"
    | "limit exceeded"
    | "log";
  readonly title: string;
  readonly says: string;
  readonly event: JobEvent | undefined;
}

export interface ReviewRecord {
  readonly comparisons: readonly Comparison[];
  readonly remarkable: readonly Remarkable[];
  readonly broken: readonly BrokenLink[];
}

/** An entry in words, as it was typed. */
export function entryInWords(value: EntryValue, choiceLabel?: (choice: string) => string): string {
  switch (value.kind) {
    case "quantity":
      return asEntered(value);
    case "choice":
      return choiceLabel?.(value.choice) ?? value.choice;
    case "text":
      return value.text;
    case "count":
      return String(value.count);
  }
}

/** Plan against actual, and everything out of the ordinary, from a job's log. */
export function reviewRecord(state: JobState, now: string, writer: Writer): ReviewRecord {
  const comparisons = compare(state, writer);
  const broken = brokenLinks(state.events);
  return {
    comparisons,
    broken,
    remarkable: [
      ...holdRemarks(state, now, writer),
      ...exceededLimits(comparisons, writer),
      ...correctionsAndOmissions(state),
    ],
  };
}

function compare(state: JobState, writer: Writer): Comparison[] {
  const sheet = state.programme?.sheet;
  if (!sheet) return [];
  return state.readings.flatMap((reading): Comparison[] => {
    const field = fieldById(sheet, reading.field);
    const actual = quantitySI(reading, writer.atmosphere);
    if (field?.kind !== "quantity" || actual === undefined) return [];
    const { expected, most } = field;
    const then =
      expected || most
        ? resultsAt(foldInOrder(state.events.slice(0, state.events.indexOf(reading.event) + 1)))
        : undefined;
    const limit = most && then?.value(most);
    return [
      {
        reading,
        label: field.label,
        dimension: field.dimension,
        actual,
        expected: expected && then?.value(expected),
        expectedResult: expected,
        most: limit,
        exceedsMost: limit !== undefined && actual > limit,
      },
    ];
  });
}

function holdRemarks(state: JobState, now: string, writer: Writer): Remarkable[] {
  const { items } = progressOf(state, now, writer);
  return items.flatMap((item): Remarkable[] => {
    if (item.type !== "hold") return [];
    const { hold, status, conditions, served, voidedBy } = item.hold;
    const found: Remarkable[] = conditions.flatMap((each) =>
      each.exception
        ? [
            {
              kind: "exception" as const,
              title: `${hold.title}: ${each.condition.text}`,
              says: `${each.exception.covers} Let pass by ${each.exception.authoriser.name}, ${each.exception.authoriser.role}: ${each.exception.reason}`,
              event: each.exception.event,
            },
          ]
        : [],
    );
    if (status === "voided") {
      const why = conditions
        .filter((each) => each.state === "not met" || each.state === "not known")
        .map((each) => each.says);
      found.push({
        kind: "hold point voided",
        title: hold.title,
        says: `A later reading or correction broke what it was released on. ${why.join(" ")}`,
        event: voidedBy,
      });
    } else if (served && status !== "released" && status !== "released under exception") {
      found.push({
        kind: "hold point passed unreleased",
        title: hold.title,
        says: "The step it guards was recorded without a release that holds.",
        event: state.done.get(hold.guards),
      });
    }
    return found;
  });
}

function exceededLimits(comparisons: readonly Comparison[], writer: Writer): Remarkable[] {
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

function correctionsAndOmissions(state: JobState): Remarkable[] {
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
