import { useCallback, useEffect, useRef, useState } from "react";
import { freshPlan, keepPlan, keptPlan, type PlanDraft } from "../../jobs/planning/planDraft.ts";
import { useBegun } from "../keptDraft.ts";
import { useStore } from "../storeContext.ts";

/** What was begun here and not kept yet, as this tablet has it; undefined until that is read. */
export function useKeptPlan(): PlanDraft | "none" | undefined {
  return useBegun<PlanDraft | "none">("plan", (store) =>
    keptPlan(store).then(
      (found) => found ?? "none",
      // A store that does not answer says so above the screen; the plan is begun all the same.
      () => "none",
    ),
  );
}

export const newPlan = (): PlanDraft => freshPlan(crypto.randomUUID());

export interface BeingPlanned {
  readonly draft: PlanDraft;
  /** where the plan is now; undefined while it is on its way into the tablet's store */
  readonly keptBy: "tablet" | "screen" | undefined;
  change(to: (now: PlanDraft) => PlanDraft): void;
  /** Takes the draft off the tablet, for good. Settles when it is gone. */
  end(): Promise<void>;
}

/** A plan while it is made: every key of it outlasts a reload. */
export function usePlan(begun: PlanDraft): BeingPlanned {
  const store = useStore();
  const [draft, setDraft] = useState(begun);
  const [kept, setKept] = useState<{ draft: PlanDraft; by: "tablet" | "screen" }>();
  const ended = useRef(false);
  useEffect(() => {
    if (ended.current || (draft.well === undefined && draft.reason === "")) return;
    keepPlan(store, draft).then(
      () => setKept({ draft, by: "tablet" }),
      () => setKept({ draft, by: "screen" }),
    );
  }, [store, draft]);
  const change = useCallback((to: (now: PlanDraft) => PlanDraft) => setDraft(to), []);
  return {
    draft,
    keptBy: kept?.draft === draft ? kept.by : undefined,
    change,
    end: async () => {
      ended.current = true;
      await keepPlan(store, undefined);
    },
  };
}
