import type { Table } from "./columns.ts";
import { plainWords } from "./field.ts";
import type { ColumnMap, Mapping } from "./mapping.ts";
import { fieldOf, isTableKind, type TableKindId } from "./tableKinds.ts";

/** How a table with these columns was read the last time. A convenience of this device, no record of anything. */
export interface Remembered {
  readonly headers: string;
  readonly kind: TableKindId;
  /** by the column's name */
  readonly columns: Readonly<Record<string, ColumnMap>>;
  readonly fillDown: boolean;
  readonly answers: Readonly<Record<string, string>>;
}

const MOST = 40;
/** What was said of the records of one table is no habit: it is asked each time. */
const NOT_KEPT = new Set(["well", "testDay", "takenOut", "construction"]);

/** The set of a table's columns, whatever order they stand in. */
const headersOf = ({ columns }: Table) =>
  columns
    .map(({ name }) => plainWords(name))
    .sort()
    .join("|");

/** What was remembered, from the text it was kept as; what cannot be read is forgotten. */
export function rememberedIn(text: string | null): readonly Remembered[] {
  try {
    const kept: unknown = JSON.parse(text ?? "[]");
    return Array.isArray(kept) ? kept.filter(isRemembered) : [];
  } catch {
    return [];
  }
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

function isRemembered(value: unknown): value is Remembered {
  if (!isObject(value)) return false;
  const { headers, kind, columns, fillDown, answers } = value;
  return (
    typeof headers === "string" &&
    isTableKind(kind) &&
    isObject(columns) &&
    Object.values(columns).every((map) => isObject(map) && typeof map.field === "string") &&
    typeof fillDown === "boolean" &&
    isObject(answers) &&
    Object.values(answers).every((answer) => typeof answer === "string")
  );
}

/** A mapping put to the others, the latest first. */
export function remember(
  kept: readonly Remembered[],
  table: Table,
  mapping: Mapping,
): readonly Remembered[] {
  const headers = headersOf(table);
  const columns = Object.fromEntries(
    table.columns.flatMap(({ index, name }) => {
      const map = mapping.columns[index];
      return map ? [[name, map]] : [];
    }),
  );
  const { kind, fillDown } = mapping;
  const answers = Object.fromEntries(
    Object.entries(mapping.answers).filter(([id]) => !NOT_KEPT.has(id)),
  );
  const others = kept.filter((each) => each.headers !== headers);
  return [{ headers, kind, columns, fillDown, answers }, ...others].slice(0, MOST);
}

/** The mapping a table with these columns was read with the last time. */
export function recall(kept: readonly Remembered[], table: Table): Mapping | undefined {
  const headers = headersOf(table);
  const found = kept.find((each) => each.headers === headers);
  if (!found) return undefined;
  const columns = Object.fromEntries(
    table.columns.flatMap(({ index, name }) => {
      const map = found.columns[name];
      return map && fieldOf(found.kind, map.field) ? [[index, map] as const] : [];
    }),
  );
  return {
    kind: found.kind,
    header: table.header,
    columns,
    fillDown: found.fillDown,
    answers: found.answers,
  };
}
