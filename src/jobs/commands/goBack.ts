import { itemId, itemsOf, stepById } from "../sheet/walk.ts";
import type { JobState } from "../state/jobState.ts";
import { progressOf } from "../state/progress.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import { isCrew, notRunning, type Situation, waiting } from "./situation.ts";
import { MOST_LONG, tidy, tooLong } from "./text.ts";

/**
 * The steps that the sheet can be worked from again: those done or left out, in the order they are worked. The one
 * that is next needs no going back.
 */
export function stepsBehind({ programme, done, leftOut }: JobState): string[] {
  const items = programme ? itemsOf(programme.sheet) : [];
  return items
    .filter((item) => item.type === "step")
    .map(itemId)
    .filter((id) => done.has(id) || leftOut.has(id));
}

/**
 * Works the sheet again from a step on: a run that is made once more, or a step recorded by mistake. Nothing
 * disappears; what was done before stays in the log, and its hold points are released anew.
 */
export function goBack(situation: Situation, to: string, given: string): Decision {
  const { state, actor, now, writer } = situation;
  const stopped = notRunning(state) ?? waiting(situation);
  if (stopped) return stopped;
  if (!isCrew(actor)) {
    return refuse(`The wireline crew decides that; ${actor.name} is here as ${actor.role}.`);
  }
  const step = state.programme && stepById(state.programme.sheet, to);
  if (!step) return refuse(`There is no step "${to}" on this run sheet.`);
  if (progressOf(state, now, writer).current?.id === to) {
    return refuse("The run stands at this step already.");
  }
  if (!stepsBehind(state).includes(to)) return refuse("This step has not been done yet.");
  const reason = tidy(given);
  if (reason === "") return refuse("Say why it is done again.", "reason");
  const long = tooLong("Reason", reason, MOST_LONG);
  if (long) return refuse(long, "reason");
  return accept({ type: "went back", to, reason });
}
