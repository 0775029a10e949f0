import { format } from "date-fns";
import type { Evidence } from "../records/investigation.ts";
import { isBlank, type Row, type Sheet } from "../tables/cell.ts";
import { type LogMapping, momentOf, rowsBelow, valueIn } from "./logMapping.ts";
import { keptUnit, type LogKind, type LogRole, rolesOf } from "./logRoles.ts";
import { instantOf } from "./moments.ts";
import { type LogRow, thinLog } from "./thinLog.ts";

/** What a record keeps at most of one. */
export const MOST_POINTS = 20_000;
export const MOST_STOPS = 2000;

type Points = Extract<Evidence, { kind: "trend" }>["points"];
type Stops = Extract<Evidence, { kind: "survey" }>["stops"];

export type LogRead =
  | {
      readonly ok: true;
      readonly kind: LogKind;
      readonly points: Points;
      readonly stops: Stops;
      /** what was left out, put in order or made fewer, in words */
      readonly said: readonly string[];
    }
  | { readonly ok: false; readonly why: string };

/** Clocks of two machines differ by minutes. */
const AHEAD_MS = 15 * 60_000;

const refused = (why: string): LogRead => ({ ok: false, why });
const counted = (count: number, one: string, many = `${one}s`) =>
  `${count.toLocaleString("en-US")} ${count === 1 ? one : many}`;

/** What could not be read, counted, with the first of it. */
class LeftOut {
  private count = 0;
  private first = "";

  add(row: number, why: string) {
    this.count += 1;
    this.first ||= `row ${row}, ${why}`;
  }

  get says(): string[] {
    return this.count === 0
      ? []
      : [
          `${counted(this.count, "cell")} left out: ${this.first}${this.count > 1 ? ", and others" : ""}.`,
        ];
  }
}

/**
 * The rows of a log as a record keeps them: in their order, without what cannot be, and no more than a record holds.
 *
 * @param mapping with nothing left to ask; its `offset` is that of the recorder's clock, 0 where it says none
 * @param onProgress called now and then
 * @param now instant: rows of a later day were read the wrong way round, or a clock is wrong
 */
export function readLog(
  kind: LogKind,
  sheet: Sheet,
  mapping: LogMapping,
  onProgress: (done: number, of: number) => void = () => {},
  now?: string,
): LogRead {
  const below = rowsBelow(sheet, mapping.header);
  const from = mapping.header ? mapping.header.row + mapping.header.rows : 0;
  const values = rolesOf(kind).filter(
    ({ id, dimension }) => dimension && id !== "depth" && mapping.columns[id] !== undefined,
  );
  const leftOut = new LeftOut();
  const rows: LogRow[] = [];
  let without = 0;
  let firstWithout = 0;
  let empty = 0;
  below.forEach((row, index) => {
    if (index % 5000 === 0) onProgress(index, below.length);
    const line = from + index + 1;
    const read = values.map((role) => {
      const value = valueIn(row[mapping.columns[role.id] as number], role, mapping);
      if (value && "why" in value) leftOut.add(line, value.why);
      return value && "value" in value ? value.value : undefined;
    });
    if (read.every((value) => value === undefined)) {
      // A line with nothing in it, as a paste ends with, is no row.
      if (!row.every(isBlank)) empty += 1;
      return;
    }
    const at = placeOf(kind, mapping, row);
    if (at === undefined) {
      without += 1;
      firstWithout ||= line;
      return;
    }
    rows.push({ at, values: read });
  });
  const what = kind === "trend" ? "time" : "depth";
  if (rows.length < 2) {
    return refused(
      rows.length === 0 && without > 0
        ? `No row has a ${what} that can be read; the first is row ${firstWithout}. Look at which column holds the ${what}, then read it again.`
        : `${counted(rows.length, "row")} with a ${what} and a value can be read, and at least 2 are needed. ${leftOut.says[0] ?? "Look at which column is which, then read it again."}`,
    );
  }
  const said = [...leftOut.says];
  if (without > 0) {
    said.push(
      `${counted(without, "row")} without a ${what} that can be read left out, the first is row ${firstWithout}.`,
    );
  }
  if (empty > 0) said.push(`${counted(empty, "row")} without any value left out.`);
  if (rows.some((row, index) => index > 0 && row.at < (rows[index - 1]?.at ?? 0))) {
    rows.sort((a, b) => a.at - b.at);
    said.push(`The rows were not in the order of their ${what}s; they are now.`);
  }
  const last = rows.at(-1)?.at;
  if (kind === "trend" && now && last !== undefined && last > Date.parse(now) + AHEAD_MS) {
    return refused(
      `The last row is of ${format(last, "d MMM yyyy HH:mm")}, ahead of the tablet's clock. Look at the order of day and month, at the recorder's clock, and at the tablet's.`,
    );
  }
  const most = kind === "trend" ? MOST_POINTS : MOST_STOPS;
  const kept = thinLog(rows, most);
  if (kept.length < rows.length) {
    said.push(
      `Of ${counted(rows.length, "row")} ${kept.length.toLocaleString("en-US")} are kept: of every short interval the least and the most of each column, so that peaks stay.`,
    );
  }
  const ids = values.map(({ id }) => id);
  return {
    ok: true,
    kind,
    points: kind === "trend" ? kept.map((row) => pointOf(row, ids, mapping)) : [],
    stops: kind === "survey" ? kept.map((row) => stopOf(row, ids, mapping)) : [],
    said,
  };
}

function placeOf(kind: LogKind, mapping: LogMapping, row: Row): number | undefined {
  if (kind === "trend") return instantOf(momentOf(mapping, row), mapping.offset ?? 0);
  const depth = rolesOf("survey").find(({ id }) => id === "depth");
  const value = depth && valueIn(row[mapping.columns.depth ?? -1], depth, mapping);
  return value && "value" in value ? value.value : undefined;
}

/** In the unit that a record keeps, to what a pen can write. */
function quantityOf(value: number, role: LogRole, { units }: LogMapping) {
  return { value: Number(value.toPrecision(8)), unit: keptUnit(units[role] ?? "").unit };
}

function named(row: LogRow, ids: readonly LogRole[], mapping: LogMapping) {
  return Object.fromEntries(
    row.values.flatMap((value, index) => {
      const role = ids[index];
      return value === undefined || !role ? [] : [[role, quantityOf(value, role, mapping)]];
    }),
  );
}

function pointOf(row: LogRow, ids: readonly LogRole[], mapping: LogMapping): Points[number] {
  const { rate, ...pens } = named(row, ids, mapping);
  return {
    at: new Date(row.at).toISOString(),
    ...pens,
    ...(rate && { injectionRate: rate }),
  } as Points[number];
}

function stopOf(row: LogRow, ids: readonly LogRole[], mapping: LogMapping): Stops[number] {
  return {
    depthAlongHole: quantityOf(row.at, "depth", mapping),
    ...named(row, ids, mapping),
  } as Stops[number];
}
