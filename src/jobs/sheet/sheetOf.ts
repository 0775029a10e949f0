import { toSI } from "../quantity.ts";
import type { Job } from "../records/job.ts";
import type { Well } from "../records/well.ts";
import { changeOutSheet } from "./changeOut/changeOut.ts";
import type { PocketOfSeveral, SheetOptions, Work } from "./changeOut/options.ts";
import { applyChanges, type ChangeProblem } from "./changes.ts";
import type { Sheet } from "./sheet.ts";
import { sheetWanted } from "./sheetWanted.ts";

/** What of a job its sheet is built from. */
export type SheetOfJob = Pick<Job, "sheet" | "mandrel" | "also">;

/** The sheet a job wants before the planner's own changes: work and catcher as chosen, the tool by the mandrel. */
export function unchangedSheet(job: SheetOfJob, well: Well | undefined): Sheet {
  const { work, catcher } = sheetWanted(job);
  const { also } = job;
  const first = pocketOf({ mandrel: job.mandrel, work }, well);
  if (!also) return built({ work, catcher, kickover: first.kickover });
  const pockets = [first, ...also.map((each) => pocketOf(each, well))];
  const depth = ({ mandrel }: PocketOfSeveral) => {
    const of = well?.mandrels.find((each) => each.id === mandrel);
    return of ? toSI("length", of.depthAlongHole) : 0;
  };
  const lowest = pockets.toSorted((a, b) => depth(b) - depth(a))[0]?.mandrel ?? job.mandrel;
  return built({ work, catcher, kickover: first.kickover, pockets, lowest });
}

function pocketOf(
  { mandrel, work }: { readonly mandrel: string; readonly work: Work },
  well: Well | undefined,
): PocketOfSeveral {
  const of = well?.mandrels.find((each) => each.id === mandrel);
  // Where the record does not say, readiness stops the job; until then the sheet shows the usual mandrel.
  const kickover = of?.orientingSleeve === "no" ? "non-orienting" : "orienting";
  return { mandrel, number: of?.number, work, kickover };
}

/**
 * The run sheet of a job, the planner's changes in it.
 *
 * @returns the sheet without any of them, and why, when one of them cannot be
 */
export function sheetOf(
  job: SheetOfJob,
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
  const name = JSON.stringify(options);
  const sheet = known.get(name) ?? changeOutSheet(options);
  known.set(name, sheet);
  return sheet;
}
