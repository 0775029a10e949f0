import { useEffect, useRef } from "react";
import type { Typed } from "../../jobs/commands/entry.ts";
import { displayUnit, type Writer } from "../../jobs/display.ts";
import { unitsOf } from "../../jobs/quantity.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { unitLabel } from "../Working/unitLabel.ts";
import "./FieldInput.css";

interface FieldInputProps {
  readonly field: Field;
  readonly typed: Typed | undefined;
  readonly problem: string | undefined;
  readonly active: boolean;
  readonly results: Results;
  readonly writer: Writer;
  readonly onChange: (typed: Typed) => void;
  readonly onFocus: () => void;
  readonly onEnter: () => void;
}

/** The unit a field is entered in: the one chosen before, or the one of the display. */
export function unitOf(field: Field, typed: Typed | undefined, writer: Writer): string | undefined {
  if (field.kind !== "quantity") return undefined;
  return typed?.unit ?? displayUnit(writer.system, field.dimension);
}

/** The next unit of a field's dimension, round and round. */
export function nextUnit(field: Field, unit: string | undefined): string {
  if (field.kind !== "quantity") return "";
  const units = unitsOf(field.dimension);
  return units[(units.indexOf(unit ?? "") + 1) % units.length] ?? "";
}

export function FieldInput(props: FieldInputProps) {
  const { field, typed, problem, active, onChange } = props;
  const entry = useRef<HTMLDivElement>(null);
  // The keys must not cover what they write into.
  useEffect(() => {
    if (active) entry.current?.scrollIntoView({ block: "nearest" });
  }, [active]);
  const id = `entry-${field.id}`;
  const described = problem ? `${id}-problem` : undefined;
  return (
    <div ref={entry} className={`entry${active ? " active" : ""}`}>
      {field.kind === "choice" ? (
        <fieldset aria-describedby={described}>
          <legend className="entry-label">{field.label}</legend>
          <div className="entry-choices">
            {field.choices.map((choice) => (
              <label key={choice.value} className="entry-choice">
                <input
                  type="radio"
                  className="entry-mark"
                  name={id}
                  value={choice.value}
                  checked={typed?.text === choice.value}
                  onFocus={props.onFocus}
                  onChange={() => onChange({ text: choice.value })}
                />
                <span>{choice.label}</span>
              </label>
            ))}
          </div>
        </fieldset>
      ) : (
        <>
          <label htmlFor={id} className="entry-label">
            {field.label}
            {field.optional && <span className="soft"> (may stay empty)</span>}
          </label>
          {field.kind === "text" ? (
            <input
              id={id}
              className="entry-text"
              autoComplete="off"
              value={typed?.text ?? ""}
              aria-invalid={problem !== undefined}
              aria-describedby={described}
              onFocus={props.onFocus}
              onChange={(event) => onChange({ text: event.target.value })}
              onKeyDown={(event) => event.key === "Enter" && props.onEnter()}
            />
          ) : (
            <NumberInput {...props} id={id} described={described} />
          )}
        </>
      )}
      {field.kind === "quantity" && (
        <Beside field={field} results={props.results} writer={props.writer} />
      )}
      {problem && (
        <p id={`${id}-problem`} className="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

function NumberInput(
  props: FieldInputProps & { readonly id: string; readonly described: string | undefined },
) {
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
        onFocus={props.onFocus}
        onChange={(event) => onChange(withUnit(event.target.value))}
        onKeyDown={(event) => event.key === "Enter" && props.onEnter()}
      />
      {unit !== undefined && (
        <button
          type="button"
          className="button entry-unit"
          aria-label={`Unit ${unitLabel(unit)}, change`}
          onClick={() => onChange({ text: typed?.text ?? "", unit: nextUnit(field, unit) })}
        >
          {unitLabel(unit)}
        </button>
      )}
    </div>
  );
}

interface BesideProps {
  readonly field: Extract<Field, { kind: "quantity" }>;
  readonly results: Results;
  readonly writer: Writer;
}

/** What it should read, and what it must not exceed; their working a tap away. */
function Beside({ field, results, writer }: BesideProps) {
  if (!field.expected && !field.most) return null;
  return (
    <div className="entry-beside">
      {field.expected && (
        <ResultRow id={field.expected} label="Expected" results={results} writer={writer} />
      )}
      {field.most && (
        <ResultRow id={field.most} label="Not more than" results={results} writer={writer} />
      )}
    </div>
  );
}
