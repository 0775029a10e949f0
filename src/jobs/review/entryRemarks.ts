import { STOOD_BY } from "../commands/run.ts";
import type { Writer } from "../display.ts";
import { entryInWords } from "../entryInWords.ts";
import { correctionInWords } from "../liftInWords.ts";
import type { EntryValue, JobEvent } from "../log/event.ts";
import { fieldById, stepById } from "../sheet/walk.ts";
import type { JobState, Note } from "../state/jobState.ts";
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

/** Whether a note only says that somebody stood by what was in doubt: it stands where that is listed. */
export const isStoodBy = ({ text }: Pick<Note, "text">) => text.startsWith(STOOD_BY);

/**
 * Readings off what was expected, or unlikely, that somebody stood by.
 *
 * @param told notes that stand with the limit that was exceeded
 */
export function stoodBy(
  { notes, programme }: JobState,
  told: ReadonlySet<Note | undefined>,
): Remarkable[] {
  return notes.flatMap((note): Remarkable[] => {
    if (!isStoodBy(note) || told.has(note)) return [];
    const { text, step, event } = note;
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

/** A reading over its limit, with the note by which somebody stood by it. */
export interface OverLimit {
  readonly row: Comparison;
  readonly note: Note | undefined;
}

export function overLimits(state: JobState, comparisons: readonly Comparison[]): OverLimit[] {
  return comparisons
    .filter(({ exceedsMost }) => exceedsMost)
    .map((row) => ({ row, note: noteOn(state, row) }));
}

/** What is stood by is noted right after what it is about, on the same tablet. */
function noteOn({ notes, position }: JobState, { reading, label }: Comparison): Note | undefined {
  const said = reading.corrections.at(-1)?.event ?? reading.event;
  const place = (event: JobEvent) => position.get(event.hash) ?? -1;
  return notes.find(
    (note) =>
      isStoodBy(note) &&
      note.step === reading.step &&
      note.event.device === said.device &&
      place(note.event) > place(said) &&
      sentenceOn(label, note.text) !== undefined,
  );
}

/** One entry for each that says all of it: what was read, the limit, and why somebody stood by it. */
export function exceededLimits(
  { programme }: JobState,
  over: readonly OverLimit[],
  writer: Writer,
): Remarkable[] {
  return over.flatMap(({ row, note }): Remarkable[] => {
    const { label, dimension, actual, most, reading } = row;
    if (most === undefined) return [];
    const limit = `${writer.write(dimension, actual)} was read; the limit was ${writer.write(dimension, most)}.`;
    const labels = over.flatMap((each) => (each.note === note ? [each.row.label] : []));
    const why = note && reasonIn(note, labels);
    const of = programme && stepById(programme.sheet, reading.step)?.title;
    // One run asks for the largest pull more than once.
    const step = of === undefined ? "" : `, "${of}"`;
    const says = why ? `${limit} Stood by: ${why}` : limit;
    return [{ kind: "limit exceeded", title: `${label}${step}`, says, event: reading.event }];
  });
}

/** What a note says beside the limits themselves. */
function reasonIn({ text }: Note, labels: readonly string[]): string {
  const rest = labels.reduce((left, label) => {
    const sentence = sentenceOn(label, left);
    return sentence === undefined ? left : left.replace(sentence, () => "");
  }, text.slice(STOOD_BY.length));
  return rest.replace(/\s+/g, " ").trim();
}

/** "Largest pull: 1090 lbf is 35 lbf over the limit of 1055 lbf." in a note; a figure may have a point of its own. */
function sentenceOn(label: string, text: string): string | undefined {
  const from = text.indexOf(`${label}: `);
  if (from === -1) return undefined;
  return /^.*? over the limit of .*?\.(?=\s|$)/.exec(text.slice(from))?.[0];
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
  return [...corrected, ...correctedOnLift(state), ...left];
}

/** Readings on lift that were corrected; of two tablets that corrected one, what the later says over the other. */
function correctedOnLift(state: JobState): Remarkable[] {
  const byHash = new Map(state.observed.map((each) => [each.event.hash, each.observed]));
  return state.observed.flatMap(({ observed, corrected }): Remarkable[] => {
    const is = corrected && byHash.get(corrected.event.hash);
    if (!is) return [];
    const { event, reason, apart } = corrected;
    const title = "The well on lift";
    const changed = correctionInWords(state, observed, is);
    return [
      apart
        ? {
            kind: "tablets differed",
            title,
            says: `Two tablets corrected one reading. The later in the log stands: ${changed || "they say the same"}. Its reason: ${reason}`,
            event,
          }
        : { kind: "correction", title, says: `${changed}: ${reason}`, event },
    ];
  });
}

function correctionValue(event: JobEvent | undefined): EntryValue | undefined {
  return event?.body.type === "correction" ? event.body.value : undefined;
}
