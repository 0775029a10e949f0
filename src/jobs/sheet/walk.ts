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

/** Something worked out once for each sheet: every event of a log asks for it. */
function oncePerSheet<T>(workedOut: (sheet: Sheet) => T): (sheet: Sheet) => T {
  const known = new WeakMap<Sheet, T>();
  return (sheet) => {
    const found = known.get(sheet) ?? workedOut(sheet);
    known.set(sheet, found);
    return found;
  };
}

const steps = oncePerSheet(
  (sheet): ReadonlyMap<string, Step> => new Map(stepsOf(sheet).map((step) => [step.id, step])),
);

export function stepById(sheet: Sheet, id: string): Step | undefined {
  return steps(sheet).get(id);
}

const stepsOfFields = oncePerSheet(
  (sheet): ReadonlyMap<string, Step> =>
    new Map(stepsOf(sheet).flatMap((step) => step.fields.map(({ id }) => [id, step] as const))),
);

/** The step that asks for a field; undefined for a contingency's. */
export function stepOfField(sheet: Sheet, field: string): Step | undefined {
  return stepsOfFields(sheet).get(field);
}

/** What the sheet has for what goes otherwise than planned. */
export function contingenciesOf(sheet: Sheet): Contingency[] {
  return sheet.contingencies ?? [];
}

export function contingencyById(sheet: Sheet, id: string): Contingency | undefined {
  return contingenciesOf(sheet).find((each) => each.id === id);
}

/** Fields of a sheet, of steps and contingencies, by id. */
const fields = oncePerSheet(
  (sheet): ReadonlyMap<string, Field> =>
    new Map(
      [...stepsOf(sheet), ...contingenciesOf(sheet)].flatMap(({ fields: of }) =>
        of.map((field) => [field.id, field] as const),
      ),
    ),
);

export function fieldById(sheet: Sheet, id: string): Field | undefined {
  return fields(sheet).get(id);
}

/** The mandrel whose pocket a field is about; undefined: the job's first, or no pocket in particular. */
export function pocketOfField(sheet: Sheet, field: string): string | undefined {
  return stepOfField(sheet, field)?.pocket;
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
