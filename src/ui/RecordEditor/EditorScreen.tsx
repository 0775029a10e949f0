import { type FormEvent, useRef, useState } from "react";
import { Link, useSearch } from "wouter";
import { asEntered, unitLabel } from "../../jobs/display.ts";
import { unitsOf } from "../../jobs/quantity.ts";
import { type Library, type RecordKind, recordKinds } from "../../jobs/store/library.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import ScanSerial from "../Evidence/ScanSerial.tsx";
import { useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { notSaved } from "../useJob.ts";
import { at, check, type Draft, unroll, withAt } from "./draft.ts";
import { type EditedKind, type FieldSpec, isEdited, type Section, sections } from "./fields.ts";
import { LineLibrary } from "./LineLibrary.tsx";
import "./RecordEditor.css";

const singular: Readonly<Record<EditedKind, string>> = {
  wells: "well",
  valves: "valve",
  tools: "tool",
  strings: "tool string",
  lines: "line",
  stacks: "pressure equipment",
  policies: "policy",
  jobs: "job",
};

interface EditorProps {
  readonly kind: string;
  readonly id: string;
}

export default function EditorScreen({ kind, id }: EditorProps) {
  const library = useLibrary();
  if (!library) return <main className="page" aria-busy="true" />;
  const known = recordKinds.filter(isEdited).find((each) => each === kind);
  const record = known && library[known].find((each) => each.id === id);
  if (!known || !record) return <Nowhere what="record" />;
  return <Editor key={`${known} ${id}`} kind={known} library={library} record={record} />;
}

interface EditorOfProps {
  readonly kind: EditedKind;
  readonly library: Library;
  readonly record: Library[EditedKind][number];
}

function Editor({ kind, library, record }: EditorOfProps) {
  const store = useStore();
  const form = useRef<HTMLFormElement>(null);
  const [draft, setDraft] = useState<Draft>(() => structuredClone(record) as unknown as Draft);
  const [problems, setProblems] = useState<Readonly<Record<string, string>>>({});
  const [said, setSaid] = useState("");
  const [saving, setSaving] = useState(false);
  const toPlan = new URLSearchParams(useSearch()).get("back") === "plan";
  const name = "name" in record ? record.name : "serial" in record ? record.serial : record.id;

  const change = (path: string, value: unknown) => {
    setDraft((before) => withAt(before, path, value));
    setSaid("");
  };

  const save = async (event: FormEvent) => {
    event.preventDefault();
    const checked = check(kind, draft);
    if (!checked.ok) {
      setProblems(checked.problems);
      setSaid("");
      const [first] = Object.keys(checked.problems);
      form.current?.querySelector<HTMLElement>(`[data-path="${first}"]`)?.focus();
      return;
    }
    setProblems({});
    setSaving(true);
    const revision = checked.record.revision + 1;
    try {
      await store.put(kind, { ...checked.record, revision } as never);
      // What was typed while it was written stays typed.
      setDraft((typed) => ({ ...typed, revision }));
      setSaid("Saved.");
    } catch (error) {
      setProblems({ "": error instanceof Outdated ? error.message : notSaved(error) });
    }
    setSaving(false);
  };

  const count = Object.keys(problems).length;
  return (
    <>
      <TopBar title={`${singular[kind]} ${name}`} />
      <main className="page">
        <form ref={form} className="editor" onSubmit={(event) => void save(event)} noValidate>
          {kind === "lines" && (
            <LineLibrary
              onTake={(figures) => {
                setDraft((before) => ({ ...before, ...figures }));
                setSaid("");
              }}
            />
          )}
          {sections[kind].map((section) => (
            <SectionFields
              key={section.title}
              section={section}
              draft={draft}
              problems={problems}
              library={library}
              onChange={change}
            />
          ))}
          <div className="editor-actions">
            {count > 0 && (
              <p className="problem" role="alert">
                {problems[""] ??
                  `${count === 1 ? "One entry" : `${count} entries`} cannot be kept as entered: ${Object.values(problems)[0]}`}
              </p>
            )}
            {said && <p role="status">{said}</p>}
            <div className="row">
              <button type="submit" className="button next" disabled={saving}>
                {saving ? "Saving…" : `Save the ${singular[kind]}`}
              </button>
              {toPlan ? (
                <Link href="/plan" className="button">
                  Back to the plan
                </Link>
              ) : (
                <button type="button" className="button quiet" onClick={() => history.back()}>
                  Back
                </button>
              )}
            </div>
          </div>
        </form>
      </main>
    </>
  );
}

interface SectionProps {
  readonly section: Section;
  readonly draft: Draft;
  readonly problems: Readonly<Record<string, string>>;
  readonly library: Library;
  readonly onChange: (path: string, value: unknown) => void;
}

function SectionFields({ section, draft, problems, library, onChange }: SectionProps) {
  const field = (each: FieldSpec) => (
    <Field
      key={each.path}
      field={each}
      draft={draft}
      problem={problems[each.path]}
      library={library}
      onChange={onChange}
    />
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
  const perItem = section.fields.length;
  const all = unroll(section, draft);
  return (
    <fieldset className="card editor-section">
      <legend>{section.title}</legend>
      {items.map((item, index) => (
        <fieldset key={(item as { id?: string }).id ?? index} className="editor-item">
          <legend>
            {section.item} {index + 1}
          </legend>
          <div className="editor-fields">
            {all.slice(index * perItem, (index + 1) * perItem).map(field)}
          </div>
          <button
            type="button"
            className="button quiet"
            onClick={() => onChange(section.list, items.toSpliced(index, 1))}
          >
            Remove {section.item.toLowerCase()} {index + 1}
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        className="button"
        onClick={() => onChange(section.list, [...items, section.blank(items.length)])}
      >
        Add a {section.item.toLowerCase()}
      </button>
    </fieldset>
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
              {units.map((unit) => (
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
    if ("serial" in record && "size" in record) {
      const set = record.card ? `, ${asEntered(record.card.testRackOpening60F)}` : "";
      return [[record.id, `${record.serial}, ${record.kind}, ${record.size}${set}`]];
    }
    return [[record.id, "name" in record ? record.name : record.id]];
  });
}
