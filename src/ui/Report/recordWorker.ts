import { writer } from "../../jobs/display.ts";
import { csvOf, xlsxOf } from "../../jobs/files/tabular.ts";
import { eventsTable, readingsTable } from "../../jobs/report/readingsTable.ts";
import { recordJson } from "../../jobs/report/recordJson.ts";
import { reportOf } from "../../jobs/report/reportOf.ts";
import { reviewRecord } from "../../jobs/review/record.ts";
import { foldInOrder } from "../../jobs/state/jobState.ts";
import { answering } from "../workerClient.ts";
import type { RecordRequest } from "./recordClient.ts";

/** Puts together what a log says beside the screen: every reading is held against the numbers of its own moment. */
answering<RecordRequest>(({ events, now, units, atmosphere, want }) => {
  const state = foldInOrder(events);
  const write = writer(units, atmosphere);
  if (want.what === "report") {
    return reportOf(state, now, write, { missing: new Set(want.missing) });
  }
  if (want.what === "record") return recordJson(state, now, write);
  const readings = readingsTable(state, reviewRecord(state, now, write), atmosphere);
  return want.as === "csv" ? csvOf(readings) : xlsxOf(readings, eventsTable(state));
});
