import { closeOutOf } from "../closeOut/closeOut.ts";
import { gapsOf } from "../closeOut/gaps.ts";
import { progressOf } from "../state/progress.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import { whyNotYet } from "./run.ts";
import { notRunning, type Situation, waiting } from "./situation.ts";
import { MOST_LONG, MOST_WORDS, tidy, tooLong } from "./text.ts";

interface Closing {
  /** for the engineer, or empty */
  readonly remark: string;
  /** why it is closed with what is not answered; empty where everything is */
  readonly reason: string;
}

/** Closes the run: everything is done, and what is not answered is left so with a reason. The record goes to the engineer. */
export function closeRun(situation: Situation, given: Closing): Decision {
  const { state, actor, now, writer } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (actor.role !== "wireline supervisor") {
    return refuse(
      `The wireline supervisor closes the run; ${actor.name} is here as ${actor.role}.`,
    );
  }
  const waits = waiting(situation);
  if (waits) return waits;
  const progress = progressOf(state, now, writer);
  if (progress.current) return refuse(whyNotYet(progress, state));
  const remark = tidy(given.remark);
  const reason = tidy(given.reason);
  const tooLongRemark = tooLong("Remark", remark, MOST_LONG);
  if (tooLongRemark) return refuse(tooLongRemark, "remark");
  const items = gapsOf(closeOutOf(state, now, writer)).map(({ says }) => says.slice(0, MOST_WORDS));
  const [first] = items;
  if (first !== undefined && reason === "") {
    const more = items.length > 1 ? `, and ${items.length - 1} more` : "";
    return refuse(
      `Not answered: ${first.replace(/\.$/, "")}${more}. Answer it, or say why the run is closed without.`,
      "reason",
    );
  }
  const tooLongReason = tooLong("Reason", reason, MOST_LONG);
  if (tooLongReason) return refuse(tooLongReason, "reason");
  return accept({
    type: "run closed",
    ...(remark !== "" && { remark }),
    ...(first !== undefined && { gaps: { items: items.slice(0, MOST_ITEMS), reason } }),
  });
}

/** What the log takes of them: the same limit as its schema. */
const MOST_ITEMS = 100;
