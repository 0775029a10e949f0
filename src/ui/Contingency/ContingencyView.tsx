import { format } from "date-fns";
import { useState } from "react";
import { closeContingency, noteContingency, placesAfter } from "../../jobs/commands/contingency.ts";
import { fieldInWords } from "../../jobs/entryInWords.ts";
import type { Contingency } from "../../jobs/sheet/sheet.ts";
import { contingencyById } from "../../jobs/sheet/walk.ts";
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
import { useNow } from "../useNow.ts";
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
  const now = useNow();
  const kept = useHalfTyped(live.id, `${of.id} goes on`, {});
  const [problem, setProblem] = useState("");
  const text = (field: string) => kept.fields[field]?.text ?? "";
  const option = of.options.find((each) => each.id === text("option"));
  const places = placesOf(live, progress, option?.rejoins ?? [], now);
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
        {[...of.options, other].map(({ id, label, says }) => (
          <Choice
            key={id}
            group="option"
            label={label}
            says={says}
            chosen={text("option") === id}
            onChoose={() => kept.change("option", { text: id })}
          />
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
            {places.map(({ id, title, says }) => (
              <Choice
                key={id}
                group="rejoin"
                label={title}
                says={says}
                chosen={text("rejoin") === id}
                onChoose={() => kept.change("rejoin", { text: id })}
              />
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

interface ChoiceProps {
  readonly group: string;
  readonly label: string;
  readonly says: string;
  readonly chosen: boolean;
  readonly onChoose: () => void;
}

function Choice({ group, label, says, chosen, onChoose }: ChoiceProps) {
  return (
    <label className="contingency-choice">
      <input type="radio" name={`contingency-${group}`} checked={chosen} onChange={onChoose} />
      <span>
        <strong>{label}</strong>
        <span>{says}</span>
      </span>
    </label>
  );
}

const other = { id: "other", label: "Something else", says: "Say below what it was." };

interface Place {
  readonly id: string;
  readonly title: string;
  readonly says: string;
}

/** How many steps back are offered where the place is free: further back the sheet itself leads. */
const MOST_PLACES = 13;

/** Where the sheet can go on after the chosen way: where it stands first, then what was done, the latest first. */
function placesOf(
  { state, writer }: LiveJob,
  { items, current }: Progress,
  rejoins: readonly string[],
  now: string,
): Place[] {
  const places = placesAfter({ state, now, writer }, rejoins).slice(-MOST_PLACES).toReversed();
  return places.flatMap((id) => {
    const item = items.find((each) => each.id === id);
    if (!item) return [];
    const says =
      item === current
        ? "Where it stood. Nothing is done again."
        : "Done again from there on, hold points with it.";
    return [{ id, title: item.type === "hold" ? item.hold.hold.title : item.step.title, says }];
  });
}
