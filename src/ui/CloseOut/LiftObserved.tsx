import { format, isValid, parse } from "date-fns";
import { useMemo, useState } from "react";
import type { Doubt } from "../../jobs/commands/decision.ts";
import type { Typed } from "../../jobs/commands/entry.ts";
import { observedFields, observeLift } from "../../jobs/commands/observe.ts";
import { asEntered } from "../../jobs/display.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import type { LiftObserved as Observed } from "../../jobs/state/jobState.ts";
import { FieldInput } from "../RunSheet/FieldInput.tsx";
import { StandBy } from "../RunSheet/StandBy.tsx";
import { withUnits } from "../RunSheet/units.ts";
import { type HalfTypedFields, useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { useKeys } from "../RunSheet/useKeys.tsx";
import { type LiveJob, useAct } from "../useJob.ts";
import "./LiftObserved.css";

/** What the well did on lift after the change-out, and the entry of one more reading, until the record is approved. */
export function LiftObserved({ live }: { readonly live: LiveJob }) {
  const { observed, stage } = live.state;
  const kept = useHalfTyped(live.id, DRAFT, {});
  const [asked, setAsked] = useState<boolean>();
  // What was half typed is shown again after a reload.
  const open = asked ?? kept.since !== undefined;
  if (stage === "approved" && observed.length === 0) return null;
  return (
    <section className="card lift-observed" aria-label="The well on lift">
      <h3>The well on lift</h3>
      {observed.length === 0 && <p>Nobody has entered yet what the well does on lift.</p>}
      <ul>
        {observed.map((each) => (
          <Reading key={each.event.hash} of={each} fields={observedFields(live.state)} />
        ))}
      </ul>
      {stage !== "approved" &&
        (open ? (
          <Entry live={live} kept={kept} onDone={() => setAsked(false)} />
        ) : (
          <button type="button" className="button" onClick={() => setAsked(true)}>
            Enter a reading on lift
          </button>
        ))}
    </section>
  );
}

interface ReadingProps {
  readonly of: Observed;
  readonly fields: ReturnType<typeof observedFields>;
}

function Reading({ of: { observed, event }, fields }: ReadingProps) {
  const figures = fields.flatMap(({ id, label }) => {
    const quantity = observed[id];
    return quantity ? [`${label.toLowerCase()} ${asEntered(quantity)}`] : [];
  });
  return (
    <li>
      <p>
        <strong>{format(new Date(observed.takenAt), "d MMM yyyy HH:mm")}</strong>:{" "}
        {figures.join(", ")}
      </p>
      <p className="small soft">
        {observed.source}. Entered {format(new Date(event.at), "d MMM HH:mm")} by {event.actor.name}
        , {event.actor.role}
      </p>
    </li>
  );
}

const DRAFT = "lift observed";
const LOCAL = "yyyy-MM-dd'T'HH:mm";

interface Problem {
  readonly why: string;
  readonly field?: string | undefined;
  readonly doubts?: readonly Doubt[] | undefined;
}

interface EntryProps {
  readonly live: LiveJob;
  readonly kept: HalfTypedFields;
  readonly onDone: () => void;
}

function Entry({ live, kept, onDone }: EntryProps) {
  const act = useAct(live.id);
  const [opened] = useState(() => format(new Date(), LOCAL));
  const [problem, setProblem] = useState<Problem>();
  const [slot, setSlot] = useState<HTMLElement | null>(null);
  const { writer, state } = live;
  const figures = useMemo(
    (): Field[] => observedFields(state).map((each) => ({ kind: "quantity", ...each })),
    [state],
  );
  const text = (field: string) => kept.fields[field]?.text ?? "";
  const readAt = kept.fields.takenAt?.text ?? opened;
  const change = (field: string, typed: Typed) => {
    // Read when its entry was begun, however long the rest takes.
    if (kept.since === undefined) kept.change("takenAt", { text: readAt });
    kept.change(field, typed);
    setProblem(undefined);
  };
  const keys = useKeys({ fields: figures, typed: kept.fields, onChange: change, writer, slot });
  const record = async (standBy: boolean) => {
    const at = parse(readAt, LOCAL, new Date());
    const done = await act(
      (situation) =>
        observeLift(situation, {
          takenAt: isValid(at) ? at.toISOString() : undefined,
          source: text("source"),
          typed: withUnits(figures, kept.fields, writer),
          standBy,
        }),
      { recorded: { job: live.id, step: DRAFT } },
    );
    if (!done.ok) {
      // What is asked would lie under the keys.
      keys.close();
      setProblem({ why: done.why, field: done.field, doubts: done.doubts });
      return;
    }
    kept.recorded();
    onDone();
  };
  const problemOf = (field: string) => (problem?.field === field ? problem.why : undefined);
  return (
    <div className="lift-entry">
      <label>
        Read at
        <input
          type="datetime-local"
          value={readAt}
          onChange={(event) => change("takenAt", { text: event.target.value })}
        />
      </label>
      {problemOf("takenAt") && <p className="problem small">{problem?.why}</p>}
      <label>
        Where it is read
        <input
          value={text("source")}
          autoComplete="off"
          onChange={(event) => change("source", { text: event.target.value })}
        />
      </label>
      {problemOf("source") && <p className="problem small">{problem?.why}</p>}
      {text("source") === "" && (
        <div className="lift-sources">
          {["Gauges at the wellhead", "Recorder", "Well test", "Telephone"].map((each) => (
            <button
              key={each}
              type="button"
              className="button"
              onClick={() => change("source", { text: each })}
            >
              {each}
            </button>
          ))}
        </div>
      )}
      <div className="lift-figures">
        {figures.map((field) => (
          <FieldInput
            key={field.id}
            field={field}
            typed={kept.fields[field.id]}
            problem={problemOf(field.id)}
            active={keys.active === field.id}
            results={live.results}
            writer={writer}
            onChange={(typed) => change(field.id, typed)}
            onOpen={() => keys.open(field)}
            onEnter={() => keys.next(field)}
          />
        ))}
      </div>
      {problem && !problem.doubts && problem.field === undefined && (
        <p className="problem" role="alert">
          {problem.why}
        </p>
      )}
      {problem?.doubts ? (
        <StandBy
          doubts={problem.doubts}
          saving={false}
          reason=""
          onReason={() => {}}
          onStandBy={() => void record(true)}
        />
      ) : (
        <div className="row">
          <button type="button" className="button next" onClick={() => void record(false)}>
            Record the reading
          </button>
          <button type="button" className="button quiet" onClick={onDone}>
            Not now
          </button>
        </div>
      )}
      <div ref={setSlot} className="lift-keys" />
      {keys.portal}
    </div>
  );
}
