import { openStandby } from "../state/jobState.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import { isCrew, notRunning, type Situation, waiting } from "./situation.ts";
import { MOST_LONG, tidy, tooLong } from "./text.ts";

/** The crew waits for something that is not its own: the time is kept, and the sheet waits with it. */
export function startStandby(situation: Situation, given: string): Decision {
  const stopped = mayNot(situation) ?? waiting(situation);
  if (stopped) return stopped;
  const reason = tidy(given);
  if (reason === "") return refuse("Say what the crew waits for.", "reason");
  const long = tooLong("Reason", reason, MOST_LONG);
  if (long) return refuse(long, "reason");
  return accept({ type: "standby started", reason });
}

export function endStandby(situation: Situation): Decision {
  const stopped = mayNot(situation);
  if (stopped) return stopped;
  return openStandby(situation.state)
    ? accept({ type: "standby ended" })
    : refuse("The crew does not stand by.");
}

function mayNot({ state, actor }: Situation): Decision | undefined {
  const stopped = notRunning(state);
  if (stopped) return stopped;
  return isCrew(actor)
    ? undefined
    : refuse(`The wireline crew keeps its time; ${actor.name} is here as ${actor.role}.`);
}
