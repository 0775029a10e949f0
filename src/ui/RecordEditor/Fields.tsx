import { useState } from "react";
import { unitLabel } from "../../jobs/display.ts";
import { unitsOf } from "../../jobs/quantity.ts";
import type { Library, RecordKind } from "../../jobs/store/library.ts";
import ScanSerial from "../Evidence/ScanSerial.tsx";
import { ValvePicker } from "../Library/ValvePicker.tsx";
import { at, type Draft, unroll } from "./draft.ts";
import type { FieldSpec, Section } from "./fields.ts";

interface SectionProps {
  readonly section: Section;
  readonly draft: Draft;
  readonly problems: Readonly<Record<string, string>>;
  readonly library: Library;
  readonly onChange: (path: string, value: unknown) => void;
}

/** A run of fields, or a list of items with the same fields. */
export function SectionFields({ section, ...rest }: SectionProps) {
  const { draft, problems } = rest;
  const field = (each: FieldSpec) => (
    <Field key={each.path} field={each} {...rest} problem={problems[each.path]} />
  );
  if (!("list" in section)) {
    if (section.folded) {
      const asked = section.fields.some(
        ({ path }) => problems[path] !== undefined || at(draft, path) !== undefined,
      );
      return (
        <details className="card editor-section" open={asked}>
          <summary>{section.title}</summary>
          <div className="editor-fields">{section.fields.map(field)}</div>
        </details>
      );
    }
    return (
      <fieldset className="card editor-section">
        <legend>{section.title}</legend>
        <div className="editor-fields">{section.fields.map(field)}</div>
      </fieldset>
    );
  }
  const items = (at(draft, section.list) as unknown[] | undefined) ?? [];
  if (section.folded) return <FoldedList section={section} items={items} {...rest} />;
  return (
    <fieldset className="card editor-section">
      <legend>{section.title}</legend>
      <ListItems section={section} items={items} {...rest} />
    </fieldset>
  );
}

type ListSection = Extract<Section, { readonly list: string }>;
type ListProps = Omit<SectionProps, "section"> & {
  readonly section: ListSection;
  readonly items: readonly unknown[];
};

/** A long list is there once somebody opens it: a survey has hundreds of fields. */
function FoldedList(props: ListProps) {
  const { section, items, problems } = props;
  const asked = Object.keys(problems).some((path) => path.startsWith(`${section.list}.`));
  const [open, setOpen] = useState(false);
  return (
    <details
      className="card editor-section"
      open={open || asked}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        {section.title}: {items.length}
      </summary>
      {(open || asked) && <ListItems {...props} />}
    </details>
  );
}

function ListItems({ section, items, ...rest }: ListProps) {
  const perItem = section.fields.length;
  const all = unroll(section, rest.draft);
  return (
    <>
      {items.map((item, index) => (
        <fieldset key={(item as { id?: string }).id ?? index} className="editor-item">
          <legend>
            {section.item} {index + 1}
          </legend>
          <div className="editor-fields">
            {all.slice(index * perItem, (index + 1) * perItem).map((field) => (
              <Field key={field.path} field={field} {...rest} problem={rest.problems[field.path]} />
            ))}
          </div>
          <button
            type="button"
            className="button quiet"
            onClick={() => rest.onChange(section.list, items.toSpliced(index, 1))}
          >
            Remove {section.item.toLowerCase()} {index + 1}
          </button>
        </fieldset>
      ))}
      {rest.problems[section.list] && (
        <p className="problem small" data-path={section.list} tabIndex={-1}>
          {rest.problems[section.list]}
        </p>
      )}
      <button
        type="button"
        className="button"
        data-list={section.list}
        onClick={() => rest.onChange(section.list, [...items, section.blank(items.length)])}
      >
        Add a {section.item.toLowerCase()}
      </button>
    </>
  );
}

