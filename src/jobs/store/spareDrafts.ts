import type { HalfTyped, Store } from "./store.ts";

/** A place beside the store that takes text at once and outlasts a reload, such as the window's session storage. */
export type SparePlace = Pick<
  globalThis.Storage,
  "getItem" | "setItem" | "removeItem" | "key" | "length"
>;

const PREFIX = "latchline.typed ";

/**
 * Lays what is half typed aside until it is recorded, so that it is there after a reload even when the store was dead,
 * full or taken over by a newer version while it was typed, and even when another window typed into the same step.
 *
 * @param place asked for at each use: a browser that forbids it throws when it is asked for
 */
export function withSpareDrafts(store: Store, place: () => SparePlace): Store {
  const key = (job: string, step: string) => `${PREFIX}${job} ${step}`;
  return {
    ...store,

    append: async (drafts, options) => {
      const events = await store.append(drafts, options);
      const { recorded } = options ?? {};
      if (recorded) tried(() => place().removeItem(key(recorded.job, recorded.step)));
      return events;
    },

    halfTyped: async (job, step) => {
      const aside = tried(() => read(place().getItem(key(job, step))));
      if (!aside) return store.halfTyped(job, step);
      const kept = await store.halfTyped(job, step).catch(() => undefined);
      return kept && isLater(kept, aside) ? kept : aside;
    },

    keepHalfTyped: async (typed) => {
      const name = key(typed.job, typed.step);
      const text = JSON.stringify(typed);
      const aside = tried(() => {
        place().setItem(name, text);
        return true;
      });
      try {
        await store.keepHalfTyped(typed);
      } catch (error) {
        if (!aside) throw error;
      }
    },

    remove: async (records) => {
      await store.remove(records);
      for (const job of records.jobs ?? []) tried(() => clear(place(), `${PREFIX}${job} `));
    },
  };
}

/**
 * A browser that crashed and brings its windows back may bring what lay aside as it was some keys earlier. What another
 * window typed is not later, it is another's.
 */
function isLater(kept: HalfTyped, aside: HalfTyped): boolean {
  return kept.window === aside.window && (kept.at ?? "") > (aside.at ?? "");
}

function clear(place: SparePlace, prefix: string): void {
  const names = Array.from({ length: place.length }, (_, index) => place.key(index));
  for (const name of names) if (name?.startsWith(prefix)) place.removeItem(name);
}

function read(text: string | null): HalfTyped | undefined {
  return text === null ? undefined : (JSON.parse(text) as HalfTyped);
}

/** The spare place is a second one: where it is forbidden, full or spoilt, the store stands alone. */
function tried<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}
