import type { LogMapping } from "../../jobs/diagnosis/logMapping.ts";
import type { LogKind } from "../../jobs/diagnosis/logRoles.ts";
import type { LogLook } from "../../jobs/diagnosis/logTable.ts";
import type { LogRead } from "../../jobs/diagnosis/readLog.ts";
import type { Source } from "../../jobs/tables/session.ts";
import { type OnProgress, WorkerClient } from "../workerClient.ts";

export type LogRequest =
  | { readonly do: "open"; readonly source: Source }
  | {
      readonly do: "look";
      readonly kind: LogKind;
      readonly sheet: number;
      readonly told?: LogMapping | undefined;
    }
  | {
      readonly do: "read";
      readonly kind: LogKind;
      readonly sheet: number;
      readonly mapping: LogMapping;
    };

export type LogOpened =
  | { readonly ok: true; readonly sheets: readonly string[] }
  | { readonly ok: false; readonly why: string };

/** The reader of logs in its worker. */
export class LogClient extends WorkerClient<LogRequest> {
  constructor() {
    super(() => new Worker(new URL("./logWorker.ts", import.meta.url), { type: "module" }));
  }

  open(source: Source): Promise<LogOpened> {
    return this.ask({ do: "open", source });
  }

  look(kind: LogKind, sheet: number, told?: LogMapping): Promise<LogLook> {
    return this.ask({ do: "look", kind, sheet, told });
  }

  read(
    kind: LogKind,
    sheet: number,
    mapping: LogMapping,
    onProgress: OnProgress,
  ): Promise<LogRead> {
    return this.ask({ do: "read", kind, sheet, mapping }, onProgress);
  }
}
