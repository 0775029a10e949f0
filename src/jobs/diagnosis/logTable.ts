import { impossible, unitsOf } from "../quantity.ts";
import { type Cell, cellText, faultOf, isBlank, type Row, type Sheet } from "../tables/cell.ts";
import { type DayOrder, orderOf } from "../tables/days.ts";
import { columnNames, fieldScores, type Header } from "../tables/header.ts";
import { type Decimals, decimalsOf, evidenceOf, numberIn, written } from "../tables/numbers.ts";
import {
  keptUnit,
  type LogKind,
  type LogRole,
  type RoleOf,
  unitChoices,
  unitSaid,
  valueRoles,
} from "./logRoles.ts";
import { dayLetters, type Said, saidIn } from "./moments.ts";

/**
 * A log of a recorder or of a gauge run as a table: which column is what, in which unit, and what has to be asked
 * because the table does not say it. The rows themselves are read in `readLog.ts`.
 */

export interface LogMapping {
  /** where the columns' names stand; absent: the table has none */
  readonly header?: Header;
  readonly columns: Readonly<Partial<Record<LogRole, number>>>;
  readonly units: Readonly<Partial<Record<LogRole, string>>>;
  readonly order?: DayOrder;
  readonly decimals?: Decimals;
  /** minutes by which the recorder's clock runs ahead of UTC; the tablet's own where nobody says another */
  readonly offset?: number;
}

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

const DEEPEST = 40;
const SAMPLES = 4;
const LOOKED_AT = 400;

/** The rows below the names of the columns. */
export const rowsBelow = ({ rows }: Sheet, header: Header | undefined): readonly Row[] =>
  header ? rows.slice(header.row + header.rows) : rows;

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
    units: { ...guessUnits(kind, columns, given), ...unitsStillFor(told, columns) },
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

/** The row whose names say most of this kind; of two rows of words the second holds units. */
function headerOf(kind: LogKind, { rows }: Sheet): Header | undefined {
  let best: { header: Header; score: number } | undefined;
  rows.slice(0, DEEPEST).forEach((row, index) => {
    for (const taken of [1, 2] as const) {
      const next = rows[index + 1] ?? [];
      if (taken === 2 && (next.every(isBlank) || next.some(isFigure))) continue;
      const header: Header = { row: index, rows: taken };
      const upper = row.map(cellText);
      const score = columnNames(rows.slice(0, index + 2), header).reduce(
        (sum, name, column) =>
          sum +
          Math.max(
            scoreOf(kind, name),
            plainScore(kind, upper[column] ?? "") + unitPoint(kind, name),
          ),
        0,
      );
      // Two rows only where the second one says something: units.
      const points = score - row.filter(isFigure).length * 5 - (taken === 2 ? 0.5 : 0);
      if (points > (best?.score ?? 0)) best = { header, score: points };
    }
  });
  return best?.header;
}

const isFigure = (cell: Cell) =>
  !isBlank(cell) &&
  (typeof cell === "number" ||
    (typeof cell === "object" && cell !== null && "day" in cell) ||
    /^[\d.,:/\s+-]+$/.test(cellText(cell)));

const scoreOf = (kind: LogKind, name: string) => plainScore(kind, name) + unitPoint(kind, name);

function plainScore(kind: LogKind, name: string): number {
  const best = fieldScores(name, valueRoles(kind))[0]?.score ?? 0;
  return Math.max(best, kind === "trend" && saysTime(name) ? 5 : 0);
}

/** A unit speaks for a row of names, and for a second one that holds nothing else. */
function unitPoint(kind: LogKind, name: string): number {
  if (name.length > 200) return 0;
  return valueRoles(kind).some(({ dimension }) => dimension && unitSaid(dimension, name)) ? 1 : 0;
}

const timeWords = [
  "time",
  "date",
  "date time",
  "datetime",
  "timestamp",
  "time stamp",
  "date and time",
  "clock",
  "day",
  "hour",
  "local time",
];

const saysTime = (name: string) =>
  (fieldScores(name, [{ id: "time", synonyms: timeWords }])[0]?.score ?? 0) > 3;

function guessColumns(
  kind: LogKind,
  names: readonly string[],
  rows: readonly Row[],
  width: number,
): LogMapping["columns"] {
  const columns: Partial<Record<LogRole, number>> = {};
  const taken = new Set<number>();
  if (kind === "trend") {
    for (const [column, role] of timeColumns(names, rows, width)) {
      if (columns[role] !== undefined) continue;
      columns[role] = column;
      taken.add(column);
    }
    // A moment says everything; a date beside it would say it twice.
    if (columns.time !== undefined) {
      delete columns.day;
      delete columns.clock;
    }
  }
  const scored = names.flatMap((name, column) =>
    taken.has(column) || (kind === "survey" && /\btvd\b|vertical/i.test(name))
      ? []
      : fieldScores(name, valueRoles(kind)).map(({ id, score }) => ({
          column,
          role: id as LogRole,
          score,
        })),
  );
  for (const { column, role } of scored.sort((a, b) => b.score - a.score)) {
    if (columns[role] !== undefined || taken.has(column)) continue;
    columns[role] = column;
    taken.add(column);
  }
  return columns;
}

