import { useState } from "react";
import { goBack } from "../../jobs/commands/goBack.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";
import { itemId, itemsOf } from "../../jobs/sheet/walk.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { type LiveJob, useAct } from "../useJob.ts";
import { ReasonInput } from "./ReasonInput.tsx";
import { useHalfTyped } from "./useHalfTyped.ts";

interface GoBackProps {
  readonly live: LiveJob;
  readonly step: Step;
  readonly onRecorded: (said: string) => void;
}

const reasons = ["Run is made again", "Recorded by mistake", "Latch missed"] as const;

/** Works the sheet again from a step that was done. What was recorded stays in the log. */
export function GoBack({ live, step, onRecorded }: GoBackProps) {
  const act = useAct(live.id);
  const draft = `${step.id}, done again`;
  const kept = useHalfTyped(live.id, draft, {});
  const reason = kept.fields.reason?.text ?? "";
  const [asked, setAsked] = useState<boolean>();
  const open = asked ?? reason !== "";
  const [problem, setProblem] = useState("");
  if (!open) {
    return (
      <button type="button" className="button quiet step-again" onClick={() => setAsked(true)}>
        Work the sheet again from here
      </button>
    );
  }
  const go = async () => {
    const done = await act((situation) => goBack(situation, step.id, reason), {
      recorded: { job: live.id, step: draft },
    });
    if (done.ok) onRecorded(`The sheet goes on at "${step.title}".`);
    else setProblem(done.why);
  };
  return (
    <div className="leave-out">
      <ReasonInput
        label="Why is it done again?"
        reason={reason}
        usual={reasons}
        onChange={(text) => kept.change("reason", { text })}
      />
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <HoldButton
        aside
        label={`Go back to "${step.title}"`}
        consequence={`${againInWords(live, step)} What was recorded stays in the log.`}
        onHeld={() => void go()}
      />
      <button type="button" className="button step-again" onClick={() => setAsked(false)}>
        Leave it as it is
      </button>
    </div>
  );
}

/** How much is to be done again from a step on. */
function againInWords({ state, programme }: LiveJob, step: Step): string {
  const items = itemsOf(programme.sheet);
  const from = items.slice(items.findIndex((item) => itemId(item) === step.id));
  const steps = from.filter((item) => state.done.has(itemId(item))).length;
  const holds = from.filter(
    (item) => item.type === "hold" && state.releases.some(({ hold }) => hold === item.hold.id),
  ).length;
  const released =
    holds === 0
      ? ""
      : ` and ${holds === 1 ? "a hold point is" : `${holds} hold points are`} released anew`;
  return `${steps === 1 ? "One step is" : `${steps} steps are`} done again${released}.`;
}
