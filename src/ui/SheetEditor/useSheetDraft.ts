import { useEffect, useState } from "react";
import type { FurtherPocket, Job, SheetWanted } from "../../jobs/records/job.ts";
import type { TypedStep } from "../../jobs/sheet/ownStep.ts";
import { sheetWanted } from "../../jobs/sheet/sheetWanted.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

/** A step that is being written, and the item it goes behind. */
export interface Writing {
  readonly after: string;
  readonly step: TypedStep;
}

/** What of a job its sheet is made from. */
export interface Wanted extends SheetWanted {
  readonly also: readonly FurtherPocket[];
}

interface Held {
  /** the record that the changes were begun on */
  readonly base: Job;
  readonly wanted: Wanted;
  readonly writing: Writing | undefined;
}

/** Unsaved changes by job: they outlive the screen, as long as the page is open. */
const kept = new Map<string, Held>();

const wantedOf = (job: Job): Wanted => ({ ...sheetWanted(job), also: job.also ?? [] });

const fresh = (base: Job): Held => ({ base, wanted: wantedOf(base), writing: undefined });

const isChanged = ({ base, wanted }: Held) =>
  JSON.stringify(wanted) !== JSON.stringify(wantedOf(base));

/** The job with what is wanted of its sheet; what nobody wants is not there. */
export function withWanted(job: Job, { also, ...sheet }: Wanted): Job {
  const { also: _, ...rest } = job;
  return { ...rest, sheet, ...(also.length > 0 && { also: [...also] }) };
}

/** Without changes of one's own there is nothing to lose by showing what is stored. */
const current = (held: Held, record: Job): Held =>
  record.revision > held.base.revision && !isChanged(held) && !held.writing ? fresh(record) : held;

export interface SheetDraft {
  readonly wanted: Wanted;
  readonly writing: Writing | undefined;
  readonly unsaved: boolean;
  /** Somebody else saved the job since these changes were begun. */
  readonly outdated: boolean;
  readonly saving: boolean;
  readonly problem: string;
  change(to: Partial<Wanted>): void;
  write(writing: Writing | undefined): void;
  putBack(): void;
  /** @returns whether it was kept */
  save(): Promise<boolean>;
}

/** What a job wants of its sheet while it is changed; saved when the store has it durably, and not called so before. */
export function useSheetDraft(record: Job): SheetDraft {
  const store = useStore();
  const [held, setHeld] = useState(() => kept.get(record.id) ?? fresh(record));
  const [saving, setSaving] = useState(false);
  const [problem, setProblem] = useState("");
  const draft = current(held, record);
  const unsaved = isChanged(draft);
  useEffect(() => {
    if (unsaved || draft.writing) kept.set(record.id, draft);
    else kept.delete(record.id);
  }, [unsaved, draft, record.id]);

  const update = (to: Partial<Held>) => {
    setHeld((before) => ({ ...current(before, record), ...to }));
    setProblem("");
  };
  const save = async (): Promise<boolean> => {
    const saved: Job = {
      ...withWanted(draft.base, draft.wanted),
      revision: draft.base.revision + 1,
    };
    setSaving(true);
    setProblem("");
    try {
      await store.put("jobs", saved);
      // What was changed while it was written stays changed.
      setHeld((now) => ({ ...now, base: saved }));
      return true;
    } catch (error) {
      setProblem(error instanceof Outdated ? error.message : notSaved(error));
      return false;
    } finally {
      setSaving(false);
    }
  };
  return {
    wanted: draft.wanted,
    writing: draft.writing,
    unsaved,
    outdated: record.revision > draft.base.revision && unsaved,
    saving,
    problem,
    change: (to) => update({ wanted: { ...draft.wanted, ...to } }),
    write: (writing) => update({ writing }),
    putBack: () => {
      setHeld(fresh(record));
      setProblem("");
    },
    save,
  };
}