/** What columns say of time, by what stands in them: a name alone does not tell a clock from a moment. */
function timeColumns(
  names: readonly string[],
  rows: readonly Row[],
  width: number,
): [number, "time" | "day" | "clock"][] {
  const looked = rows.slice(0, 60);
  return Array.from({ length: width }, (_, column) => column).flatMap(
    (column): [number, "time" | "day" | "clock"][] => {
      const counts = saysTime(names[column] ?? "");
      const cells = looked.map((row) => row[column]).filter((cell) => !isBlank(cell));
      const said = cells.map((cell) => {
        const one = saidIn(cell, "day first", counts);
        return one.day === undefined && one.time === undefined
          ? saidIn(cell, "month first", counts)
          : one;
      });
      const share = (of: (each: Said) => boolean) => said.filter(of).length / (cells.length || 1);
      if (share(({ day, time }) => day !== undefined && time !== undefined) > 0.5) {
        return [[column, "time"]];
      }
      if (share(({ day }) => day !== undefined) > 0.6) return [[column, "day"]];
      if (share(({ time }) => time !== undefined) > 0.6) return [[column, "clock"]];
      return [];
    },
  );
}

function guessUnits(kind: LogKind, columns: LogMapping["columns"], names: readonly string[]) {
  const units: Partial<Record<LogRole, string>> = {};
  for (const { id, dimension } of valueRoles(kind)) {
    const column = columns[id];
    if (column === undefined || !dimension) continue;
    const said = unitSaid(dimension, names[column] ?? "");
    if (said?.is === "unit") units[id] = said.unit;
  }
  return units;
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

/** What a row says of time, from one column or from two. */
export function momentOf({ columns, order }: LogMapping, row: Row): Said {
  if (columns.time !== undefined) return saidIn(row[columns.time], order, true);
  if (columns.day === undefined) return {};
  const day = saidIn(row[columns.day], order, true);
  if (columns.clock === undefined) return day;
  const clock = saidIn(row[columns.clock], order, true);
  // A day without its time is not midnight.
  return clock.time === undefined ? {} : { ...day, ...clock, ...(day.day && { day: day.day }) };
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
  const missing = missingColumns(kind, columns);
  if (missing) questions.push({ part: "columns", says: missing });
  for (const { id, label, dimension } of valueRoles(kind)) {
    const column = columns[id];
    if (column === undefined || !dimension || units[id] !== undefined) continue;
    const said = unitSaid(dimension, names[column] ?? "");
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

function missingColumns(kind: LogKind, columns: LogMapping["columns"]): string | undefined {
  if (kind === "survey") {
    if (columns.depth === undefined) return "Which column holds the depth along hole?";
    return columns.pressure === undefined && columns.temperature === undefined
      ? "Which column holds the pressure, and which the temperature? One of them is needed."
      : undefined;
  }
  if (columns.time === undefined && columns.day === undefined) {
    return "Which column holds the time? Date and time may stand in one column, or the date in one and the time of day in another.";
  }
  if (columns.time === undefined && columns.clock === undefined) {
    return "The dates have no time of day. Which column holds it?";
  }
  return [columns.casing, columns.tubing, columns.rate].every((column) => column === undefined)
    ? "Which columns hold casing pressure, tubing pressure and injection rate? One of them is needed."
    : undefined;
}

/** What stands where a recorder wrote nothing. */
const NOTHING = /^(-+|n\/?a|nan|null|none|no data|nodata|\.|\?+)$/i;

/** A value of a cell, in the unit of its column as a record keeps it; a reason where it is none, undefined for a gap. */
export function valueIn(
  cell: Cell | undefined,
  { id, label, dimension }: RoleOf,
  { units, decimals = "point" }: LogMapping,
): { readonly value: number } | { readonly why: string } | undefined {
  const text = cellText(cell);
  if (text === "" || NOTHING.test(text) || !dimension) return undefined;
  const fault = faultOf(cell ?? null);
  if (fault !== undefined) return { why: `${label}: the sheet says ${fault}` };
  const parts = typeof cell === "number" ? undefined : written(text);
  const read =
    typeof cell === "number"
      ? cell
      : parts?.after === ""
        ? numberIn(parts.number, decimals)
        : undefined;
  if (read === undefined) return { why: `${label}: "${text.slice(0, 40)}" is no number` };
  const { unit, factor } = keptUnit(units[id] ?? (unitsOf(dimension)[0] as string));
  const value = factor === 1 ? read : read * factor;
  const problem = impossible(dimension, { value, unit });
  return problem ? { why: `${label}: ${text.slice(0, 40)} cannot be; ${problem}` } : { value };
}
