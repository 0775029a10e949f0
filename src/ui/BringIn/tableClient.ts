import type { TableLibrary } from "../../jobs/tables/changes.ts";
import type { Header } from "../../jobs/tables/header.ts";
import type { Mapping } from "../../jobs/tables/mapping.ts";
import type { Remembered } from "../../jobs/tables/remembered.ts";
import type { Outcome, SheetLook, Source, SourceOpened, Study } from "../../jobs/tables/session.ts";
import type { TableKindId } from "../../jobs/tables/tableKinds.ts";

type Kept = readonly Remembered[];
type Request =
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
export type Asked = Request & { readonly id: number };

export type Said =
  | { readonly id: number; readonly is: "progress"; readonly done: number; readonly of: number }
  | { readonly id: number; readonly is: "done"; readonly result: unknown }
  | { readonly id: number; readonly is: "failed"; readonly why: string };

/** Work that somebody gave up. */
export class Cancelled extends Error {
  override readonly name = "Cancelled";
}

interface Waiting {
  readonly done: (result: never) => void;
  readonly failed: (why: Error) => void;
  readonly onProgress: ((done: number, of: number) => void) | undefined;
}

/** The reader of tables in its worker. What is given up ends with the worker; the next question starts another. */
export class TableClient {
  private worker: Worker | undefined;
  private readonly waiting = new Map<number, Waiting>();
  private count = 0;

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
    onProgress: (done: number, of: number) => void,
  ): Promise<Outcome> {
    return this.ask({ do: "read", mapping, library, kept }, onProgress);
  }

  /** Ends what is under way, and the rows it held. */
  cancel(): void {
    this.worker?.terminate();
    this.worker = undefined;
    for (const { failed } of this.waiting.values()) failed(new Cancelled("given up"));
    this.waiting.clear();
  }

  private ask<T>(request: Request, onProgress?: Waiting["onProgress"]): Promise<T> {
    this.worker ??= this.start();
    this.count += 1;
    const id = this.count;
    const { worker } = this;
    return new Promise<T>((done, failed) => {
      this.waiting.set(id, { done: done as Waiting["done"], failed, onProgress });
      worker.postMessage({ ...request, id });
    });
  }

  private start(): Worker {
    const worker = new Worker(new URL("./tableWorker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<Said>) => {
      const waiting = this.waiting.get(data.id);
      if (!waiting) return;
      if (data.is === "progress") {
        waiting.onProgress?.(data.done, data.of);
        return;
      }
      this.waiting.delete(data.id);
      if (data.is === "done") waiting.done(data.result as never);
      else waiting.failed(new Error(data.why));
    };
    worker.onerror = (event) => {
      const why = event.message || "the reader of tables stopped";
      this.worker = undefined;
      worker.terminate();
      for (const { failed } of this.waiting.values()) failed(new Error(why));
      this.waiting.clear();
    };
    return worker;
  }
}
