import type { JobEvent } from "../log/event.ts";
import type { Store } from "./store.ts";

/** Somebody who has to know what was written, once it is durable. */
export interface Witness {
  /** Events of one job were written here. */
  appended(events: readonly JobEvent[]): void;
  /** Records were changed, or something was brought in. */
  changed(): void;
  removed(jobs: readonly string[]): void;
}

/** A store that tells its witnesses what was written. */
export function witnessed(store: Store, witnesses: readonly Witness[]): Store {
  const tell = (say: (witness: Witness) => void) => {
    for (const witness of witnesses) say(witness);
  };
  return {
    ...store,
    append: async (drafts, options) => {
      const events = await store.append(drafts, options);
      if (events.length > 0) tell((witness) => witness.appended(events));
      return events;
    },
    put: async (kind, record) => {
      await store.put(kind, record);
      tell((witness) => witness.changed());
    },
    receive: async (arrival) => {
      await store.receive(arrival);
      tell((witness) => witness.changed());
    },
    remove: async (records) => {
      await store.remove(records);
      tell((witness) => witness.removed(records.jobs ?? []));
    },
  };
}
