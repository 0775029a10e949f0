import { impossible, unitsOf } from "../quantity.ts";
import { type Cell, cellText, type Row, type Sheet } from "../tables/cell.ts";
import { type DayOrder, orderOf } from "../tables/days.ts";
import { columnNames } from "../tables/header.ts";
import { type Decimals, decimalsOf, evidenceOf } from "../tables/numbers.ts";
import { guessColumns, guessUnits, headerOf, unitBehind } from "./logColumns.ts";
import { type LogMapping, momentOf, rowsBelow } from "./logMapping.ts";
import {
  keptUnit,
  type LogKind,
  type LogRole,
  unitChoices,
  unitSaid,
  valueRoles,
} from "./logRoles.ts";
import { dayLetters, type Said } from "./moments.ts";

/**
 * A log of a recorder or of a gauge run as a table: which column is what, in which unit, and what has to be asked
 * because the table does not say it. The rows themselves are read in `readLog.ts`.
 */

/** What the table does not say and somebody has to. */
export type LogQuestion =
  | { readonly part: "columns"; readonly says: string }
  | {
      readonly part: "unit";
      readonly role: LogRole;
      readonly says: string;
      readonly choices: readonly string[];
    }
  | { readonly part: "order" | "decimals"; readonly says: string };

export interface LogLook {
  readonly columns: readonly { readonly name: string; readonly samples: readonly string[] }[];
  readonly rows: number;
  readonly mapping: LogMapping;
  readonly questions: readonly LogQuestion[];
  /** the first moment, by the recorder's own clock, where one is read: e.g. 2026-11-20T09:00 */
  readonly first: string | undefined;
  /** the cells say their own zone */
  readonly hasZones: boolean;
}

const SAMPLES = 4;
const LOOKED_AT = 400;

/**
 * How a table is most likely to be read, and what has to be asked first.
 *
 * @param told what somebody has said of it already
 */
export function lookAtLog(kind: LogKind, sheet: Sheet, told?: LogMapping): LogLook {
  const header = told ? told.header : headerOf(kind, sheet);
  const below = rowsBelow(sheet, header);
  const width = sheet.rows.reduce((most, row) => Math.max(most, row.length), 0);
  const given = header ? columnNames(sheet.rows, header) : [];
  const names = Array.from({ length: width }, (_, index) =>
    (given[index] || `column ${index + 1}`).slice(0, 120),
  );
  const columns = told?.columns ?? guessColumns(kind, given, below, width);
  const withUnits: LogMapping = {
    ...told,
    ...(header && { header }),
    columns,
    units: { ...guessUnits(kind, columns, given, below), ...unitsStillFor(told, columns) },
  };
  const order = told?.order ?? orderIn(withUnits, below);
  const decimals = told?.decimals ?? decimalsIn(kind, withUnits, below);
  const mapping: LogMapping = {
    ...withUnits,
    ...(order !== undefined && order !== "ask" && { order }),
    ...(decimals !== "ask" && { decimals }),
  };
  const first = firstMoment(mapping, below);
  return {
    columns: names.map((name, index) => ({ name, samples: samplesOf(below, index) })),
    rows: below.length,
    mapping,
    questions: questionsOf(kind, mapping, given, order, decimals, below),
    first:
      first?.day === undefined
        ? undefined
        : `${first.day}T${new Date(first.time ?? 0).toISOString().slice(11, 16)}`,
    hasZones: first?.zone !== undefined,
  };
}

function unitsStillFor(told: LogMapping | undefined, columns: LogMapping["columns"]) {
  return Object.fromEntries(
    Object.entries(told?.units ?? {}).filter(([role]) => columns[role as LogRole] !== undefined),
  );
}

const samplesOf = (rows: readonly Row[], column: number): string[] => {
  const found: string[] = [];
  for (const row of rows) {
    const text = cellTextOf(row[column]);
    if (text !== "") found.push(text.slice(0, 60));
    if (found.length === SAMPLES) break;
  }
  return found;
};

/** A cell in letters, a moment of a workbook with its time. */
function cellTextOf(cell: Cell | undefined): string {
  const isMoment = typeof cell === "object" && cell !== null && "day" in cell;
  return isMoment ? [cell.day, cell.time?.slice(0, 8)].join(" ").trim() : cellText(cell);
}

const dayColumn = ({ columns }: LogMapping) => columns.time ?? columns.day;

function orderIn(mapping: LogMapping, rows: readonly Row[]) {
  const column = dayColumn(mapping);
  if (column === undefined) return undefined;
  const days = new Set<string>();
  for (const row of rows) days.add(dayLetters(row[column]));
  return orderOf(days);
}

