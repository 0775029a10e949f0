import { type FormEvent, useEffect, useId, useRef, useState } from "react";
import type { SheetChanges } from "../../jobs/records/job.ts";
import {
  emptyField,
  type OwnFieldKind,
  ownDimensions,
  ownFieldKinds,
  ownStep,
  type StepProblems,
  type TypedStep,
} from "../../jobs/sheet/ownStep.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";

interface OwnStepFormProps {
  readonly typed: TypedStep;
  /** what the step stands behind, in words */
  readonly after: string;
  readonly changes: SheetChanges;
  readonly onType: (typed: TypedStep) => void;
  readonly onWritten: (step: Step) => void;
  readonly onGiveUp: () => void;
}

const kindNames: Readonly<Record<OwnFieldKind, string>> = {
  "yes or no": "Yes or no",
  words: "Words",
  count: "A count",
  quantity: "A quantity",
};

/** A step of the planner's own while it is written. What is typed is kept with the other changes of the screen. */
export function OwnStepForm(props: OwnStepFormProps) {
  const { typed, after, changes, onType, onWritten, onGiveUp } = props;
  const form = useRef<HTMLFormElement>(null);
  // Once asked for, what is missing is said until it is there.
  const [asked, setAsked] = useState(false);
  const read = ownStep(typed, changes);
  const problems: StepProblems = asked && !read.ok ? read.problems : {};
  const { fields } = typed;
  useEffect(() => {
    form.current?.scrollIntoView({ block: "nearest" });
    form.current?.querySelector<HTMLElement>("input")?.focus();
  }, []);
  const set = (to: Partial<TypedStep>) => onType({ ...typed, ...to });
  const setField = (index: number, to: Partial<TypedStep["fields"][number]>) =>
    set({ fields: fields.map((each, at) => (at === index ? { ...each, ...to } : each)) });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (read.ok) {
      onWritten(read.step);
      return;
    }
    setAsked(true);
    const [first = ""] = Object.keys(read.problems);
    form.current?.querySelector<HTMLElement>(`[data-part="${first}"]`)?.focus();
  };
  return (
    <form ref={form} className="own-step" onSubmit={submit} noValidate>
      <p className="own-step-place">
        {typed.id ? "A step of your own" : "A step of your own, after"} <strong>{after}</strong>
      </p>
      <Part
        label="Title"
        part="title"
        value={typed.title}
        problem={problems.title}
        onChange={(title) => set({ title })}
      />
      <Part
        long
        label="What to do, in one or two sentences"
        part="instruction"
        value={typed.instruction}
        problem={problems.instruction}
        onChange={(instruction) => set({ instruction })}
      />
      <Part
        long
        label="Caution (may stay empty)"
        part="caution"
        value={typed.caution}
        problem={problems.caution}
        onChange={(caution) => set({ caution })}
      />
      <fieldset className="own-fields">
        <legend>What to enter</legend>
        {fields.length === 0 && (
          <p className="small soft">Nothing: the crew only says that it is done.</p>
        )}
        {fields.map((field, index) => (
          // Entries have no name before they are on the sheet; they are only added at the end.
          // biome-ignore lint/suspicious/noArrayIndexKey: see above
          <div key={index} className="own-field">
            <Part
              label={`Entry ${index + 1}`}
              part={`field ${index}`}
              value={field.label}
              problem={problems[`field ${index}`]}
              onChange={(label) => setField(index, { label })}
            />
            <Choice
              label={`Kind of entry ${index + 1}`}
              value={field.kind}
              options={ownFieldKinds.map((kind) => [kind, kindNames[kind]] as const)}
              onChange={(kind) => setField(index, { kind })}
            />
            {field.kind === "quantity" && (
              <Choice
                label={`Measured in entry ${index + 1}`}
                value={field.dimension}
                options={ownDimensions.map((each) => [each, each] as const)}
                onChange={(dimension) => setField(index, { dimension })}
              />
            )}
            <button
              type="button"
              className="button quiet"
              onClick={() => set({ fields: fields.toSpliced(index, 1) })}
            >
              Remove entry {index + 1}
            </button>
          </div>
        ))}
        {problems.fields && <p className="problem small">{problems.fields}</p>}
        <button
          type="button"
          className="button"
          onClick={() => set({ fields: [...fields, emptyField] })}
        >
          Add an entry
        </button>
      </fieldset>
      <div className="row">
        <button type="submit" className="button">
          {typed.id ? "Keep the step" : "Put the step in"}
        </button>
        <button type="button" className="button quiet" onClick={onGiveUp}>
          Leave it
        </button>
      </div>
    </form>
  );
}

interface PartProps {
  readonly label: string;
  readonly part: string;
  readonly value: string;
  readonly problem: string | undefined;
  readonly long?: boolean;
  readonly onChange: (value: string) => void;
}

function Part({ label, part, value, problem, long = false, onChange }: PartProps) {
  const id = useId();
  const marks = {
    id,
    "data-part": part,
    value,
    "aria-invalid": problem !== undefined,
    "aria-describedby": problem ? `${id}-problem` : undefined,
  } as const;
  return (
    <div className="own-part">
      <label htmlFor={id}>{label}</label>
      {long ? (
        <textarea {...marks} rows={2} onChange={(event) => onChange(event.target.value)} />
      ) : (
        <input {...marks} autoComplete="off" onChange={(event) => onChange(event.target.value)} />
      )}
      {problem && (
        <p id={`${id}-problem`} className="problem small">
          {problem}
        </p>
      )}
    </div>
  );
}

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
}

function Choice<T extends string>({ label, value, options, onChange }: ChoiceProps<T>) {
  const id = useId();
  return (
    <div className="own-part">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value as T)}>
        {options.map(([each, name]) => (
          <option key={each} value={each}>
            {name}
          </option>
        ))}
      </select>
    </div>
  );
}
