import { useCallback, useEffect, useRef, useState } from "react";
import type { Typed } from "../../jobs/commands/entry.ts";
import { useStore } from "../storeContext.ts";

type Fields = Readonly<Record<string, Typed>>;

/** What is typed into a step and not yet recorded: kept at every key, and back after a reload. */
export interface HalfTypedFields {
  readonly fields: Fields;
  readonly change: (field: string, typed: Typed) => void;
  readonly clear: () => void;
}

export function useHalfTyped(job: string, step: string): HalfTypedFields {
  const store = useStore();
  const [fields, setFields] = useState<Fields>({});
  const latest = useRef<Fields>({});
  const touched = useRef(false);

  useEffect(() => {
    let current = true;
    latest.current = {};
    touched.current = false;
    setFields({});
    store.halfTyped(job, step).then(
      (kept) => {
        // What was typed while the kept entries were on their way is newer than they are.
        if (!current || touched.current || !kept) return;
        latest.current = kept.fields;
        setFields(kept.fields);
      },
      // Nothing kept can be read: the fields start empty, and recording will say what is wrong.
      () => {},
    );
    return () => {
      current = false;
    };
  }, [store, job, step]);

  const change = useCallback(
    (field: string, typed: Typed) => {
      touched.current = true;
      latest.current = { ...latest.current, [field]: typed };
      setFields(latest.current);
      // The screen holds it in any case; a failing store shows itself when the step is recorded.
      store.keepHalfTyped({ job, step, fields: latest.current }).catch(() => {});
    },
    [store, job, step],
  );

  const clear = useCallback(() => {
    touched.current = true;
    latest.current = {};
    setFields({});
    store.dropHalfTyped(job, step).catch(() => {});
  }, [store, job, step]);

  return { fields, change, clear };
}
