import { format, parseISO } from "date-fns";
import { asEntered, displayUnit, type Writer } from "../display.ts";
import { fieldInWords } from "../entryInWords.ts";
import type { JobEvent } from "../log/event.ts";
import { toSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import { sheetWanted } from "../sheet/sheetWanted.ts";
import { fieldById, stepById } from "../sheet/walk.ts";
import { type JobState, latestReading, type Reading } from "../state/jobState.ts";

/** One thing that the record has to say at the end. */
export interface CloseOutLine {
  readonly id: string;
  readonly label: string;
  /** the answer in words; what is missing, where it is a gap */
  readonly says: string;
  /** where the answer comes from, corrections with it */
  readonly events: readonly JobEvent[];
  /** Nothing in the log answers it. */
  readonly gap?: {
    /** step or hold point of the sheet at which it is answered; undefined where the sheet does not ask for it */
    readonly at?: string;
  };
}

export interface CloseOutSection {
  readonly id: string;
  readonly title: string;
  readonly lines: readonly CloseOutLine[];
}

/** What a section is put together from. */
export interface Of {
  readonly state: JobState;
  readonly programme: Programme;
  readonly now: string;
  readonly writer: Writer;
}

/** What the sheet's names and titles of one pocket end with. */
export interface Pocket {
  /** mandrel, by its id */
  readonly id: string;
  /** the programme as it is for this pocket */
  readonly programme: Programme;
  readonly suffix: string;
  /** e.g. `, mandrel 3`; empty where the job has one pocket */
  readonly title: string;
}

interface Asked {
  readonly id: string;
  readonly label: string;
  /** of the sheet, without a pocket's suffix */
  readonly step: string;
  /** fields of the sheet in the order they are said; the first is the one that has to be answered */
  readonly fields: readonly string[];
  /** any of them answers it */
  readonly any?: boolean;
  /** the pocket it is about, of several */
  readonly pocket?: Pocket;
  /** The answer from those in words; without it they follow each other. A field not answered is undefined. */
  readonly words?: (...values: readonly (string | undefined)[]) => string;
  /** the time at which it was read is said, too */
  readonly timed?: boolean;
}

/** The line that fields of the sheet answer. */
export function asked(of: Of, spec: Asked): CloseOutLine {
  const { state } = of;
  const { id, pocket, fields, words } = spec;
  const suffix = pocket?.suffix ?? "";
  const line = { id: `${id}${suffix}`, label: `${spec.label}${pocket?.title ?? ""}` };
  const found = fields.map((field) => latestReading(state, `${field}${suffix}`));
  const answered = spec.any ? found.some((each) => each !== undefined) : found[0] !== undefined;
  if (!answered) return { ...line, ...unanswered(of, spec, suffix) };
  const values = found.map((each) => each && valueInWords(of, each));
  const inside = found.map((each, index) =>
    each?.value.kind === "choice" ? inSentence(values[index] ?? "") : values[index],
  );
  const joinedUp = words ? words(...inside) : joined(...inside);
  const first = inside.findIndex((each) => each !== undefined && joinedUp.startsWith(each));
  const said = `${values[first] ?? ""}${joinedUp.slice(inside[first]?.length ?? 0)}`;
  const read = found.find((each) => each !== undefined);
  return {
    ...line,
    says: spec.timed && read ? `${said}, ${time(read.takenAt)}` : said,
    events: eventsOf(found),
  };
}

/** Words that stand alone elsewhere, in the middle of a sentence: "Free, no surge" begins small, "BHP" does not. */
export const inSentence = (words: string) =>
  /^\p{Lu}(?!\p{Lu})/u.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;

/** Left out with a reason is an answer; nothing at all is a gap. */
function unanswered(
  { state, programme }: Of,
  { step: base, fields }: Asked,
  suffix: string,
): Pick<CloseOutLine, "says" | "events" | "gap"> {
  const { sheet, job } = programme;
  const step = stepById(sheet, `${base}${suffix}`);
  const left = state.leftOut.get(`${base}${suffix}`);
  if (step && left) {
    return { says: `"${step.title}" was left out: ${left.reason}`, events: [left.event] };
  }
  if (!step && sheetWanted(job).changes.dropped.includes(`${base}${suffix}`)) {
    return {
      says: "The planner took its step off this job's sheet.",
      events: state.issued ? [state.issued] : [],
    };
  }
  const asks = fields.some((field) => fieldById(sheet, `${field}${suffix}`) !== undefined);
  return step && asks
    ? { says: "Not answered.", events: [], gap: { at: step.id } }
    : { says: "This job's run sheet does not ask for it.", events: [], gap: {} };
}

/** The events that say what readings say now. */
export function eventsOf(readings: readonly (Reading | undefined)[]): JobEvent[] {
  return [
    ...new Set(
      readings.flatMap((each) =>
        each ? [each.event, ...each.corrections.map(({ event }) => event)] : [],
      ),
    ),
  ];
}

/** What was read: as it was typed where that is the unit shown, so that no digit is lost or made up. */
function valueInWords({ programme, writer }: Of, { field, value }: Reading): string {
  if (value.kind !== "quantity") return fieldInWords(fieldById(programme.sheet, field), value);
  const { dimension, unit } = value;
  return unit === displayUnit(writer.system, dimension)
    ? asEntered(value)
    : writer.write(dimension, toSI(dimension, value as never, writer.atmosphere));
}

export const time = (at: string) => format(parseISO(at), "d MMM HH:mm");

/** Words that follow each other, without those that are not there. */
export const joined = (...parts: readonly (string | undefined | false)[]) =>
  parts.filter((each) => each !== undefined && each !== false && each !== "").join(", ");
