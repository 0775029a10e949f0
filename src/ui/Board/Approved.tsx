import { useDeferredValue, useMemo } from "react";
import type { JobEvent } from "../../jobs/log/event.ts";
import { brokenLinks } from "../../jobs/log/verify.ts";
import { uncoveredInWords } from "../../jobs/report/stageInWords.ts";
import { standsInWords } from "../../jobs/review/standsInWords.ts";
import type { JobState } from "../../jobs/state/jobState.ts";

const NOT_YET: readonly JobEvent[] = [];

/** That a run is approved, and what the approval does not cover. */
export function Approved({ state }: { readonly state: JobState }) {
  // The board is there first: on a tablet a whole log takes a while to hash.
  const events = useDeferredValue(state.events, NOT_YET);
  const isBroken = useMemo(() => brokenLinks(events).length > 0, [events]);
  const uncovered = isBroken ? undefined : uncoveredInWords(state);
  return (
    <span className={isBroken || uncovered ? "stage problem" : "stage"}>
      {standsInWords(state, isBroken)}
      {uncovered && `. ${uncovered}`}
    </span>
  );
}
