import type { Writer } from "../display.ts";
import { type BrokenLink, brokenLinks } from "../log/verify.ts";
import type { JobState } from "../state/jobState.ts";
import { courseOf } from "./courseRemarks.ts";
import {
  adverseAnswers,
  correctionsAndOmissions,
  exceededLimits,
  overLimits,
  stoodBy,
} from "./entryRemarks.ts";
import { exceptionRemarks, holdRemarks } from "./holdRemarks.ts";
import { type Comparison, compare } from "./planActual.ts";
import type { Remarkable } from "./remarkable.ts";

export interface ReviewRecord {
  readonly comparisons: readonly Comparison[];
  readonly remarkable: readonly Remarkable[];
  readonly broken: readonly BrokenLink[];
}

/** Plan against actual, and everything out of the ordinary, from a job's log. */
export function reviewRecord(state: JobState, now: string, writer: Writer): ReviewRecord {
  const comparisons = compare(state, writer);
  const over = overLimits(state, comparisons);
  const broken = brokenLinks(state.events);
  return {
    comparisons,
    broken,
    remarkable: [
      ...exceptionRemarks(state),
      ...holdRemarks(state, now, writer),
      ...adverseAnswers(state),
      ...exceededLimits(state, over, writer),
      ...stoodBy(state, new Set(over.map(({ note }) => note))),
      ...correctionsAndOmissions(state),
      ...courseOf(state),
      ...state.unfollowed.map(({ event, why }) => ({
        kind: "not followed" as const,
        title: event.body.type,
        says: why,
        event,
      })),
    ],
  };
}
