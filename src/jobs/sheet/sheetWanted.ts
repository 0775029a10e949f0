import type { Job, SheetChanges, SheetWanted } from "../records/job.ts";

export const noChanges: SheetChanges = { dropped: [], moved: [], own: [] };

/** Which sheet a job wants. One of before there was a choice wants one valve for another, as it is. */
export function sheetWanted({ sheet }: Pick<Job, "sheet">): SheetWanted {
  return sheet === "change-out"
    ? { work: "change out", catcher: false, changes: noChanges }
    : sheet;
}
