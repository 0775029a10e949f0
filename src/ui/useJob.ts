import { useMemo, useRef } from "react";
import type { Decision } from "../jobs/commands/decision.ts";
import { perform } from "../jobs/commands/perform.ts";
import type { Situation } from "../jobs/commands/situation.ts";
import { type Writer, writer } from "../jobs/display.ts";
import type { JobEvent } from "../jobs/log/event.ts";
import { focus } from "../jobs/pockets.ts";
import type { Programme } from "../jobs/records/programme.ts";
import { siteAtmosphere } from "../jobs/results/context.ts";
import type { Results } from "../jobs/results/results.ts";
import { resultsAt } from "../jobs/state/conditions.ts";
import { foldInOrder, type JobState } from "../jobs/state/jobState.ts";
import { type AppendOptions, BadPicture, StoreFailed } from "../jobs/store/store.ts";
import { settings, useSettings } from "./settings.ts";
import { useEvents, useLibrary, useStore } from "./storeContext.ts";

/** A job that has been issued, as the screens see it. */
export interface LiveJob {
  readonly id: string;
  readonly state: JobState;
  /** What the crew works on once issued; until then what the library holds now. */
  readonly programme: Programme;
  readonly results: Results;
  readonly writer: Writer;
}

/**
 * The job as its crew works on it. What the office plans now is another matter, see `usePlannedJob`: putting that
 * together takes everything that a sheet is built from, and a tablet on location loads without it.
 *
 * @returns the job, "not issued" while there is no programme to work on, "missing" when this tablet does not hold it,
 *   or undefined until it is read
 */
export function useJob(id: string): LiveJob | "missing" | "not issued" | undefined {
  const library = useLibrary({ jobs: [id] });
  const events = useEvents(id);
  const { units } = useSettings();
  const state = useMemo(() => events && foldInOrder(events), [events]);
  return useMemo(() => {
    if (!library || !state) return undefined;
    if (!library.jobs.some((each) => each.id === id)) return "missing";
    const { programme } = state;
    const results = resultsAt(state);
    if (!programme || !results) return "not issued";
    return { id, state, programme, results, writer: writer(units, siteAtmosphere(programme)) };
  }, [library, state, units, id]);
}

/** The job as it is for one of its pockets: programme and results are those of that mandrel. */
export function atPocket<T extends LiveJob>(live: T, pocket: string | undefined): T {
  const programme = focus(live.programme, pocket);
  if (programme === live.programme) return live;
  return { ...live, programme, results: resultsAt(live.state, pocket) ?? live.results };
}

type Decide = (situation: Situation) => Decision;
type Act = (
  decide: Decide,
  options?: Pick<AppendOptions, "recorded" | "pictures">,
) => Promise<Acted>;
/** What was decided, with what was written of it. */
type Acted = Decision & { readonly events?: readonly JobEvent[] };

/**
 * Performs commands on a job in the name of whoever holds the tablet. Settles after the events are durable. A write
 * that failed says so, the caller keeps what was typed, and pressing again is the same entry: it is written once.
 * A press while one is under way is that one.
 */
export function useAct(job: string): Act {
  const store = useStore();
  const entry = useRef(crypto.randomUUID());
  const underWay = useRef<Promise<Acted>>(undefined);
  return useMemo(() => {
    const attempt: Act = async (decide, options) => {
      const { actor, units } = settings();
      if (!actor) {
        return {
          ok: false,
          why: "Say first who holds this tablet: name and role sign every entry.",
        };
      }
      try {
        const now = new Date().toISOString();
        const acting = { actor, units, now, entry: entry.current };
        const done = await perform(store, job, acting, decide, options);
        // Refused or written, the entry is over; only one whose write failed is tried again.
        entry.current = crypto.randomUUID();
        return done;
      } catch (error) {
        return { ok: false, why: notSaved(error) };
      }
    };
    return (decide, options) => {
      underWay.current ??= attempt(decide, options).finally(() => {
        underWay.current = undefined;
      });
      return underWay.current;
    };
  }, [store, job]);
}

/** Why a write failed, what is kept, and what to do. */
export function notSaved(error: unknown): string {
  if (error instanceof BadPicture) return `Not saved: ${error.message} Take the picture again.`;
  if (!(error instanceof StoreFailed)) {
    return `Not saved: this is a fault of the app (${String(error)}). What you entered is still on this screen. Note it on paper, reload, and enter it again.`;
  }
  switch (error.because) {
    case "full":
      return "Not saved yet: the tablet's storage is full. What you entered is still on this screen. Make room on the tablet, or save the packs of closed jobs and remove them, then press again.";
    case "newer version":
      return "Not saved: a newer Latchline has changed this tablet's store, and this window has stopped writing. What you typed is kept. Reload this window, then record it.";
    case "emptied":
      return "Not saved: this tablet's store was emptied while this window was open. What you entered is still on this screen: note it on paper, with whatever else only this screen shows. Then reload and bring in the backup.";
    case "no answer":
      return `Not saved yet: the tablet's storage did not answer (${error.message}). What you entered is still on this screen. Press again; if it stays so, note the reading on paper and reload.`;
  }
}
