import { useState } from "react";
import type { Decision } from "../../jobs/commands/decision.ts";
import type { Situation } from "../../jobs/commands/situation.ts";
import { useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { useAct } from "../useJob.ts";

interface Words {
  readonly text: string;
  readonly change: (text: string) => void;
  readonly send: () => Promise<void>;
  readonly problem: string;
}

/**
 * Words that go into the log as a question or as an answer: kept at every key until they are recorded.
 *
 * @param draft names what is half typed in the store; a new name would lose what is kept under the old one
 * @param decide what the words become
 * @param onDone once they are durable
 */
export function useWords(
  job: string,
  draft: string,
  field: "question" | "answer",
  decide: (situation: Situation, text: string) => Decision,
  onDone: () => void,
): Words {
  const act = useAct(job);
  const kept = useHalfTyped(job, draft, {});
  const text = kept.fields[field]?.text ?? "";
  const [problem, setProblem] = useState("");
  const send = async () => {
    const done = await act((situation) => decide(situation, text), {
      recorded: { job, step: draft },
    });
    if (!done.ok) {
      setProblem(done.why);
      return;
    }
    kept.recorded();
    onDone();
  };
  return { text, change: (typed) => kept.change(field, { text: typed }), send, problem };
}
