import type { Field, HoldPoint, Phase, Sheet, SheetItem, Step } from "./sheet.ts";

/** Steps and hold points of a sheet in the order they are worked. */
export function itemsOf(sheet: Sheet): SheetItem[] {
  return sheet.phases.flatMap((phase) => phase.items);
}

export function itemId(item: SheetItem): string {
  return item.type === "step" ? item.step.id : item.hold.id;
}

export function stepsOf(sheet: Sheet): Step[] {
  return itemsOf(sheet).flatMap((item) => (item.type === "step" ? [item.step] : []));
}

export function holdPointsOf(sheet: Sheet): HoldPoint[] {
  return itemsOf(sheet).flatMap((item) => (item.type === "hold" ? [item.hold] : []));
}

export function stepById(sheet: Sheet, id: string): Step | undefined {
  return stepsOf(sheet).find((step) => step.id === id);
}

/** Fields of a sheet by id, worked out once for each sheet: every reading of a log asks for its field. */
const fields = new WeakMap<Sheet, ReadonlyMap<string, Field>>();

export function fieldById(sheet: Sheet, id: string): Field | undefined {
  const known =
    fields.get(sheet) ??
    new Map(stepsOf(sheet).flatMap((step) => step.fields.map((field) => [field.id, field])));
  fields.set(sheet, known);
  return known.get(id);
}

export function phaseOf(sheet: Sheet, item: string): Phase | undefined {
  return sheet.phases.find((phase) => phase.items.some((each) => itemId(each) === item));
}
