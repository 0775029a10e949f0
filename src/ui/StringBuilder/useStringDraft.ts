import { useMemo, useRef, useState } from "react";
import type { ToolString } from "../../jobs/records/equipment.ts";
import { Outdated } from "../../jobs/store/store.ts";
import {
  freshDraft,
  isChanged,
  keepDraft,
  keptDraft,
  type StringDraft,
  type StringParts,
} from "../../jobs/stringDraft.ts";
import { changedNow, type KeptBy, useBegun, useKeeping } from "../keptDraft.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

/** Without changes of one's own there is nothing to lose by showing what is stored. */
const current = (held: StringDraft, record: ToolString): StringDraft =>
  record.revision > held.base.revision && !isChanged(held) ? freshDraft(record) : held;

function stringOf({ base, tools, photographs }: StringDraft): ToolString {
  const { photographs: _, ...rest } = base;
  return {
    ...rest,
    tools: [...tools],
    ...(photographs.length > 0 && { photographs: [...photographs] }),
  };
}

/** What was begun on a string and not saved, as the tablet has kept it; undefined until that is read. */
export function useKeptDraft(record: ToolString | undefined): StringDraft | undefined {
  return useBegun(record?.id, async (store) =>
    record ? ((await keptDraft(store, record)) ?? freshDraft(record)) : undefined,
  );
}

export interface BeingBuilt {
  /** as it stands on the screen */
  readonly string: ToolString;
  readonly unsaved: boolean;
  readonly keptBy: KeptBy;
  /** Somebody else saved the string since these changes were begun. */
  readonly outdated: boolean;
  readonly saving: boolean;
  readonly problem: string;
  /** @param to what becomes of the parts as they are then: a photograph arrives some time after it was asked for */
  change(to: (now: StringParts) => Partial<StringParts>): void;
  /** Settles when the draft is gone from the tablet, too. */
  putBack(): Promise<void>;
  /** @returns whether it was kept */
  save(): Promise<boolean>;
}

/**
 * A string while its tools are changed; saved when the store has it durably, and not called so before.
 *
 * @param begun what the tablet had kept of it
 */
export function useStringDraft(record: ToolString, begun: StringDraft): BeingBuilt {
  const store = useStore();
  const [held, setHeld] = useState(begun);
  const [saving, setSaving] = useState(false);
  const [problem, setProblem] = useState("");
  const draft = useMemo(() => current(held, record), [held, record]);
  const latest = useRef(draft);
  const unsaved = isChanged(draft);

  latest.current = draft;
  const keptBy = useKeeping(draft, begun, (of, changed) => keepDraft(store, of, changed));

  const save = async (): Promise<boolean> => {
    const saved: ToolString = { ...stringOf(draft), revision: draft.base.revision + 1 };
    setSaving(true);
    setProblem("");
    try {
      await store.put("strings", saved);
      // What was changed while it was written stays changed, also where nobody looks at this screen any more.
      await keepDraft(store, { ...latest.current, base: saved }, changedNow()).catch(() => {});
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
    string: stringOf(draft),
    unsaved,
    keptBy,
    outdated: record.revision > draft.base.revision && unsaved,
    saving,
    problem,
    change: (to) => {
      setHeld((before) => {
        const now = current(before, record);
        return { ...now, ...to(now) };
      });
      setProblem("");
    },
    putBack: async () => {
      const fresh = freshDraft(record);
      setHeld(fresh);
      setProblem("");
      // Whoever leaves this screen at once leaves no draft behind.
      await keepDraft(store, fresh, changedNow()).catch(() => {});
    },
    save,
  };
}
