import { lazy, type ReactNode, Suspense, useEffect, useRef } from "react";
import type { Typed } from "../../jobs/commands/entry.ts";
import { asEntered, unitLabel, type Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { inOtherUnit, unitOf } from "./units.ts";
import "./FieldInput.css";

const ScanSerial = lazy(() => import("../Evidence/ScanSerial.tsx"));

export interface FieldInputProps {
  readonly field: Field;
  readonly typed: Typed | undefined;
  readonly problem: string | undefined;
  /** the number keys write into it */
  readonly active: boolean;
  readonly results: Results;
  readonly writer: Writer;
  /** something is recorded already, which an empty entry would not take away */
  readonly stands?: boolean;
  /** entries offered as taps */
  readonly offers?: readonly Typed[];
  /** how many turns the well's record says the crown valve has */
  readonly turns?: number | undefined;
  readonly onChange: (typed: Typed) => void;
  readonly onOpen: () => void;
  readonly onEnter: () => void;
}

export function FieldInput(props: FieldInputProps) {
  const { field, typed, problem, active, offers = [], onChange } = props;
  const entry = useRef<HTMLDivElement>(null);
  // The keys must not cover what they write into.
  useEffect(() => {
    if (active) entry.current?.scrollIntoView({ block: "nearest" });
  }, [active]);
  useEffect(() => {
    if (problem) entry.current?.scrollIntoView({ block: "center" });
  }, [problem]);
  const id = `entry-${field.id}`;
  const described = problem ? `${id}-problem` : undefined;
  const empty = !typed?.text;
  return (
    <div ref={entry} className={`entry${active ? " active" : ""}`}>
      {field.kind === "choice" ? (
        <Choices
          field={field}
          typed={typed}
          id={id}
          described={described}
          mayEmpty={field.optional === true && !props.stands}
          onChange={onChange}
          onOpen={props.onOpen}
        />
      ) : (
        <>
          <label htmlFor={id} className="entry-label">
            {field.label}
            {field.optional && <span className="soft"> (may stay empty)</span>}
          </label>
          {field.kind === "text" ? (
            <>
              <input
                id={id}
                className="entry-text"
                autoComplete="off"
                value={typed?.text ?? ""}
                aria-invalid={problem !== undefined}
                aria-describedby={described}
                onFocus={props.onOpen}
                onChange={(event) => onChange({ text: event.target.value })}
                onKeyDown={(event) => event.key === "Enter" && props.onEnter()}
              />
              {field.serial && (
                <Suspense>
                  <ScanSerial what="serial" reach="glove" onRead={(text) => onChange({ text })} />
                </Suspense>
              )}
            </>
          ) : (
            <NumberInput {...props} id={id} described={described} />
          )}
        </>
      )}
      {empty && offers.length > 0 && (
        <div className="entry-offers">
          {offers.map((offer) => (
            <button
              key={offer.text}
              type="button"
              className="button entry-offer"
              onClick={() => onChange(offer)}
            >
              {field.kind === "quantity" && "As before: "}
              {offer.unit ? asEntered({ value: Number(offer.text), unit: offer.unit }) : offer.text}
            </button>
          ))}
        </div>
      )}
      <Beside {...props} />
      {problem && (
        <p id={`${id}-problem`} className="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

interface ChoicesProps {
  readonly field: Extract<Field, { kind: "choice" }>;
  readonly typed: Typed | undefined;
  readonly id: string;
  readonly described: string | undefined;
  readonly mayEmpty: boolean;
  readonly onChange: (typed: Typed) => void;
  readonly onOpen: () => void;
}

/** Answers to tap; one that stops the work says what follows at once. */
function Choices({ field, typed, id, described, mayEmpty, onChange, onOpen }: ChoicesProps) {
  const chosen = field.choices.find((choice) => choice.value === typed?.text);
  return (
    <fieldset id={id} tabIndex={-1} aria-describedby={described}>
      <legend className="entry-label">
        {field.label}
        {field.optional && <span className="soft"> (may stay empty)</span>}
      </legend>
      <div className="entry-choices">
        {field.choices.map((choice) => (
          <label key={choice.value} className="entry-choice">
            <input
              type="radio"
              className="entry-mark"
              name={id}
              value={choice.value}
              checked={choice === chosen}
              onFocus={onOpen}
              onChange={() => onChange({ text: choice.value })}
            />
            <span>{choice.label}</span>
          </label>
        ))}
      </div>
      {mayEmpty && chosen && (
        <button type="button" className="button entry-offer" onClick={() => onChange({ text: "" })}>
          Leave it empty
        </button>
      )}
      {chosen?.stop && (
        <p className="problem entry-stop" role="alert">
          Stop. {chosen.stop}
        </p>
      )}
    </fieldset>
  );
}

interface NumberInputProps extends FieldInputProps {
  readonly id: string;
  readonly described: string | undefined;
}

function NumberInput(props: NumberInputProps) {
  const { field, typed, writer, onChange } = props;
  const unit = unitOf(field, typed, writer);
  const withUnit = (text: string): Typed => ({ text, ...(unit !== undefined && { unit }) });
  return (
    <div className="entry-number">
      <input
        id={props.id}
        className="figure"
        // Our own keys are beside it; a real keyboard still types here.
        inputMode="none"
        autoComplete="off"
        value={typed?.text ?? ""}
        aria-invalid={props.problem !== undefined}
        aria-describedby={props.described}
        onFocus={props.onOpen}
        // A second tap on the field that has the focus already brings the keys back, too.
        onClick={props.onOpen}
        onChange={(event) => onChange(withUnit(event.target.value))}
        onKeyDown={(event) => event.key === "Enter" && props.onEnter()}
      />
      {field.kind === "quantity" && unit !== undefined && (
        <button
          type="button"
          className="button entry-unit"
          aria-label={`${field.label}: unit ${unitLabel(unit)}, change`}
          onClick={() => onChange(inOtherUnit(field, typed, writer))}
        >
          {unitLabel(unit)}
        </button>
      )}
    </div>
  );
}

/** What it should read, and what it must not exceed; their working a tap away. */
function Beside({ field, results, writer, turns }: FieldInputProps): ReactNode {
  if (field.kind === "count" && field.crownValveTurns && turns !== undefined) {
    return (
      <p className="entry-turns">
        Full count <span className="figure calculated">{turns}</span>
      </p>
    );
  }
  if (field.kind !== "quantity" || (!field.expected && !field.most)) return null;
  return (
    <div className="entry-beside">
      {field.expected && (
        <ResultRow id={field.expected} label="Expected" results={results} writer={writer} />
      )}
      {field.most && (
        <ResultRow id={field.most} label="At most" results={results} writer={writer} />
      )}
    </div>
  );
}
