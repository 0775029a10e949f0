import type { ReportDocument } from "../../jobs/report/document.ts";
import type { Paper } from "../../jobs/report/pdf/paper.ts";
import type { Progress } from "../../jobs/report/pdf/setPdf.ts";

type Bytes = Uint8Array<ArrayBuffer>;

export type Asked =
  | { readonly do: "set"; readonly document: ReportDocument; readonly paper: Paper }
  | { readonly do: "take picture"; readonly hash: string; readonly bytes: Bytes | undefined };

export type Said =
  | { readonly is: "picture wanted"; readonly hash: string }
  | { readonly is: "progress"; readonly progress: Progress }
  | { readonly is: "done"; readonly bytes: Bytes }
  | { readonly is: "failed"; readonly why: string };

interface Making {
  readonly paper: Paper;
  /** Asked for when its page is set. Its bytes are handed over: whoever gave them cannot read them any more. */
  readonly pictures: (hash: string) => Promise<Bytes | undefined>;
  readonly onProgress?: (progress: Progress) => void;
  readonly signal?: AbortSignal;
}

/**
 * A report as PDF, set beside the screen, without network. What is given up ends with its worker.
 *
 * @throws the signal's reason, where that gave it up; an error that says why, where it could not be made
 */
export function makePdf(document: ReportDocument, making: Making): Promise<Bytes> {
  const { paper, pictures, onProgress, signal } = making;
  return new Promise((resolve, reject) => {
    signal?.throwIfAborted();
    const worker = new Worker(new URL("./pdfWorker.ts", import.meta.url), { type: "module" });
    const ask = (asked: Asked, handedOver: Transferable[] = []) =>
      worker.postMessage(asked, handedOver);
    const end = () => {
      worker.terminate();
      signal?.removeEventListener("abort", giveUp);
    };
    const fail = (why: unknown) => {
      end();
      reject(why);
    };
    const giveUp = () => fail(signal?.reason);
    signal?.addEventListener("abort", giveUp);
    worker.onmessage = ({ data }: MessageEvent<Said>) => {
      switch (data.is) {
        case "picture wanted":
          pictures(data.hash).then(
            (bytes) =>
              ask({ do: "take picture", hash: data.hash, bytes }, bytes ? [bytes.buffer] : []),
            fail,
          );
          return;
        case "progress":
          onProgress?.(data.progress);
          return;
        case "done":
          end();
          resolve(data.bytes);
          return;
        case "failed":
          fail(new Error(data.why));
      }
    };
    worker.onerror = (event) =>
      fail(new Error(event.message || "the setting of the report stopped"));
    ask({ do: "set", document, paper });
  });
}
