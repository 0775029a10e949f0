import type { Writer } from "../display.ts";
import type { Actor, Role } from "../roles.ts";
import { contingencyById } from "../sheet/walk.ts";
import { isOpen, type JobState, openBranch, openStandby } from "../state/jobState.ts";
import { type Decision, refuse } from "./decision.ts";

/** What every decision on a run looks at. Time arrives from outside. */
export interface Situation {
  readonly state: JobState;
  readonly actor: Actor;
  readonly now: string;
  readonly writer: Writer;
}

const crew: readonly Role[] = ["wireline supervisor", "winch operator"];

/** Whether somebody is of the wireline crew, who alone enters and corrects. */
export function isCrew(actor: Actor): boolean {
  return crew.includes(actor.role);
}

/** Why nothing can be entered now, or undefined. */
export function notRunning(state: JobState): Decision | undefined {
  if (isOpen(state)) return undefined;
  switch (state.stage) {
    case "draft":
      return refuse("The programme has not been issued yet. The planner issues it first.");
    case "issued":
      return refuse("The run has not been started yet.");
    case "closed":
      return refuse(
        "The run is closed and with the engineer. Nothing more is entered unless it is sent back.",
      );
    default:
      return refuse("The record is approved. It is not changed any more.");
  }
}

/** Why the sheet waits: something went wrong and is being dealt with, or the crew stands by. */
export function waiting({ state }: Pick<Situation, "state">): Decision | undefined {
  const branch = openBranch(state);
  if (branch) {
    const sheet = state.programme?.sheet;
    const title = sheet && contingencyById(sheet, branch.contingency)?.title;
    return refuse(
      `The sheet waits: "${title ?? branch.contingency}" is open. Say what came of it first.`,
    );
  }
  const standby = openStandby(state);
  return standby && refuse(`The crew stands by (${standby.reason}). End the standby first.`);
}
