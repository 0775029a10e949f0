import type { CheckName } from "../checks/checkNames.ts";
import type { Channel } from "../results/measurements.ts";
import { fieldsAsked } from "./fieldsAsked.ts";
import type { Condition, Contingency, Field, HoldPoint, Sheet, SheetItem, Step } from "./sheet.ts";

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

/** What the sheet has for what goes otherwise than planned. */
export function contingenciesOf(sheet: Sheet): Contingency[] {
  return sheet.contingencies ?? [];
}

export function contingencyById(sheet: Sheet, id: string): Contingency | undefined {
  return contingenciesOf(sheet).find((each) => each.id === id);
}

/** Fields of a sheet, of steps and contingencies, by id, worked out once for each sheet: every reading of a log asks for its field. */
const fields = new WeakMap<Sheet, ReadonlyMap<string, Field>>();

export function fieldById(sheet: Sheet, id: string): Field | undefined {
  const known =
    fields.get(sheet) ??
    new Map(
      [...stepsOf(sheet), ...contingenciesOf(sheet)].flatMap(({ fields: of }) =>
        of.map((field) => [field.id, field] as const),
      ),
    );
  fields.set(sheet, known);
  return known.get(id);
}

/** Pockets that fields are about, by field, for those that are about a further one; worked out once, as fields are. */
const pockets = new WeakMap<Sheet, ReadonlyMap<string, string>>();

/** The mandrel whose pocket a field is about; undefined: the job's first, or no pocket in particular. */
export function pocketOfField(sheet: Sheet, field: string): string | undefined {
  const known =
    pockets.get(sheet) ??
    new Map(
      stepsOf(sheet).flatMap(({ pocket, fields: of }) =>
        pocket === undefined ? [] : of.map(({ id }) => [id, pocket] as const),
      ),
    );
  pockets.set(sheet, known);
  return known.get(field);
}

/** Checks that look at the latest readings of channels; the first of those. */
const mendedAt: Partial<Readonly<Record<CheckName, Channel>>> = {
  levelled: "casing pressure",
  steady: "casing pressure",
  fresh: "casing pressure",
  "push-out beaten": "wellhead pressure",
  "inside what was tested": "wellhead pressure",
};

/** What else they and others look at without naming a field. */
const alsoRead: Partial<Readonly<Record<CheckName, readonly Channel[]>>> = {
  levelled: ["wellhead pressure", "fluid level"],
  steady: ["wellhead pressure", "fluid level"],
  fresh: ["wellhead pressure"],
  "push-out beaten": ["pull going in", "pull coming out"],
  "inside what was tested": ["casing pressure"],
  "neighbours agree": ["known counter", "known depth"],
  "catcher below the mandrel": ["known counter", "known depth"],
};

/** Channels whose latest readings a check looks at. */
export function channelsOf(check: CheckName): Channel[] {
  const first = mendedAt[check];
  return [...(first ? [first] : []), ...(alsoRead[check] ?? [])];
}

/** Checks of something that is made and then watched: what fails is made again, from its start. */
const madeAgain: readonly CheckName[] = ["proof of seat", "proved both ways"];

/**
 * The step at which a condition of a hold point can be mended: the last that takes one of the readings it names, or one
 * of its channels; of what is made and then watched the first. Undefined when it stands on the programme alone.
 */
export function stepToMend(sheet: Sheet, hold: HoldPoint, condition: Condition): Step | undefined {
  if (condition.kind === "signature") return undefined;
  const items = itemsOf(sheet);
  const own = items.findIndex((item) => itemId(item) === hold.id);
  const before = items.slice(0, own).flatMap((item) => (item.type === "step" ? [item.step] : []));
  if (condition.kind === "check" && mendedAt[condition.check]) {
    const channels = channelsOf(condition.check);
    return before.findLast((step) =>
      step.fields.some(
        (field) => field.kind === "quantity" && field.channel && channels.includes(field.channel),
      ),
    );
  }
  const named = fieldsAsked(condition);
  const takes = (step: Step) => step.fields.some((field) => named.includes(field.id));
  return condition.kind === "check" && madeAgain.includes(condition.check)
    ? before.find(takes)
    : before.findLast(takes);
}
