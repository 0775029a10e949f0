import type { TableLibrary } from "../../jobs/tables/changes.ts";
import type { Header } from "../../jobs/tables/header.ts";
import type { Mapping } from "../../jobs/tables/mapping.ts";
import type { Remembered } from "../../jobs/tables/remembered.ts";
import type { Outcome, SheetLook, Source, SourceOpened, Study } from "../../jobs/tables/session.ts";
import type { TableKindId } from "../../jobs/tables/tableKinds.ts";
import { type OnProgress, WorkerClient } from "../workerClient.ts";

type Kept = readonly Remembered[];
export type TableRequest =
  | { readonly do: "open"; readonly source: Source }
  | {
      readonly do: "look";
      readonly sheet: number;
      readonly kept: Kept;
      readonly header?: Header | undefined;
      readonly kind?: TableKindId | undefined;
    }
  | { readonly do: "study"; readonly mapping: Mapping }
  | {
      readonly do: "read";
      readonly mapping: Mapping;
      readonly library: TableLibrary;
      readonly kept: Kept;
    };

/** The reader of tables in its worker. */
export class TableClient extends WorkerClient<TableRequest> {
  constructor() {
    super(() => new Worker(new URL("./tableWorker.ts", import.meta.url), { type: "module" }));
  }

  open(source: Source): Promise<SourceOpened> {
    return this.ask({ do: "open", source });
  }

  look(sheet: number, kept: Kept, header?: Header, kind?: TableKindId): Promise<SheetLook> {
    return this.ask({ do: "look", sheet, kept, header, kind });
  }

  study(mapping: Mapping): Promise<Study> {
    return this.ask({ do: "study", mapping });
  }

  read(
    mapping: Mapping,
    library: TableLibrary,
    kept: Kept,
    onProgress: OnProgress,
  ): Promise<Outcome> {
    return this.ask({ do: "read", mapping, library, kept }, onProgress);
  }
}
