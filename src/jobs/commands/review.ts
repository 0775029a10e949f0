import { brokenInWords } from "../brokenInWords.ts";
import { headsOf } from "../log/heads.ts";
import { brokenLinks } from "../log/verify.ts";
import type { ReviewDecision } from "../state/jobState.ts";
import { aboutInWords, openQuestions } from "../state/questions.ts";
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
    return refuse(`The log is not whole. ${brokenInWords(broken, state)} It cannot be approved.`);
  }
  const heads = headsOf(state.events);
  if (
    JSON.stringify(Object.entries(heads).sort()) !== JSON.stringify(Object.entries(seen).sort())
  ) {
    return refuse("The log grew while you were reading. Look at what is new, then decide.");
  }
  const [open] = openQuestions(state);
  if (open && decision !== "sent back") {
    return refuse(
      `A question has no answer: "${open.text}" (${aboutInWords(state, open.about)}). Get it answered, or write down what was said on the telephone.`,
    );
  }
  const words = tidy(given);
  const long = tooLong("Remark", words, MOST_LONG);
  if (long) return refuse(long, "remark");
  if (decision === "sent back" && words === "") {
    return refuse("Say what is missing or wrong, so that the supervisor can mend it.", "remark");
  }
  if (decision === "approved with remarks" && words === "") {
    return refuse("Write the remark with which it is approved.", "remark");
  }
  return accept({
    type: "review",
    decision,
    heads,
    ...(words !== "" && { remark: words }),
  });
}
