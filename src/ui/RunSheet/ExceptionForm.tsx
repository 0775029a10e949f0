import { useState } from "react";
import { grantException } from "../../jobs/commands/run.ts";
import type { Role } from "../../jobs/roles.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { type LiveJob, useAct } from "../useJob.ts";
import { useHalfTyped } from "./useHalfTyped.ts";

interface ExceptionFormProps {
  readonly live: LiveJob;
  readonly hold: string;
  readonly condition: string;
  readonly may: readonly Role[];
}

/** A way past one condition, with a reason and a name that stand in the record. */
export function ExceptionForm({ live, hold, condition, may }: ExceptionFormProps) {
  const act = useAct(live.id);
  const draft = `${hold}, exception to ${condition}`;
  const kept = useHalfTyped(live.id, draft, {});
  const text = (field: string) => kept.fields[field]?.text ?? "";
  const [reason, name] = [text("reason"), text("name")];
  const role = may.find((each) => each === text("role")) ?? may[0] ?? "production engineer";
  const [asked, setAsked] = useState<boolean>();
  const [problem, setProblem] = useState("");
  // What was half typed when the tablet went dark is in sight again, until somebody puts it away.
  const open = asked ?? (reason !== "" || name !== "");
  if (!open) {
    return (
      <button type="button" className="button quiet" onClick={() => setAsked(true)}>
        Exception, with a reason and a name
      </button>
    );
  }
  const grant = async () => {
    const done = await act(
      (situation) => grantException(situation, hold, condition, reason, { name, role }),
      { recorded: { job: live.id, step: draft } },
    );
    setProblem(done.ok ? "" : done.why);
  };
  return (
    <div className="exception-form">
      <label>
        Reason
        <textarea
          rows={3}
          value={reason}
          onChange={(event) => kept.change("reason", { text: event.target.value })}
        />
      </label>
      <label>
        Authorised by{may.length === 1 && `, ${role}`}
        <input
          className="entry-text"
          value={name}
          autoComplete="off"
          onChange={(event) => kept.change("name", { text: event.target.value })}
        />
      </label>
      {may.length > 1 && (
        <label>
          Role
          <select
            className="entry-text"
            value={role}
            onChange={(event) => kept.change("role", { text: event.target.value })}
          >
            {may.map((each) => (
              <option key={each}>{each}</option>
            ))}
          </select>
        </label>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <HoldButton
        aside
        label="Grant the exception"
        consequence="The condition passes on these readings only, and the engineer sees it."
        onHeld={() => void grant()}
      />
      <button type="button" className="button quiet" onClick={() => setAsked(false)}>
        No exception
      </button>
    </div>
  );
}
