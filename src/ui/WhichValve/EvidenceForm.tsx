import { type FormEvent, useEffect, useId, useRef, useState } from "react";
import { withEvidence } from "../../jobs/diagnosis/changeInvestigation.ts";
import {
  checkEvidence,
  draftDoubt,
  type EvidenceDraft,
  type EvidenceProblems,
  rowKey,
  unitBeside,
} from "../../jobs/diagnosis/evidenceDraft.ts";
import {
  confidenceWords,
  type EvidenceField,
  type EvidenceForm as Form,
  formOf,
  kindNames,
} from "../../jobs/diagnosis/evidenceFields.ts";
import { evidenceInWords } from "../../jobs/diagnosis/inWords.ts";
import { unitsOf } from "../../jobs/quantity.ts";
import type { Evidence } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import { notSavedYet, useKeeping } from "../keptDraft.ts";
import { OneOf } from "../OneOf/OneOf.tsx";
import { QuantityField } from "../QuantityField.tsx";
import { useSettings } from "../settings.ts";
import { useStore } from "../storeContext.ts";
import { keepEvidenceDraft } from "./evidenceDrafts.ts";
import type { Changing } from "./useChange.ts";

interface EvidenceFormProps {
  readonly well: Well;
  /** of the investigation */
  readonly id: string;
  readonly begun: EvidenceDraft;
  /** as the tablet had it when the screen was opened */
  readonly kept: EvidenceDraft | undefined;
  readonly atmosphere: number;
  readonly changing: Changing;
  readonly onDone: () => void;
}

/** One piece of evidence while it is typed; it is evidence once the store has it. */
export function EvidenceForm(props: EvidenceFormProps) {
  const { well, id, begun, kept, atmosphere, changing, onDone } = props;
  const store = useStore();
  const { units } = useSettings();
  const [draft, setDraft] = useState(begun);
  const [problems, setProblems] = useState<EvidenceProblems>({});
  const keptBy = useKeeping<EvidenceDraft | undefined>(draft, kept, (now, changed) =>
    keepEvidenceDraft(store, id, now, changed),
  );
  const form = formOf(draft.kind, well);
  const doubt = draftDoubt(draft, form, well, { units, atmosphere });
  const element = useRef<HTMLFormElement>(null);
  // Opened by a press, perhaps far below on a phone; what was open when the screen came up leaves the view where it is.
  const isPressed = kept === undefined;
  useEffect(() => {
    if (!isPressed) return;
    element.current?.scrollIntoView({ block: "nearest" });
    element.current?.querySelector<HTMLElement>("input")?.focus();
  }, [isPressed]);
  const change = (to: Partial<EvidenceDraft>) => setDraft((now) => ({ ...now, ...to }));
  const leave = async () => {
    await keepEvidenceDraft(store, id, undefined).catch(() => {});
    onDone();
  };
  const keep = async (event: FormEvent) => {
    event.preventDefault();
    const now = new Date().toISOString();
    const checked = checkEvidence(draft, form, { units, atmosphere, now });
    setProblems(checked.ok ? {} : checked.problems);
    if (!checked.ok) return;
    const piece = checked.evidence;
    const words = evidenceInWords(piece, well.injectionDown);
    const done = await changing.change(
      withEvidence(piece),
      `Saved: ${kindNames[piece.kind].toLowerCase()}, ${words}.`,
    );
    if (done) await leave();
  };
  return (
    <form
      ref={element}
      className="card evidence-form"
      onSubmit={(event) => void keep(event)}
      noValidate
    >
      <h3>{kindNames[draft.kind]}</h3>
      <Fields form={form} draft={draft} problems={problems} onChange={change} />
      {doubt && (
        <p className="notice" role="status">
          {doubt}
        </p>
      )}
      {form.rows && <Rows form={form} draft={draft} problems={problems} onChange={change} />}
      {problems.any && <p className="problem">{problems.any}</p>}
      <About draft={draft} problems={problems} onChange={change} />
      {changing.problem && (
        <p className="problem" role="alert">
          {changing.problem}
        </p>
      )}
      <div className="row">
        <button type="submit" className="button next">
          Keep this evidence
        </button>
        <button type="button" className="button quiet" onClick={() => void leave()}>
          Drop it
        </button>
        <span className="small soft">{notSavedYet(keptBy)}</span>
      </div>
    </form>
  );
}

interface PartProps {
  readonly form: Form;
  readonly draft: EvidenceDraft;
  readonly problems: EvidenceProblems;
  readonly onChange: (to: Partial<EvidenceDraft>) => void;
}

