import { unitLabel } from "../display.ts";
import { type Dimension, impossible, unitsOf } from "../quantity.ts";
import { type Cell, cellText, faultOf, type Row, type Sheet } from "../tables/cell.ts";
import type { DayOrder } from "../tables/days.ts";
import type { Header } from "../tables/header.ts";
import { type Decimals, numberIn, written } from "../tables/numbers.ts";
import { keptUnit, type LogRole, type RoleOf, unitSaid } from "./logRoles.ts";
import { type Said, saidIn } from "./moments.ts";

/** What was said of a recorder's table, and what a row of it holds by that. */
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

/** The rows below the names of the columns. */
export const rowsBelow = ({ rows }: Sheet, header: Header | undefined): readonly Row[] =>
  header ? rows.slice(header.row + header.rows) : rows;

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
  const inUnit = units[id] ?? (unitsOf(dimension)[0] as string);
  const isOfColumn = !parts?.after || says(inUnit, dimension, parts.after);
  const read =
    typeof cell === "number"
      ? cell
      : parts && isOfColumn
        ? numberIn(parts.number, decimals)
        : undefined;
  if (read === undefined) {
    return {
      why: isOfColumn
        ? `${label}: "${text.slice(0, 40)}" is no number`
        : `${label}: "${text.slice(0, 40)}" is no number in ${unitLabel(inUnit)}`,
    };
  }
  const { unit, factor } = keptUnit(inUnit);
  const value = factor === 1 ? read : read * factor;
  const problem = impossible(dimension, { value, unit });
  return problem ? { why: `${label}: ${text.slice(0, 40)} cannot be; ${problem}` } : { value };
}

/** Whether what stands behind a figure is the unit of its column, or may be it: psi may be psig. */
function says(unit: string, dimension: Dimension, after: string): boolean {
  const said = unitSaid(dimension, after);
  if (said?.is === "unit") return said.unit === unit;
  return said?.is === "choice" && said.units.includes(unit);
}
