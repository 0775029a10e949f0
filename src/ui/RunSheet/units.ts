import { parseNumber, type Typed } from "../../jobs/commands/entry.ts";
import type { TypedFields } from "../../jobs/commands/run.ts";
import { displayUnit, type Writer } from "../../jobs/display.ts";
import { fromSI, toSI } from "../../jobs/quantity.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";

/** The unit a field is entered in: the one it was typed in, or the one of the display while it is empty. */
export function unitOf(field: Field, typed: Typed | undefined, writer: Writer): string | undefined {
  if (field.kind !== "quantity") return undefined;
  if (typed?.unit !== undefined && typed.text.trim() !== "") return typed.unit;
  return displayUnit(writer.system, field.dimension);
}

/** Everything typed into a set of fields, each quantity with the unit that stands beside it. */
export function withUnits(
  fields: readonly Field[],
  typed: Readonly<Record<string, Typed>>,
  writer: Writer,
): TypedFields {
  return Object.fromEntries(
    fields.flatMap((field) => {
      const entry = typed[field.id];
      if (!entry) return [];
      const unit = unitOf(field, entry, writer);
      return [[field.id, { text: entry.text, ...(unit !== undefined && { unit }) }]];
    }),
  );
}

/**
 * What was typed, in the other system's unit. The figure is converted with it: a unit that was brushed by accident
 * must not change what was meant.
 */
export function inOtherUnit(
  field: Extract<Field, { kind: "quantity" }>,
  typed: Typed | undefined,
  writer: Writer,
): Typed {
  const { dimension } = field;
  const from = unitOf(field, typed, writer) ?? "";
  const own = displayUnit("field", dimension);
  const unit = from === own ? displayUnit("metric", dimension) : own;
  const value = parseNumber(typed?.text ?? "");
  if (value === undefined) return { text: typed?.text ?? "", unit };
  const si = toSI(dimension, { value, unit: from } as never, writer.atmosphere);
  const converted = fromSI(dimension, si, unit, writer.atmosphere);
  return { text: String(Number(converted.toPrecision(5))), unit };
}
