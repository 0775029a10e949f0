import { format } from "date-fns";
import { useState } from "react";
import type { Doubt } from "../../jobs/commands/decision.ts";
import type { Typed } from "../../jobs/commands/entry.ts";
import { correct } from "../../jobs/commands/run.ts";
import { fieldInWords } from "../../jobs/entryInWords.ts";
import type { JobEvent } from "../../jobs/log/event.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import { brokenBy } from "../../jobs/state/holdState.ts";
import { foldJob, isOpen, latestReading, type Reading } from "../../jobs/state/jobState.ts";
import type { StepState } from "../../jobs/state/progress.ts";
import type { LiveJob } from "../useJob.ts";
import { useAct } from "../useJob.ts";
import { FieldInput } from "./FieldInput.tsx";
import { GoBack } from "./GoBack.tsx";
import { ReasonInput } from "./ReasonInput.tsx";
import { OVER_LIMIT, StandBy } from "./StandBy.tsx";
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
  const [said, setSaid] = useState("");
  const open = isOpen(state);
  const left = state.leftOut.get(step.id);
  return (
    <section className="recorded" aria-label="Recorded">
      <p>
        {left ? `Left out: ${left.reason}` : "Done"}
        {event && `, ${format(new Date(event.at), "d MMM HH:mm")} by ${event.actor.name}`}
      </p>
      <ul>
        {step.fields.map((field) => {
          const reading = latestReading(state, field.id);
          if (!reading) {
            const back = state.readings.findLast((each) => each.field === field.id);
            return left ? null : (
              <li key={field.id} className="recorded-entry">
                <span className="recorded-label">{field.label}</span>
                <span className="recorded-value">{back ? "Taken back" : "Left empty"}</span>
                {back && <Was field={field} reading={back} />}
              </li>
            );
          }
          return (
            <li key={field.id} className="recorded-entry">
              <span className="recorded-label">{field.label}</span>
              <span className="figure recorded-value">{fieldInWords(field, reading.value)}</span>
              <ReadWhen reading={reading} />
              {reading.corrections.length > 0 && <Was field={field} reading={reading} />}
              {open && correcting !== field.id && (
                <button
                  type="button"
                  className="button recorded-correct"
                  onClick={() => {
                    setCorrecting(field.id);
                    setSaid("");
                  }}
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
                  onKept={(words, waits) => {
                    setCorrecting(undefined);
                    // Where the sheet waits for something else now, it is shown.
                    if (waits) onRecorded(words);
                    else setSaid(words);
                  }}
                />
              )}
            </li>
          );
        })}
      </ul>
      {said !== "" && <p role="status">{said}</p>}
      {open && !left && step.fields.length > 0 && (
        <button type="button" className="button step-again" onClick={onAgain}>
          {step.fields.every((field) => latestReading(state, field.id))
            ? "Read and record again"
            : "Add what is missing, or read and record again"}
        </button>
      )}
      {open && !isCurrent && <GoBack live={live} step={step} onRecorded={onRecorded} />}
    </section>
  );
}

/** What stood there before, and why it does not any more. */
function Was({ field, reading }: { readonly field: Field; readonly reading: Reading }) {
  return (
    <span className="small">
      was {fieldInWords(field, reading.original)}; {reading.corrections.at(-1)?.reason}
    </span>
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
  /** @param waits the sheet waits for what the correction opened or broke */
  readonly onKept: (said: string, waits: boolean) => void;
}

interface Problem {
  readonly why: string;
  readonly field?: string | undefined;
  readonly doubts?: readonly Doubt[] | undefined;
}

/** Under which a half-typed correction is kept. */
const correctionOf = ({ id }: Field) => `${id}, correction`;

const reasons = ["Misread", "Wrong unit", "Tapped wrong"] as const;

/** The old entry stays in the log; the new one stands beside it, with the reason. */
function Correction({ live, field, reading, keysSlot, onDone, onKept }: CorrectionProps) {
  const act = useAct(live.id);
  const draft = correctionOf(field);
  const kept = useHalfTyped(live.id, draft, {});
  const typed = kept.fields.value ?? { text: "" };
  const reason = kept.fields.reason?.text ?? "";
  const [problem, setProblem] = useState<Problem>();
  const [saving, setSaving] = useState(false);
  const type = (value: Typed) => {
    kept.change("value", value);
    if (problem) setProblem(undefined);
  };
  const shown = { ...field, id: `${field.id}-corrected`, label: `${field.label}, corrected` };
  const keys = useKeys({
    fields: [shown],
    typed: { [shown.id]: typed },
    onChange: (_, value) => type(value),
    writer: live.writer,
    slot: keysSlot,
  });
  const keep = async (standBy?: string) => {
    const unit = unitOf(field, typed, live.writer);
    setSaving(true);
    const done = await act(
      (situation) =>
        correct(
          situation,
          reading,
          { text: typed.text, ...(unit !== undefined && { unit }) },
          reason,
          standBy === undefined ? undefined : { reason: standBy },
        ),
      { recorded: { job: live.id, step: draft } },
    );
    setSaving(false);
    if (done.ok) {
      kept.recorded();
      keys.close();
      const { says, waits } = whatItBroke(live, done.events ?? [], done.stopped);
      onKept(`Saved ${format(new Date(), "HH:mm")}: ${field.label} corrected.${says}`, waits);
      return;
    }
    // What is asked would lie under the keys.
    if (done.doubts) keys.close();
    setProblem({ why: done.why, field: done.field, doubts: done.doubts });
  };
  return (
    <div className="correction">
      <FieldInput
        field={shown}
        typed={typed}
        problem={problem?.field === field.id ? problem.why : undefined}
        active={keys.active === shown.id}
        stands
        results={live.results}
        writer={live.writer}
        onChange={type}
        onOpen={() => keys.open(shown)}
        onEnter={() => keys.next(shown)}
      />
      {field.optional && <p>Left empty, the answer is taken back.</p>}
      <ReasonInput
        label="Why"
        reason={reason}
        usual={reasons}
        onChange={(text) => kept.change("reason", { text })}
      />
      {problem?.doubts && (
        <StandBy
          doubts={problem.doubts}
          saving={saving}
          reason={kept.fields[OVER_LIMIT]?.text ?? ""}
          onReason={(text) => kept.change(OVER_LIMIT, { text })}
          onStandBy={(why) => void keep(why)}
        />
      )}
      {problem && !problem.doubts && problem.field !== field.id && (
        <p className="problem" role="alert">
          {problem.why}
        </p>
      )}
      <div className="row">
        {/* While something is asked about, the answer to it is the one next action. */}
        {!problem?.doubts && (
          <button
            type="button"
            className="button step-again"
            disabled={saving}
            onClick={() => void keep()}
          >
            {saving ? "Saving…" : "Record the correction"}
          </button>
        )}
        <button type="button" className="button step-again" onClick={onDone}>
          No correction
        </button>
      </div>
      {keys.portal}
    </div>
  );
}

/** What a correction does to the sheet, in words. */
function whatItBroke(live: LiveJob, written: readonly JobEvent[], stopped: string | undefined) {
  const now = new Date().toISOString();
  const state = foldJob([...live.state.events, ...written]);
  const broken = brokenBy(written, state, now, live.writer).map(({ title }) => `"${title}"`);
  const opened = stopped === undefined ? "" : ` The step is open again. ${stopped}`;
  const voided =
    broken.length === 0 ? "" : ` It broke what ${broken.join(" and ")} was released on.`;
  return { says: opened + voided, waits: opened + voided !== "" };
}
