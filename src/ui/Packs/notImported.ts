import { BadPicture, Conflict, Outdated } from "../../jobs/store/store.ts";
import { notSaved } from "../useJob.ts";

/** Why nothing was written, and what to do. */
export function notImported(error: unknown): string {
  if (error instanceof Conflict) {
    return "Nothing was imported: the pack's log holds another event in a place where this tablet has one already. One of the two logs was written by a copy of this tablet's storage; ask the office to compare them.";
  }
  if (error instanceof BadPicture) return `Nothing was imported: ${error.message}`;
  if (error instanceof Outdated) {
    return "Nothing was imported: a record was changed on this tablet while you were looking. Choose the file again.";
  }
  return notSaved(error);
}
