import { differenceInMinutes, format, parseISO } from "date-fns";
import { atMost } from "./checks/compare.ts";
import { STOOD_BY } from "./commands/run.ts";
import type { Writer } from "./display.ts";
import { entryInWords, fieldInWords } from "./entryInWords.ts";
import type { EntryValue, JobEvent } from "./log/event.ts";
import { type BrokenLink, brokenLinks } from "./log/verify.ts";
import type { Dimension } from "./quantity.ts";
import { contingencyById, fieldById, holdPointsOf, pocketOfField, stepById } from "./sheet/walk.ts";
import { isUnmet, resultsAt } from "./state/conditions.ts";
import { holdStates } from "./state/holdState.ts";
import type { Branch, Exception, JobState, Reading } from "./state/jobState.ts";
import { LogReader } from "./state/logReader.ts";
import { quantitySI } from "./state/measurementsOf.ts";

/** A reading beside what the calculations said it should be at that moment. */
export interface Comparison {
  readonly reading: Reading;
  readonly label: string;
  readonly dimension: Dimension;
  readonly actual: number;
  readonly expected: number | undefined;
  readonly most: number | undefined;
  readonly exceedsMost: boolean;
}

/** Something an engineer has to look at, with the event it comes from. */
export interface Remarkable {
  readonly kind:
    | "exception"
    | "hold point voided"
    | "hold point passed unreleased"
    | "answer"
    | "correction"
    | "step left out"
    | "limit exceeded"
    | "stood by"
    | "contingency"
    | "done again"
    | "done on two tablets"
    | "standby"
    | "crew change"
    | "tablets differed"
    | "not followed";
  readonly title: string;
  readonly says: string;
  readonly event: JobEvent | undefined;
}

export interface ReviewRecord {
  readonly comparisons: readonly Comparison[];
  readonly remarkable: readonly Remarkable[];
  readonly broken: readonly BrokenLink[];
}

/** Plan against actual, and everything out of the ordinary, from a job's log. */
export function reviewRecord(state: JobState, now: string, writer: Writer): ReviewRecord {
  const comparisons = compare(state, writer);
  const broken = brokenLinks(state.events);
  return {
    comparisons,
    broken,
    remarkable: [
      ...exceptionRemarks(state),
      ...holdRemarks(state, now, writer),
      ...adverseAnswers(state),
      ...stoodBy(state),
      ...exceededLimits(comparisons, writer),
      ...correctionsAndOmissions(state),
      ...courseOf(state),
      ...state.unfollowed.map(({ event, why }) => ({
        kind: "not followed" as const,
        title: event.body.type,
        says: why,
        event,
      })),
    ],
  };
}

/** In one pass over the log, so that each reading meets the results of its own moment. */
function compare(state: JobState, writer: Writer): Comparison[] {
  const sheet = state.programme?.sheet;
  if (!sheet) return [];
  const reader = new LogReader();
  const final = new Map(state.readings.map((reading) => [key(reading), reading]));
  return state.events.flatMap((event) => {
    reader.read(event);
    if (event.body.type !== "readings taken") return [];
    return event.body.entries.flatMap(({ field: id }): Comparison[] => {
      const results = resultsAt(reader.state, pocketOfField(sheet, id));
      const field = fieldById(sheet, id);
      const reading = final.get(`${event.hash} ${id}`);
      const actual = quantitySI(reading, writer.atmosphere);
      if (field?.kind !== "quantity" || !reading || actual === undefined) return [];
      const most = field.most && results?.value(field.most);
      return [
        {
          reading,
          label: field.label,
          dimension: field.dimension,
          actual,
          expected: field.expected && results?.value(field.expected),
          most,
          exceedsMost: most !== undefined && !atMost(actual, most),
        },
      ];
    });
  });
}

const key = (reading: Reading) => `${reading.event.hash} ${reading.field}`;

/** Every exception that was granted, whether or not it still stands. */
export function exceptionRemarks(state: JobState): Remarkable[] {
  return state.exceptions.map((each) => exceptionRemark(state, each));
}

function exceptionRemark(state: JobState, exception: Exception): Remarkable {
  const hold =
    state.programme &&
    holdPointsOf(state.programme.sheet).find((each) => each.id === exception.hold);
  const condition = hold?.conditions.find((each) => each.id === exception.condition);
  const { authoriser, covers, reason, event } = exception;
  return {
    kind: "exception",
    title: `${hold?.title ?? exception.hold}: ${condition?.text ?? exception.condition}`,
    says: `${covers} Let pass by ${authoriser.name}, ${authoriser.role}: ${reason}`,
    event,
  };
}

/** What took a release back, where it was no reading. */
function stopWords(type: JobEvent["body"]["type"]): string | undefined {
  if (type === "crew changed") return "The crew changed";
  return type === "standby started" ? "The crew stood by" : undefined;
}

