import type { HalfTyped, Store } from "./store.ts";

/** A place beside the store that takes text at once and outlasts a reload, such as the window's session storage. */
export type SparePlace = Pick<globalThis.Storage, "getItem" | "setItem" | "removeItem">;

/**
 * Lays what is half typed aside until the store has it, so that it is there after a reload even when the store was
 * dead, full or taken over by a newer version while it was typed.
 *
 * @param place asked for at each use: a browser that forbids it throws when it is asked for
 */
export function withSpareDrafts(store: Store, place: () => SparePlace): Store {
  const key = (job: string, step: string) => `latchline.typed ${job} ${step}`;
  return {
    ...store,

    append: async (drafts, options) => {
      const events = await store.append(drafts, options);
      const { recorded } = options ?? {};
      if (recorded) tried(() => place().removeItem(key(recorded.job, recorded.step)));
      return events;
    },

    halfTyped: async (job, step) =>
      // What lies aside has not reached the store: it is the later.
      tried(() => read(place().getItem(key(job, step)))) ?? store.halfTyped(job, step),

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
        if (aside) return;
        throw error;
      }
      tried(() => {
        // A later key may have come meanwhile.
        if (place().getItem(name) === text) place().removeItem(name);
      });
    },
  };
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
