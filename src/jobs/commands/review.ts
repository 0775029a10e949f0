import { brokenLinks, describeBroken } from "../log/verify.ts";
import { headsOf } from "../state/jobState.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import type { Situation } from "./run.ts";

/** The engineer's decision on a closed run. Approval signs the last event of every device. */
export function review(
  { state, actor }: Situation,
  decision: "approved" | "sent back",
  remark: string,
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
  if (broken && decision === "approved") {
    return refuse(`The log is not whole: ${describeBroken(broken)}. It cannot be approved.`);
  }
  const words = remark.trim();
  if (decision === "sent back" && words === "") {
    return refuse("Say what is missing or wrong, so that the supervisor can mend it.", "remark");
  }
  return accept({
    type: "review",
    decision,
    heads: headsOf(state.events),
    ...(words !== "" && { remark: words }),
  });
}
