import { useMemo, useRef, useState } from "react";
import type { Job } from "../../jobs/records/job.ts";
import {
  besideSaved,
  freshSheetDraft,
  isSheetChanged,
  keepSheetDraft,
  keptSheetDraftOf,
  ontoSaved,
  overtakenBy,
  type SheetDraft,
  type Wanted,
  type Writing,
  withoutStrayPressures,
  withWanted,
} from "../../jobs/sheetDraft.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { changedNow, type KeptBy, useBegun, useKeeping } from "../keptDraft.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

/** What was begun on a job's sheet and not saved, as the tablet has kept it; undefined until that is read. */
export function useBegunSheet(record: Job | undefined): SheetDraft | undefined {
  return useBegun(record?.id, async (store) =>
    record ? ((await keptSheetDraftOf(store, record.id)) ?? freshSheetDraft(record)) : undefined,
  );
}

export interface SheetInHand {
  readonly wanted: Wanted;
  readonly writing: Writing | undefined;
  readonly typed: SheetDraft["typed"];
  readonly unsaved: boolean;
  readonly keptBy: KeptBy;
  /** What somebody else saved of the job since these changes were begun. */
  readonly overtaken: ReturnType<typeof overtakenBy>;
  readonly saving: boolean;
  readonly problem: string;
  change(to: Partial<Wanted>, typed?: SheetDraft["typed"]): void;
  write(writing: Writing | undefined): void;
  /** The changes are to be of the job as it is saved now. */
  takeOntoSaved(): void;
  putBack(): void;
  /** @returns whether it was kept */
  save(): Promise<boolean>;
}

/**
 * What a job wants of its sheet while it is changed; saved when the store has it durably, and not called so before.
 *
 * @param begun what the tablet had kept of it
 */
export function useSheetDraft(record: Job, begun: SheetDraft): SheetInHand {
  const store = useStore();
  const { id } = record;
  const [held, setHeld] = useState(begun);
  const [saving, setSaving] = useState(false);
  const [problem, setProblem] = useState("");
  const draft = useMemo(() => besideSaved(held, record), [held, record]);
  const latest = useRef(draft);
  latest.current = draft;
  const keep = (of: SheetDraft) => keepSheetDraft(store, id, of, changedNow());
  const keptBy = useKeeping(draft, begun, keep);

  const update = (to: (now: SheetDraft) => SheetDraft) => {
    setHeld((before) => to(besideSaved(before, record)));
    setProblem("");
  };
  const save = async (): Promise<boolean> => {
    const saved: Job = { ...withWanted(record, draft.wanted), revision: draft.revision + 1 };
    setSaving(true);
    setProblem("");
    try {
      await store.put("jobs", saved);
      // What was changed while it was written stays changed, also where nobody looks at this screen any more.
      await keep(ontoSaved(latest.current, saved)).catch(() => {});
      setHeld((now) => ontoSaved(now, saved));
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
    typed: draft.typed,
    unsaved: isSheetChanged(draft),
    keptBy,
    overtaken: overtakenBy(draft, record),
    saving,
    problem,
    change: (to, typed) =>
      update((now) =>
        withoutStrayPressures({
          ...now,
          wanted: { ...now.wanted, ...to },
          typed: typed ?? now.typed,
        }),
      ),
    write: (writing) => update((now) => ({ ...now, writing })),
    takeOntoSaved: () => update((now) => ontoSaved(now, record)),
    putBack: () => {
      const fresh = freshSheetDraft(record);
      setHeld(fresh);
      setProblem("");
      // Whoever leaves this screen at once leaves no draft behind.
      void keep(fresh).catch(() => {});
    },
    save,
  };
}
