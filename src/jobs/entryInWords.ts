import { asEntered } from "./display.ts";
import type { EntryValue } from "./log/event.ts";
import type { Field } from "./sheet/sheet.ts";

/** An entry in words, as it was typed. */
export function entryInWords(value: EntryValue, choiceLabel?: (choice: string) => string): string {
  switch (value.kind) {
    case "quantity":
      return asEntered(value);
    case "choice":
      return choiceLabel?.(value.choice) ?? value.choice;
    case "text":
      return value.text;
    case "count":
      return String(value.count);
    case "none":
      return "taken back";
  }
}

/** An entry of a field in words: a choice by what was read, not by what is stored. */
export function fieldInWords(field: Field | undefined, value: EntryValue): string {
  return entryInWords(value, (chosen) =>
    field?.kind === "choice"
      ? (field.choices.find((each) => each.value === chosen)?.label ?? chosen)
      : chosen,
  );
}
