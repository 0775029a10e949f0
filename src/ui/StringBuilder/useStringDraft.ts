import { useEffect, useState } from "react";
import type { Photograph, Tool, ToolString } from "../../jobs/records/equipment.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

/** What is changed here of a string. */
interface Parts {
  readonly tools: readonly Tool[];
  readonly photographs: readonly Photograph[];
}

interface Draft extends Parts {
  /** the record that the changes were begun on */
  readonly base: ToolString;
}

/** Unsaved changes by string: they outlive the screen, as long as the page is open. */
const kept = new Map<string, Draft>();

const fresh = (base: ToolString): Draft => ({
  base,
  tools: base.tools,
  photographs: base.photographs ?? [],
});

/** Photographs are compared one by one: writing them all as JSON at every tap would be felt. */
const isChanged = ({ base, tools, photographs }: Draft) =>
  JSON.stringify(tools) !== JSON.stringify(base.tools) ||
  photographs.length !== (base.photographs?.length ?? 0) ||
  photographs.some(({ jpeg }, index) => jpeg !== base.photographs?.[index]?.jpeg);

/** Without changes of one's own there is nothing to lose by showing what is stored. */
const current = (held: Draft, record: ToolString): Draft =>
  record.revision > held.base.revision && !isChanged(held) ? fresh(record) : held;

function stringOf({ base, tools, photographs }: Draft): ToolString {
  const { photographs: _, ...rest } = base;
  return {
    ...rest,
    tools: [...tools],
    ...(photographs.length > 0 && { photographs: [...photographs] }),
  };
}

export interface StringDraft {
  /** as it stands on the screen */
  readonly string: ToolString;
  readonly unsaved: boolean;
  /** Somebody else saved the string since these changes were begun. */
  readonly outdated: boolean;
  readonly saving: boolean;
  readonly problem: string;
  /** @param to what becomes of the parts as they are then: a photograph arrives some time after it was asked for */
  change(to: (now: Parts) => Partial<Parts>): void;
  putBack(): void;
  /** @returns whether it was kept */
  save(): Promise<boolean>;
}

/** A string while its tools are changed; saved when the store has it durably, and not called so before. */
export function useStringDraft(record: ToolString): StringDraft {
  const store = useStore();
  const [held, setHeld] = useState(() => kept.get(record.id) ?? fresh(record));
  const [saving, setSaving] = useState(false);
  const [problem, setProblem] = useState("");
  const isNewer = record.revision > held.base.revision;
  const unsaved = isChanged(held);
  const draft = current(held, record);
  useEffect(() => {
    if (unsaved) kept.set(record.id, held);
    else kept.delete(record.id);
  }, [unsaved, held, record.id]);

  const save = async (): Promise<boolean> => {
    const saved: ToolString = { ...stringOf(draft), revision: draft.base.revision + 1 };
    setSaving(true);
    setProblem("");
    try {
      await store.put("strings", saved);
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
    string: stringOf(draft),
    unsaved,
    outdated: isNewer && unsaved,
    saving,
    problem,
    change: (to) => {
      setHeld((before) => {
        const now = current(before, record);
        return { ...now, ...to(now) };
      });
      setProblem("");
    },
    putBack: () => {
      setHeld(fresh(record));
      setProblem("");
    },
    save,
  };
}
