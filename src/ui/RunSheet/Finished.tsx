import { useState } from "react";
import { Link } from "wouter";
import { closeRun } from "../../jobs/commands/run.ts";
import { isOpen } from "../../jobs/state/jobState.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { SavePack } from "../Packs/SavePack.tsx";
import { type LiveJob, useAct } from "../useJob.ts";
import { useHalfTyped } from "./useHalfTyped.ts";

/** After the last step: the run is closed, a last remark with it, and the pack goes to the engineer. */
export function Finished({ live }: { readonly live: LiveJob }) {
  if (isOpen(live.state)) return <CloseRun live={live} />;
  return (
    <section className="run-finished">
      <p className="step-do">
        {live.state.stage === "approved"
          ? "The record is approved."
          : "Closed on this tablet. Save the pack and hand it to the engineer."}
      </p>
      <div className="row">
        <SavePack job={live.id} />
        <Link href={`/jobs/${live.id}/review`} className="button">
          Read the record
        </Link>
      </div>
    </section>
  );
}

const DRAFT = "closing remark";

function CloseRun({ live }: { readonly live: LiveJob }) {
  const act = useAct(live.id);
  const kept = useHalfTyped(live.id, DRAFT, {});
  const remark = kept.fields.remark?.text ?? "";
  const [problem, setProblem] = useState("");
  const close = async () => {
    const done = await act((situation) => closeRun(situation, remark), {
      recorded: { job: live.id, step: DRAFT },
    });
    setProblem(done.ok ? "" : done.why);
  };
  return (
    <section className="run-finished">
      <p className="step-do">
        Every step is done. What is wrong in it is corrected before closing.
      </p>
      <label>
        Remark for the engineer, if there is one
        <textarea
          rows={3}
          value={remark}
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
        consequence="It goes to the engineer. Nothing more is entered unless it is sent back."
        onHeld={() => void close()}
      />
    </section>
  );
}
