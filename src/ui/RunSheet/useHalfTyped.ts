import { useCallback, useEffect, useRef, useState } from "react";
import type { Typed } from "../../jobs/commands/entry.ts";
import type { HalfTyped } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import { THIS_WINDOW } from "../thisWindow.ts";

type Fields = Readonly<Record<string, Typed>>;

/** What is typed into a step and not yet recorded: kept at every key, and back after a reload. */
export interface HalfTypedFields {
  readonly fields: Fields;
  /** instant of the first key; undefined when nothing is typed */
  readonly since: string | undefined;
  readonly change: (field: string, typed: Typed) => void;
  /** After what was typed has been recorded, with which it went from the store. */
  readonly recorded: () => void;
}

interface Kept {
  readonly since: string | undefined;
  readonly fields: Fields;
}
const nothing: Kept = { since: undefined, fields: {} };

/** @param initial what the fields hold before anything is typed */
export function useHalfTyped(job: string, step: string, initial: Fields): HalfTypedFields {
  const store = useStore();
  const [kept, setKept] = useState<Kept>({ ...nothing, fields: initial });
  const latest = useRef<Kept>(kept);
  const start = useRef(initial);

  const show = useCallback((next: Kept) => {
    latest.current = next;
    setKept(next);
  }, []);

  useEffect(() => {
    let current = true;
    const join = (found: HalfTyped | undefined) => {
      if (!current || !found) return;
      const { since, fields } = latest.current;
      // What was typed while the kept entries were on their way is newer than they are, field by field.
      const typed = since === undefined ? {} : fields;
      show({ since: found.since, fields: { ...start.current, ...found.fields, ...typed } });
    };
    // Nothing kept can be read: the fields start empty, and recording will say what is wrong.
    store.halfTyped(job, step).then(join, () => {});
    return () => {
      current = false;
    };
  }, [store, job, step, show]);

  const change = useCallback(
    (field: string, typed: Typed) => {
      const at = new Date().toISOString();
      const since = latest.current.since ?? at;
      const fields = { ...latest.current.fields, [field]: typed };
      show({ since, fields });
      // The screen holds it in any case; a failing store shows itself when the step is recorded.
      store.keepHalfTyped({ job, step, since, fields, window: THIS_WINDOW, at }).catch(() => {});
    },
    [store, job, step, show],
  );

  const recorded = useCallback(() => show(nothing), [show]);

  return { fields: kept.fields, since: kept.since, change, recorded };
}
