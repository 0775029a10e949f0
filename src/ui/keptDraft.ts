import { useEffect, useRef, useState } from "react";
import type { ChangedIn } from "../jobs/store/draftRow.ts";
import type { Store } from "../jobs/store/store.ts";
import { useStore } from "./storeContext.ts";
import { THIS_WINDOW } from "./thisWindow.ts";

/** Where what is not saved is now; undefined while it is on its way into the tablet's store. */
export type KeptBy = "tablet" | "screen" | undefined;

export const changedNow = (): ChangedIn => ({ window: THIS_WINDOW, at: new Date().toISOString() });

/**
 * What was begun on a record and not saved, as the tablet has kept it; undefined until that is read.
 *
 * @param id of the record; undefined while that is not there
 */
export function useBegun<T>(
  id: string | undefined,
  read: (store: Store) => Promise<T>,
): T | undefined {
  const store = useStore();
  const [found, setFound] = useState<{ readonly id: string; readonly begun: T }>();
  const asked = useRef(read);
  asked.current = read;
  useEffect(() => {
    let isCurrent = true;
    if (id === undefined) return;
    void asked.current(store).then((begun) => {
      if (isCurrent) setFound({ id, begun });
    });
    return () => {
      isCurrent = false;
    };
  }, [store, id]);
  return found?.id === id ? found?.begun : undefined;
}

/**
 * Keeps a draft on the tablet at each change from what was read there at first. Where the store does not take it the
 * screen holds it, and it is said that only the screen does.
 */
export function useKeeping<T>(
  draft: T,
  begun: T,
  keep: (draft: T, changed: ChangedIn) => Promise<void>,
): KeptBy {
  const [kept, setKept] = useState<{ readonly draft: T; readonly by: KeptBy }>({
    draft: begun,
    by: "tablet",
  });
  const asKept = useRef(begun);
  const keeping = useRef(keep);
  keeping.current = keep;
  useEffect(() => {
    if (draft === asKept.current) return;
    asKept.current = draft;
    keeping.current(draft, changedNow()).then(
      () => setKept({ draft, by: "tablet" }),
      () => setKept({ draft, by: "screen" }),
    );
  }, [draft]);
  return kept.draft === draft ? kept.by : undefined;
}

/** What is said of changes that are not saved. */
export function notSavedYet(keptBy: KeptBy): string {
  if (keptBy === "tablet") return "Not saved yet: kept on this tablet as a draft.";
  return keptBy === "screen"
    ? "Not saved yet, and the tablet does not take the draft: only this screen holds it."
    : "Not saved yet.";
}
