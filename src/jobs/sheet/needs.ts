import { fieldsAsked } from "./fieldsAsked.ts";
import type { HoldPoint, Sheet, Step } from "./sheet.ts";
import { channelsOf, itemId, itemsOf } from "./walk.ts";

/** A step whose readings a hold point stands on, and the condition that asks for them, in words. */
export interface Need {
  readonly step: string;
  readonly condition: string;
}

/**
 * The steps that a hold point asks for: those that take a field it names, and the last before it that reads what its
 * checks look at.
 */
export function needsOf(sheet: Sheet, hold: HoldPoint): Need[] {
  const items = itemsOf(sheet);
  const own = items.findIndex((item) => itemId(item) === hold.id);
  const before = items.slice(0, own).flatMap((item) => (item.type === "step" ? [item.step] : []));
  return hold.conditions.flatMap((condition): Need[] => {
    const named = fieldsAsked(condition).map((id) =>
      before.findLast((step) => step.fields.some((field) => field.id === id)),
    );
    const read =
      condition.kind === "check"
        ? channelsOf(condition.check).map((channel) =>
            before.findLast((step) => takes(step, channel)),
          )
        : [];
    return [...named, ...read].flatMap((step) =>
      step ? [{ step: step.id, condition: condition.text }] : [],
    );
  });
}

const takes = (step: Step, channel: string) =>
  step.fields.some((field) => field.kind === "quantity" && field.channel === channel);
