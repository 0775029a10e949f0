import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setPdf } from "../../src/jobs/report/pdf/setPdf.ts";
import { Site, TabletBrowser } from "../browser/harness.ts";
import { buildOwnPage } from "../browser/ownPage.ts";
import type { MakingPage } from "../browser/pages/pdf.tsx";
import { paperFonts } from "../jobs/report/paperFonts.ts";
import { longReport } from "./longReport.ts";

const TIMES = 3;
const PAGE = "tests/browser/pages/pdf.tsx";

interface Measured {
  readonly what: string;
  /** of the log, once: folding it and putting the report together, which the screen leaves to a worker */
  readonly "ms to put together"?: number;
  readonly pages: number;
  readonly ms: number;
  readonly "MB of file": number;
  /** in node, above what was in use before; pictures and file are in it */
  readonly "MB more at most"?: number;
  /** in the browser, while the worker is at work */
  readonly "longest gap between frames, ms"?: number;
}

const inMB = (bytes: number) => Number((bytes / 1e6).toFixed(1));

/** A report of 2,000 entries and forty photographs as PDF, in node: the middle of three times, and once its memory. */
export async function benchReport(): Promise<Measured[]> {
  const { document, pictures, putTogether } = longReport();
  const inUse = () => {
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return heapUsed + arrayBuffers;
  };
  const all: Measured[] = [];
  // Asking for the memory takes as long as setting a page: the times are taken without it.
  for (let time = 0; time <= TIMES; time += 1) {
    globalThis.gc?.();
    const before = inUse();
    let most = before;
    let count = 0;
    const begun = performance.now();
    const bytes = await setPdf(document, {
      paper: "Letter",
      fonts: paperFonts,
      pictures: async (hash) => pictures.get(hash)?.slice(),
      onProgress: ({ pages }) => {
        count = pages;
        if (time === TIMES) most = Math.max(most, inUse());
      },
    });
    if (time === TIMES) {
      const more = { "MB more at most": inMB(most - before) };
      const once = { "ms to put together": Math.round(putTogether) };
      return middleOf(all).map((middle) => ({ ...middle, ...more, ...once }));
    }
    all.push({
      what: "report as PDF, 2,000 entries, 40 photographs, in node",
      pages: count,
      ms: Math.round(performance.now() - begun),
      "MB of file": inMB(bytes.length),
    });
  }
  return all;
}

/**
 * The same in Chromium, through the worker, with the frames of the page that waits for it.
 *
 * @param project folder of the project
 */
export async function benchReportOnScreen(project: string): Promise<Measured[]> {
  const { document, pictures } = longReport();
  const folder = mkdtempSync(join(tmpdir(), "latchline-report-"));
  const site = new Site();
  const tablet = new TabletBrowser();
  try {
    await buildOwnPage(PAGE, "Report", folder, project);
    const addresses: Record<string, string> = {};
    for (const [hash, jpeg] of pictures) {
      writeFileSync(join(folder, `${hash}.jpg`), jpeg);
      addresses[hash] = `/${hash}.jpg`;
    }
    await site.start(folder);
    const page = await tablet.open(site.address);
    const all: Measured[] = [];
    for (let time = 0; time < TIMES; time += 1) {
      const { base64, milliseconds, longestGap, pages } = await page.evaluate(
        ([what, where]) => (window as unknown as MakingPage).make(what, "Letter", where),
        [document, addresses] as const,
      );
      all.push({
        what: "report as PDF, 2,000 entries, 40 photographs, in Chromium",
        pages,
        ms: Math.round(milliseconds),
        "MB of file": inMB(Buffer.from(base64, "base64").length),
        "longest gap between frames, ms": Math.round(longestGap),
      });
    }
    return middleOf(all);
  } finally {
    await tablet.dispose();
    await site.stop();
    rmSync(folder, { recursive: true });
  }
}

const middleOf = (all: readonly Measured[]) =>
  [...all].sort((a, b) => a.ms - b.ms).slice(all.length >> 1, (all.length >> 1) + 1);
