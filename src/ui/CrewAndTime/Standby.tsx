import { format } from "date-fns";
import { useState } from "react";
import { endStandby, startStandby } from "../../jobs/commands/standby.ts";
import { isOpen, openStandby } from "../../jobs/state/jobState.ts";
import { type LiveJob, useAct } from "../useJob.ts";

interface StandbyProps {
  readonly live: LiveJob;
  readonly onSaid: (said: string) => void;
}

const reasons = ["Weather", "Field operator", "Engineer", "Equipment", "Other work on the site"];

/** Time that the crew waits for something that is not its own. */
export function Standby({ live, onSaid }: StandbyProps) {
  const act = useAct(live.id);
  const [reason, setReason] = useState("");
  const [problem, setProblem] = useState("");
  const standby = openStandby(live.state);
  if (!isOpen(live.state)) return null;
  const end = async () => {
    const done = await act(endStandby);
    setProblem(done.ok ? "" : done.why);
    if (done.ok) onSaid(`Saved ${format(new Date(), "HH:mm")}: standby ended.`);
  };
  const start = async () => {
    const done = await act((situation) => startStandby(situation, reason));
    setProblem(done.ok ? "" : done.why);
    if (!done.ok) return;
    setReason("");
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
          <label>
            The crew waits for
            <input
              className="entry-text"
              value={reason}
              onChange={(event) => setReason(event.target.value)}
            />
          </label>
          <div className="entry-offers">
            {reasons.map((each) => (
              <button
                key={each}
                type="button"
                className="button entry-offer"
                onClick={() => setReason(each)}
              >
                {each}
              </button>
            ))}
          </div>
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
