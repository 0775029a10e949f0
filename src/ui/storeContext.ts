import { useLiveQuery } from "dexie-react-hooks";
import { createContext, useContext, useRef, useSyncExternalStore } from "react";
import type { JobEvent } from "../jobs/log/event.ts";
import type { Library } from "../jobs/store/library.ts";
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

/** Everything the planner keeps, live; undefined until it is read. */
export function useLibrary(): Library | undefined {
  return useLive((store) => store.library());
}

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
