import { writer } from "../../src/jobs/display.ts";
import type { ReportDocument } from "../../src/jobs/report/document.ts";
import { reportOf } from "../../src/jobs/report/reportOf.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { greyJpeg } from "../jobs/report/jpeg.ts";
import { longLog } from "./longLog.ts";

/** bytes of one photograph, as a tablet's camera gives it after it was made smaller */
const BYTES = 300_000;

export interface LongReport {
  readonly document: ReportDocument;
  /** by the hashes that the log names: JPEGs as large as its own, which are made of numbers and show nothing */
  readonly pictures: ReadonlyMap<string, Uint8Array<ArrayBuffer>>;
  /** ms that it took to fold the log and put the report together */
  readonly putTogether: number;
}

/** The report of the long log. */
export function longReport(): LongReport {
  const { tablet, pictures } = longLog();
  const events = [...tablet.events];
  const begun = performance.now();
  const document = reportOf(foldJob(events), tablet.clock, writer("field"), { missing: new Set() });
  const putTogether = performance.now() - begun;
  if (!document) throw new Error("the long log has no programme");
  const jpegs = pictures.map(
    ({ sha256 }, index) => [sha256, greyJpeg(1600, 1200, BYTES + index)] as const,
  );
  return { document, pictures: new Map(jpegs), putTogether };
}
