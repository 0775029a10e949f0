import { useCallback, useRef, useState } from "react";
import { changeDay } from "../../jobs/day/changeDay.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

type Change = Parameters<typeof changeDay>[2];

/**
 * Changes a day, one change after the other, and says why one was not kept.
 *
 * @returns `change` settles with whether the change is durable
 */
export function useChangeDay(day: string) {
  const store = useStore();
  const [problem, setProblem] = useState("");
  const before = useRef<Promise<unknown>>(Promise.resolve());
  const change = useCallback(
    (to: Change): Promise<boolean> => {
      const done = before.current.then(async () => {
        try {
          await changeDay(store, day, to);
          setProblem("");
          return true;
        } catch (error) {
          setProblem(notSaved(error));
          return false;
        }
      });
      before.current = done;
      return done;
    },
    [store, day],
  );
  return { change, problem, refuse: setProblem };
}
