import { format } from "date-fns";
import { useState } from "react";
import { createPortal } from "react-dom";
import { closeRun, leaveOut, recordStep, type TypedFields } from "../../jobs/commands/run.ts";
import { takenAt } from "../../jobs/commands/takenAt.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import type { StepState } from "../../jobs/state/progress.ts";
import type { LiveJob } from "../useJob.ts";
import { useAct } from "../useJob.ts";
import { Caution } from "./Caution.tsx";
import { FieldInput, nextUnit, unitOf } from "./FieldInput.tsx";
import { InstrumentStrip } from "./InstrumentStrip.tsx";
import { Keypad } from "./Keypad.tsx";
import { NoteBox } from "./NoteBox.tsx";
import { Recorded } from "./Recorded.tsx";
import { type HalfTypedFields, useHalfTyped } from "./useHalfTyped.ts";
import "./StepView.css";

interface StepViewProps {
  readonly live: LiveJob;
  readonly item: StepState;
  readonly isCurrent: boolean;
  /** the step is the last one: recording it closes the run */
  readonly isLast: boolean;
  readonly onRecorded: (said: string) => void;
  /** where the number keys go; undefined until it is on the page */
  readonly keysSlot: HTMLElement | null;
}

/** One step: what to do, what to expect, the caution that belongs to it, what to enter, the one action. */
export function StepView(props: StepViewProps) {
  const { live, item, isCurrent } = props;
  const { step } = item;
  const [again, setAgain] = useState(false);
  const entering = (isCurrent && item.status === "open") || again;
  return (
    <article className="step-view">
      <header>
        <p className="step-phase">{item.phase.title}</p>
        <h2 className="step-title">{step.title}</h2>
      </header>
      <p className="step-do">{step.instruction}</p>
      {step.expect && (
        <p className="step-expect">
          <strong>Expect.</strong> {step.expect}
        </p>
      )}
      {step.caution && <Caution>{step.caution}</Caution>}
      {item.status !== "open" && !again && (
        <Recorded live={live} item={item} onAgain={() => setAgain(true)} />
      )}
      {!entering && item.status === "open" && (
        <p className="step-ahead">
          This step comes later. It is entered when the sheet gets to it.
        </p>
      )}
      {entering && <Entry {...props} again={again} onDone={() => setAgain(false)} />}
      <NoteBox job={live.job.id} step={step.id} />
    </article>
  );
}

interface EntryProps extends StepViewProps {
  readonly again: boolean;
  readonly onDone: () => void;
}

function Entry({ live, item, again, isLast, onRecorded, onDone, keysSlot }: EntryProps) {
  const { step } = item;
  const { writer, results, job } = live;
  const act = useAct(job.id);
  const typed = useHalfTyped(job.id, step.id);
  const [active, setActive] = useState<string>();
  const [problem, setProblem] = useState<{ readonly field?: string; readonly why: string }>();
  const [readAt, setReadAt] = useState<string>();
  const [saving, setSaving] = useState(false);
  const quantities = step.fields.filter((field) => field.kind === "quantity");

  const record = async () => {
    setSaving(true);
    const values = withUnits(step.fields, typed, live);
    const done = await act((situation) =>
      recordStep(situation, step.id, values, takenAt(readAt, situation.now)),
    );
    setSaving(false);
    if (!done.ok) {
      setProblem({ why: done.why, ...("field" in done && done.field && { field: done.field }) });
      return;
    }
    typed.clear();
    setProblem(undefined);
    setActive(undefined);
    onDone();
    if (isLast && !again) {
      const closed = await act((situation) => closeRun(situation, ""));
      onRecorded(closed.ok ? "Saved. The run is closed and with the engineer." : closed.why);
      return;
    }
    onRecorded(`Saved ${format(new Date(), "HH:mm")}: ${step.title}.`);
  };

  const focusNext = (from: Field) => {
    const next = step.fields[step.fields.indexOf(from) + 1];
    const element = next && document.getElementById(`entry-${next.id}`);
    element?.focus();
    setActive(next && isKeyed(next) ? next.id : undefined);
  };

  const keyed = step.fields.find((field) => field.id === active);
  const keys = keyed && (
    <Keypad
      label={keyed.label}
      text={typed.fields[keyed.id]?.text ?? ""}
      unit={unitOf(keyed, typed.fields[keyed.id], writer)}
      onText={(text) => {
        const unit = unitOf(keyed, typed.fields[keyed.id], writer);
        typed.change(keyed.id, { text, ...(unit !== undefined && { unit }) });
      }}
      onUnit={() => {
        const before = typed.fields[keyed.id];
        const unit = nextUnit(keyed, unitOf(keyed, before, writer));
        typed.change(keyed.id, { text: before?.text ?? "", unit });
      }}
      nextLabel={step.fields.at(-1) === keyed ? "Ready" : "Next"}
      onNext={() => focusNext(keyed)}
      onClose={() => setActive(undefined)}
    />
  );

  return (
    <>
      <div className="step-fields">
        {step.fields.map((field) => (
          <FieldInput
            key={field.id}
            field={field}
            typed={typed.fields[field.id]}
            problem={problem?.field === field.id ? problem.why : undefined}
            active={active === field.id}
            results={results}
            writer={writer}
            onChange={(value) => {
              typed.change(field.id, value);
              if (problem?.field === field.id) setProblem(undefined);
            }}
            onFocus={() => setActive(isKeyed(field) ? field.id : undefined)}
            onEnter={() => focusNext(field)}
          />
        ))}
        {quantities.length > 0 && <ReadAt value={readAt} onChange={setReadAt} />}
      </div>
      {problem && !problem.field && (
        <p className="problem" role="alert">
          {problem.why}
        </p>
      )}
      <InstrumentStrip live={live} step={step} />
      <div className="step-actions">
        <button
          type="button"
          className="button next step-record"
          disabled={saving}
          onClick={() => void record()}
        >
          {saving ? "Saving…" : actionLabel(step.fields, typed, live, isLast)}
        </button>
        {step.optional && !again && <LeaveOut live={live} item={item} onRecorded={onRecorded} />}
        {again && (
          <button type="button" className="button quiet" onClick={onDone}>
            Leave it as recorded
          </button>
        )}
      </div>
      {keysSlot && createPortal(keys, keysSlot)}
    </>
  );
}

