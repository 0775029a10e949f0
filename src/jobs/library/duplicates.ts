import { bare, type Entry, type LibraryKind, withinOf } from "./entry.ts";
import type { Begun } from "./newRecord.ts";
import { entriesOf, type Shelves } from "./search.ts";

/** The field in which a record of a kind says which one it is, where two of one saying are a mistake. */
const saying: Readonly<Partial<Record<LibraryKind, string>>> = {
  wells: "name",
  valves: "serial",
  tools: "serial",
};

/** What is here already under the serial, mark or name of a record; blanks, dashes and capitals do not count. */
export function hereAlready(
  shelves: Shelves,
  kind: LibraryKind,
  record: Begun,
): { readonly field: string; readonly entry: Entry } | undefined {
  const field = saying[kind];
  if (field === undefined) return undefined;
  const said = bare(String(record[field] ?? ""));
  const within =
    kind === "wells" ? withinOf(String(record.field ?? ""), String(record.name ?? "")) : undefined;
  const entry = entriesOf(shelves[kind]).find(
    (each) => each.plain === said && each.within === within && each.id !== record.id,
  );
  return entry && said !== "" ? { field, entry } : undefined;
}
