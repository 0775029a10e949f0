import type { EntryValue } from "../log/event.ts";
import { type Dimension, impossible, type Quantity } from "../quantity.ts";
import type { Field } from "../sheet/sheet.ts";
import { MOST_WORDS, tidy, tooLong } from "./text.ts";

/** What a person typed into a field, before it is anything. */
export interface Typed {
  readonly text: string;
  /** unit shown beside the field; only a quantity has one */
  readonly unit?: string;
}

export type Understood =
  | { readonly ok: true; readonly value: EntryValue | undefined }
  | { readonly ok: false; readonly why: string };

/**
 * Understands what was typed into a field. An optional field left empty is no entry; anything else
 * that cannot be understood is refused with what, and how to mend it.
 */
export function understand(field: Field, typed: Typed | undefined, atmosphere: number): Understood {
  const text = typed?.text.trim() ?? "";
  if (text === "") {
    if (field.optional) return { ok: true, value: undefined };
    const ask = field.kind === "choice" ? "Choose one." : "Enter it.";
    return { ok: false, why: `${field.label}: nothing entered. ${ask}` };
  }
  switch (field.kind) {
    case "text":
      return textEntry(field.label, tidy(text));
    case "choice":
      return field.choices.some((choice) => choice.value === text)
        ? { ok: true, value: { kind: "choice", choice: text } }
        : { ok: false, why: `${field.label}: "${text}" is not one of the answers.` };
    case "count": {
      const count = parseNumber(text);
      return count !== undefined && Number.isInteger(count) && count >= 0 && count <= 10_000
        ? { ok: true, value: { kind: "count", count } }
        : {
            ok: false,
            why: `${field.label}: "${text}" is not a count. Enter a whole number, 0 or more.`,
          };
    }
    case "quantity": {
      const { dimension, label } = field;
      const read = understandQuantity(
        label,
        dimension,
        { text, unit: typed?.unit ?? "" },
        atmosphere,
      );
      return read.ok
        ? { ok: true, value: { kind: "quantity", dimension, ...read.quantity } }
        : read;
    }
  }
}

/**
 * Understands a number typed with its unit.
 *
 * @returns the quantity, or what is wrong with it and how to mend that, beginning with the label
 */
export function understandQuantity<D extends Dimension>(
  label: string,
  dimension: D,
  { text, unit }: { readonly text: string; readonly unit: string },
  atmosphere?: number,
):
  | { readonly ok: true; readonly quantity: Quantity<D> }
  | { readonly ok: false; readonly why: string } {
  const value = parseNumber(text);
  if (value === undefined && AMBIGUOUS.test(text)) {
    const [plain, point] = [text.replace(/,/g, ""), text.replace(",", ".")];
    return {
      ok: false,
      why: `${label}: "${text}" could mean ${plain} or ${point}. Leave the comma out, or write a point.`,
    };
  }
  if (value === undefined) {
    return {
      ok: false,
      why:
        text.trim() === ""
          ? `${label}: nothing entered. Enter it.`
          : `${label}: "${text}" is not a number. Enter digits, with a point for the decimals.`,
    };
  }
  const problem = impossible(dimension, { value, unit }, atmosphere);
  return problem
    ? { ok: false, why: `${label}: ${text} ${unit} cannot be; ${problem}.` }
    : { ok: true, quantity: { value, unit } as Quantity<D> };
}

function textEntry(label: string, text: string): Understood {
  const long = tooLong(label, text, MOST_WORDS);
  return long ? { ok: false, why: long } : { ok: true, value: { kind: "text", text } };
}

/** A comma before three last digits: thousands to one reader, a decimal to another. */
const AMBIGUOUS = /^[+-]?\d{1,3}(,\d{3})+$/;

/**
 * A number as people type it: digits, one point or one comma for the decimals, a sign. Blanks between
 * thousands are welcome; a comma between thousands is not, since it could mean either.
 */
export function parseNumber(text: string): number | undefined {
  const plain = text.replace(/[\s\u2009\u202f]/g, "").replace("\u2212", "-");
  if (AMBIGUOUS.test(plain) || !/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(plain)) return undefined;
  return Number(plain.replace(",", "."));
}
