import { format } from "date-fns";
import { useState } from "react";
import { settleConflict } from "../../jobs/commands/settle.ts";
import { fieldInWords } from "../../jobs/entryInWords.ts";
import { fieldById } from "../../jobs/sheet/walk.ts";
import { isOpen, type Reading } from "../../jobs/state/jobState.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { type LiveJob, useAct } from "../useJob.ts";
import "./Differing.css";

/** Readings that two tablets took differently, side by side, for a person to say which stands. */
export function Differing({ live }: { readonly live: LiveJob }) {
  if (!isOpen(live.state)) return null;
  return [...live.state.conflicts].map(([field, readings]) => (
    <Settle key={field} live={live} field={field} readings={readings} />
  ));
}

interface SettleProps {
  readonly live: LiveJob;
  readonly field: string;
  readonly readings: readonly Reading[];
}

function Settle({ live, field: id, readings }: SettleProps) {
  const act = useAct(live.id);
  const [stands, setStands] = useState<string>();
  const [reason, setReason] = useState("");
  const [problem, setProblem] = useState("");
  const field = fieldById(live.programme.sheet, id);
  const settle = async () => {
    const done = await act((situation) => settleConflict(situation, id, stands ?? "", reason));
    setProblem(done.ok ? "" : done.why);
  };
  return (
    <section className="differing" aria-label={`Two tablets differ on ${field?.label ?? id}`}>
      <h3>Two tablets differ: {field?.label ?? id}</h3>
      <fieldset>
        <legend className="hidden-label">Which stands</legend>
        {readings.map((reading) => (
          <label key={reading.event.hash} className="differing-one">
            <input
              type="radio"
              name={`stands-${id}`}
              checked={stands === reading.event.hash}
              onChange={() => setStands(reading.event.hash)}
            />
            <span className="figure">{fieldInWords(field, reading.value)}</span>
            <span>
              {reading.event.actor.name}, read {format(new Date(reading.takenAt), "HH:mm")}
            </span>
          </label>
        ))}
      </fieldset>
      {stands !== undefined && (
        <>
          <label className="differing-why">
            How you know
            <input
              className="entry-text"
              value={reason}
              onChange={(event) => setReason(event.target.value)}
            />
          </label>
          {problem && (
            <p className="problem" role="alert">
              {problem}
            </p>
          )}
          <HoldButton
            aside
            label="This one stands"
            consequence="The other stays in the log beside it."
            onHeld={() => void settle()}
          />
        </>
      )}
    </section>
  );
}
