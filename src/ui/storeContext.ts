import { useLiveQuery } from "dexie-react-hooks";
import { createContext, useContext, useRef, useSyncExternalStore } from "react";
import type { JobEvent } from "../jobs/log/event.ts";
import type { Library } from "../jobs/store/library.ts";
import type { Wanted } from "../jobs/store/narrowed.ts";
import type { Exported, Standing, Store } from "../jobs/store/store.ts";

const Context = createContext<Store | undefined>(undefined);
export const StoreProvider = Context.Provider;

export function useStore(): Store {
  const store = useContext(Context);
  if (!store) throw new Error("no store above this component");
  return store;
}

/** How the tablet's store stands. */
export function useStanding(): Standing {
  const store = useStore();
  return useSyncExternalStore(store.onStanding, store.standing);
}

/**
 * What is read from the store, live. Where a read fails, what was read before stays on the screen and the standing
 * says so; it is read again when the store answers again.
 */
function useLive<T>(read: (store: Store) => Promise<T>, of = ""): T | undefined {
  const store = useStore();
  const { is, handles } = useStanding();
  const before = useRef<{ of: string; value: T }>(undefined);
  return useLiveQuery(() => {
    const keep = (value: T) => {
      before.current = { of, value };
      return value;
    };
    const fallBack = () => (before.current?.of === of ? before.current.value : undefined);
    return read(store).then(keep, fallBack);
  }, [store, is, handles, of]);
}

/** What is wanted of the library, live; undefined until it is read. */
export function useLibrary(wanted: Wanted): Library | undefined {
  return useLive((store) => store.recordsFor(wanted), JSON.stringify(wanted));
}

/** Every job with what it names. */
export const allJobs: Wanted = { jobs: "all" };

/** The events of one job, live. */
export function useEvents(job: string): readonly JobEvent[] | undefined {
  return useLive((store) => store.eventsOf(job), job);
}

export function useAllEvents(): readonly JobEvent[] | undefined {
  return useLive((store) => store.allEvents());
}

/** What of every job has left this tablet in a file, live. */
export function useExported(): readonly Exported[] | undefined {
  return useLive((store) => store.exported());
}