function decimalsIn(kind: LogKind, { columns, units }: LogMapping, rows: readonly Row[]) {
  const looked = rows.length > LOOKED_AT ? spread(rows) : rows;
  let [point, comma] = [0, 0];
  let either: string | undefined;
  for (const { id, dimension } of valueRoles(kind)) {
    const column = columns[id];
    if (column === undefined || !dimension) continue;
    const texts = looked.flatMap((row) => {
      const cell = row[column];
      return typeof cell === "string" ? [cellText(cell)] : [];
    });
    const { unit, factor } = keptUnit(units[id] ?? (unitsOf(dimension)[0] as string));
    const found = evidenceOf(
      texts,
      (value) => impossible(dimension, { value: value * factor, unit }) !== undefined,
    );
    point += found.point;
    comma += found.comma;
    either ??= found.either;
  }
  return decimalsOf({ point, comma, either });
}

/** So many rows from all over a long table. */
function spread(rows: readonly Row[]): Row[] {
  const step = rows.length / LOOKED_AT;
  return Array.from({ length: LOOKED_AT }, (_, index) => rows[Math.floor(index * step)] as Row);
}

function firstMoment(mapping: LogMapping, rows: readonly Row[]): Said | undefined {
  for (const row of rows.slice(0, LOOKED_AT)) {
    const said = momentOf(mapping, row);
    if (said.day !== undefined) return said;
  }
  return undefined;
}

function questionsOf(
  kind: LogKind,
  { columns, units }: LogMapping,
  names: readonly string[],
  order: DayOrder | "ask" | undefined,
  decimals: Decimals | "ask",
  rows: readonly Row[],
): LogQuestion[] {
  const questions: LogQuestion[] = [];
  const missing = missingColumns(kind, columns, rows);
  if (missing) questions.push({ part: "columns", says: missing });
  for (const { id, label, dimension } of valueRoles(kind)) {
    const column = columns[id];
    if (column === undefined || !dimension || units[id] !== undefined) continue;
    const said = unitSaid(dimension, names[column] ?? "") ?? unitBehind(dimension, rows, column);
    const choices = said?.is === "choice" ? said.units : unitChoices(dimension);
    const says =
      said?.is === "choice"
        ? `${label}: ${said.word} does not say whether it is counted from the air or from nothing.`
        : said?.is === "foreign"
          ? `${label}: ${said.word} is not read here. Choose another unit if the numbers are in it; otherwise convert the column first.`
          : `${label}: the table does not say its unit.`;
    questions.push({ part: "unit", role: id, says, choices });
  }
  if (order === "ask") {
    const column = dayColumn({ columns, units }) ?? 0;
    const example = rows.map((row) => dayLetters(row[column])).find((day) => day !== "") ?? "";
    questions.push({ part: "order", says: `${example}: which number is the day?` });
  }
  if (decimals === "ask") {
    const example = exampleOfDecimals(kind, columns, rows);
    questions.push({
      part: "decimals",
      says: `${example}: does the comma or the point stand before the decimals?`,
    });
  }
  return questions;
}

function exampleOfDecimals(kind: LogKind, columns: LogMapping["columns"], rows: readonly Row[]) {
  for (const row of rows) {
    for (const { id } of valueRoles(kind)) {
      const text = cellText(row[columns[id] ?? -1]);
      if (/\d[.,]\d/.test(text)) return text.slice(0, 30);
    }
  }
  return "The numbers";
}

function missingColumns(
  kind: LogKind,
  columns: LogMapping["columns"],
  rows: readonly Row[],
): string | undefined {
  if (rows.length > 0 && rows.every((row) => row.length < 2)) {
    return "Only one column was found. Tabs, semicolons or commas stand between cells: copy the cells of the spreadsheet themselves, or save it as CSV.";
  }
  if (kind === "survey") {
    if (columns.depth === undefined) return "Which column holds the depth along hole?";
    return columns.pressure === undefined && columns.temperature === undefined
      ? "Which column holds the pressure, and which the temperature? One of them is needed."
      : undefined;
  }
  if (columns.time === undefined && columns.day === undefined) {
    if (columns.clock !== undefined) {
      return "The times have no date. Which column holds it? Where none does, add one to the table.";
    }
    return "Which column holds the time? Date and time may stand in one column, or the date in one and the time of day in another. Hours counted from a start are not read: give each row its date and time.";
  }
  if (columns.time === undefined && columns.clock === undefined) {
    return "The dates have no time of day. Which column holds it?";
  }
  return [columns.casing, columns.tubing, columns.rate].every((column) => column === undefined)
    ? "Which columns hold casing pressure, tubing pressure and injection rate? One of them is needed."
    : undefined;
}
