import { inBase64 } from "../../../src/jobs/photographs.ts";
import type { ReportDocument } from "../../../src/jobs/report/document.ts";
import type { Paper } from "../../../src/jobs/report/pdf/paper.ts";
import { makePdf } from "../../../src/ui/Report/pdfClient.ts";

/** What came of a report that was made on this page, and how the page fared meanwhile. */
export interface Made {
  readonly base64: string;
  readonly milliseconds: number;
  /** the longest that the page stood still, between two frames */
  readonly longestGap: number;
  /** each share of the work that was told */
  readonly told: readonly number[];
  readonly pages: number;
}

export interface MakingPage {
  /**
   * Makes a report as a screen does.
   *
   * @param pictures address of each picture's bytes, by its hash
   * @param giveUpAt share of the work at which it is given up
   */
  make(
    document: ReportDocument,
    paper: Paper,
    pictures: Readonly<Record<string, string>>,
    giveUpAt?: number,
  ): Promise<Made>;
}

const make: MakingPage["make"] = async (document, paper, pictures, giveUpAt) => {
  const giveUp = new AbortController();
  const told: number[] = [];
  let count = 0;
  let longestGap = 0;
  let last = performance.now();
  let running = true;
  const frame = () => {
    const now = performance.now();
    longestGap = Math.max(longestGap, now - last);
    last = now;
    if (running) requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  const begun = performance.now();
  try {
    const bytes = await makePdf(document, {
      paper,
      signal: giveUp.signal,
      pictures: async (hash) => {
        const address = pictures[hash];
        if (address === undefined) return undefined;
        return new Uint8Array(await (await fetch(address)).arrayBuffer());
      },
      onProgress: ({ pages, share }) => {
        count = pages;
        told.push(share);
        if (giveUpAt !== undefined && share >= giveUpAt) giveUp.abort(new Error("given up"));
      },
    });
    const milliseconds = performance.now() - begun;
    return { base64: inBase64(bytes), milliseconds, longestGap, told, pages: count };
  } finally {
    running = false;
  }
};

Object.assign(window, { make } satisfies MakingPage);
