import { format } from "date-fns";
import { useState } from "react";
import { correct } from "../../jobs/commands/run.ts";
import { entryInWords } from "../../jobs/reviewRecord.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import type { Reading } from "../../jobs/state/jobState.ts";
import { latestReading } from "../../jobs/state/jobState.ts";
import type { StepState } from "../../jobs/state/progress.ts";
import type { LiveJob } from "../useJob.ts";
import { useAct } from "../useJob.ts";
import { FieldInput, unitOf } from "./FieldInput.tsx";

interface RecordedProps {
  readonly live: LiveJob;
  readonly item: StepState;
  readonly onAgain: () => void;
}

/** What was recorded in a step, with its corrections, and the two ways on: correct, or read again. */
export function Recorded({ live, item, onAgain }: RecordedProps) {
  const { state } = live;
  const { step, event } = item;
  const [correcting, setCorrecting] = useState<string>();
  const open = state.stage === "running" || state.stage === "sent back";
  const left = state.leftOut.get(step.id);
  return (
    <section className="recorded" aria-label="Recorded">
      <p>
        {left ? `Left out: ${left.reason}` : "Done"}
        {event && `, ${format(new Date(event.at), "HH:mm")} by ${event.actor.name}`}
      </p>
      <ul>
        {step.fields.map((field) => {
          const reading = latestReading(state, field.id);
          if (!reading) return null;
          return (
            <li key={field.id} className="recorded-entry">
              <span>{field.label}</span>
              <span className="figure recorded-value">{inWords(field, reading)}</span>
              {reading.corrections.length > 0 && (
                <span className="small">
                  was {entryInWords(reading.original)}; {reading.corrections.at(-1)?.reason}
                </span>
              )}
              {open && correcting !== field.id && (
                <button type="button" className="button" onClick={() => setCorrecting(field.id)}>
                  Correct
                </button>
              )}
              {correcting === field.id && (
                <Correction
                  live={live}
                  field={field}
                  reading={reading}
                  onDone={() => setCorrecting(undefined)}
                />
              )}
            </li>
          );
        })}
      </ul>
      {open && !left && step.fields.length > 0 && (
        <button type="button" className="button again" onClick={onAgain}>
          Read and record again
        </button>
      )}
    </section>
  );
}

function inWords(field: Field, reading: Reading): string {
  return entryInWords(reading.value, (value) =>
    field.kind === "choice"
      ? (field.choices.find((each) => each.value === value)?.label ?? value)
      : value,
  );
}

interface CorrectionProps {
  readonly live: LiveJob;
  readonly field: Field;
  readonly reading: Reading;
  readonly onDone: () => void;
}

/** The old entry stays in the log; the new one stands beside it, with the reason. */
function Correction({ live, field, reading, onDone }: CorrectionProps) {
  const act = useAct(live.job.id);
  const [typed, setTyped] = useState<{ text: string; unit?: string }>({ text: "" });
  const [reason, setReason] = useState("");
  const [problem, setProblem] = useState<{ field?: string; why: string }>();
  const keep = async () => {
    const unit = unitOf(field, typed, live.writer);
    const done = await act((situation) =>
      correct(
        situation,
        reading,
        { text: typed.text, ...(unit !== undefined && { unit }) },
        reason,
      ),
    );
    if (done.ok) onDone();
    else setProblem({ why: done.why, ...("field" in done && done.field && { field: done.field }) });
  };
  return (
    <div className="correction">
      <FieldInput
        field={{ ...field, label: `${field.label}, corrected` }}
        typed={typed}
        problem={problem?.field === field.id ? problem.why : undefined}
        active={false}
        results={live.results}
        writer={live.writer}
        onChange={(value) => setTyped(value)}
        onFocus={() => {}}
        onEnter={() => {}}
      />
      <label>
        Why
        <input
          className="entry-text"
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
      </label>
      {problem && problem.field !== field.id && <p className="problem">{problem.why}</p>}
      <div className="row">
        <button type="button" className="button" onClick={() => void keep()}>
          Record the correction
        </button>
        <button type="button" className="button quiet" onClick={onDone}>
          No correction
        </button>
      </div>
    </div>
  );
}
