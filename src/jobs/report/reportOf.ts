import type { Writer } from "../display.ts";
import { reviewRecord } from "../review/record.ts";
import type { JobState } from "../state/jobState.ts";
import { progressOf } from "../state/progress.ts";
import { verdictOf } from "../verdict/verdict.ts";
import { workInWords } from "../workInWords.ts";
import type { Part, ReportDocument } from "./document.ts";
import { calculationsPart } from "./parts/calculations.ts";
import { chartsPart } from "./parts/charts.ts";
import { closeOutPart } from "./parts/closeOut.ts";
import { logPart } from "./parts/log.ts";
import { notesPart } from "./parts/notes.ts";
import { photographsPart } from "./parts/photographs.ts";
import { planActualPart } from "./parts/planActual.ts";
import { questionsPart } from "./parts/questions.ts";
import { remarkablePart } from "./parts/remarkable.ts";
import { resultPart } from "./parts/result.ts";
import { runSheetPart } from "./parts/runSheet.ts";
import { signaturesPart } from "./parts/signatures.ts";
import { verdictPart } from "./parts/verdict.ts";
import type { ReportExtra, Reported } from "./reported.ts";
import { standing } from "./stageInWords.ts";
import { when } from "./when.ts";

/** In the order in which they stand; the result first, on a page of its own. */
const parts: readonly ((of: Reported) => Part | undefined)[] = [
  resultPart,
  closeOutPart,
  remarkablePart,
  planActualPart,
  verdictPart,
  runSheetPart,
  chartsPart,
  questionsPart,
  notesPart,
  signaturesPart,
  photographsPart,
  logPart,
  calculationsPart,
];

/**
 * The report of a job, from its log alone.
 *
 * @param now instant at which it is asked for: how long an open run has lasted, and what has lapsed by then
 * @returns undefined while no programme has been issued: there is nothing to report on
 */
export function reportOf(
  state: JobState,
  now: string,
  writer: Writer,
  extra: ReportExtra,
): ReportDocument | undefined {
  const { programme, events } = state;
  const last = events.at(-1);
  if (!programme || !last) return undefined;
  const record = reviewRecord(state, now, writer);
  const progress = progressOf(state, now, writer);
  const verdict = verdictOf(state, writer);
  const of: Reported = { state, programme, record, progress, verdict, now, writer, extra };
  const well = programme.well?.name ?? "a well that is not on record";
  const invented = programme.well?.invented ? "Invented. " : "";
  return {
    title: `Report, ${well}`,
    subtitle: `${workInWords(programme).join("; then: ")}. Programme revision ${state.revision}`,
    foot: `${well}, ${programme.job.day}, revision ${state.revision}. ${invented}${standing(state, record.broken)}. As of ${when(last.at)}, ${last.hash.slice(0, 12)}`,
    asOf: last.at,
    parts: parts.flatMap((part) => part(of) ?? []),
  };
}
