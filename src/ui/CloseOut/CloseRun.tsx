import { useState } from "react";
import type { Gap } from "../../jobs/closeOut/gaps.ts";
import { closeRun } from "../../jobs/commands/closeRun.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { type LiveJob, useAct } from "../useJob.ts";

const DRAFT = "closing remark";

interface CloseRunProps {
  readonly live: LiveJob;
  readonly gaps: readonly Gap[];
}

/** The last remark, why it is closed with what is not answered, and the closing itself. */
export function CloseRun({ live, gaps }: CloseRunProps) {
  const act = useAct(live.id);
  const kept = useHalfTyped(live.id, DRAFT, {});
  const text = (field: string) => kept.fields[field]?.text ?? "";
  const [problem, setProblem] = useState("");
  const close = async () => {
    const closing = { remark: text("remark"), reason: text("reason") };
    const done = await act((situation) => closeRun(situation, closing), {
      recorded: { job: live.id, step: DRAFT },
    });
    setProblem(done.ok ? "" : done.why);
    // What is to do next stands on top.
    if (done.ok) window.scrollTo({ top: 0 });
  };
  const left =
    gaps.length === 0
      ? ""
      : `${gaps.length} ${gaps.length === 1 ? "thing stays" : "things stay"} not answered. `;
  return (
    <section id="close-run" className="close-run" aria-label="Close the run">
      {gaps.length > 0 && (
        <label>
          Why it is closed with {gaps.length === 1 ? "this" : "these"} not answered
          <textarea
            rows={2}
            value={text("reason")}
            onChange={(event) => kept.change("reason", { text: event.target.value })}
          />
        </label>
      )}
      <label>
        Remark for the engineer, if there is one
        <textarea
          rows={3}
          value={text("remark")}
          onChange={(event) => kept.change("remark", { text: event.target.value })}
        />
      </label>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <HoldButton
        label="Close the run"
        consequence={`${left}It goes to the engineer. No step is changed any more unless it is sent back; readings on lift and notes are still taken.`}
        onHeld={() => void close()}
      />
    </section>
  );
}
