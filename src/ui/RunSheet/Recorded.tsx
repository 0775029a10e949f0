import { format } from "date-fns";
import { useState } from "react";
import type { Typed } from "../../jobs/commands/entry.ts";
import { correct } from "../../jobs/commands/run.ts";
import { fieldInWords } from "../../jobs/entryInWords.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import { isOpen, latestReading, type Reading } from "../../jobs/state/jobState.ts";
import type { StepState } from "../../jobs/state/progress.ts";
import type { LiveJob } from "../useJob.ts";
import { useAct } from "../useJob.ts";
import { FieldInput } from "./FieldInput.tsx";
import { GoBack } from "./GoBack.tsx";
import { ReasonInput } from "./ReasonInput.tsx";
import { unitOf } from "./units.ts";
import { useHalfTyped } from "./useHalfTyped.ts";
import { useKeys } from "./useKeys.tsx";

interface RecordedProps {
  readonly live: LiveJob;
  readonly item: StepState;
  readonly keysSlot: HTMLElement | null;
  /** the run stands at this step */
  readonly isCurrent: boolean;
  readonly onAgain: () => void;
  readonly onRecorded: (said: string) => void;
}

/** What was recorded in a step, with its corrections, and the two ways on: correct, or read again. */
export function Recorded(props: RecordedProps) {
  const { live, item, keysSlot, isCurrent, onAgain, onRecorded } = props;
  const { state } = live;
  const { step, event } = item;
  const [correcting, setCorrecting] = useState<string>();
  const open = isOpen(state);
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
              <span className="recorded-label">{field.label}</span>
              <span className="figure recorded-value">{fieldInWords(field, reading.value)}</span>
              <ReadWhen reading={reading} />
              {reading.corrections.length > 0 && (
                <span className="small">
                  was {fieldInWords(field, reading.original)}; {reading.corrections.at(-1)?.reason}
                </span>
              )}
              {open && correcting !== field.id && (
                <button
                  type="button"
                  className="button recorded-correct"
                  onClick={() => setCorrecting(field.id)}
                >
                  Correct
                </button>
              )}
              {correcting === field.id && (
                <Correction
                  live={live}
                  field={field}
                  reading={reading}
                  keysSlot={keysSlot}
                  onDone={() => setCorrecting(undefined)}
                />
              )}
            </li>
          );
        })}
      </ul>
      {open && !left && step.fields.length > 0 && (
        <button type="button" className="button step-again" onClick={onAgain}>
          Read and record again
        </button>
      )}
      {open && !isCurrent && <GoBack live={live} step={step} onRecorded={onRecorded} />}
    </section>
  );
}

/** When it was read, where that is not when it was recorded. */
function ReadWhen({ reading }: { readonly reading: Reading }) {
  const { takenAt, event } = reading;
  const apart = new Date(event.at).getTime() - new Date(takenAt).getTime();
  if (Math.abs(apart) < 60_000) return null;
  return <span className="small">read {format(new Date(takenAt), "d MMM HH:mm")}</span>;
}

interface CorrectionProps {
  readonly live: LiveJob;
  readonly field: Field;
  readonly reading: Reading;
  readonly keysSlot: HTMLElement | null;
  readonly onDone: () => void;
}

/** Under which a half-typed correction is kept. */
const correctionOf = ({ id }: Field) => `${id}, correction`;

const reasons = ["Misread", "Wrong unit", "Tapped wrong"] as const;

/** The old entry stays in the log; the new one stands beside it, with the reason. */
function Correction({ live, field, reading, keysSlot, onDone }: CorrectionProps) {
  const act = useAct(live.id);
  const draft = correctionOf(field);
  const kept = useHalfTyped(live.id, draft, {});
  const typed = kept.fields.value ?? { text: "" };
  const reason = kept.fields.reason?.text ?? "";
  const type = (value: Typed) => kept.change("value", value);
  const [problem, setProblem] = useState<{ field?: string | undefined; why: string }>();
  const shown = { ...field, id: `${field.id}-corrected`, label: `${field.label}, corrected` };
  const keys = useKeys({
    fields: [shown],
    typed: { [shown.id]: typed },
    onChange: (_, value) => type(value),
    writer: live.writer,
    slot: keysSlot,
  });
  const keep = async () => {
    const unit = unitOf(field, typed, live.writer);
    const done = await act(
      (situation) =>
        correct(
          situation,
          reading,
          { text: typed.text, ...(unit !== undefined && { unit }) },
          reason,
        ),
      { recorded: { job: live.id, step: draft } },
    );
    if (done.ok) {
      kept.recorded();
      keys.close();
      onDone();
    } else setProblem({ why: done.why, field: done.field });
  };
  return (
    <div className="correction">
      <FieldInput
        field={shown}
        typed={typed}
        problem={problem?.field === field.id ? problem.why : undefined}
        active={keys.active === shown.id}
        results={live.results}
        writer={live.writer}
        onChange={type}
        onOpen={() => keys.open(shown)}
        onEnter={() => keys.next(shown)}
      />
      <ReasonInput
        label="Why"
        reason={reason}
        usual={reasons}
        onChange={(text) => kept.change("reason", { text })}
      />
      {problem && problem.field !== field.id && (
        <p className="problem" role="alert">
          {problem.why}
        </p>
      )}
      <div className="row">
        <button type="button" className="button step-again" onClick={() => void keep()}>
          Record the correction
        </button>
        <button type="button" className="button step-again" onClick={onDone}>
          No correction
        </button>
      </div>
      {keys.portal}
    </div>
  );
}
