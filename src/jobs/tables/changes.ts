import { asEntered } from "../display.ts";
import type { Library, RecordTypes } from "../store/library.ts";
import type { Field } from "./field.ts";
import { valueAt } from "./rowValues.ts";
import { tableKind } from "./tableKinds.ts";

/** The records that tables write. */
export type TableRecordKind = "wells" | "valves" | "tools";

export interface ChangedField {
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

/** One record that a table speaks of, and what becomes of it. */
export interface Change {
  readonly kind: TableRecordKind;
  readonly name: string;
  readonly is: "new" | "changed" | "same";
  readonly fields: readonly ChangedField[];
  /** rows that speak of it */
  readonly rows: readonly number[];
}

/** A record as it was and as the table makes it. */
export interface Draft<K extends TableRecordKind = TableRecordKind> {
  readonly kind: K;
  readonly before: RecordTypes[K] | undefined;
  readonly after: RecordTypes[K];
  readonly rows: readonly number[];
}

const wellsKind = tableKind("wells");
const fieldsOf = (of: Field["of"]) => wellsKind.fields.filter((field) => field.of === of);
const labelled = {
  wells: fieldsOf("well"),
  mandrels: fieldsOf("mandrel"),
  valves: tableKind("valves").fields,
  tools: tableKind("tools").fields,
};

/** A figure, a word or nothing, as a person reads it. */
function inWords(value: unknown): string {
  if (value === undefined || value === null) return "";
  if (typeof value === "object") return asEntered(value as { value: number; unit: string });
  return String(value);
}

const all = (fields: readonly Field[], record: unknown, before = "") =>
  fields.map(({ label, path }) => [`${before}${label}`, inWords(valueAt(record, path))] as const);

/** What of a record tables can change, in words. */
function described(
  kind: TableRecordKind,
  record: unknown,
  serialOf: (id: string) => string,
): Map<string, string> {
  if (kind !== "wells") return new Map(all(labelled[kind], record));
  const { mandrels, path } = record as RecordTypes["wells"];
  return new Map([
    ...all(labelled.wells, record),
    ["Path", pathInWords(path)] as const,
    ...mandrels.flatMap((mandrel) => {
      const name = `Mandrel ${mandrel.number}: `;
      const valve = mandrel.valve === undefined ? "" : serialOf(mandrel.valve);
      return [...all(labelled.mandrels.slice(1), mandrel, name), [`${name}valve`, valve] as const];
    }),
  ]);
}

function pathInWords(path: RecordTypes["wells"]["path"]): string {
  if (path.kind === "vertical") return "vertical";
  const last = path.stations.at(-1);
  return `${path.stations.length} stations${last ? ` to ${asEntered(last.depthAlongHole)}` : ""}`;
}

/** What a draft changes, field by field; the same record written again is no change. */
export function changeOf(draft: Draft, serialOf: (id: string) => string): Change {
  const { kind, before, after, rows } = draft;
  const name =
    kind === "wells" ? (after as RecordTypes["wells"]).name : (after as { serial: string }).serial;
  const isSame = before !== undefined && JSON.stringify(before) === JSON.stringify(after);
  if (isSame) return { kind, name, is: "same", fields: [], rows };
  const was = before ? described(kind, before, serialOf) : new Map<string, string>();
  const will = described(kind, after, serialOf);
  const fields = [...new Set([...was.keys(), ...will.keys()])].flatMap((label): ChangedField[] => {
    const [from, to] = [was.get(label) ?? "", will.get(label) ?? ""];
    return from === to ? [] : [{ label, before: from, after: to }];
  });
  // Stations of the same number and depth may differ all the same.
  if (before && fields.length === 0)
    fields.push({ label: "Path", before: "other stations", after: "as in the table" });
  return { kind, name, is: before ? "changed" : "new", fields, rows };
}

/** The part of a library that tables are held against. */
export type TableLibrary = Pick<Library, TableRecordKind>;
