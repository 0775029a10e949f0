import { type BrokenLink, describeBroken } from "../log/verify.ts";
import { afterApproval, type JobState } from "../state/jobState.ts";

/** What a report is of, where it is not of a whole and approved record; undefined where it is. */
export function shortfall(state: JobState, broken: readonly BrokenLink[]): string | undefined {
  const [first] = broken;
  if (first) {
    return `The log does not hold: ${describeBroken(first)}. What is said here cannot be relied on.`;
  }
  switch (state.stage) {
    case "draft":
      return "No programme has been issued: there is no record yet.";
    case "issued":
      return "Issued and not started: there is no record yet.";
    case "running":
      return "Not closed: the run is still open, and this is not its final record.";
    case "sent back":
      return `Not approved: ${state.decidedBy?.event.actor.name ?? "the engineer"} sent the record back to the supervisor.`;
    case "closed":
      return "Closed, not approved yet: the engineer's decision is open.";
    case "approved":
      return uncoveredInWords(state);
  }
}

/** Events that came after an approval; undefined where none did. */
export function uncoveredInWords(state: JobState): string | undefined {
  const { length } = afterApproval(state);
  if (length === 0) return undefined;
  const events = length === 1 ? "1 event has" : `${length} events have`;
  return `${events} come into the log after the approval, which does not cover ${length === 1 ? "it" : "them"}.`;
}

/** The same for the foot of a page, short. */
export function standing(state: JobState, broken: readonly BrokenLink[]): string {
  if (broken.length > 0) return "THE LOG DOES NOT HOLD";
  switch (state.stage) {
    case "draft":
    case "issued":
      return "NOT STARTED";
    case "running":
      return "NOT CLOSED";
    case "closed":
    case "sent back":
      return "NOT APPROVED";
    case "approved":
      if (afterApproval(state).length > 0) return "APPROVED, EVENTS CAME AFTERWARDS";
      return state.decidedBy?.decision === "approved with remarks"
        ? "Approved with remarks"
        : "Approved";
  }
}
