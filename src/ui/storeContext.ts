import { useLiveQuery } from "dexie-react-hooks";
import { createContext, useContext } from "react";
import type { JobEvent } from "../jobs/log/event.ts";
import type { Library } from "../jobs/store/library.ts";
import type { Store } from "../jobs/store/store.ts";

const Context = createContext<Store | undefined>(undefined);
export const StoreProvider = Context.Provider;

export function useStore(): Store {
  const store = useContext(Context);
  if (!store) throw new Error("no store above this component");
  return store;
}

/** Everything the planner keeps, live; undefined until it is read. */
export function useLibrary(): Library | undefined {
  const store = useStore();
  return useLiveQuery(() => store.library(), [store]);
}

/** The events of one job, live. */
export function useEvents(job: string): readonly JobEvent[] | undefined {
  const store = useStore();
  return useLiveQuery(() => store.eventsOf(job), [store, job]);
}

export function useAllEvents(): readonly JobEvent[] | undefined {
  const store = useStore();
  return useLiveQuery(() => store.allEvents(), [store]);
}
