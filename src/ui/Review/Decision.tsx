import { useState } from "react";
import { review } from "../../jobs/commands/review.ts";
import { headsOf } from "../../jobs/log/heads.ts";
import { departures } from "../../jobs/review/changes.ts";
import type { ReviewRecord } from "../../jobs/review/record.ts";
import { closingHash, inFours } from "../../jobs/state/closingHash.ts";
import type { ReviewDecision } from "../../jobs/state/jobState.ts";
import { openQuestions } from "../../jobs/state/questions.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { type LiveJob, useAct } from "../useJob.ts";

const DRAFT = "decision";

interface DecisionProps {
  readonly live: LiveJob;
  readonly record: ReviewRecord;
}

/** The engineer approves, approves with remarks, or sends back. */
export function Decision({ live, record }: DecisionProps) {
  const { id, state, writer } = live;
  const act = useAct(id);
  const kept = useHalfTyped(id, DRAFT, {});
  const remark = kept.fields.remark?.text ?? "";
  const [problem, setProblem] = useState("");
  if (state.stage !== "closed") return null;
  const decide = async (decision: ReviewDecision) => {
    const done = await act(
      (situation) => review(situation, decision, remark, headsOf(state.events)),
      { recorded: { job: id, step: DRAFT } },
    );
    setProblem(done.ok ? "" : done.why);
    if (!done.ok) return;
    kept.recorded();
    // What was decided stands on top.
    window.scrollTo({ top: 0 });
  };
  const { length } = departures(state, record.remarkable, writer);
  const { closed } = state;
  const left = (closed?.body.type === "run closed" && closed.body.gaps?.items.length) || 0;
  const remarkable = `${length} ${length === 1 ? "thing" : "things"} out of the ordinary${
    left > 0 ? `, ${left} not answered` : ""
  }.`;
  const open = openQuestions(state).length;
  const isBroken = record.broken.length > 0;
  const hash = closingHash(state);
  return (
    <section id="decision" className="card review-section">
      <h2>Decision</h2>
      {open > 0 && (
        <p>
          {open} {open === 1 ? "question has" : "questions have"} no answer yet: the record is
          approved once {open === 1 ? "it has" : "they have"}.
        </p>
      )}
      <label className="review-remark">
        Remark
        <textarea
          rows={3}
          value={remark}
          onChange={(event) => kept.change("remark", { text: event.target.value })}
        />
      </label>
      {hash && !isBroken && (
        <p>
          You sign <span className="figure review-hash">{inFours(hash)}</span>
        </p>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <div className="review-decide">
        <HoldButton
          label="Approve the record"
          consequence={`You sign the log as it stands. ${remarkable}`}
          disabled={isBroken}
          onHeld={() => void decide("approved")}
        />
        <HoldButton
          label="Approve with remarks"
          consequence="You sign the log, with what you wrote above to be seen to."
          disabled={isBroken}
          aside
          onHeld={() => void decide("approved with remarks")}
        />
        <button
          type="button"
          className="button review-back"
          onClick={() => void decide("sent back")}
        >
          Send back with this remark
        </button>
      </div>
    </section>
  );
}
