/** What a worker says of one thing it was asked. */
export type Said =
  | { readonly id: number; readonly is: "progress"; readonly done: number; readonly of: number }
  | { readonly id: number; readonly is: "done"; readonly result: unknown }
  | { readonly id: number; readonly is: "failed"; readonly why: string };

export type Asked<Request> = Request & { readonly id: number };
export type OnProgress = (done: number, of: number) => void;

/** Work that somebody gave up. */
export class Cancelled extends Error {
  override readonly name = "Cancelled";
}

interface Waiting {
  readonly done: (result: never) => void;
  readonly failed: (why: Error) => void;
  readonly onProgress: OnProgress | undefined;
}

/** Asks a worker. What is given up ends with the worker; the next question starts another. */
export class WorkerClient<Request extends object> {
  private readonly start: () => Worker;
  private worker: Worker | undefined;
  private readonly waiting = new Map<number, Waiting>();
  private count = 0;

  constructor(start: () => Worker) {
    this.start = start;
  }

  /** Ends what is under way, and what the worker held. */
  cancel(): void {
    this.worker?.terminate();
    this.worker = undefined;
    for (const { failed } of this.waiting.values()) failed(new Cancelled("given up"));
    this.waiting.clear();
  }

  ask<T>(request: Request, onProgress?: OnProgress): Promise<T> {
    this.worker ??= this.started();
    this.count += 1;
    const id = this.count;
    const { worker } = this;
    return new Promise<T>((done, failed) => {
      this.waiting.set(id, { done: done as Waiting["done"], failed, onProgress });
      worker.postMessage({ ...request, id });
    });
  }

  private started(): Worker {
    const worker = this.start();
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
      const why = event.message || "what worked beside the screen stopped";
      this.worker = undefined;
      worker.terminate();
      for (const { failed } of this.waiting.values()) failed(new Error(why));
      this.waiting.clear();
    };
    return worker;
  }
}

/** The worker's side: answers one question after the other, with how far it is. */
export function answering<Request extends object>(
  answer: (asked: Request, onProgress: OnProgress) => unknown,
): void {
  const say = (said: Said) => postMessage(said);
  self.onmessage = async ({ data }: MessageEvent<Asked<Request>>) => {
    const { id } = data;
    try {
      const result = await answer(data, (done, of) => say({ id, is: "progress", done, of }));
      say({ id, is: "done", result });
    } catch (error) {
      say({ id, is: "failed", why: error instanceof Error ? error.message : String(error) });
    }
  };
}