/** Every release that was voided or that never counted, and every hold point that was passed without one. */
function holdRemarks(state: JobState, now: string, writer: Writer): Remarkable[] {
  return [...holdStates(state, now, writer).values()].flatMap(
    ({ hold, history, served, stands }) => {
      const found = history.flatMap(
        ({ release, rejected, brokenBy, foundBroken }): Remarkable[] => {
          if (rejected !== undefined) {
            const says = `A release that does not count: ${rejected}`;
            return [{ kind: "hold point voided", title: hold.title, says, event: release.event }];
          }
          if (!brokenBy) return [];
          const stopped = stopWords(brokenBy.body.type);
          if (stopped) {
            const says = `${stopped} after it was released, and the step it guards was not done yet.`;
            return [{ kind: "hold point voided", title: hold.title, says, event: brokenBy }];
          }
          const unmet = foundBroken.filter(isUnmet).map((each) => each.says);
          const why = unmet.length > 0 ? unmet : ["A step before it was opened again."];
          const says = `What it was released on was broken by a later reading or correction. ${why.join(" ")}`;
          return [{ kind: "hold point voided", title: hold.title, says, event: brokenBy }];
        },
      );
      if (!served || stands || history.some((each) => each.rejected === undefined)) return found;
      const says = "The step it guards was recorded without a release.";
      const event = state.done.get(hold.guards);
      return [...found, { kind: "hold point passed unreleased", title: hold.title, says, event }];
    },
  );
}

/** Answers that are not good ones, also those that were answered better later. */
function adverseAnswers(state: JobState): Remarkable[] {
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
function stoodBy({ notes, programme }: JobState): Remarkable[] {
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

/** Everything that went wrong, with what came of it. */
export function contingencyRemarks(state: JobState): Remarkable[] {
  const sheet = state.programme?.sheet;
  return state.branches.map((branch): Remarkable => {
    const { contingency, closed, event } = branch;
    const known = sheet && contingencyById(sheet, contingency);
    const way = known?.options.find(({ id }) => id === closed?.option)?.label;
    const outcome = closed ? `${way ? `${way}. ` : ""}${closed.outcome}` : "Not dealt with yet.";
    const noted = notedAt(state, branch);
    const says = noted.length > 0 ? `${outcome} Noted: ${noted.join("; ")}.` : outcome;
    return { kind: "contingency", title: known?.title ?? contingency, says, event };
  });
}

/** What the run did beside the sheet: went wrong, waited, was done again, changed hands. */
function courseOf(state: JobState): Remarkable[] {
  const sheet = state.programme?.sheet;
  const titleOf = (id: string) => (sheet && stepById(sheet, id)?.title) ?? id;
  const again = state.goneBack.map(
    ({ to, reason, event }): Remarkable => ({
      kind: "done again",
      title: `From "${titleOf(to)}" on`,
      says: reason,
      event,
    }),
  );
  const apart = state.doneApart.map(
    ({ step, other, event }): Remarkable => ({
      kind: "done on two tablets",
      title: titleOf(step),
      says: `Recorded as done by ${whoAndWhen(other)}, and by ${whoAndWhen(event)}, on two tablets that did not know of each other. What each of them entered is kept.`,
      event,
    }),
  );
  const standby = state.standbys.map(({ reason, event, ended }): Remarkable => {
    const minutes = ended && differenceInMinutes(parseISO(ended.at), parseISO(event.at));
    const says = minutes === undefined ? "Not ended." : `${minutes} min.`;
    return { kind: "standby", title: reason, says, event };
  });
  const handed = state.crewChanges.map(
    ({ by, to, state: stands, event }): Remarkable => ({
      kind: "crew change",
      title: `${by.name} to ${to.name}`,
      says: stands,
      event,
    }),
  );
  const settled = state.events.flatMap((event): Remarkable[] => {
    const { body } = event;
    if (body.type !== "conflict settled") return [];
    const field = sheet && fieldById(sheet, body.field);
    const stands = state.readings.find(
      (each) => each.event.hash === body.stands && each.field === body.field,
    );
    const over = state.readings.filter(
      (each) => body.over.includes(each.event.hash) && each.field === body.field,
    );
    const says = `${stands ? fieldInWords(field, stands.value) : "?"} stands over ${over.map(({ value }) => fieldInWords(field, value)).join(", ")}: ${body.reason}`;
    return [{ kind: "tablets differed", title: field?.label ?? body.field, says, event }];
  });
  const open = [...state.conflicts].map(([id, readings]): Remarkable => {
    const field = sheet && fieldById(sheet, id);
    const says = `${readings.map(({ value, event }) => `${fieldInWords(field, value)} (${event.actor.name})`).join(" against ")}: nobody said which stands.`;
    return { kind: "tablets differed", title: field?.label ?? id, says, event: readings[0]?.event };
  });
  return [
    ...contingencyRemarks(state),
    ...again,
    ...apart,
    ...standby,
    ...handed,
    ...settled,
    ...open,
  ];
}

const whoAndWhen = ({ actor, at }: JobEvent) =>
  `${actor.name}, ${actor.role}, on ${format(parseISO(at), "d MMM")} at ${format(parseISO(at), "HH:mm")}`;

/** What was noted while something was dealt with, each with the time at which it was read. */
function notedAt(state: JobState, { contingency, closed, event }: Branch): string[] {
  const place = (of: JobEvent) => state.position.get(of.hash) ?? -1;
  const to = closed ? place(closed.event) : Number.POSITIVE_INFINITY;
  return state.readings
    .filter(
      (each) =>
        each.step === contingency && place(each.event) > place(event) && place(each.event) < to,
    )
    .map(({ field: id, value, takenAt }) => {
      const field = state.programme && fieldById(state.programme.sheet, id);
      return `${field?.label ?? id} ${fieldInWords(field, value)}, ${format(parseISO(takenAt), "d MMM HH:mm")}`;
    });
}

function correctionValue(event: JobEvent | undefined): EntryValue | undefined {
  return event?.body.type === "correction" ? event.body.value : undefined;
}
