import type { UnitSystem } from "../../jobs/display.ts";
import type { JobEvent } from "../../jobs/log/event.ts";
import type { ReportDocument } from "../../jobs/report/document.ts";
import type { LiveJob } from "../useJob.ts";
import { WorkerClient } from "../workerClient.ts";

type Wanted =
  | { readonly what: "report"; readonly missing: readonly string[] }
  | { readonly what: "record" }
  | { readonly what: "readings"; readonly as: "csv" | "xlsx" };

export interface RecordRequest {
  /** of one job, in log order */
  readonly events: readonly JobEvent[];
  readonly now: string;
  readonly units: UnitSystem;
  readonly atmosphere: number;
  readonly want: Wanted;
}

type OfLog = Pick<LiveJob, "state" | "writer">;

/** What a job's log says, put together in a worker. */
export class RecordClient extends WorkerClient<RecordRequest> {
  constructor() {
    super(() => new Worker(new URL("./recordWorker.ts", import.meta.url), { type: "module" }));
  }

  report(of: OfLog, missing: readonly string[]): Promise<ReportDocument | undefined> {
    return this.ask(request(of, { what: "report", missing }));
  }

  record(of: OfLog): Promise<string> {
    return this.ask(request(of, { what: "record" }));
  }

  readings(of: OfLog, as: "csv" | "xlsx"): Promise<string | Uint8Array<ArrayBuffer>> {
    return this.ask(request(of, { what: "readings", as }));
  }
}

const request = ({ state, writer }: OfLog, want: Wanted): RecordRequest => ({
  events: state.events,
  now: new Date().toISOString(),
  units: writer.system,
  atmosphere: writer.atmosphere,
  want,
});
