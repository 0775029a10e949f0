import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import { holdPointsOf } from "../sheet/walk.ts";
import { isUnmet } from "../state/conditions.ts";
import { holdStates } from "../state/holdState.ts";
import type { Exception, JobState } from "../state/jobState.ts";
import type { Remarkable } from "./remarkable.ts";

/** What an engineer looks at of the hold points. */

/** Every exception that was granted, whether or not it still stands. */
export function exceptionRemarks(state: JobState): Remarkable[] {
  return state.exceptions.map((each) => exceptionRemark(state, each));
}

function exceptionRemark(state: JobState, exception: Exception): Remarkable {
  const hold =
    state.programme &&
    holdPointsOf(state.programme.sheet).find((each) => each.id === exception.hold);
  const condition = hold?.conditions.find((each) => each.id === exception.condition);
  const { authoriser, covers, reason, event } = exception;
  return {
    kind: "exception",
    title: `${hold?.title ?? exception.hold}: ${condition?.text ?? exception.condition}`,
    says: `${covers} Let pass by ${authoriser.name}, ${authoriser.role}: ${reason}`,
    event,
  };
}

/** What took a release back, where it was no reading. */
function stopWords(type: JobEvent["body"]["type"]): string | undefined {
  if (type === "crew changed") return "The crew changed";
  return type === "standby started" ? "The crew stood by" : undefined;
}

/** Every release that was voided or that never counted, and every hold point that was passed without one. */
export function holdRemarks(state: JobState, now: string, writer: Writer): Remarkable[] {
  return [...holdStates(state, now, writer).values()].flatMap(
    ({ hold, history, served, stands }) => {
      const found = history.flatMap(
        ({ release, rejected, brokenBy, foundBroken }): Remarkable[] => {
          if (rejected !== undefined) {
            const says = `A release that does not count: ${rejected}`;
            return [{ kind: "hold point voided", title: hold.title, says, event: release.event }];
          }
          if (!brokenBy) return [];
          const stopped = stopWords(brokenBy.body.type);
          if (stopped) {
            const says = `${stopped} after it was released, and the step it guards was not done yet.`;
            return [{ kind: "hold point voided", title: hold.title, says, event: brokenBy }];
          }
          const unmet = foundBroken.filter(isUnmet).map((each) => each.says);
          const why = unmet.length > 0 ? unmet : ["A step before it was opened again."];
          const says = `What it was released on was broken by a later reading or correction. ${why.join(" ")}`;
          return [{ kind: "hold point voided", title: hold.title, says, event: brokenBy }];
        },
      );
      if (!served || stands || history.some((each) => each.rejected === undefined)) return found;
      const says = "The step it guards was recorded without a release.";
      const event = state.done.get(hold.guards);
      return [...found, { kind: "hold point passed unreleased", title: hold.title, says, event }];
    },
  );
}
