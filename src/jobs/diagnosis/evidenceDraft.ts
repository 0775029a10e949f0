import { format, parseISO } from "date-fns";
import { understandQuantity } from "../commands/entry.ts";
import { asEntered, displayUnit, type UnitSystem } from "../display.ts";
import { type Quantity, toSI } from "../quantity.ts";
import { type Evidence, evidence } from "../records/investigation.ts";
import type { Well } from "../records/well.ts";
import type { EvidenceField, EvidenceForm, EvidenceRows } from "./evidenceFields.ts";

import { exchangedInWords } from "./logDoubts.ts";

/** A piece of evidence while it is typed: every key of it outlasts a reload. */

export interface TypedFigure {
  readonly text: string;
  readonly unit: string;
}
export type TypedRow = Readonly<Record<string, TypedFigure>>;

export interface EvidenceDraft {
  /** of the piece it becomes, so that keeping it twice is keeping it once */
  readonly id: string;
  readonly kind: Exclude<Evidence["kind"], "trend">;
  /** by the tablet's clock, e.g. 2026-11-20 and 09:30 */
  readonly day: string;
  readonly time: string;
  readonly source: string;
  readonly confidence: Evidence["confidence"];
  readonly remark: string;
  readonly figures: Readonly<Record<string, TypedFigure>>;
  readonly choices: Readonly<Record<string, string>>;
  readonly rows: readonly TypedRow[];
}

/** @param now instant */
export function freshEvidence(
  id: string,
  kind: EvidenceDraft["kind"],
  form: EvidenceForm,
  now: string,
): EvidenceDraft {
  return {
    id,
    kind,
    day: format(parseISO(now), "yyyy-MM-dd"),
    time: format(parseISO(now), "HH:mm"),
    source: "",
    confidence: "fair",
    remark: "",
    figures: {},
    choices: {},
    rows: Array.from({ length: form.rows?.least ?? 0 }, () => ({})),
  };
}

/** A piece that is there, as somebody would have typed it. */
export function typedOf(
  piece: Exclude<Evidence, { kind: "trend" }>,
  form: EvidenceForm,
): EvidenceDraft {
  const values = piece as unknown as Readonly<Record<string, unknown>>;
  const figure = (value: unknown): TypedFigure[] => {
    const { value: number, unit } = (value ?? {}) as Partial<Quantity>;
    return number === undefined || unit === undefined ? [] : [{ text: String(number), unit }];
  };
  const figuresOf = (of: Readonly<Record<string, unknown>>, fields: readonly EvidenceField[]) =>
    Object.fromEntries(
      fields
        .filter(({ kind }) => kind === "quantity")
        .flatMap(({ id }) => figure(of[id]).map((typed) => [id, typed])),
    );
  const { rows } = form;
  return {
    id: piece.id,
    kind: piece.kind,
    day: format(parseISO(piece.at), "yyyy-MM-dd"),
    time: format(parseISO(piece.at), "HH:mm"),
    source: piece.source,
    confidence: piece.confidence,
    remark: piece.remark ?? "",
    figures: figuresOf(values, form.fields),
    choices: Object.fromEntries(
      form.fields.flatMap(({ kind, id }) =>
        kind === "choice" && typeof values[id] === "string" ? [[id, values[id]]] : [],
      ),
    ),
    rows: rows
      ? (values[rows.id] as Readonly<Record<string, unknown>>[]).map((row) =>
          figuresOf(row, rows.fields),
        )
      : [],
  };
}

/** What is wrong with a draft, by the field it stands beside. */
export type EvidenceProblems = Readonly<Record<string, string>>;
export type EvidenceChecked =
  | { readonly ok: true; readonly evidence: Evidence }
  | { readonly ok: false; readonly problems: EvidenceProblems };

export const rowKey = (row: number, field: string) => `row ${row} ${field}`;

interface Checking {
  readonly units: UnitSystem;
  /** absolute, Pa */
  readonly atmosphere: number;
  /** instant */
  readonly now: string;
}

/** Clocks of two tablets differ by minutes. */
const AHEAD_MS = 15 * 60_000;

/** The piece of evidence that a draft makes, or what has to be mended first. */
export function checkEvidence(
  draft: EvidenceDraft,
  form: EvidenceForm,
  checking: Checking,
): EvidenceChecked {
  const problems: Record<string, string> = {};
  const at = instantIn(draft, checking.now, problems);
  if (draft.source.trim() === "") {
    problems.source = "Say where it comes from: gauge and its number, recorder, test, who read it.";
  } else if (draft.source.trim().length > 400) {
    problems.source = `${draft.source.trim().length} characters; at most 400. Put the rest into the remark.`;
  }
  if (draft.remark.trim().length > 4000) {
    problems.remark = `${draft.remark.trim().length} characters; at most 4,000.`;
  }
  const values = fieldsIn(draft, form, checking, problems);
  const { rows } = form;
  const list = rows ? { [rows.id]: rowsIn(draft, rows, checking, problems) } : {};
  if (form.anyOf && Object.keys(values).length === 0) problems.any = form.anyOf;
  if (Object.keys(problems).length > 0 || at === undefined) return { ok: false, problems };
  const { id, kind, source, confidence, remark } = draft;
  return pieceOf({ id, kind, at, source, confidence, remark, ...values, ...list });
}

/** What was said and read as a piece of evidence, without an empty remark; or why a record does not take it. */
export function pieceOf({
  source,
  remark,
  ...rest
}: Readonly<Record<string, unknown>> & Pick<EvidenceDraft, "source" | "remark">): EvidenceChecked {
  const words = remark.trim();
  const checked = evidence.safeParse({
    ...rest,
    source: source.trim(),
    ...(words !== "" && { remark: words }),
  });
  if (checked.success) return { ok: true, evidence: checked.data };
  const [issue] = checked.error.issues;
  return {
    ok: false,
    problems: { any: `${issue?.path.join(", ")}: ${issue?.message}. Mend it, then keep it again.` },
  };
}

