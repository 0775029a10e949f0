import { fieldsAsked } from "../fieldsAsked.ts";
import type { Condition, Field, HoldPoint, Phase, SheetItem, Step } from "../sheet.ts";
import { itemId } from "../walk.ts";
import type { PocketOfSeveral } from "./options.ts";

/**
 * What the names of a further pocket's steps, fields and hold points end with.
 *
 * @param place among the pockets of the job, from 0: the first has the names of a sheet for one
 */
export const pocketSuffix = (place: number) => (place === 0 ? "" : `-pocket-${place + 1}`);

/**
 * The phases of one pocket, of several: named so that they can stand on one sheet, titled so that the crew sees which
 * mandrel is meant, and bound to that mandrel. What lies outside of them keeps its name.
 */
export function boundTo(
  phases: readonly Phase[],
  { mandrel, number }: PocketOfSeveral,
  place: number,
): Phase[] {
  const suffix = pocketSuffix(place);
  const items = phases.flatMap((phase) => phase.items);
  const own = new Set(
    items.flatMap((item) => [
      itemId(item),
      ...(item.type === "step" ? item.step.fields.map(({ id }) => id) : []),
    ]),
  );
  const named = (id: string) => (own.has(id) ? `${id}${suffix}` : id);
  const titled = (title: string) => `${title}, mandrel ${number ?? "?"}`;
  const pocket = place === 0 ? {} : { pocket: mandrel };
  const field = (of: Field): Field => ({ ...of, id: named(of.id) });
  const step = (of: Step): Step => ({
    ...of,
    id: named(of.id),
    title: titled(of.title),
    fields: of.fields.map(field),
    ...pocket,
  });
  const hold = (of: HoldPoint): HoldPoint => ({
    ...of,
    id: named(of.id),
    title: titled(of.title),
    guards: named(of.guards),
    conditions: of.conditions.map((each) => renamed(each, named)),
    ...pocket,
  });
  return phases.map((phase) => ({
    id: `${phase.id}${suffix}`,
    title: titled(phase.title),
    items: phase.items.map(
      (item): SheetItem =>
        item.type === "step"
          ? { type: "step", step: step(item.step) }
          : { type: "hold", hold: hold(item.hold) },
    ),
  }));
}

function renamed(condition: Condition, named: (id: string) => string): Condition {
  if (fieldsAsked(condition).length === 0) return condition;
  if (condition.kind !== "check") {
    return "field" in condition ? { ...condition, field: named(condition.field) } : condition;
  }
  const fields = Object.entries(condition.fields ?? {});
  return {
    ...condition,
    fields: Object.fromEntries(fields.map(([part, id]) => [part, named(id)])),
  };
}

/** A phase that is worked once for all pockets, its figures those of one of them. */
export function figuresOf(phase: Phase, pocket: string): Phase {
  return {
    ...phase,
    items: phase.items.map(
      (item): SheetItem =>
        item.type === "step"
          ? { type: "step", step: { ...item.step, pocket } }
          : { type: "hold", hold: { ...item.hold, pocket } },
    ),
  };
}

/** A phase in which a check is asked for each of several pockets instead of one. */
export function askedForEach(
  phase: Phase,
  check: string,
  pockets: readonly PocketOfSeveral[],
): Phase {
  const each = (condition: Condition): Condition[] =>
    condition.kind === "check" && condition.check === check
      ? pockets.map(({ mandrel, number }, place) => ({
          ...condition,
          id: `${condition.id}${pocketSuffix(place)}`,
          text: `${condition.text}, mandrel ${number ?? "?"}`,
          pocket: mandrel,
        }))
      : [condition];
  return {
    ...phase,
    items: phase.items.map((item) =>
      item.type === "step"
        ? item
        : { ...item, hold: { ...item.hold, conditions: item.hold.conditions.flatMap(each) } },
    ),
  };
}
