import type { SheetChanges } from "../records/job.ts";
import { contingenciesAt } from "./contingenciesAt.ts";
import { needsOf } from "./needs.ts";
import type { Phase, Sheet, SheetItem, Step } from "./sheet.ts";
import { contingenciesOf, holdPointsOf, itemId, itemsOf, stepsOf } from "./walk.ts";

/** Stands for the place before everything else, where a step goes after no item. */
export const TOP = "top of the sheet";

/** Why a change cannot be, at the step or place it is about. */
export interface ChangeProblem {
  /** id of the item, or of the step of one's own */
  readonly at: string;
  readonly says: string;
}

export type Changed =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly problems: readonly ChangeProblem[] };

/**
 * A sheet with the planner's changes for one job: steps are moved, then the planner's own are put in, then steps are
 * left out, so that a place stays a place when the step that marks it is left out.
 *
 * Hold points stay, where they are. What a hold point asks for stays before it, what it guards stays right behind it,
 * and no step comes before a hold point that it waited for.
 */
export function applyChanges(sheet: Sheet, changes: SheetChanges): Changed {
  const { dropped, moved, own } = changes;
  if (dropped.length + moved.length + own.length === 0) return { ok: true, sheet };
  const problems: ChangeProblem[] = [
    ...dropped.flatMap((id) => dropProblems(sheet, id)),
    ...moved.flatMap(({ step }) => moveProblems(sheet, step)),
    ...ownProblems(sheet, own),
  ];
  const { phases: placed, misplaced } = inPlaces(sheet, changes);
  let phases = placed;
  problems.push(...misplaced);
  problems.push(...orderProblems(sheet, moved, phases));
  if (problems.length > 0) return { ok: false, problems };
  for (const id of dropped) phases = without(phases, id);
  const kept = phases.filter((phase) => phase.items.length > 0);
  const changed: Sheet = { ...sheet, phases: kept };
  const steps = new Set(stepsOf(changed).map((step) => step.id));
  return {
    ok: true,
    sheet: { ...changed, contingencies: contingenciesAt(contingenciesOf(sheet), steps) },
  };
}

/** Everything where the changes put it, what is left out still in its place; what has no place is not there. */
export function inPlaces(
  sheet: Sheet,
  { moved, own }: SheetChanges,
): { readonly phases: readonly Phase[]; readonly misplaced: readonly ChangeProblem[] } {
  let phases: readonly Phase[] = sheet.phases;
  const misplaced: ChangeProblem[] = [];
  for (const { step, after } of moved) {
    const item = itemsOf(sheet).find((each) => itemId(each) === step);
    if (item?.type !== "step") continue;
    const placed = put(without(phases, step), item, after);
    if (placed) phases = placed;
    else misplaced.push(noPlace(item.step, after));
  }
  for (const { after, step } of own) {
    const placed = put(phases, { type: "step", step }, after);
    if (placed) phases = placed;
    else misplaced.push(noPlace(step, after));
  }
  return { phases, misplaced };
}

function without(phases: readonly Phase[], id: string): Phase[] {
  return phases.map((phase) => ({
    ...phase,
    items: phase.items.filter((item) => itemId(item) !== id),
  }));
}

/** Puts an item behind another, in that one's phase; undefined when there is no such place. */
function put(phases: readonly Phase[], item: SheetItem, after: string): Phase[] | undefined {
  if (after === TOP) {
    const [first, ...rest] = phases;
    return first && [{ ...first, items: [item, ...first.items] }, ...rest];
  }
  const found = phases.some((phase) => phase.items.some((each) => itemId(each) === after));
  if (!found) return undefined;
  return phases.map((phase) => ({
    ...phase,
    items: phase.items.flatMap((each) => (itemId(each) === after ? [each, item] : [each])),
  }));
}

const noPlace = ({ id, title }: Step, after: string): ChangeProblem => ({
  at: id,
  says: `"${title}" was to stand after "${after}", which is not on this sheet. Put it elsewhere.`,
});

/** What cannot be touched at all: a hold point, or something that this sheet does not have. */
function untouchable(sheet: Sheet, id: string, act: string): ChangeProblem[] {
  const item = itemsOf(sheet).find((each) => itemId(each) === id);
  if (!item) {
    const says = `A change names "${id}", which the sheet for this work does not have. Take the change back.`;
    return [{ at: id, says }];
  }
  if (item.type === "step") return [];
  const { title, purpose } = item.hold;
  const before = purpose.replace(/^B/, "b");
  return [{ at: id, says: `The hold point "${title}" cannot be ${act}: it is released ${before}` }];
}

function dropProblems(sheet: Sheet, id: string): ChangeProblem[] {
  const cannot = untouchable(sheet, id, "left out");
  if (cannot.length > 0) return cannot;
  return holdPointsOf(sheet).flatMap((hold): ChangeProblem[] => {
    if (hold.guards === id) {
      const says = `The hold point "${hold.title}" guards this step: it cannot be left out.`;
      return [{ at: id, says }];
    }
    const need = needsOf(sheet, hold).find(({ step }) => step === id);
    if (!need) return [];
    const says = `The hold point "${hold.title}" asks for it: ${need.condition}. It cannot be left out.`;
    return [{ at: id, says }];
  });
}

function moveProblems(sheet: Sheet, id: string): ChangeProblem[] {
  const cannot = untouchable(sheet, id, "moved");
  if (cannot.length > 0) return cannot;
  return holdPointsOf(sheet)
    .filter((hold) => hold.guards === id)
    .map((hold) => ({
      at: id,
      says: `The hold point "${hold.title}" guards this step: it stays where it is.`,
    }));
}

/** A moved step that a hold point asks for has come behind it, or has come before one that it waited for. */
function orderProblems(
  sheet: Sheet,
  moved: SheetChanges["moved"],
  phases: readonly Phase[],
): ChangeProblem[] {
  const before = itemsOf(sheet).map(itemId);
  const after = phases.flatMap((phase) => phase.items).map(itemId);
  return moved.flatMap(({ step }) =>
    holdPointsOf(sheet).flatMap((hold): ChangeProblem[] => {
      const was = before.indexOf(step) < before.indexOf(hold.id);
      const is = after.indexOf(step) < after.indexOf(hold.id);
      if (was === is || !before.includes(step)) return [];
      if (!was) {
        const says = `It came after the hold point "${hold.title}" and waits for its release: it cannot be moved before it.`;
        return [{ at: step, says }];
      }
      const need = needsOf(sheet, hold).find((each) => each.step === step);
      if (!need) return [];
      const says = `The hold point "${hold.title}" asks for it: ${need.condition}. It cannot be moved behind it.`;
      return [{ at: step, says }];
    }),
  );
}

/** Names used twice: what is entered is found by its name. */
function ownProblems(sheet: Sheet, own: SheetChanges["own"]): ChangeProblem[] {
  const items = new Set(itemsOf(sheet).map(itemId));
  const fields = new Set(
    [...stepsOf(sheet), ...contingenciesOf(sheet)].flatMap((each) =>
      each.fields.map((field) => field.id),
    ),
  );
  return own.flatMap(({ step }): ChangeProblem[] => {
    const twice = step.fields.find((field) => fields.has(field.id));
    const isTaken = items.has(step.id);
    items.add(step.id);
    for (const field of step.fields) fields.add(field.id);
    if (isTaken) {
      return [{ at: step.id, says: `There is a step "${step.id}" already. Write this one anew.` }];
    }
    return twice
      ? [{ at: step.id, says: `There is a field "${twice.id}" already. Write this step anew.` }]
      : [];
  });
}