/** A day and a time as they are typed, by the tablet's clock; a day alone is not its midnight. */
export function typedMoment({ day, time }: Partial<Pick<EvidenceDraft, "day" | "time">>) {
  const read = day && time ? parseISO(`${day}T${time}`) : undefined;
  return read && !Number.isNaN(read.getTime()) ? read : undefined;
}

function instantIn(
  { day, time }: EvidenceDraft,
  now: string,
  problems: Record<string, string>,
): string | undefined {
  const read = typedMoment({ day, time });
  if (!read) {
    problems.at = "Enter day and time at which it was read, as the tablet's clock has them.";
    return undefined;
  }
  if (read.getTime() > Date.parse(now) + AHEAD_MS) {
    problems.at = `${day} ${time} lies ahead of the tablet's clock. Enter when it was read.`;
    return undefined;
  }
  return read.toISOString();
}

/** The unit that stands beside a figure: the one typed in, or the tablet's while nothing is typed. */
export const unitBeside = (
  { dimension, unit }: Extract<EvidenceField, { kind: "quantity" }>,
  typed: TypedFigure | undefined,
  units: UnitSystem,
): string => typed?.unit ?? unit ?? displayUnit(units, dimension);

/** What looks wrong with a piece while it is typed; it is kept all the same where somebody says so. */
export function draftDoubt(
  draft: EvidenceDraft,
  form: EvidenceForm,
  { injectionDown, tubing }: Pick<Well, "injectionDown" | "tubing">,
  checking: Omit<Checking, "now">,
): string | undefined {
  const typed = (id: string, of = form.fields, figures = draft.figures): number | undefined => {
    const field = of.find((each) => each.id === id);
    if (field?.kind !== "quantity") return undefined;
    const { quantity } = figureIn(field, figures[id], checking);
    return quantity && toSI(field.dimension, quantity, checking.atmosphere);
  };
  const [injection, wellhead] = [typed("injectionAtSurface"), typed("wellhead")];
  if (injection !== undefined && wellhead !== undefined) {
    return exchangedInWords(injection, wellhead, injectionDown);
  }
  const depths = [
    typed("depthAlongHole"),
    ...draft.rows.map((row) => typed("depthAlongHole", form.rows?.fields, row)),
  ];
  const end = tubing.toSorted((a, b) => toSI("length", b.to) - toSI("length", a.to))[0]?.to;
  const isBelow = depths.some((depth) => depth !== undefined && end && depth > toSI("length", end));
  return isBelow && end
    ? `A depth lies below the end of the tubing, ${asEntered(end)}. Look at the figure and its unit.`
    : undefined;
}

function figureIn(
  field: Extract<EvidenceField, { kind: "quantity" }>,
  typed: TypedFigure | undefined,
  { units, atmosphere }: Omit<Checking, "now">,
): { readonly quantity?: Quantity; readonly why?: string } {
  const text = typed?.text.trim() ?? "";
  if (text === "" && field.optional) return {};
  const unit = unitBeside(field, typed, units);
  const read = understandQuantity(field.label, field.dimension, { text, unit }, atmosphere);
  if (!read.ok) return { why: read.why };
  const isDepth = field.id === "depthAlongHole" || field.dimension === "duration";
  return isDepth && read.quantity.value < 0
    ? { why: `${field.label}: ${text} ${unit} cannot be; it is 0 or more.` }
    : { quantity: read.quantity };
}

function fieldsIn(
  draft: EvidenceDraft,
  form: EvidenceForm,
  checking: Checking,
  problems: Record<string, string>,
): Record<string, unknown> {
  const values: Record<string, unknown> = {};
  for (const field of form.fields) {
    if (field.kind === "choice") {
      const chosen = draft.choices[field.id];
      if (chosen !== undefined && chosen !== "") values[field.id] = chosen;
      else if (!field.optional) problems[field.id] = `${field.label}: choose one.`;
      continue;
    }
    const { quantity, why } = figureIn(field, draft.figures[field.id], checking);
    if (why !== undefined) problems[field.id] = why;
    else if (quantity) values[field.id] = quantity;
  }
  return values;
}

const isEmpty = (row: TypedRow) => Object.values(row).every(({ text }) => text.trim() === "");

/** Lines in which nothing is typed are none. */
function rowsIn(
  draft: EvidenceDraft,
  rows: EvidenceRows,
  checking: Checking,
  problems: Record<string, string>,
): unknown[] {
  const filled = draft.rows.flatMap((row, index) => (isEmpty(row) ? [] : [{ row, index }]));
  if (filled.length < rows.least) {
    const many = rows.least === 1 ? "one line" : `${rows.least} lines`;
    problems.rows = `${rows.one}: enter ${many} at least, or bring them in as a table.`;
  }
  return filled.map(({ row, index }) => {
    const values: Record<string, Quantity> = {};
    for (const field of rows.fields) {
      const { quantity, why } = figureIn(field, row[field.id], checking);
      if (why !== undefined) problems[rowKey(index, field.id)] = `${rows.one} ${index + 1}, ${why}`;
      else if (quantity) values[field.id] = quantity;
    }
    const more = rows.fields.filter(({ optional }) => optional);
    if (rows.id === "stops" && more.every(({ id }) => values[id] === undefined)) {
      problems[rowKey(index, "pressure")] ??=
        `${rows.one} ${index + 1}: enter a pressure or a temperature.`;
    }
    return values;
  });
}
