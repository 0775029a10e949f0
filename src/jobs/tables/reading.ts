import type { TableLibrary } from "./changes.ts";
import type { Table } from "./columns.ts";
import type { Mapping, Question } from "./mapping.ts";
import { Problems } from "./problem.ts";
import { columnOf, type RowValues } from "./rowValues.ts";

type TableQuestion = Extract<Question, { about: "table" }>;

/** What every kind of table is read with: what is here already, what the planner said, and where to complain. */
export class Reading {
  readonly problems = new Problems();
  readonly questions = new Map<string, TableQuestion>();
  readonly table: Table;
  readonly mapping: Mapping;
  readonly library: TableLibrary;
  readonly newId: () => string;

  constructor(table: Table, mapping: Mapping, library: TableLibrary, newId: () => string) {
    this.table = table;
    this.mapping = mapping;
    this.library = library;
    this.newId = newId;
  }

  /** Cells that could not be understood, by their row: they have been complained of. */
  private readonly bad = new Map<number, ReadonlySet<string>>();

  /** The rows understood, of whose bad cells nothing more has to be said. */
  take(rows: readonly RowValues[]): void {
    for (const { row, bad } of rows) if (bad.size > 0) this.bad.set(row, bad);
  }

  /** What the planner said once for the whole table, or undefined, and then it is asked. */
  answer(question: Omit<TableQuestion, "about">): string | undefined {
    // Answered or not, it stays on the screen: an answer can be changed.
    this.questions.set(question.id, { about: "table", ...question });
    const said = this.mapping.answers[question.id]?.trim();
    return said === "" ? undefined : said;
  }

  /** Questions without an answer. */
  get open(): TableQuestion[] {
    return [...this.questions.values()].filter(({ id }) => !this.mapping.answers[id]?.trim());
  }

  column(field: string): string {
    return columnOf(this.table, this.mapping, field);
  }

  complain(
    rows: readonly number[],
    field: string | undefined,
    what: string,
    mend: string,
    found?: string,
  ): void {
    const [only] = rows;
    // What a bad cell leads to goes with the cell.
    if (rows.length === 1 && only !== undefined && field && this.bad.get(only)?.has(field)) {
      return;
    }
    this.problems.add({
      rows: [...new Set(rows)].sort((a, b) => a - b),
      ...(field !== undefined && { column: this.column(field) }),
      ...(found !== undefined && { found }),
      what,
      mend,
    });
  }
}

/** Records by a name that is written in different ways; names that more than one record has are told apart. */
export function byPlainName<T>(
  records: readonly T[],
  nameOf: (record: T) => string,
  plain: (name: string) => string,
) {
  const found = new Map<string, T>();
  const twice = new Set<string>();
  for (const record of records) {
    const name = plain(nameOf(record));
    if (found.has(name)) twice.add(name);
    found.set(name, record);
  }
  return { found, twice };
}
