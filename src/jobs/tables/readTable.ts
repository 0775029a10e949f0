import { entrySchemas } from "../records/library.ts";
import type { RecordTypes } from "../store/library.ts";
import {
  type Change,
  changeOf,
  type Draft,
  type TableLibrary,
  type TableRecordKind,
} from "./changes.ts";
import type { Table } from "./columns.ts";
import { columnQuestions, type Mapping, type Question } from "./mapping.ts";
import type { Problem } from "./problem.ts";
import { Reading } from "./reading.ts";
import { type OnProgress, rowValuesOf } from "./rowValues.ts";
import { surveyDrafts } from "./surveyDrafts.ts";
import { fieldOf, tableKind } from "./tableKinds.ts";
import { toolDrafts } from "./toolDrafts.ts";
import { stockDrafts } from "./valveDrafts.ts";
import { wellDrafts } from "./wellDrafts.ts";

/** Records that a table writes: new ones, and changed ones with their next revision. */
export type TableRecords = { readonly [K in TableRecordKind]: readonly RecordTypes[K][] };

/** All of a table, or nothing of it and why. */
export type TableRead =
  | {
      readonly ok: true;
      readonly records: TableRecords;
      readonly changes: readonly Change[];
      /** asked and answered: an answer can be changed */
      readonly questions: readonly Question[];
    }
  | {
      readonly ok: false;
      /** what is still to be said, before or besides what is wrong */
      readonly open: readonly Question[];
      readonly questions: readonly Question[];
      /** the first of them */
      readonly problems: readonly Problem[];
      /** all of them */
      readonly count: number;
    };

interface ReadOptions {
  readonly newId: () => string;
  readonly onProgress?: OnProgress;
}

const draftsOf = {
  wells: wellDrafts,
  valves: stockDrafts,
  survey: surveyDrafts,
  tools: toolDrafts,
} as const;

/** Reads a table as a mapping says, against what is here already. Nothing is read of a table that is not whole. */
export function readTable(
  table: Table,
  mapping: Mapping,
  library: TableLibrary,
  options: ReadOptions,
): TableRead {
  const asked = columnQuestions(table, mapping);
  if (asked.length > 0) return { ok: false, open: asked, questions: [], problems: [], count: 0 };
  const reading = new Reading(table, mapping, library, options.newId);
  const rows = rowValuesOf(table, mapping, reading.problems, options.onProgress);
  reading.take(rows);
  if (rows.length === 0) {
    reading.complain(
      [],
      undefined,
      "no row below the header",
      "Choose another header row, or another sheet.",
    );
  }
  const drafts = draftsOf[mapping.kind](reading, rows);
  for (const draft of drafts) refuseInvalid(reading, draft);
  const questions = [...reading.questions.values()];
  const { problems, open } = reading;
  if (problems.count > 0 || open.length > 0) {
    return { ok: false, open, questions, problems: problems.listed, count: problems.count };
  }
  return { ok: true, questions, ...written(drafts, library) };
}

function written(drafts: readonly Draft[], library: TableLibrary) {
  const serials = new Map(library.valves.map(({ id, serial }) => [id, serial]));
  for (const { kind, after } of drafts) {
    if (kind === "valves") serials.set(after.id, (after as RecordTypes["valves"]).serial);
  }
  const changes = drafts.map((draft) => changeOf(draft, (id) => serials.get(id) ?? id));
  const of = <K extends TableRecordKind>(kind: K) =>
    drafts.flatMap((draft, index) => {
      if (draft.kind !== kind || changes[index]?.is === "same") return [];
      return [{ ...draft.after, revision: (draft.before?.revision ?? 0) + 1 } as RecordTypes[K]];
    });
  return { changes, records: { wells: of("wells"), valves: of("valves"), tools: of("tools") } };
}

/** Where a schema complains, back to the row and column it came from. */
function refuseInvalid(reading: Reading, { kind, before, after, rows }: Draft): void {
  if (before !== undefined && before === after) return;
  const checked = entrySchemas[kind].safeParse(after);
  if (checked.success) return;
  for (const issue of checked.error.issues) {
    const path = issue.path.map(String);
    const { field, at } =
      kind === "wells"
        ? inWell(reading, path, after as RecordTypes["wells"], rows)
        : { field: fieldAt(kind, path), at: rows };
    const name = field === undefined ? ` (${path.join(".")})` : "";
    reading.complain(
      at,
      field,
      `${issue.message}${name}`,
      "Correct it in the file, or in the record it is joined with.",
    );
  }
}

/** A path in a well is the well's own, or that of the mandrel in one of the rows. */
function inWell(
  reading: Reading,
  path: readonly string[],
  well: RecordTypes["wells"],
  rows: readonly number[],
) {
  const [part, index, ...rest] = path;
  if (part !== "mandrels" || index === undefined)
    return { field: fieldAt("wells", path), at: rows.slice(0, 1) };
  const number = well.mandrels[Number(index)]?.number;
  const position = reading.table.columns.find(
    ({ index: column }) => reading.mapping.columns[column]?.field === "number",
  )?.index;
  const own = reading.table.rows.filter(
    ({ row, cells }) =>
      rows.includes(row) &&
      position !== undefined &&
      String(cells[position]).trim() === String(number),
  );
  return { field: fieldAt("wells", rest), at: own.length > 0 ? own.map(({ row }) => row) : rows };
}

function fieldAt(kind: TableRecordKind, path: readonly string[]): string | undefined {
  const whole = path.join(".");
  const { fields } = tableKind(kind);
  return fields.find(({ path: of }) => whole === of || whole.startsWith(`${of}.`))?.id;
}

/** What the first rows are understood as, for whoever maps columns; a cell that is bad says so. */
export function preview(table: Table, mapping: Mapping, rows = 6) {
  const first = { ...table, rows: table.rows.slice(0, rows) };
  const reading = new Reading(first, mapping, { wells: [], valves: [], tools: [] }, () => "");
  // How numbers are written is told from the whole column, not from these rows.
  const told = rowValuesOf(first, mapping, reading.problems, () => {}, table);
  const label = (id: string) => fieldOf(mapping.kind, id)?.label ?? id;
  return told.map(({ row, values, bad }) => ({
    row,
    cells: [...values].map(([id, value]) => ({ label: label(id), value })),
    bad: [...bad].map(label),
  }));
}
