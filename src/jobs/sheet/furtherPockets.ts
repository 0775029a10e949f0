import { pocketsOf } from "../pockets.ts";
import type { FurtherPocket, Job, SheetChanges } from "../records/job.ts";
import type { Well } from "../records/well.ts";
import { pocketSuffix } from "./changeOut/pocket.ts";

/** The next pocket that a job may go on to: the first side pocket it does not name yet; undefined when there is none. */
export function nextPocket(
  job: Pick<Job, "mandrel" | "also">,
  well: Well | undefined,
): FurtherPocket | undefined {
  const named = pocketsOf(job);
  const free = well?.mandrels.find(
    ({ id, construction }) => construction === "side pocket" && !named.includes(id),
  );
  return (
    free && {
      mandrel: free.id,
      work: free.pocketState === "empty" ? "set into an empty pocket" : "change out",
      design: {},
    }
  );
}

const SUFFIX = /-pocket-(\d+)$/;

/**
 * The planner's changes when one of the further pockets is given up: what was about it goes with it, and what was about
 * one after it follows that one to its new place.
 *
 * @param place among the further pockets, from 0
 */
export function withoutPocket(changes: SheetChanges, place: number): SheetChanges {
  const gone = place + 1;
  const placeOf = (id: string) => Number(SUFFIX.exec(id)?.[1] ?? 1) - 1;
  const stays = (id: string) => placeOf(id) !== gone;
  const renamed = (id: string) =>
    placeOf(id) > gone ? id.replace(SUFFIX, pocketSuffix(placeOf(id) - 1)) : id;
  return {
    dropped: changes.dropped.filter(stays).map(renamed),
    moved: changes.moved
      .filter(({ step, after }) => stays(step) && stays(after))
      .map(({ step, after }) => ({ step: renamed(step), after: renamed(after) })),
    own: changes.own
      .filter(({ after }) => stays(after))
      .map(({ after, step }) => ({ after: renamed(after), step })),
  };
}
