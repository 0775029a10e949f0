import { useCallback, useRef, useState } from "react";
import {
  type Change,
  changeInvestigation,
  NotChanged,
} from "../../jobs/diagnosis/changeInvestigation.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

export interface Changing {
  /** Settles with whether the change is durable. */
  readonly change: (to: Change, said?: string) => Promise<boolean>;
  readonly problem: string;
  /** what was kept last, once it is durable */
  readonly said: string;
}

/** Changes an investigation, one change after the other, and says what was kept and why something was not. */
export function useChange(id: string): Changing {
  const store = useStore();
  const [problem, setProblem] = useState("");
  const [said, setSaid] = useState("");
  const before = useRef<Promise<unknown>>(Promise.resolve());
  const change = useCallback(
    (to: Change, words = ""): Promise<boolean> => {
      const done = before.current.then(async () => {
        try {
          await changeInvestigation(store, id, to);
          setProblem("");
          setSaid(words);
          return true;
        } catch (error) {
          setSaid("");
          const isSaid = error instanceof NotChanged || error instanceof Outdated;
          setProblem(isSaid ? error.message : notSaved(error));
          return false;
        }
      });
      before.current = done;
      return done;
    },
    [store, id],
  );
  return { change, problem, said };
}
