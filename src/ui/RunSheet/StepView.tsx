import { format } from "date-fns";
import { useEffect, useMemo, useState } from "react";
import type { Doubt } from "../../jobs/commands/decision.ts";
import type { Typed } from "../../jobs/commands/entry.ts";
import { answersOf, isComplete, withTyped } from "../../jobs/commands/provisional.ts";
import { leaveOut, recordStep } from "../../jobs/commands/run.ts";
import { takenAt } from "../../jobs/commands/takenAt.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";
import { resultsAt } from "../../jobs/state/conditions.ts";
import { latestReading } from "../../jobs/state/jobState.ts";
import type { StepState } from "../../jobs/state/progress.ts";
import { settings } from "../settings.ts";
import type { LiveJob } from "../useJob.ts";
import { useAct } from "../useJob.ts";
import { useNow } from "../useNow.ts";
import { Caution } from "./Caution.tsx";
import { FieldInput } from "./FieldInput.tsx";
import { Answers, Figures } from "./Figures.tsx";
import { InstrumentStrip } from "./InstrumentStrip.tsx";
import { NoteBox } from "./NoteBox.tsx";
import { offersFor } from "./offers.ts";
import { Photographs } from "./Photographs.tsx";
import { ReasonInput } from "./ReasonInput.tsx";
import { Recorded } from "./Recorded.tsx";
import { OVER_LIMIT, StandBy } from "./StandBy.tsx";
import { unitOf, withUnits } from "./units.ts";
import { type HalfTypedFields, useHalfTyped } from "./useHalfTyped.ts";
import { useKeys } from "./useKeys.tsx";
import "./StepView.css";

interface StepViewProps {
  readonly live: LiveJob;
  readonly item: StepState;
  readonly isCurrent: boolean;
  readonly onRecorded: (said: string) => void;
  /** where the number keys go; null until it is on the page */
  readonly keysSlot: HTMLElement | null;
  /** what the figures would be with what is typed; undefined when nothing is */
  readonly onTyped: (results: Results | undefined) => void;
}

/** One step: what to do, the figures to work to, the caution that belongs to it, what to enter, the one action. */
export function StepView(props: StepViewProps) {
  const { live, item, isCurrent, keysSlot } = props;
  const { step } = item;
  const [again, setAgain] = useState(false);
  const entering = (isCurrent && item.status === "open") || again;
  return (
    <article className="step-view">
      <header>
        <p className="step-phase">{item.phase.title}</p>
        <h2 className="step-title" tabIndex={-1}>
          {step.title}
        </h2>
      </header>
      <Figures step={step} results={live.results} writer={live.writer} />
      <p className="step-do">{step.instruction}</p>
      {step.caution && <Caution>{step.caution}</Caution>}
      {item.status !== "open" && !again && (
        <Recorded
          live={live}
          item={item}
          keysSlot={keysSlot}
          isCurrent={isCurrent}
          onAgain={() => setAgain(true)}
          onRecorded={props.onRecorded}
        />
      )}
      {!entering && item.status === "open" && (
        <p className="step-ahead">
          This step comes later. It is entered when the sheet gets to it.
        </p>
      )}
      {entering && <Entry {...props} again={again} onDone={() => setAgain(false)} />}
      {step.expect && (
        <p className="step-expect">
          <strong>Expect.</strong> {step.expect}
        </p>
      )}
      <NoteBox live={live} step={step.id} />
      <Photographs live={live} at={step.id} />
    </article>
  );
}

interface EntryProps extends StepViewProps {
  readonly again: boolean;
  readonly onDone: () => void;
}

interface Problem {
  readonly why: string;
  readonly field?: string | undefined;
  readonly doubts?: readonly Doubt[] | undefined;
}