/** Whether a field is entered with the number keys. */
const isKeyed = (field: Field) => field.kind === "quantity" || field.kind === "count";

function withUnits(
  fields: readonly Field[],
  typed: HalfTypedFields,
  { writer }: LiveJob,
): TypedFields {
  return Object.fromEntries(
    fields.flatMap((field) => {
      const entry = typed.fields[field.id];
      if (!entry) return [];
      const unit = unitOf(field, entry, writer);
      return [[field.id, { text: entry.text, ...(unit !== undefined && { unit }) }]];
    }),
  );
}

/** A verb, with the figure when there is just one. */
function actionLabel(
  fields: readonly Field[],
  typed: HalfTypedFields,
  { writer }: LiveJob,
  isLast: boolean,
): string {
  if (isLast) return "Close the run";
  const [only] = fields;
  if (!only) return "Done";
  if (fields.length > 1) return `Record ${fields.length} entries`;
  const entry = typed.fields[only.id];
  const unit = unitOf(only, entry, writer);
  if (!entry?.text) return "Record";
  if (only.kind === "choice") {
    return `Record: ${only.choices.find((choice) => choice.value === entry.text)?.label ?? ""}`;
  }
  return `Record ${entry.text}${unit ? ` ${unit}` : ""}`;
}

interface ReadAtProps {
  readonly value: string | undefined;
  readonly onChange: (value: string | undefined) => void;
}

/** Gauges are read before they are typed; the time between counts where freshness is asked for. */
function ReadAt({ value, onChange }: ReadAtProps) {
  if (value === undefined) {
    return (
      <button
        type="button"
        className="button quiet read-at"
        onClick={() => onChange(format(new Date(), "HH:mm"))}
      >
        Read now. Was it read earlier?
      </button>
    );
  }
  return (
    <div className="row">
      <label className="read-at-time">
        Read at
        <input type="time" value={value} onChange={(event) => onChange(event.target.value)} />
      </label>
      <button type="button" className="button quiet" onClick={() => onChange(undefined)}>
        Read just now
      </button>
    </div>
  );
}

interface LeaveOutProps {
  readonly live: LiveJob;
  readonly item: StepState;
  readonly onRecorded: (said: string) => void;
}

function LeaveOut({ live, item, onRecorded }: LeaveOutProps) {
  const act = useAct(live.job.id);
  const [open, setOpen] = useState(false);
  const [reason, setReason] = useState("");
  const [problem, setProblem] = useState("");
  if (!open) {
    return (
      <button type="button" className="button quiet" onClick={() => setOpen(true)}>
        Not needed on this job
      </button>
    );
  }
  const leave = async () => {
    const done = await act((situation) => leaveOut(situation, item.id, reason));
    if (done.ok) onRecorded(`Left out: ${item.step.title}.`);
    else setProblem(done.why);
  };
  return (
    <div className="leave-out">
      <label>
        Why is it not needed?
        <input
          className="entry-text"
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
      </label>
      {problem && <p className="problem">{problem}</p>}
      <button type="button" className="button" onClick={() => void leave()}>
        Leave out {item.step.title.toLowerCase()}
      </button>
    </div>
  );
}
