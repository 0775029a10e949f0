import { accept, type Decision, refuse } from "./decision.ts";
import { isCrew, notRunning, type Situation } from "./situation.ts";
import { MOST_LONG, tidy, tooLong } from "./text.ts";

/**
 * Says which of the readings stands that two tablets took without knowing of each other.
 *
 * @param stands hash of the event that took the reading which stands, or corrected it
 */
export function settleConflict(
  { state, actor }: Situation,
  field: string,
  stands: string,
  given: string,
): Decision {
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (!isCrew(actor)) {
    return refuse(`The wireline crew settles readings; ${actor.name} is here as ${actor.role}.`);
  }
  const differing = state.conflicts.get(field);
  if (!differing) return refuse("These readings do not differ any more.");
  // One reading that two tablets corrected differently is known by its corrections.
  const named =
    differing.find(({ standsOn }) => standsOn === stands) ??
    differing.find(({ event }) => event.hash === stands);
  if (!named) {
    return refuse("The reading that is to stand is not one of those that differ.");
  }
  const reason = tidy(given);
  if (reason === "") return refuse("Say how you know which one stands.", "reason");
  const long = tooLong("Reason", reason, MOST_LONG);
  if (long) return refuse(long, "reason");
  const over = differing.filter((each) => each !== named).map(({ standsOn }) => standsOn);
  return accept({ type: "conflict settled", field, stands: named.standsOn, over, reason });
}
