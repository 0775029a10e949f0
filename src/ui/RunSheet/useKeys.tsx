import { type ReactNode, useState } from "react";
import { createPortal } from "react-dom";
import type { Typed } from "../../jobs/commands/entry.ts";
import type { Writer } from "../../jobs/display.ts";
import type { Field } from "../../jobs/sheet/sheet.ts";
import { Keypad } from "./Keypad.tsx";
import { unitOf } from "./units.ts";

interface Keys {
  /** id of the field the keys write into */
  readonly active: string | undefined;
  readonly open: (field: Field) => void;
  readonly close: () => void;
  readonly next: (from: Field) => void;
  /** the keys, where they belong on the page */
  readonly portal: ReactNode;
}

interface KeysOptions {
  readonly fields: readonly Field[];
  readonly typed: Readonly<Record<string, Typed | undefined>>;
  readonly onChange: (field: string, typed: Typed) => void;
  readonly writer: Writer;
  readonly slot: HTMLElement | null;
}

/** Whether a field is entered with the number keys. */
const isKeyed = (field: Field) => field.kind === "quantity" || field.kind === "count";

/** The number keys of a set of fields: one field at a time, and on to the next. */
export function useKeys({ fields, typed, onChange, writer, slot }: KeysOptions): Keys {
  const [active, setActive] = useState<string>();
  const field = fields.find((each) => each.id === active);

  const open = (next: Field) => setActive(isKeyed(next) ? next.id : undefined);
  const close = () => setActive(undefined);
  const next = (from: Field) => {
    const following = fields[fields.indexOf(from) + 1];
    if (!following) {
      close();
      return;
    }
    open(following);
    const element = document.getElementById(`entry-${following.id}`);
    element?.focus({ preventScroll: true });
    element?.scrollIntoView({ block: "center" });
  };

  const keys = field && (
    <Keypad
      label={field.label}
      text={typed[field.id]?.text ?? ""}
      isCount={field.kind === "count"}
      onText={(text) => {
        const unit = unitOf(field, typed[field.id], writer);
        onChange(field.id, { text, ...(unit !== undefined && { unit }) });
      }}
      nextLabel={fields.at(-1) === field ? "Ready" : "Next"}
      onNext={() => next(field)}
      onClose={close}
    />
  );
  return { active, open, close, next, portal: slot && createPortal(keys, slot) };
}
