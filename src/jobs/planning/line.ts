import { understandQuantity } from "../commands/entry.ts";
import { displayUnit, formatNumber, type UnitSystem, unitLabel } from "../display.ts";
import { type Dimension, fromSI, type Quantity, type UnitName } from "../quantity.ts";
import type { PlanDraft } from "./planDraft.ts";

/** One line of a proposal: what is taken, where it came from, and how it is changed. */

/** Where what is taken came from. */
export type Source =
  | "yours"
  | "on record"
  | "worked out"
  | "last job"
  | "only one"
  | "nearest"
  | "common practice"
  | "open";

export type PlanSection = "pocket" | "strings" | "equipment" | "expected" | "people" | "limits";

interface LineBase {
  readonly key: string;
  readonly section: PlanSection;
  /** mandrel, by its id, where it is about one */
  readonly pocket?: string;
  readonly label: string;
  /** what is taken, in words; undefined: nothing yet */
  readonly shown: string | undefined;
  readonly source: Source;
  /** why this one, or what is asked for */
  readonly why: string;
}

/** Something that can be taken in the place of what is proposed. */
export interface Option {
  readonly id: string;
  readonly name: string;
  /** what speaks for it or against it */
  readonly says: string;
  readonly fits: boolean;
}

export interface ChoiceLine extends LineBase {
  readonly kind: "choice";
  readonly chosen: string | undefined;
  /** best first */
  readonly options: readonly Option[];
  /** the record's editor, where it is one: kind and id */
  readonly record?: { readonly kind: "valves" | "strings" | "lines" | "stacks" | "policies" };
}

export interface QuantityLine extends LineBase {
  readonly kind: "quantity";
  readonly dimension: Dimension;
  readonly typed: { readonly text: string; readonly unit: string };
  readonly problem?: string;
}

export interface TextLine extends LineBase {
  readonly kind: "text";
  readonly typed: string;
  readonly count?: true;
  readonly problem?: string;
  /** met before, offered as taps */
  readonly offers: readonly string[];
}

export type PlanLine = ChoiceLine | QuantityLine | TextLine;

/** What is proposed for a line, and why; nothing proposed says what is asked for. */
export interface Proposed<T> {
  readonly value: T | undefined;
  readonly source: Source;
  readonly why: string;
}

export const open = (why: string): Proposed<never> => ({ value: undefined, source: "open", why });

interface LineOf {
  readonly key: string;
  readonly section: PlanSection;
  readonly pocket?: string;
  readonly label: string;
}

export interface Told<T, L extends PlanLine> {
  readonly value: T | undefined;
  readonly line: L;
}

/** A quantity: as the planner typed it, or as it is proposed. */
export function quantityLine<D extends Dimension>(
  of: LineOf & { readonly dimension: D },
  { mine }: PlanDraft,
  units: UnitSystem,
  proposed: Proposed<Quantity<D>>,
  atmosphere?: number,
): Told<Quantity<D>, QuantityLine> {
  const { dimension, ...base } = of;
  const typed = mine[of.key];
  const unit = displayUnit(units, dimension);
  const shownOf = (quantity: Quantity<D>) =>
    quantity.unit === "" ? String(quantity.value) : `${quantity.value} ${unitLabel(quantity.unit)}`;
  if (typed === undefined || (typed.text.trim() === "" && proposed.value === undefined)) {
    const { value } = proposed;
    return {
      value,
      line: {
        ...base,
        kind: "quantity",
        dimension,
        typed: value ? { text: String(value.value), unit: value.unit } : { text: "", unit },
        shown: value && shownOf(value),
        source: proposed.source,
        why: proposed.why,
      },
    };
  }
  const inUnit = { text: typed.text, unit: typed.unit ?? unit };
  const yours = { ...base, kind: "quantity", dimension, typed: inUnit } as const;
  if (typed.text.trim() === "") {
    const why = "Left open by you.";
    return { value: undefined, line: { ...yours, shown: undefined, source: "open", why } };
  }
  const read = understandQuantity(of.label, dimension, inUnit, atmosphere);
  if (read.ok) {
    const { quantity } = read;
    const line = { ...yours, shown: shownOf(quantity), source: "yours", why: "Entered by you." };
    return { value: quantity, line: line as QuantityLine };
  }
  return {
    value: undefined,
    line: {
      ...yours,
      shown: undefined,
      source: "open",
      why: "Not taken yet.",
      problem: `${read.why} It is not taken yet.`,
    },
  };
}

/** A choice: the planner's, or the one proposed. An option that is gone since is not chosen. */
export function choiceLine(
  of: LineOf & Pick<ChoiceLine, "record">,
  { mine }: PlanDraft,
  options: readonly Option[],
  proposed: Proposed<string>,
): Told<string, ChoiceLine> {
  const typed = mine[of.key]?.text;
  const found = (id: string | undefined) => options.find((option) => option.id === id);
  const line = (id: string | undefined, source: Source, why: string): Told<string, ChoiceLine> => ({
    value: id,
    line: { ...of, kind: "choice", chosen: id, options, shown: found(id)?.name, source, why },
  });
  if (typed === "") return line(undefined, "open", "Left open by you.");
  const chosen = found(typed);
  if (chosen) {
    const says = chosen.says ? ` ${chosen.says}` : "";
    return line(chosen.id, "yours", `Chosen by you.${says}`);
  }
  return line(proposed.value, proposed.source, proposed.why);
}

/** Words, or a whole number. */
export function textLine(
  of: LineOf & { readonly count?: true; readonly most?: number },
  { mine }: PlanDraft,
  proposed: Proposed<string>,
  offers: readonly string[] = [],
): Told<string, TextLine> {
  const { most = 400, ...base } = of;
  const typed = mine[of.key]?.text;
  if (typed === undefined) {
    const { value, source, why } = proposed;
    const line = { ...base, kind: "text", typed: value ?? "", shown: value, source, why, offers };
    return { value, line: line as TextLine };
  }
  const text = typed.trim();
  const isCount = /^\d+$/.test(text) && Number(text) >= 1 && Number(text) <= most;
  const problem =
    text === ""
      ? undefined
      : of.count && !isCount
        ? `${of.label}: "${text}" is not a whole number from 1 to ${most}. It is not taken yet.`
        : !of.count && text.length > most
          ? `${of.label}: at most ${most} characters. It is not taken yet.`
          : undefined;
  const value = text === "" || problem ? undefined : text;
  return {
    value,
    line: {
      ...base,
      kind: "text",
      typed,
      shown: value,
      source: value === undefined ? "open" : "yours",
      why: value === undefined ? "Left open by you." : "Entered by you.",
      offers,
      ...(problem && { problem }),
    },
  };
}

const digits: Readonly<Partial<Record<Dimension, number>>> = { pressure: 0, density: 1, length: 0 };

/** A figure that was worked out, as a record keeps it: in the planner's unit, to the digits of a gauge. */
export function rounded<D extends Dimension>(
  dimension: D,
  si: number,
  units: UnitSystem,
  atmosphere: number,
): Quantity<D> {
  const unit = displayUnit(units, dimension) as UnitName<D>;
  const places = units === "metric" && dimension === "pressure" ? 1 : (digits[dimension] ?? 2);
  return { value: Number(fromSI(dimension, si, unit, atmosphere).toFixed(places)), unit };
}

/** A count with its noun, e.g. `3 strings`. */
export const counted = (count: number, noun: string): string =>
  `${formatNumber(count, 0)} ${noun}${count === 1 ? "" : "s"}`;
