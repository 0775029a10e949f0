import { unitLabel } from "../display.ts";
import { impossible, unitsOf } from "../quantity.ts";
import { cellText } from "./cell.ts";
import type { Column, Table } from "./columns.ts";
import { type DayOrder, orderOf } from "./days.ts";
import type { Field } from "./field.ts";
import { fieldScores, type Header } from "./header.ts";
import { type Decimals, decimalsOf, evidenceOf, numberIn } from "./numbers.ts";
import { fieldOf, type TableKindId, tableKind, tableKinds } from "./tableKinds.ts";
import { type UnitSaid, unitInHeader } from "./unitWords.ts";

/** What one column is taken for. */
export interface ColumnMap {
  readonly field: string;
  readonly unit?: string;
  readonly decimals?: Decimals;
  readonly days?: DayOrder;
}

/** How a table is to be read. */
export interface Mapping {
  readonly kind: TableKindId;
  readonly header: Header;
  /** by the column's index */
  readonly columns: Readonly<Record<number, ColumnMap>>;
  /** An empty cell of a well's name means the well above it, as merged cells do. */
  readonly fillDown: boolean;
  /** What the planner says once for the whole table, by the question. */
  readonly answers: Readonly<Record<string, string>>;
}

export interface Option {
  readonly value: string;
  readonly label: string;
}

/** Something that has to be said before a table can be read. */
export type Question =
  | {
      readonly about: "column";
      readonly column: number;
      readonly part: "unit" | "decimals" | "days";
      readonly ask: string;
      readonly options: readonly Option[];
    }
  | { readonly about: "mapping"; readonly ask: string }
  | {
      readonly about: "table";
      readonly id: string;
      readonly ask: string;
      readonly means: string;
      readonly answer:
        | { readonly kind: "text" | "day" }
        | { readonly kind: "quantity"; readonly units: readonly string[] }
        | { readonly kind: "choice"; readonly options: readonly Option[] };
    };

/** A name that hardly says its field is no guess. */
const LEAST = 4;

/** Columns to fields by their names, the surest first; each field once. */
export function guessColumns(
  columns: readonly Column[],
  kind: TableKindId,
): Record<number, ColumnMap> {
  const { fields } = tableKind(kind);
  const counts = new Set(fields.flatMap((field) => (field.kind === "count" ? [field.id] : [])));
  const pairs = columns
    .flatMap(({ index, name, filled, samples }) => {
      if (filled === 0) return [];
      // "Mandrel" over words is what kind of mandrel, not its number.
      const isCounted = samples.some((sample) => /\d/.test(sample));
      return fieldScores(name, fields)
        .filter(({ id }) => isCounted || !counts.has(id))
        .map(({ id, score }) => ({ index, name, id, score }));
    })
    .filter(({ score }) => score >= LEAST)
    .sort((a, b) => b.score - a.score || a.index - b.index);
  const guessed: Record<number, ColumnMap> = {};
  const taken = new Set<string>();
  for (const { index, name, id } of pairs) {
    if (guessed[index] || taken.has(id)) continue;
    taken.add(id);
    guessed[index] = mapTo(id, kind, name);
  }
  return guessed;
}

/** A column taken for a field, with the unit its name says. */
export function mapTo(id: string, kind: TableKindId, name: string): ColumnMap {
  const field = fieldOf(kind, id);
  if (field?.kind !== "quantity") return { field: id };
  const units = unitsOf(field.dimension);
  const said = unitInHeader(field.dimension, name);
  if (said?.is === "unit") return { field: id, unit: said.unit };
  const [only] = units;
  // A number, or an angle, has one unit: nothing to ask.
  return units.length === 1 && only !== undefined && !said
    ? { field: id, unit: only }
    : { field: id };
}

/** The kind of table whose fields its columns' names say best. */
export function guessKind(columns: readonly Column[]): TableKindId {
  const scored = tableKinds.map(({ id, fields }) => {
    const mapped = Object.values(guessColumns(columns, id)).map(({ field }) => field);
    const lacking = fields.filter((field) => field.needed && !mapped.includes(field.id)).length;
    return { id, score: mapped.length - 3 * lacking };
  });
  return scored.reduce((a, b) => (b.score > a.score ? b : a)).id;
}

export function guessMapping(table: Table, kind: TableKindId = guessKind(table.columns)): Mapping {
  return {
    kind,
    header: table.header,
    columns: guessColumns(table.columns, kind),
    fillDown: false,
    answers: {},
  };
}

/** Columns that are taken for something, in the table's order. */
export function mappedColumns(table: Table, mapping: Mapping) {
  return table.columns.flatMap((column) => {
    const map = mapping.columns[column.index];
    const field = map && fieldOf(mapping.kind, map.field);
    return map && field ? [{ column, map, field }] : [];
  });
}