function Entry({ live, item, again, onRecorded, onDone, keysSlot, onTyped }: EntryProps) {
  const { step } = item;
  const { writer, state, id } = live;
  const now = useNow();
  const act = useAct(id);
  const [stood] = useState(() => (again ? before(live, step) : {}));
  const typed = useHalfTyped(id, step.id, stood);
  const [problem, setProblem] = useState<Problem>();
  const [readAt, setReadAt] = useState<string>();
  const [saving, setSaving] = useState(false);
  const values = withUnits(step.fields, typed.fields, writer);
  const change = (field: string, value: Typed) => {
    typed.change(field, value);
    if (problem) setProblem(undefined);
  };
  const keys = useKeys({
    fields: step.fields,
    typed: typed.fields,
    onChange: change,
    writer,
    slot: keysSlot,
  });

  const hasQuantities = step.fields.some((field) => field.kind === "quantity");
  const readTime = readAt ?? whenTyped(typed.since, now);
  const actor = settings().actor ?? { name: "", role: "wireline supervisor" as const };
  const then = withTyped(state, step, values, takenAt(readTime, now), actor, writer);
  const results = resultsAt(then, step.pocket) ?? live.results;
  const typedResults = then === state ? undefined : results;
  useEffect(() => {
    onTyped(typedResults);
    return () => onTyped(undefined);
  }, [onTyped, typedResults]);
  const complete = useMemo(() => isComplete(step, values, writer), [step, values, writer]);

  const record = async (reason?: string) => {
    setSaving(true);
    const done = await act(
      (situation) =>
        recordStep(situation, {
          step: step.id,
          typed: values,
          takenAt: hasQuantities ? takenAt(readTime, situation.now) : situation.now,
          untouched: Object.keys(stood).filter((field) => isSame(stood[field], values[field])),
          emptied: Object.keys(stood),
          ...(reason !== undefined && { standBy: { reason } }),
        }),
      { recorded: { job: id, step: step.id } },
    );
    setSaving(false);
    if (!done.ok) {
      // What is asked would lie under the keys.
      if (done.doubts) keys.close();
      setProblem({ why: done.why, field: done.field, doubts: done.doubts });
      return;
    }
    typed.recorded();
    setProblem(undefined);
    setReadAt(undefined);
    keys.close();
    onDone();
    const time = format(new Date(), "HH:mm");
    onRecorded(
      done.stopped
        ? `Saved ${time}, and the step stays open. ${done.stopped}`
        : `Saved ${time}: ${step.title}.`,
    );
  };

  return (
    <>
      <div className="step-fields">
        {step.fields.map((field) => (
          <FieldInput
            key={field.id}
            field={field}
            typed={typed.fields[field.id]}
            problem={problem?.field === field.id ? problem.why : undefined}
            active={keys.active === field.id}
            results={results}
            writer={writer}
            stands={stood[field.id] !== undefined}
            offers={offersFor(field, live)}
            turns={live.programme.well?.crownValveTurns}
            onChange={(value) => change(field.id, value)}
            onOpen={() => keys.open(field)}
            onEnter={() => keys.next(field)}
          />
        ))}
        {hasQuantities && <ReadAt value={readTime} onChange={setReadAt} />}
      </div>
      <Answers found={answersOf(step, then, now, writer)} typed={then !== state} />
      <InstrumentStrip results={results} writer={writer} step={step} />
      {problem && !problem.doubts && !problem.field && (
        <p className="problem" role="alert">
          {problem.why}
        </p>
      )}
      {problem?.doubts && (
        <StandBy
          doubts={problem.doubts}
          saving={saving}
          reason={typed.fields[OVER_LIMIT]?.text ?? ""}
          onReason={(text) => typed.change(OVER_LIMIT, { text })}
          onStandBy={(reason) => void record(reason)}
        />
      )}
      {/* In reach it lies over the fields: of a step done before only once something is typed. */}
      <div className={`step-actions${complete && (!again || typed.since) ? " in-reach" : ""}`}>
        {/* While something is asked about, the answer to it is the one next action. */}
        {!problem?.doubts && (
          <button
            type="button"
            className="button next step-record"
            disabled={saving}
            onClick={() => void record()}
          >
            {saving ? "Saving…" : actionLabel(step, typed, live)}
          </button>
        )}
        {step.optional && !again && <LeaveOut live={live} item={item} onRecorded={onRecorded} />}
        {again && (
          <button type="button" className="button step-again" onClick={onDone}>
            Leave it as recorded
          </button>
        )}
      </div>
      {keys.portal}
    </>
  );
}

/** What a step held before, for its fields that are not read anew: a gauge that calculations go by always is. */
function before(live: LiveJob, step: Step): Record<string, Typed> {
  if (step.startsEmpty) return {};
  return Object.fromEntries(
    step.fields.flatMap((field): [string, Typed][] => {
      const value = latestReading(live.state, field.id)?.value;
      if (value?.kind === "quantity" && field.kind === "quantity" && !field.channel) {
        return [[field.id, { text: String(value.value), unit: value.unit }]];
      }
      switch (value?.kind) {
        case "choice":
          return [[field.id, { text: value.choice }]];
        case "text":
          return [[field.id, { text: value.text }]];
        case "count":
          return [[field.id, { text: String(value.count) }]];
        default:
          return [];
      }
    }),
  );
}

const isSame = (stood: Typed | undefined, typed: Typed | undefined) =>
  stood !== undefined && stood.text === typed?.text && stood.unit === typed.unit;

const TWO_MINUTES = 2 * 60 * 1000;

/** A reading typed a while ago was read then, not now: the time of its first key stands until somebody says another. */
function whenTyped(since: string | undefined, now: string): string | undefined {
  if (since === undefined) return undefined;
  const first = new Date(since);
  const age = new Date(now).getTime() - first.getTime();
  return age > TWO_MINUTES ? format(first, "HH:mm") : undefined;
}

/** A verb, with the figure when there is just one. */
function actionLabel(step: Step, typed: HalfTypedFields, { writer }: LiveJob): string {
  const { fields } = step;
  const [only] = fields;
  if (!only) return step.title;
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
      <button
        type="button"
        className="button step-again"
        onClick={() => onChange(format(new Date(), "HH:mm"))}
      >
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
  const act = useAct(live.id);
  const draft = `${item.id}, left out`;
  const kept = useHalfTyped(live.id, draft, {});
  const reason = kept.fields.reason?.text ?? "";
  const [asked, setAsked] = useState(false);
  const open = asked || reason !== "";
  const [problem, setProblem] = useState("");
  if (!open) {
    return (
      <button type="button" className="button quiet" onClick={() => setAsked(true)}>
        Not needed on this job
      </button>
    );
  }
  const leave = async () => {
    const done = await act((situation) => leaveOut(situation, item.id, reason), {
      recorded: { job: live.id, step: draft },
    });
    if (done.ok) onRecorded(`Left out: ${item.step.title}.`);
    else setProblem(done.why);
  };
  return (
    <div className="leave-out">
      <ReasonInput
        label="Why is it not needed?"
        reason={reason}
        onChange={(text) => kept.change("reason", { text })}
      />
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="button" className="button" onClick={() => void leave()}>
        Leave out {item.step.title.toLowerCase()}
      </button>
    </div>
  );
}
