import type { Dimension } from "../quantity.ts";
import { type Cell, cellText, isBlank, type Row, type Sheet } from "../tables/cell.ts";
import { columnNames, fieldScores, type Header } from "../tables/header.ts";
import { written } from "../tables/numbers.ts";
import type { LogMapping } from "./logMapping.ts";
import { type LogKind, type LogRole, unitSaid, valueRoles } from "./logRoles.ts";
import { type Said, saidIn } from "./moments.ts";

/** Which column of a recorder's table is what, by its names and by what stands in it: a guess that somebody sees. */

const DEEPEST = 40;

/** The row whose names say most of this kind; of two rows of words the second holds units. */
export function headerOf(kind: LogKind, { rows }: Sheet): Header | undefined {
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

export function guessColumns(
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

/** By the column's name, else by what stands behind its figures. */
export function guessUnits(
  kind: LogKind,
  columns: LogMapping["columns"],
  names: readonly string[],
  rows: readonly Row[],
) {
  const units: Partial<Record<LogRole, string>> = {};
  for (const { id, dimension } of valueRoles(kind)) {
    const column = columns[id];
    if (column === undefined || !dimension) continue;
    const said = unitSaid(dimension, names[column] ?? "") ?? unitBehind(dimension, rows, column);
    if (said?.is === "unit") units[id] = said.unit;
  }
  return units;
}

/** What the first figures of a column all have behind them, as "742 psig" does. */
export function unitBehind(dimension: Dimension, rows: readonly Row[], column: number) {
  const behind = new Set(
    rows.slice(0, 60).flatMap((row) => {
      const cell = row[column];
      return typeof cell === "string" ? (written(cellText(cell))?.after ?? []) : [];
    }),
  );
  const [word] = behind;
  return behind.size === 1 && word ? unitSaid(dimension, word) : undefined;
}
