import { type Quantity, toSI } from "../quantity.ts";
import { cellText } from "./cell.ts";
import type { Table } from "./columns.ts";
import type { Field } from "./field.ts";
import { type Mapping, mappedColumns, waysOf } from "./mapping.ts";
import type { Problems } from "./problem.ts";
import { readCell, type Value } from "./readCell.ts";
import { fieldOf } from "./tableKinds.ts";

/** One row of a table, understood. */
export interface RowValues {
  readonly row: number;
  readonly values: ReadonlyMap<string, Value>;
  /** fields whose cell could not be understood, and has been complained of */
  readonly bad: ReadonlySet<string>;
}

/** Told now and then how many rows are done. */
export type OnProgress = (done: number, of: number) => void;
const EVERY = 1000;

/**
 * Every row understood cell by cell; what cannot be goes to the problems.
 *
 * @param whole the table whose columns tell how they write numbers, where only some of its rows are read
 */
export function rowValuesOf(
  table: Table,
  mapping: Mapping,
  problems: Problems,
  onProgress: OnProgress = () => {},
  whole: Table = table,
): RowValues[] {
  // A figure whose unit nobody has said yet is not read.
  const readable = mappedColumns(table, mapping).filter(
    ({ field, map }) => field.kind !== "quantity" || map.unit !== undefined,
  );
  const columns = readable.map((each) => ({
    ...each,
    ways: { unit: each.map.unit, ...waysOf(whole, each) },
  }));
  let well: Value | undefined;
  return table.rows.map(({ row, cells }, done) => {
    if (done % EVERY === 0) onProgress(done, table.rows.length);
    const values = new Map<string, Value>();
    const bad = new Set<string>();
    for (const { column, field, ways } of columns) {
      const read = readCell(field, ways, cells[column.index]);
      if (read.is === "value") values.set(field.id, read.value);
      else if (read.is === "bad") {
        bad.add(field.id);
        problems.add({
          rows: [row],
          column: column.name,
          found: cellText(cells[column.index]),
          what: read.what,
          mend: read.mend,
        });
      }
    }
    if (mapping.fillDown) {
      well = values.get("well") ?? well;
      if (well !== undefined) values.set("well", well);
    }
    return { row, values, bad };
  });
}

/** The name of the column a field is read from, for a problem that lies in no single cell. */
export function columnOf(table: Table, mapping: Mapping, field: string): string {
  const found = mappedColumns(table, mapping).find((each) => each.field.id === field);
  return found?.column.name ?? fieldOf(mapping.kind, field)?.label ?? field;
}

/** A thing inside a record, by its path. */
export function valueAt(record: unknown, path: string): unknown {
  let at = record;
  for (const key of path.split(".")) {
    if (typeof at !== "object" || at === null) return undefined;
    at = (at as Record<string, unknown>)[key];
  }
  return at;
}

/** A copy of a record with one thing in it set; groups on the way to it are made. */
export function withValue<T>(record: T, path: string, value: unknown): T {
  const [key = "", ...rest] = path.split(".");
  const of = (record ?? {}) as Record<string, unknown>;
  if (rest.length === 0) return { ...of, [key]: value } as T;
  return { ...of, [key]: withValue(of[key], rest.join("."), value) } as T;
}

/** Whether a record says the same already: a figure in another unit that comes to the same is the same. */
export function isSame(field: Field, before: unknown, value: Value): boolean {
  if (before === undefined) return false;
  if (field.kind !== "quantity") return before === value;
  const { dimension } = field;
  const [a, b] = [toSI(dimension, before as Quantity), toSI(dimension, value as Quantity)];
  return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));
}

/** A record with what a row says of it; what the row does not speak of stays. */
export function merged<T>(record: T, fields: readonly Field[], { values }: RowValues): T {
  let result = record;
  for (const field of fields) {
    const value = values.get(field.id);
    if (value === undefined || isSame(field, valueAt(record, field.path), value)) continue;
    result = withValue(result, field.path, value);
  }
  return result;
}
