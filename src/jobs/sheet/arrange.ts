import type { SheetChanges } from "../records/job.ts";
import { applyChanges, type ChangeProblem, inPlaces, TOP } from "./changes.ts";
import type { Sheet, SheetItem, Step } from "./sheet.ts";
import { itemId, itemsOf } from "./walk.ts";

/** A line of the sheet as the planner sees it while changing it. */
export interface Line {
  readonly id: string;
  readonly item: SheetItem;
  readonly leftOut: boolean;
  readonly moved: boolean;
  /** the planner's own */
  readonly own: boolean;
  /** why its change cannot be */
  readonly problems: readonly string[];
}

export interface Arranged {
  readonly phases: readonly {
    readonly id: string;
    readonly title: string;
    readonly lines: readonly Line[];
  }[];
  /** changes that this sheet has no place for, e.g. since the job is to do other work now */
  readonly strays: readonly ChangeProblem[];
}

/** The sheet with everything where the changes put it, what is left out marked, and problems at their lines. */
export function arranged(sheet: Sheet, changes: SheetChanges): Arranged {
  const result = applyChanges(sheet, changes);
  const problems = result.ok ? [] : result.problems;
  const dropped = new Set(changes.dropped);
  const moved = new Set(changes.moved.map(({ step }) => step));
  const own = new Set(changes.own.map(({ step }) => step.id));
  const { phases } = inPlaces(sheet, changes);
  const shown = phases.map(({ id, title, items }) => ({
    id,
    title,
    lines: items.map((item): Line => {
      const name = itemId(item);
      return {
        id: name,
        item,
        leftOut: dropped.has(name),
        moved: moved.has(name),
        own: own.has(name),
        problems: problems.filter(({ at }) => at === name).map(({ says }) => says),
      };
    }),
  }));
  const there = new Set(shown.flatMap(({ lines }) => lines.map(({ id }) => id)));
  return { phases: shown, strays: problems.filter(({ at }) => !there.has(at)) };
}

/** A change that was tried: the changes with it, or why it cannot be. */
export type Tried =
  | { readonly ok: true; readonly changes: SheetChanges }
  | { readonly ok: false; readonly why: string };

/** Takes a change only when it brings no problem that was not there before. */
function tried(sheet: Sheet, before: SheetChanges, changes: SheetChanges): Tried {
  const problemsOf = (of: SheetChanges) => {
    const result = applyChanges(sheet, of);
    return result.ok ? [] : result.problems.map(({ says }) => says);
  };
  const known = new Set(problemsOf(before));
  const why = problemsOf(changes).filter((says) => !known.has(says));
  return why.length > 0 ? { ok: false, why: [...new Set(why)].join(" ") } : { ok: true, changes };
}

export function leftOut(sheet: Sheet, changes: SheetChanges, id: string): Tried {
  return tried(sheet, changes, { ...changes, dropped: [...changes.dropped, id] });
}

/** Without any change that is about this item. */
export function takenBack(changes: SheetChanges, id: string): SheetChanges {
  return {
    dropped: changes.dropped.filter((each) => each !== id),
    moved: changes.moved.filter(({ step }) => step !== id),
    own: changes.own.filter(({ step }) => step.id !== id),
  };
}

/** Back among what is worked, where it stands. */
export function takenIn(changes: SheetChanges, id: string): SheetChanges {
  return { ...changes, dropped: changes.dropped.filter((each) => each !== id) };
}

/** One place up (-1) or down (1), past whatever stands there. */
export function movedBy(sheet: Sheet, changes: SheetChanges, id: string, by: -1 | 1): Tried {
  const order = orderOf(sheet, changes);
  const from = order.indexOf(id);
  const neighbour = order[from + by];
  if (from === -1 || neighbour === undefined) {
    return { ok: false, why: by < 0 ? "It is the first already." : "It is the last already." };
  }
  const swapped = order.with(from, neighbour).with(from + by, id);
  return tried(sheet, changes, inOrder(sheet, changes, swapped, id));
}

/** A step of one's own, new behind an item or in place of the one of its name. */
export function written(sheet: Sheet, changes: SheetChanges, step: Step, after: string): Tried {
  const isThere = changes.own.some((each) => each.step.id === step.id);
  if (isThere) {
    const own = changes.own.map((each) => (each.step.id === step.id ? { ...each, step } : each));
    return tried(sheet, changes, { ...changes, own });
  }
  const order = orderOf(sheet, changes);
  const placed = order.toSpliced(order.indexOf(after) + 1, 0, step.id);
  const own = [...changes.own, { after, step }];
  return tried(sheet, changes, inOrder(sheet, { ...changes, own }, placed));
}

/** Without a step of one's own; what stood behind it stands behind what it stood behind. */
export function takenOut(sheet: Sheet, changes: SheetChanges, id: string): SheetChanges {
  const order = orderOf(sheet, changes).filter((each) => each !== id);
  const own = changes.own.filter(({ step }) => step.id !== id);
  return inOrder(sheet, { ...changes, own }, order);
}

const orderOf = (sheet: Sheet, changes: SheetChanges) =>
  inPlaces(sheet, changes).phases.flatMap(({ items }) => items.map(itemId));

/**
 * The changes that bring a sheet into an order: as few moves as before, and the one asked for. Places are named by
 * what stands before: a moved step's by an item of the sheet, since one's own are put in afterwards.
 */
function inOrder(
  sheet: Sheet,
  changes: SheetChanges,
  order: readonly string[],
  moving?: string,
): SheetChanges {
  const base = itemsOf(sheet).map(itemId);
  const steps = new Map(changes.own.map(({ step }) => [step.id, step]));
  const ofSheet = order.filter((id) => !steps.has(id));
  const strays = changes.moved.filter(({ step }) => !ofSheet.includes(step));
  let moved = [...changes.moved.map(({ step }) => step), ...(moving ? [moving] : [])].filter(
    (id, index, all) => ofSheet.includes(id) && all.indexOf(id) === index,
  );
  // Moved back to where it was, it is not moved.
  for (const id of moved) {
    const others = moved.filter((each) => each !== id);
    const stays = ofSheet.filter((each) => !others.includes(each));
    if (isInOrder(stays, base)) moved = others;
  }
  return {
    dropped: changes.dropped,
    moved: [
      ...ofSheet.flatMap((step, index) =>
        moved.includes(step) ? [{ step, after: ofSheet[index - 1] ?? TOP }] : [],
      ),
      ...strays,
    ],
    own: [
      ...order.flatMap((id, index) => {
        const step = steps.get(id);
        return step ? [{ after: order[index - 1] ?? TOP, step }] : [];
      }),
      ...changes.own.filter(({ step }) => !order.includes(step.id)),
    ],
  };
}

const isInOrder = (ids: readonly string[], base: readonly string[]) =>
  ids.every((id, index) => index === 0 || base.indexOf(ids[index - 1] ?? "") < base.indexOf(id));