interface FieldProps {
  readonly field: FieldSpec;
  readonly draft: Draft;
  readonly problem: string | undefined;
  readonly library: Library;
  readonly onChange: (path: string, value: unknown) => void;
}

function Field({ field, draft, problem, library, onChange }: FieldProps) {
  const id = `field-${field.path}`;
  const marks = {
    id,
    "data-path": field.path,
    "aria-invalid": problem !== undefined,
    "aria-describedby": problem ? `${id}-problem` : undefined,
  } as const;
  return (
    <div className={`editor-field${field.kind === "long" ? " wide" : ""}`}>
      <label htmlFor={id}>
        {field.label}
        {field.optional && <span className="soft small"> (may stay empty)</span>}
      </label>
      <Input
        field={field}
        value={at(draft, field.path)}
        marks={marks}
        library={library}
        onChange={onChange}
      />
      {field.kind === "text" && field.scan && (
        <ScanSerial
          what={field.label.toLowerCase()}
          onRead={(text) => onChange(field.path, text)}
        />
      )}
      {problem && (
        <p id={`${id}-problem`} className="problem small">
          {problem}
        </p>
      )}
    </div>
  );
}

interface InputProps {
  readonly field: FieldSpec;
  readonly value: unknown;
  readonly marks: Readonly<Record<string, string | boolean | undefined>>;
  readonly library: Library;
  readonly onChange: (path: string, value: unknown) => void;
}

function Input({ field, value, marks, library, onChange }: InputProps) {
  const { path } = field;
  switch (field.kind) {
    case "quantity": {
      const units = unitsOf(field.dimension);
      const given = (value ?? { value: "", unit: units[0] }) as {
        value: string | number;
        unit: string;
      };
      return (
        <div className="editor-quantity">
          <input
            {...marks}
            inputMode="decimal"
            autoComplete="off"
            value={String(given.value)}
            onChange={(event) => onChange(path, { value: event.target.value, unit: given.unit })}
          />
          {units.length > 1 || units[0] !== "" ? (
            <select
              aria-label={`Unit of ${field.label}`}
              value={given.unit}
              onChange={(event) => onChange(path, { value: given.value, unit: event.target.value })}
            >
              {/* A record may have another unit from before: it is shown as it is. */}
              {[...new Set([...units, given.unit])].map((unit) => (
                <option key={unit} value={unit}>
                  {unitLabel(unit)}
                </option>
              ))}
            </select>
          ) : null}
        </div>
      );
    }
    case "choice":
    case "record": {
      if (field.kind === "record" && field.of === "valves") {
        const valve = value === undefined ? undefined : String(value);
        return (
          <ValvePicker
            marks={marks}
            what={field.label}
            valve={valve}
            onChoose={(to) => onChange(path, to)}
          />
        );
      }
      const options =
        field.kind === "choice"
          ? field.choices.map((each) => [each, each] as const)
          : recordOptions(library, field.of, field.purpose);
      return (
        <select
          {...marks}
          value={String(value ?? "")}
          onChange={(event) => onChange(path, event.target.value || undefined)}
        >
          {(field.optional || value === undefined) && <option value="">not chosen</option>}
          {options.map(([id, name]) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      );
    }
    case "long":
      return (
        <textarea
          {...marks}
          rows={3}
          value={String(value ?? "")}
          onChange={(event) => onChange(path, event.target.value)}
        />
      );
    default:
      return (
        <input
          {...marks}
          type={field.kind === "day" ? "date" : "text"}
          inputMode={field.kind === "number" ? "decimal" : "text"}
          autoComplete="off"
          value={String(value ?? "")}
          onChange={(event) => onChange(path, event.target.value)}
        />
      );
  }
}

function recordOptions(library: Library, kind: RecordKind, purpose: string | undefined) {
  return library[kind].flatMap((record): (readonly [string, string])[] => {
    if (purpose && "purpose" in record && record.purpose !== purpose) return [];
    return [[record.id, "name" in record ? record.name : record.id]];
  });
}
