import { time } from "./closeOut/line.ts";
import { observedFields } from "./commands/observe.ts";
import { asEntered } from "./display.ts";
import type { JobState, LiftObserved } from "./state/jobState.ts";

/** Why a reading on lift does not stand any more, when and by whom it was corrected. */
export function correctedInWords({
  event,
  reason,
  apart,
}: NonNullable<LiftObserved["corrected"]>): string {
  const how = apart ? "the same reading was corrected on another tablet, too," : "corrected";
  return `${how} on ${time(event.at)} by ${event.actor.name}: ${reason}`;
}

/** Everything in which one reading on lift differs from that which stands in its place. */
export function correctionInWords(
  state: Pick<JobState, "programme">,
  was: LiftObserved["observed"],
  is: LiftObserved["observed"],
): string {
  const figures = observedFields(state).map(({ id, label }) => {
    const [before, after] = [was[id], is[id]];
    return [label, before ? asEntered(before) : "nothing", after ? asEntered(after) : "nothing"];
  });
  return [
    ["Read at", time(was.takenAt), time(is.takenAt)],
    ["From", was.source, is.source],
    ...figures,
  ]
    .filter(([, before, after]) => before !== after)
    .map(([what, before, after]) => `${what} ${before} corrected to ${after}`)
    .join("; ");
}
