import { csvOf, xlsxOf } from "../../jobs/files/tabular.ts";
import { jobFileName } from "../../jobs/pack/fileNames.ts";
import { eventsTable, readingsTable } from "../../jobs/report/readingsTable.ts";
import { recordJson } from "../../jobs/report/recordJson.ts";
import { reviewRecord } from "../../jobs/review/record.ts";
import { handOver } from "../Packs/handOver.ts";
import type { LiveJob } from "../useJob.ts";

const types = {
  csv: "text/csv;charset=utf-8",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
} as const;

const nameOf = ({ programme }: LiveJob, what: string, ending: string) =>
  jobFileName(what, programme.well?.name ?? "no-well", programme.job.day, ending);

/** @returns the file's name */
export function saveReport(live: LiveJob, bytes: Uint8Array<ArrayBuffer>): string {
  const name = nameOf(live, "report", "pdf");
  handOver(name, bytes, "application/pdf");
  return name;
}

/** The readings, with the events on a sheet of their own where the form has sheets. */
export function saveReadings(live: LiveJob, kind: keyof typeof types): string {
  const { state, writer } = live;
  const record = reviewRecord(state, new Date().toISOString(), writer);
  const readings = readingsTable(state, record, writer.atmosphere);
  const name = nameOf(live, "readings", kind);
  const content = kind === "csv" ? csvOf(readings) : xlsxOf(readings, eventsTable(state));
  handOver(name, content, types[kind]);
  return name;
}

export function saveRecord(live: LiveJob): string {
  const name = nameOf(live, "record", "json");
  handOver(name, recordJson(live.state, new Date().toISOString(), live.writer));
  return name;
}
