import type { Well } from "../records/well.ts";
import { TOP } from "./changes.ts";
import { type SheetOfJob, unchangedSheet } from "./sheetOf.ts";
import { sheetWanted } from "./sheetWanted.ts";
import { itemId, itemsOf } from "./walk.ts";

/** In what a job's sheet is not the usual one, each in words. */
export function differences(job: SheetOfJob, well: Well | undefined): string[] {
  const { catcher, changes } = sheetWanted(job);
  const titles = new Map([
    ...itemsOf(unchangedSheet(job, well)).map(
      (item) => [itemId(item), item.type === "step" ? item.step.title : item.hold.title] as const,
    ),
    ...changes.own.map(({ step }) => [step.id, step.title] as const),
  ]);
  const named = (id: string) => `"${titles.get(id) ?? id}"`;
  const place = (after: string) => (after === TOP ? "first of all" : `after ${named(after)}`);
  return [
    ...(catcher ? ["A catcher is set before the pull run and taken out last."] : []),
    ...changes.dropped.map((id) => `Left out: ${named(id)}.`),
    ...changes.moved.map(({ step, after }) => `Moved: ${named(step)}, ${place(after)}.`),
    ...changes.own.map(
      ({ step, after }) => `The planner's own: ${named(step.id)}, ${place(after)}.`,
    ),
  ];
}
