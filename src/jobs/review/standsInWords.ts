import type { JobState } from "../state/jobState.ts";

const stageWords = {
  draft: "Being planned",
  issued: "Issued, not started",
  running: "Still running",
  closed: "Closed, waits for the engineer",
  "sent back": "Sent back to the supervisor",
  approved: "Approved",
} as const;

export const decisionWords = {
  approved: "Approved",
  "approved with remarks": "Approved with remarks",
  "sent back": "Sent back",
} as const;

/**
 * How a run stands, at the head of its record. Nothing is approved while its log does not hold: where both are so, the
 * log was changed afterwards. What a log with a gap says of it is not repeated: the closing may be what is gone.
 *
 * @param isBroken the chain of the log does not hold
 */
export function standsInWords(
  { stage, decidedBy, reviews }: Pick<JobState, "stage" | "decidedBy" | "reviews">,
  isBroken: boolean,
): string {
  if (stage === "approved" && decidedBy) {
    const words = decisionWords[decidedBy.decision];
    return isBroken ? `${words}, but the log was changed after that` : words;
  }
  // A decision is made on a closed run: where none was closed, the closing has not come along.
  const lacksClosing = stage === "running" && reviews.length > 0;
  return isBroken || lacksClosing
    ? "The log is not whole: it does not tell how the run stands"
    : stageWords[stage];
}
