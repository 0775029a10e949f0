import { format, isValid, parse } from "date-fns";
import { type Dispatch, type SetStateAction, useEffect, useMemo, useState } from "react";
import type { Doubt } from "../../jobs/commands/decision.ts";
import type { Typed } from "../../jobs/commands/entry.ts";
import { observedFields, observeLift } from "../../jobs/commands/observe.ts";
import { asEntered } from "../../jobs/display.ts";
import { correctedInWords } from "../../jobs/liftInWords.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import type { LiftObserved as Observed } from "../../jobs/state/jobState.ts";
import { FieldInput } from "../RunSheet/FieldInput.tsx";
import { ReasonInput } from "../RunSheet/ReasonInput.tsx";
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
  // The draft that is open, one at a time; NONE: put away. What was half typed is shown again after a reload.
  const [asked, setAsked] = useState<string>();
  const open = asked === undefined ? kept.since !== undefined : asked === DRAFT;
  if (stage === "approved" && observed.length === 0) return null;
  return (
    <section className="card lift-observed" aria-label="The well on lift">
      <h3>The well on lift</h3>
      {observed.length === 0 && <p>Nobody has entered yet what the well does on lift.</p>}
      <ul>
        {observed.map((each) => (
          <Reading
            key={each.event.hash}
            live={live}
            of={each}
            fields={observedFields(live.state)}
            asked={asked}
            onAsk={setAsked}
          />
        ))}
      </ul>
      {stage !== "approved" &&
        (open ? (
          <Entry live={live} draft={DRAFT} kept={kept} onDone={() => setAsked(NONE)} />
        ) : (
          <button type="button" className="button" onClick={() => setAsked(DRAFT)}>
            Enter a reading on lift
          </button>
        ))}
    </section>
  );
}

interface ReadingProps {
  readonly live: LiveJob;
  readonly of: Observed;
  readonly fields: ReturnType<typeof observedFields>;
  readonly asked: string | undefined;
  readonly onAsk: Dispatch<SetStateAction<string | undefined>>;
}

/** One reading; where it stands it can be corrected, which is begun with what stands. */
function Reading({ live, of, fields, asked, onAsk }: ReadingProps) {
  const { observed, event, corrected } = of;
  const draft = `${DRAFT}, correction of ${event.hash}`;
  const [stood] = useState(() => typedOf(observed, fields));
  const kept = useHalfTyped(live.id, draft, stood);
  const begun = kept.since !== undefined;
  useEffect(() => {
    if (begun) onAsk((now) => now ?? draft);
  }, [begun, draft, onAsk]);
  const at = format(new Date(observed.takenAt), "d MMM yyyy HH:mm");
  const figures = fields.flatMap(({ id, label }) => {
    const quantity = observed[id];
    return quantity ? [`${label.toLowerCase()} ${asEntered(quantity)}`] : [];
  });
  const Read = corrected ? "s" : "span";
  return (
    <li className={corrected && "lift-corrected"}>
      <p>
        <Read>
          <strong>{at}</strong>: {figures.join(", ")}
        </Read>
      </p>
      <p className="small soft">
        {observed.source}. Entered {format(new Date(event.at), "d MMM HH:mm")} by {event.actor.name}
        , {event.actor.role}
      </p>
      {corrected && <p>Does not stand: {correctedInWords(corrected)}</p>}
      {live.state.stage !== "approved" &&
        (asked === draft ? (
          <Entry live={live} draft={draft} kept={kept} corrects={of} onDone={() => onAsk(NONE)} />
        ) : (
          !corrected && (
            <button
              type="button"
              className="button quiet lift-correct"
              aria-label={`Correct this reading, ${at}`}
              onClick={() => onAsk(draft)}
            >
              Correct this reading
            </button>
          )
        ))}
    </li>
  );
}

const DRAFT = "lift observed";
const NONE = "";
const LOCAL = "yyyy-MM-dd'T'HH:mm";
const local = (at: string) => format(new Date(at), LOCAL);

/** A reading as it was typed. */
function typedOf(observed: Observed["observed"], fields: ReadingProps["fields"]) {
  const figures = fields.flatMap(({ id }): [string, Typed][] => {
    const quantity = observed[id];
    return quantity ? [[id, { text: String(quantity.value), unit: quantity.unit }]] : [];
  });
  return {
    takenAt: { text: local(observed.takenAt) },
    source: { text: observed.source },
    ...Object.fromEntries(figures),
  };
}

interface Problem {
  readonly why: string;
  readonly field?: string | undefined;
  readonly doubts?: readonly Doubt[] | undefined;
}

interface EntryProps {
  readonly live: LiveJob;
  /** under which what is half typed is kept */
  readonly draft: string;
  readonly kept: HalfTypedFields;
  /** the reading that is corrected */
  readonly corrects?: Observed;
  readonly onDone: () => void;
}

function Entry({ live, draft, kept, corrects, onDone }: EntryProps) {
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
    const stood = corrects?.observed.takenAt;
    // A time that was left alone is that which stood, to its second.
    const isLeft = stood !== undefined && readAt === local(stood);
    const done = await act(
      (situation) =>
        observeLift(situation, {
          takenAt: isLeft ? stood : isValid(at) ? at.toISOString() : undefined,
          source: text("source"),
          typed: withUnits(figures, kept.fields, writer),
          standBy,
          ...(corrects && { corrects: { event: corrects.event.hash, reason: text("reason") } }),
        }),
      { recorded: { job: live.id, step: draft } },
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
      {corrects && (
        <ReasonInput
          label="Why it is corrected"
          reason={text("reason")}
          usual={["Misread", "Wrong time", "Wrong unit", "Typed wrong"]}
          onChange={(reason) => change("reason", { text: reason })}
        />
      )}
      {problemOf("reason") && <p className="problem small">{problem?.why}</p>}
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
            {corrects ? "Record the correction" : "Record the reading"}
          </button>
          <button type="button" className="button quiet" onClick={onDone}>
            {corrects ? "No correction" : "Not now"}
          </button>
        </div>
      )}
      <div ref={setSlot} className="lift-keys" />
      {keys.portal}
    </div>
  );
}
