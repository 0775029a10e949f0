import type { Job, SheetChanges, SheetWanted } from "../records/job.ts";
import type { Well } from "../records/well.ts";
import { changeOutSheet } from "./changeOut/changeOut.ts";
import type { SheetOptions } from "./changeOut/options.ts";
import { applyChanges, type ChangeProblem } from "./changes.ts";
import type { Sheet } from "./sheet.ts";

export const noChanges: SheetChanges = { dropped: [], moved: [], own: [] };

/** Which sheet a job wants. One of before there was a choice wants one valve for another, as it is. */
export function sheetWanted({ sheet }: Pick<Job, "sheet">): SheetWanted {
  return sheet === "change-out"
    ? { work: "change out", catcher: false, changes: noChanges }
    : sheet;
}

/** The sheet a job wants before the planner's own changes: work and catcher as chosen, the tool by the mandrel. */
export function unchangedSheet(job: Pick<Job, "sheet" | "mandrel">, well: Well | undefined): Sheet {
  const { work, catcher } = sheetWanted(job);
  const mandrel = well?.mandrels.find((each) => each.id === job.mandrel);
  // Where the record does not say, readiness stops the job; until then the sheet shows the usual mandrel.
  const kickover = mandrel?.orientingSleeve === "no" ? "non-orienting" : "orienting";
  return built({ work, catcher, kickover });
}

/**
 * The run sheet of a job, the planner's changes in it.
 *
 * @returns the sheet without any of them, and why, when one of them cannot be
 */
export function sheetOf(
  job: Pick<Job, "sheet" | "mandrel">,
  well: Well | undefined,
): { readonly sheet: Sheet; readonly problems: readonly ChangeProblem[] } {
  const sheet = unchangedSheet(job, well);
  const changed = applyChanges(sheet, sheetWanted(job).changes);
  return changed.ok
    ? { sheet: changed.sheet, problems: [] }
    : { sheet, problems: changed.problems };
}

/** Built once each: a screen puts its programme together at every change of the library. */
const known = new Map<string, Sheet>();

function built(options: SheetOptions): Sheet {
  const name = `${options.work}, ${options.kickover}, ${options.catcher}`;
  const sheet = known.get(name) ?? changeOutSheet(options);
  known.set(name, sheet);
  return sheet;
}