/** The column of wells has empty cells below a name: filled down only when the planner says so. */
export function hasGapsInWells(table: Table, mapping: Mapping): boolean {
  return mappedColumns(table, mapping).some(
    ({ field, column }) => field.id === "well" && column.gaps > 0,
  );
}

/** The units a column may be in, each with what it means. */
export function unitOptions(
  field: Field,
  name: string,
): { options: readonly Option[]; said: UnitSaid | undefined } {
  if (field.kind !== "quantity") return { options: [], said: undefined };
  const said = unitInHeader(field.dimension, name);
  const units = said?.is === "choice" ? said.units : unitsOf(field.dimension);
  return { said, options: units.map((unit) => ({ value: unit, label: labelOf(unit) })) };
}

const pressureWords: Readonly<Record<string, string>> = {
  psig: "psig (gauge)",
  barg: "barg (gauge)",
  kPag: "kPag (gauge)",
  psia: "psia (absolute)",
  bara: "bara (absolute)",
  kPaa: "kPaa (absolute)",
};
const labelOf = (unit: string) =>
  pressureWords[unit] ?? (unit === "" ? "a number" : unitLabel(unit));

/** What has to be said of the columns before their cells can be read. */
export function columnQuestions(table: Table, mapping: Mapping): Question[] {
  const mapped = mappedColumns(table, mapping);
  const questions: Question[] = [];
  for (const field of tableKind(mapping.kind).fields) {
    const columns = mapped.filter((each) => each.field.id === field.id);
    if (field.needed && columns.length === 0) {
      questions.push({ about: "mapping", ask: `Which column is "${field.label}"? ${field.means}` });
    }
    if (columns.length > 1) {
      const names = columns.map(({ column }) => `"${column.name}"`).join(" and ");
      questions.push({
        about: "mapping",
        ask: `${names} are both taken for "${field.label}". Leave one of them out.`,
      });
    }
  }
  for (const each of mapped) questions.push(...questionsOf(table, each));
  return questions;
}

function questionsOf(
  table: Table,
  { column, map, field }: ReturnType<typeof mappedColumns>[number],
): Question[] {
  const { index, name } = column;
  const of = { about: "column", column: index } as const;
  const questions: Question[] = [];
  if (field.kind === "quantity" && map.unit === undefined) {
    const { options, said } = unitOptions(field, name);
    const ask =
      said?.is === "choice"
        ? `"${name}" says ${said.word}: gauge or absolute?`
        : said?.is === "foreign"
          ? `"${name}" says ${said.word}, which is not read here. Convert the column in the file, or say in which of these units its numbers are.`
          : `In what unit is "${name}"?`;
    questions.push({ ...of, part: "unit", ask, options });
  }
  if ((field.kind === "quantity" || field.kind === "count") && map.decimals === undefined) {
    const evidence = evidenceIn(table, index, field, map);
    if (decimalsOf(evidence) === "ask") {
      const example = evidence.either ?? "";
      const meant = (decimals: Decimals) =>
        example === "" ? "" : `: ${example} is ${numberIn(example, decimals) ?? "no number"}`;
      questions.push({
        ...of,
        part: "decimals",
        ask: `How does "${name}" write decimals?`,
        options: [
          { value: "point", label: `With a point${meant("point")}` },
          { value: "comma", label: `With a comma${meant("comma")}` },
        ],
      });
    }
  }
  if (field.kind === "day" && map.days === undefined) {
    if (orderOf(textsOf(table, index)) === "ask") {
      questions.push({
        ...of,
        part: "days",
        ask: `In "${name}", which comes first?`,
        options: [
          { value: "day first", label: "The day: 3/4/2026 is 3 April" },
          { value: "month first", label: "The month: 3/4/2026 is 4 March" },
        ],
      });
    }
  }
  return questions;
}

function* textsOf(table: Table, index: number) {
  for (const { cells } of table.rows) {
    const cell = cells[index];
    if (typeof cell === "string") yield cellText(cell);
  }
}

function evidenceIn(table: Table, index: number, field: Field, { unit }: ColumnMap) {
  const cannotBe = (value: number) =>
    field.kind === "quantity" &&
    unit !== undefined &&
    impossible(field.dimension, { value, unit }) !== undefined;
  return evidenceOf(textsOf(table, index), cannotBe);
}

/** How a column's cells are read: what the planner said, else what the column itself says. */
export function waysOf(
  table: Table,
  { column, map, field }: ReturnType<typeof mappedColumns>[number],
) {
  const told = field.kind === "day" ? orderOf(textsOf(table, column.index)) : undefined;
  const found =
    map.decimals ??
    (field.kind === "quantity" || field.kind === "count"
      ? decimalsOf(evidenceIn(table, column.index, field, map))
      : "point");
  return {
    decimals: found === "ask" ? ("point" as const) : found,
    days: map.days ?? (told === "ask" ? undefined : told),
  };
}
