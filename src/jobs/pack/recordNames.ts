import { type Library, type RecordKind, type RecordTypes, recordKinds } from "../store/library.ts";

export type AnyRecord = RecordTypes[RecordKind];

/** What a record is called on the screen. @param names of other records, by their ids */
export function nameOf(
  kind: RecordKind,
  record: AnyRecord,
  names: ReadonlyMap<string, string>,
): string {
  if ("evidence" in record) {
    return `investigation of ${names.get(record.well) ?? record.well}, ${record.opened.slice(0, 10)}`;
  }
  if ("well" in record) return `job on ${names.get(record.well) ?? record.well}, ${record.day}`;
  if (kind === "tools" && "serial" in record && "name" in record) {
    return `${record.name} ${record.serial}`;
  }
  if ("name" in record) return record.name;
  if ("serial" in record) return `valve ${record.serial}`;
  return `${kind.slice(0, -1)} ${record.id}`;
}

/** What ids stand for, in words: records of any kind, and mandrels; those of the first library go before. */
export function namesIn(...libraries: readonly Library[]): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  const learn = (id: string, name: string) => {
    if (!names.has(id)) names.set(id, name);
  };
  for (const library of libraries) {
    for (const kind of recordKinds) {
      // A day's id is the day: where a record names one, it means the date.
      if (kind === "days") continue;
      for (const record of library[kind]) learn(record.id, nameOf(kind, record, names));
    }
    for (const { id, number } of library.wells.flatMap((well) => well.mandrels)) {
      learn(id, `mandrel ${number}`);
    }
  }
  return names;
}
