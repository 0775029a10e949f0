import { headsOf } from "../log/heads.ts";
import { brokenLinks, describeBroken } from "../log/verify.ts";
import type { ReviewDecision } from "../state/jobState.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import type { Situation } from "./situation.ts";
import { MOST_LONG, tidy, tooLong } from "./text.ts";

/** The engineer's decision on a closed run. Approval signs the last event of every device. */
export function review(
  { state, actor }: Situation,
  decision: ReviewDecision,
  given: string,
  /** the last event of each device that was on the engineer's screen */
  seen: Readonly<Record<string, string>>,
): Decision {
  if (state.stage !== "closed") {
    return refuse(
      state.stage === "approved"
        ? "The record is approved already."
        : "The run is not closed yet; there is nothing to decide on.",
    );
  }
  if (actor.role !== "production engineer") {
    return refuse(
      `A production engineer reviews the record; ${actor.name} is here as ${actor.role}.`,
    );
  }
  const [broken] = brokenLinks(state.events);
  if (broken && decision !== "sent back") {
    return refuse(`The log is not whole: ${describeBroken(broken)}. It cannot be approved.`);
  }
  const heads = headsOf(state.events);
  if (
    JSON.stringify(Object.entries(heads).sort()) !== JSON.stringify(Object.entries(seen).sort())
  ) {
    return refuse("The log grew while you were reading. Look at what is new, then decide.");
  }
  const words = tidy(given);
  const long = tooLong("Remark", words, MOST_LONG);
  if (long) return refuse(long, "remark");
  if (decision === "sent back" && words === "") {
    return refuse("Say what is missing or wrong, so that the supervisor can mend it.", "remark");
  }
  return accept({
    type: "review",
    decision,
    heads,
    ...(words !== "" && { remark: words }),
  });
}
