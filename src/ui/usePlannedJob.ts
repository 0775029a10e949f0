import { useMemo } from "react";
import { assemble } from "../jobs/assemble.ts";
import { writer } from "../jobs/display.ts";
import { focus } from "../jobs/pockets.ts";
import type { Job } from "../jobs/records/job.ts";
import type { Programme } from "../jobs/records/programme.ts";
import { siteAtmosphere } from "../jobs/results/context.ts";
import { resultsOf } from "../jobs/results/results.ts";
import { resultsAt } from "../jobs/state/conditions.ts";
import { foldInOrder } from "../jobs/state/jobState.ts";
import { useSettings } from "./settings.ts";
import { useEvents, useLibrary } from "./storeContext.ts";
import type { LiveJob } from "./useJob.ts";

/** A job with what the office plans now, issued or not. */
export interface PlannedJob extends LiveJob {
  /** as the library holds it now; the crew works on `programme.job` */
  readonly record: Job;
  /** what the library holds now */
  readonly draft: Programme;
}

/** @returns the job, "missing" when this tablet does not hold it, or undefined until it is read */
export function usePlannedJob(id: string): PlannedJob | "missing" | undefined {
  const library = useLibrary({ jobs: [id] });
  const events = useEvents(id);
  const { units } = useSettings();
  const state = useMemo(() => events && foldInOrder(events), [events]);
  return useMemo(() => {
    if (!library || !state) return undefined;
    const record = library.jobs.find((each) => each.id === id);
    if (!record) return "missing";
    const draft = assemble(record, library);
    const programme = state.programme ?? draft;
    return {
      id,
      record,
      state,
      draft,
      programme,
      results: resultsAt(state) ?? resultsOf(draft, {}),
      writer: writer(units, siteAtmosphere(programme)),
    };
  }, [library, state, units, id]);
}

/** The job as it is for one of its pockets: programme, plan and results are those of that mandrel. */
export function plannedAt(live: PlannedJob, pocket: string | undefined): PlannedJob {
  const programme = focus(live.programme, pocket);
  const draft = focus(live.draft, pocket);
  if (programme === live.programme && draft === live.draft) return live;
  const results = resultsAt(live.state, pocket) ?? resultsOf(draft, {});
  return { ...live, programme, draft, results };
}
