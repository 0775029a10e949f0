import { format } from "date-fns";
import { useState } from "react";
import { closeContingency, noteContingency } from "../../jobs/commands/contingency.ts";
import { stepsBehind } from "../../jobs/commands/goBack.ts";
import { fieldInWords } from "../../jobs/entryInWords.ts";
import type { Contingency } from "../../jobs/sheet/sheet.ts";
import { contingencyById, stepById } from "../../jobs/sheet/walk.ts";
import type { Branch } from "../../jobs/state/jobState.ts";
import type { Progress } from "../../jobs/state/progress.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { FieldInput } from "../RunSheet/FieldInput.tsx";
import { NoteBox } from "../RunSheet/NoteBox.tsx";
import { Photographs } from "../RunSheet/Photographs.tsx";
import { withUnits } from "../RunSheet/units.ts";
import { useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { useKeys } from "../RunSheet/useKeys.tsx";
import { type LiveJob, useAct } from "../useJob.ts";
import { AtOnce } from "./AtOnce.tsx";
import "./Contingency.css";

interface ContingencyViewProps {
  readonly live: LiveJob;
  readonly branch: Branch;
  readonly progress: Progress;
  readonly keysSlot: HTMLElement | null;
  readonly onSaid: (said: string) => void;
}

/** Something went wrong and is being dealt with: what is done at once, what is noted, and how the sheet goes on. */
export default function ContingencyView(props: ContingencyViewProps) {
  const { live, branch } = props;
  const of = contingencyById(live.programme.sheet, branch.contingency);
  if (!of) return null;
  return (
    <article className="step-view contingencies">
      <header>
        <p className="step-phase">
          The sheet waits since {format(new Date(branch.event.at), "HH:mm")}
        </p>
        <h2 className="step-title" tabIndex={-1}>
          {of.title}
        </h2>
      </header>
      <AtOnce of={of} />
      <Noted live={live} branch={branch} of={of} />
      <Note key={branch.event.hash} {...props} of={of} />
      <GoOn {...props} of={of} />
      <NoteBox live={live} step={of.id} />
      <Photographs live={live} at={of.id} />
    </article>
  );
}

interface PartProps extends ContingencyViewProps {
  readonly of: Contingency;
}

/** What was noted since it was opened. */
function Noted({ live, branch, of }: Pick<PartProps, "live" | "branch" | "of">) {
  const since = live.state.position.get(branch.event.hash) ?? 0;
  const noted = live.state.readings.filter(
    ({ step, event }) => step === of.id && (live.state.position.get(event.hash) ?? 0) > since,
  );
  if (noted.length === 0) return null;
  return (
    <ul className="contingency-noted" aria-label="Noted">
      {noted.map((reading) => {
        const field = of.fields.find((each) => each.id === reading.field);
        return (
          <li key={`${reading.event.hash} ${reading.field}`}>
            <span>{field?.label ?? reading.field}</span>
            <span className="figure">{fieldInWords(field, reading.value)}</span>
            <span className="small">{format(new Date(reading.takenAt), "HH:mm")}</span>
          </li>
        );
      })}
    </ul>
  );
}

function Note({ live, of, keysSlot, onSaid }: PartProps) {
  const { writer, id } = live;
  const act = useAct(id);
  const typed = useHalfTyped(id, of.id, {});
  const [problem, setProblem] = useState<{ readonly why: string; readonly field?: string }>();
  const keys = useKeys({
    fields: of.fields,
    typed: typed.fields,
    onChange: typed.change,
    writer,
    slot: keysSlot,
  });
  const record = async () => {
    const values = withUnits(of.fields, typed.fields, writer);
    const done = await act((situation) => noteContingency(situation, values, situation.now), {
      recorded: { job: id, step: of.id },
    });
    if (!done.ok) {
      setProblem({ why: done.why, ...(done.field !== undefined && { field: done.field }) });
      return;
    }
    typed.recorded();
    keys.close();
    setProblem(undefined);
    onSaid(`Saved ${format(new Date(), "HH:mm")}: noted under "${of.title}".`);
  };
  return (
    <section className="step-fields" aria-label="Note">
      {of.fields.map((field) => (
        <FieldInput
          key={field.id}
          field={field}
          typed={typed.fields[field.id]}
          problem={problem?.field === field.id ? problem.why : undefined}
          active={keys.active === field.id}
          results={live.results}
          writer={writer}
          onChange={(value) => typed.change(field.id, value)}
          onOpen={() => keys.open(field)}
          onEnter={() => keys.next(field)}
        />
      ))}
      {problem && !problem.field && (
        <p className="problem" role="alert">
          {problem.why}
        </p>
      )}
      <button type="button" className="button step-again" onClick={() => void record()}>
        Record what is entered
      </button>
      {keys.portal}
    </section>
  );
}

/** The way that was taken, what came of it, and the step at which the sheet goes on. */
function GoOn({ live, of, progress, onSaid }: PartProps) {
  const act = useAct(live.id);
  const kept = useHalfTyped(live.id, `${of.id} goes on`, {});
  const [problem, setProblem] = useState("");
  const text = (field: string) => kept.fields[field]?.text ?? "";
  const option = of.options.find((each) => each.id === text("option"));
  const places = placesOf(live, progress, option?.rejoins ?? []);
  const rejoin = places.find((each) => each.id === text("rejoin"));
  const close = async () => {
    const done = await act(
      (situation) =>
        closeContingency(situation, {
          option: option?.id,
          outcome: text("outcome"),
          rejoin: rejoin?.id ?? "",
        }),
      { recorded: { job: live.id, step: `${of.id} goes on` } },
    );
    if (!done.ok) {
      setProblem(done.why);
      return;
    }
    kept.recorded();
    onSaid(`Saved ${format(new Date(), "HH:mm")}: "${of.title}" is dealt with.`);
  };
  return (
    <section className="contingency-on" aria-label="How it goes on">
      <fieldset>
        <legend>What was done</legend>
        {[...of.options, other].map((each) => (
          <label key={each.id} className="contingency-choice">
            <input
              type="radio"
              name="contingency-option"
              checked={text("option") === each.id}
              onChange={() => kept.change("option", { text: each.id })}
            />
            <span>
              <strong>{each.label}</strong>
              <span>{each.says}</span>
            </span>
          </label>
        ))}
      </fieldset>
      {text("option") !== "" && (
        <>
          <label className="contingency-outcome">
            What came of it
            <textarea
              rows={3}
              value={text("outcome")}
              onChange={(event) => kept.change("outcome", { text: event.target.value })}
            />
          </label>
          <fieldset>
            <legend>The sheet goes on at</legend>
            {places.map((each) => (
              <label key={each.id} className="contingency-choice">
                <input
                  type="radio"
                  name="contingency-rejoin"
                  checked={text("rejoin") === each.id}
                  onChange={() => kept.change("rejoin", { text: each.id })}
                />
                <span>
                  <strong>{each.title}</strong>
                  <span>{each.says}</span>
                </span>
              </label>
            ))}
          </fieldset>
          {problem && (
            <p className="problem" role="alert">
              {problem}
            </p>
          )}
          {rejoin && (
            <HoldButton
              label={`Go on at "${rejoin.title}"`}
              consequence={rejoin.says}
              onHeld={() => void close()}
            />
          )}
        </>
      )}
    </section>
  );
}

const other = { id: "other", label: "Something else", says: "Say below what it was." };

interface Place {
  readonly id: string;
  readonly title: string;
  readonly says: string;
}

/** Where the sheet can go on: where it stands, and the steps done that the chosen way leads back to. */
function placesOf(
  { state, programme }: LiveJob,
  progress: Progress,
  names: readonly string[],
): Place[] {
  const { current } = progress;
  const here: Place[] = current
    ? [
        {
          id: current.id,
          title: current.type === "hold" ? current.hold.hold.title : current.step.title,
          says: "Where it stood. Nothing is done again.",
        },
      ]
    : [];
  const behind = stepsBehind(state);
  const named = behind.filter((id) => names.includes(id));
  const back = (named.length > 0 ? named : behind.slice(-12)).toReversed();
  return [
    ...here,
    ...back.map((id) => ({
      id,
      title: stepById(programme.sheet, id)?.title ?? id,
      says: "Done again from there on, hold points with it.",
    })),
  ];
}
