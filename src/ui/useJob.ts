import { useMemo } from "react";
import type { Decision } from "../jobs/commands/decision.ts";
import { perform } from "../jobs/commands/perform.ts";
import type { Situation } from "../jobs/commands/run.ts";
import { type Writer, writer } from "../jobs/display.ts";
import type { Job } from "../jobs/records/job.ts";
import type { Programme } from "../jobs/records/programme.ts";
import { siteAtmosphere } from "../jobs/results/context.ts";
import { type Results, resultsOf } from "../jobs/results/results.ts";
import { resultsAt } from "../jobs/state/holdState.ts";
import { foldInOrder, type JobState } from "../jobs/state/jobState.ts";
import { assemble } from "../jobs/store/library.ts";
import { settings, useSettings } from "./settings.ts";
import { useEvents, useLibrary, useStore } from "./storeContext.ts";

/** A job as the screens see it. */
export interface LiveJob {
  readonly job: Job;
  readonly state: JobState;
  /** What the crew works on once issued; until then what the library holds now. */
  readonly programme: Programme;
  /** What the library holds now, when it differs in time from what was issued. */
  readonly draft: Programme;
  readonly results: Results;
  readonly writer: Writer;
}

/** @returns the job, "missing" when this tablet does not hold it, or undefined until it is read */
export function useJob(id: string): LiveJob | "missing" | undefined {
  const library = useLibrary();
  const events = useEvents(id);
  const { units } = useSettings();
  const state = useMemo(() => events && foldInOrder(events), [events]);
  return useMemo(() => {
    if (!library || !state) return undefined;
    const job = library.jobs.find((each) => each.id === id);
    if (!job) return "missing";
    const draft = assemble(job, library);
    const programme = state.programme ?? draft;
    return {
      job,
      state,
      draft,
      programme,
      results: resultsAt(state) ?? resultsOf(draft, {}),
      writer: writer(units, siteAtmosphere(programme)),
    };
  }, [library, state, units, id]);
}

/** What a command came to, as a screen sees it. */
export type Acted = Decision | { readonly ok: false; readonly why: string; readonly unsaved: true };

/**
 * Performs commands on a job in the name of whoever holds the tablet. Settles after the events are
 * durable. A write that failed says so, and the caller keeps what was typed.
 */
export function useAct(
  job: string,
): (decide: (situation: Situation) => Decision) => Promise<Acted> {
  const store = useStore();
  return useMemo(
    () => async (decide) => {
      const { actor, units } = settings();
      if (!actor) {
        return {
          ok: false,
          why: "Say first who holds this tablet: name and role sign every entry.",
        };
      }
      try {
        return await perform(store, job, { actor, units, now: new Date().toISOString() }, decide);
      } catch (error) {
        return { ok: false, why: notSaved(error), unsaved: true };
      }
    },
    [store, job],
  );
}

/** Why a write failed, what is kept, and what to do. */
export function notSaved(error: unknown): string {
  const name = error instanceof Error ? error.name : "";
  if (name === "QuotaExceededError" || /quota/i.test(String(error))) {
    return "Not saved yet: the tablet's storage is full. What you entered is still on this screen. Make room on the tablet, then press again.";
  }
  return `Not saved yet: the tablet's storage did not answer (${name || String(error)}). What you entered is still on this screen. Press again; if it stays so, note the reading on paper and reload.`;
}