function Fields({ form, draft, problems, onChange }: PartProps) {
  return (
    <div className="evidence-fields">
      {form.fields.map((field) =>
        field.kind === "quantity" ? (
          <Figure
            key={field.id}
            field={field}
            typed={draft.figures[field.id]}
            problem={problems[field.id]}
            onChange={(typed) => onChange({ figures: { ...draft.figures, [field.id]: typed } })}
          />
        ) : (
          <div key={field.id} className="evidence-choice">
            <p className="evidence-label">{field.label}</p>
            <OneOf
              legend={field.label}
              options={field.choices.map((value) => ({ value, says: value }))}
              chosen={draft.choices[field.id] ?? ""}
              onChoose={(value) => onChange({ choices: { ...draft.choices, [field.id]: value } })}
            />
            {problems[field.id] && <p className="problem small">{problems[field.id]}</p>}
          </div>
        ),
      )}
    </div>
  );
}

interface FigureProps {
  readonly field: Extract<EvidenceField, { kind: "quantity" }>;
  readonly typed: EvidenceDraft["figures"][string] | undefined;
  readonly problem: string | undefined;
  readonly label?: string;
  readonly onChange: (typed: EvidenceDraft["figures"][string]) => void;
}

function Figure({ field, typed, problem, label, onChange }: FigureProps) {
  const { units } = useSettings();
  const unit = unitBeside(field, typed, units);
  const choices = field.unit ? [field.unit] : unitsOf(field.dimension);
  return (
    <QuantityField
      label={label ?? `${field.label}${field.optional ? ", where known" : ""}`}
      typed={typed ?? { text: "", unit }}
      unit={unit}
      {...(choices.length > 1 && { units: choices })}
      problem={problem}
      className="evidence-figure"
      onChange={onChange}
    />
  );
}

function Rows({ form, draft, problems, onChange }: PartProps) {
  const { rows } = form;
  if (!rows) return null;
  const change = (index: number, field: string, typed: EvidenceDraft["figures"][string]) =>
    onChange({
      rows: draft.rows.map((row, at) => (at === index ? { ...row, [field]: typed } : row)),
    });
  // A line begins in the units of the one above it.
  const blank = () =>
    Object.fromEntries(
      Object.entries(draft.rows.at(-1) ?? {}).map(([id, { unit }]) => [id, { text: "", unit }]),
    );
  return (
    <div className="evidence-rows">
      {draft.rows.map((row, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a line is its place until it is kept
        <fieldset key={index} className="evidence-row">
          <legend className="small">
            {rows.one} {index + 1}
          </legend>
          {rows.fields.map((field) => (
            <Figure
              key={field.id}
              field={field}
              label={field.label}
              typed={row[field.id]}
              problem={problems[rowKey(index, field.id)]}
              onChange={(typed) => change(index, field.id, typed)}
            />
          ))}
        </fieldset>
      ))}
      {problems.rows && <p className="problem small">{problems.rows}</p>}
      <button
        type="button"
        className="button"
        onClick={() => onChange({ rows: [...draft.rows, blank()] })}
      >
        One {rows.one.toLowerCase()} more
      </button>
    </div>
  );
}

type AboutDraft = Pick<EvidenceDraft, "source" | "confidence" | "remark"> &
  Partial<Pick<EvidenceDraft, "day" | "time">>;

interface AboutProps {
  readonly draft: AboutDraft;
  readonly problems: EvidenceProblems;
  readonly onChange: (to: Partial<AboutDraft>) => void;
}

/** When it was read, where it comes from, how far it is trusted. */
export function About({ draft, problems, onChange }: AboutProps) {
  const id = useId();
  return (
    <div className="evidence-about">
      {draft.day !== undefined && (
        <div className="evidence-when">
          <label htmlFor={`${id}-day`}>Read on</label>
          <label htmlFor={`${id}-time`}>at</label>
          <input
            id={`${id}-day`}
            type="date"
            value={draft.day}
            aria-invalid={problems.at !== undefined}
            onChange={(event) => onChange({ day: event.target.value })}
          />
          <input
            id={`${id}-time`}
            type="time"
            value={draft.time}
            aria-invalid={problems.at !== undefined}
            onChange={(event) => onChange({ time: event.target.value })}
          />
        </div>
      )}
      {problems.at && <p className="problem small">{problems.at}</p>}
      <label>
        Source
        <input
          value={draft.source}
          autoComplete="off"
          placeholder="Gauge and its number, recorder, who read it"
          aria-invalid={problems.source !== undefined}
          onChange={(event) => onChange({ source: event.target.value })}
        />
      </label>
      {problems.source && <p className="problem small">{problems.source}</p>}
      <div>
        <p className="evidence-label">How far it is trusted</p>
        <OneOf
          legend="How far it is trusted"
          options={(Object.keys(confidenceWords) as Evidence["confidence"][]).map((value) => ({
            value,
            says: value,
          }))}
          chosen={draft.confidence}
          onChoose={(confidence) => onChange({ confidence })}
        />
        <p className="small soft">
          {draft.confidence}: {confidenceWords[draft.confidence]}
        </p>
      </div>
      <label>
        Remark
        <textarea
          rows={2}
          value={draft.remark}
          onChange={(event) => onChange({ remark: event.target.value })}
        />
      </label>
      {problems.remark && <p className="problem small">{problems.remark}</p>}
    </div>
  );
}
