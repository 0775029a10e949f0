import { format } from "date-fns";
import { useState } from "react";
import { endStandby, startStandby } from "../../jobs/commands/standby.ts";
import { isOpen, openStandby } from "../../jobs/state/jobState.ts";
import { ReasonInput } from "../RunSheet/ReasonInput.tsx";
import { useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { type LiveJob, useAct } from "../useJob.ts";

interface StandbyProps {
  readonly live: LiveJob;
  readonly onSaid: (said: string) => void;
}

const DRAFT = "standby";

const reasons = ["Weather", "Field operator", "Engineer", "Equipment", "Other work on the site"];

/** Time that the crew waits for something that is not its own. */
export function Standby({ live, onSaid }: StandbyProps) {
  const act = useAct(live.id);
  const kept = useHalfTyped(live.id, DRAFT, {});
  const reason = kept.fields.reason?.text ?? "";
  const [problem, setProblem] = useState("");
  const standby = openStandby(live.state);
  if (!isOpen(live.state)) return null;
  const end = async () => {
    const done = await act(endStandby);
    setProblem(done.ok ? "" : done.why);
    if (done.ok) onSaid(`Saved ${format(new Date(), "HH:mm")}: standby ended.`);
  };
  const start = async () => {
    const done = await act((situation) => startStandby(situation, reason), {
      recorded: { job: live.id, step: DRAFT },
    });
    setProblem(done.ok ? "" : done.why);
    if (!done.ok) return;
    kept.recorded();
    onSaid(`Saved ${format(new Date(), "HH:mm")}: the crew stands by.`);
  };
  return (
    <section className="crew-part" aria-label="Standby">
      <h3>Standby</h3>
      {standby ? (
        <>
          <p className="step-do">
            Since {format(new Date(standby.event.at), "HH:mm")}: {standby.reason}
          </p>
          <button type="button" className="button next step-record" onClick={() => void end()}>
            End the standby
          </button>
        </>
      ) : (
        <>
          <ReasonInput
            label="The crew waits for"
            reason={reason}
            usual={reasons}
            onChange={(text) => kept.change("reason", { text })}
          />
          <button type="button" className="button step-again" onClick={() => void start()}>
            Start standby
          </button>
        </>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </section>
  );
}
