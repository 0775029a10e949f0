import { type EvidenceChecked, type EvidenceDraft, pieceOf, typedMoment } from "./evidenceDraft.ts";
import type { LogRead } from "./readLog.ts";

/** A table that was pasted and is not evidence yet, with what was said of it. */
export interface LogDraft {
  readonly text: string;
  /** of a survey, by the tablet's clock: a table of stops does not say when it was run */
  readonly day?: string;
  readonly time?: string;
  readonly source: string;
  readonly confidence: EvidenceDraft["confidence"];
  readonly remark: string;
}

/**
 * The piece of evidence that a table makes, or what has to be said of it first.
 *
 * @param id of the piece it becomes
 * @param now instant; a survey was not run later
 */
export function evidenceOfLog(
  id: string,
  draft: LogDraft,
  { kind, points, stops }: Extract<LogRead, { ok: true }>,
  now: string,
): EvidenceChecked {
  const source = draft.source.trim();
  if (source === "") {
    const says = "Say where it comes from: recorder and its number, or historian.";
    return { ok: false, problems: { source: says } };
  }
  const said = { id, source, confidence: draft.confidence, remark: draft.remark };
  if (kind === "trend") return pieceOf({ ...said, kind, at: points[0]?.at, points });
  const ranAt = typedMoment(draft);
  if (!ranAt || ranAt.getTime() > Date.parse(now)) {
    const says = "Enter day and time at which it was run, not later than now.";
    return { ok: false, problems: { at: says } };
  }
  return pieceOf({ ...said, kind, at: ranAt.toISOString(), stops });
}
