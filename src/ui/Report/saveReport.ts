import { jobFileName } from "../../jobs/pack/fileNames.ts";
import { handOver } from "../Packs/handOver.ts";
import type { LiveJob } from "../useJob.ts";
import { RecordClient } from "./recordClient.ts";

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
export async function saveReadings(live: LiveJob, kind: keyof typeof types): Promise<string> {
  const name = nameOf(live, "readings", kind);
  handOver(name, await beside((client) => client.readings(live, kind)), types[kind]);
  return name;
}

export async function saveRecord(live: LiveJob): Promise<string> {
  const name = nameOf(live, "record", "json");
  handOver(name, await beside((client) => client.record(live)));
  return name;
}

/** One question to a worker of its own. */
async function beside<T>(ask: (client: RecordClient) => Promise<T>): Promise<T> {
  const client = new RecordClient();
  try {
    return await ask(client);
  } finally {
    client.cancel();
  }
}
