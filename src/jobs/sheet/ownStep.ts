import type { Dimension } from "../quantity.ts";
import type { SheetChanges } from "../records/job.ts";
import type { Field, Step } from "./sheet.ts";

/** What a step of the planner's own may ask for. */
export const ownFieldKinds = ["yes or no", "words", "count", "quantity"] as const;
export type OwnFieldKind = (typeof ownFieldKinds)[number];

/** What may be measured in one, the usual first. */
export const ownDimensions = [
  "pressure",
  "pressure difference",
  "temperature",
  "length",
  "diameter",
  "force",
  "weight",
  "duration",
] as const satisfies readonly Dimension[];

interface TypedField {
  /** the field's name once it is on the sheet; a new one has none */
  readonly id?: string | undefined;
  readonly label: string;
  readonly kind: OwnFieldKind;
  readonly dimension: Dimension;
}

/** A step while it is written. */
export interface TypedStep {
  /** of the step that is changed; a new one has none */
  readonly id?: string | undefined;
  readonly title: string;
  readonly instruction: string;
  readonly caution: string;
  readonly fields: readonly TypedField[];
}

export const emptyField: TypedField = { label: "", kind: "yes or no", dimension: "pressure" };
export const emptyStep: TypedStep = { title: "", instruction: "", caution: "", fields: [] };

/** What is wrong, by part: `title`, `instruction`, `caution`, `field 0` and so on. */
export type StepProblems = Readonly<Record<string, string>>;

export type OwnStepRead =
  | { readonly ok: true; readonly step: Step }
  | { readonly ok: false; readonly problems: StepProblems };

/** More than a crew answers in one step. */
const MOST_FIELDS = 8;
const MOST_TEXT = 400;
const MOST_LONG = 4000;

/** Turns what was typed into a step with a name of its own among the changes, or says what is missing. */
export function ownStep(typed: TypedStep, changes: SheetChanges): OwnStepRead {
  const problems: Record<string, string> = {};
  const read = (part: string, name: string, given: string, most: number, optional = false) => {
    const text = given.trim();
    if (text === "" && !optional) problems[part] = `${name}: nothing entered.`;
    if (text.length > most) {
      problems[part] = `${name}: ${text.length} letters, and ${most} is the most. Shorten it.`;
    }
    return text;
  };
  const title = read("title", "Title", typed.title, MOST_TEXT);
  const instruction = read("instruction", "What to do", typed.instruction, MOST_LONG);
  const caution = read("caution", "Caution", typed.caution, MOST_LONG, true);
  const id = typed.id ?? nextId(changes);
  const taken = new Set(typed.fields.flatMap((each) => each.id ?? []));
  const fields = typed.fields.map((each, index): Field => {
    const label = read(`field ${index}`, `Entry ${index + 1}`, each.label, MOST_TEXT);
    const name = each.id ?? freeName(id, taken);
    taken.add(name);
    return fieldOf(name, label, each);
  });
  if (fields.length > MOST_FIELDS) {
    problems.fields = `${fields.length} entries in one step; ${MOST_FIELDS} is the most. Write a second step.`;
  }
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  return { ok: true, step: { id, title, instruction, ...(caution && { caution }), fields } };
}

function fieldOf(id: string, label: string, { kind, dimension }: TypedField): Field {
  switch (kind) {
    case "yes or no":
      return {
        kind: "choice",
        id,
        label,
        choices: [
          { value: "yes", label: "Yes" },
          { value: "no", label: "No" },
        ],
      };
    case "words":
      return { kind: "text", id, label };
    case "count":
      return { kind: "count", id, label };
    case "quantity":
      return { kind: "quantity", id, label, dimension };
  }
}

function freeName(step: string, taken: ReadonlySet<string>): string {
  for (let number = 1; ; number += 1) {
    const name = `${step}-${number}`;
    if (!taken.has(name)) return name;
  }
}

/** Counts on from the largest there is, so that a name that was given up does not come back on another step. */
function nextId({ own }: SheetChanges): string {
  const numbers = own.map(({ step }) => Number(/^own-(\d+)$/.exec(step.id)?.[1] ?? 0));
  return `own-${Math.max(0, ...numbers) + 1}`;
}

/** A step of one's own as it is typed, to be changed. */
export function typedStep({ id, title, instruction, caution = "", fields }: Step): TypedStep {
  const kinds = {
    choice: "yes or no",
    text: "words",
    count: "count",
    quantity: "quantity",
  } as const;
  return {
    id,
    title,
    instruction,
    caution,
    fields: fields.map((field) => ({
      id: field.id,
      label: field.label,
      kind: kinds[field.kind],
      dimension: field.kind === "quantity" ? field.dimension : "pressure",
    })),
  };
}
