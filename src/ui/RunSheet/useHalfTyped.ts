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

  const keep = useCallback(
    (next: Pick<HalfTyped, "since" | "fields">, at: string) => {
      show(next);
      // The screen holds it in any case; a failing store shows itself when the step is recorded.
      store.keepHalfTyped({ job, step, ...next, window: THIS_WINDOW, at }).catch(() => {});
    },
    [store, job, step, show],
  );

  const change = useCallback(
    (field: string, typed: Typed) => {
      const at = new Date().toISOString();
      const since = latest.current.since ?? at;
      keep({ since, fields: { ...latest.current.fields, [field]: typed } }, at);
    },
    [keep],
  );

  useEffect(() => {
    let current = true;
    const join = (found: HalfTyped | undefined) => {
      if (!current || !found) return;
      const { since } = latest.current;
      const next = joined(latest.current.fields, found, start.current);
      if (since === undefined) show(next);
      // What was typed meanwhile was kept without what else was there.
      else keep(next, new Date().toISOString());
    };
    // Nothing kept can be read: the fields start empty, and recording will say what is wrong.
    store.halfTyped(job, step).then(join, () => {});
    return () => {
      current = false;
    };
  }, [store, job, step, show, keep]);

  const recorded = useCallback(() => show(nothing), [show]);

  return { fields: kept.fields, since: kept.since, change, recorded };
}

/**
 * What was typed before, with what has been typed while it was on its way: that is newer, field by field.
 *
 * @param shown what the fields hold now
 * @param initial what they held before anything was typed
 */
export function joined(
  shown: Fields,
  found: Pick<HalfTyped, "since" | "fields">,
  initial: Fields,
): Pick<HalfTyped, "since" | "fields"> {
  const typed = Object.entries(shown).filter(([field, value]) => value !== initial[field]);
  return {
    since: found.since,
    fields: { ...initial, ...found.fields, ...Object.fromEntries(typed) },
  };
}
