import type { LoadOut } from "../../jobs/day/loadOut.ts";
import { loadTable } from "../../jobs/day/loadTable.ts";
import { csvOf, xlsxOf } from "../../jobs/files/tabular.ts";
import { handOver } from "../Packs/handOver.ts";

const types = {
  csv: "text/csv;charset=utf-8",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
} as const;

/** @returns the file's name */
export function saveLoadOut(day: string, loadOut: LoadOut, kind: keyof typeof types): string {
  const table = loadTable(day, loadOut);
  const name = `latchline-load-out-${day}.${kind}`;
  handOver(name, kind === "csv" ? csvOf(table) : xlsxOf(table), types[kind]);
  return name;
}
