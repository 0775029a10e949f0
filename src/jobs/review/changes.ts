import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import type { Programme } from "../records/programme.ts";
import { changesBetween } from "../results/changes.ts";
import { resultsFor } from "../results/results.ts";
import { sheetWanted } from "../sheet/sheetWanted.ts";
import { stepById } from "../sheet/walk.ts";
import type { JobState } from "../state/jobState.ts";
import type { Remarkable } from "./remarkable.ts";

/** What changed and why: everything in which the run left its programme, in one list, in the order it happened. */
export interface Departure {
  readonly kind: Remarkable["kind"] | "revision issued" | "sheet changed";
  readonly title: string;
  /** what, with its reason where one was given */
  readonly says: string;
  /** names it for good; undefined: it comes from no event */
  readonly event: JobEvent | undefined;
}

/**
 * @param remarkable everything out of the ordinary, as the record lists it
 * @returns in log order; what comes from no event stands last
 */
export function departures(
  state: JobState,
  remarkable: readonly Remarkable[],
  writer: Writer,
): Departure[] {
  const place = ({ event }: Departure) =>
    (event && state.position.get(event.hash)) ?? Number.POSITIVE_INFINITY;
  return [
    ...revisions(state, writer),
    ...sheetChanges(state),
    // A revision that the crew did not work on stands among the revisions.
    ...remarkable.filter(
      ({ kind, event }) => !(kind === "not followed" && event?.body.type === "programme issued"),
    ),
  ].sort((one, other) => place(one) - place(other));
}

/** Every issue after the first, with the figures that it moved for the crew. */
function revisions(state: JobState, writer: Writer): Departure[] {
  const issues = state.events.flatMap((event) =>
    event.body.type === "programme issued" ? [{ event, ...event.body }] : [],
  );
  return issues.slice(1).flatMap((issue, index): Departure[] => {
    const before = issues[index];
    if (!before) return [];
    const unseen = state.unfollowed.find(({ event }) => event === issue.event);
    const moved = figuresMoved(before, issue, writer);
    const none = "moved no figure that the crew works to";
    const says = moved.length > 0 ? `moved ${moved.join("; ")}` : none;
    return [
      {
        kind: "revision issued",
        title: `Programme revision ${issue.revision}`,
        says: unseen ? `${unseen.why} It would have ${says}.` : `It ${says}.`,
        event: issue.event,
      },
    ];
  });
}

interface Issue {
  readonly event: JobEvent;
  readonly programme: Programme;
}

function figuresMoved(before: Issue, after: Issue, writer: Writer): string[] {
  const results = ({ event, programme }: Issue) => resultsFor(event.hash, programme, {});
  const { sheet } = after.programme;
  return changesBetween(results(before), results(after), sheet, writer).map(
    ({ label, before: was, after: is }) =>
      `${label}: ${was ?? "not known"} to ${is ?? "not known"}`,
  );
}

/** What the planner changed of the usual sheet for this job; the sheet names no reason. */
function sheetChanges({ programme, issued }: JobState): Departure[] {
  if (!programme) return [];
  const { sheet } = programme;
  const { dropped, moved, own } = sheetWanted(programme.job).changes;
  const titleOf = (id: string) => stepById(sheet, id)?.title ?? id;
  const change = (title: string, says: string): Departure => ({
    kind: "sheet changed",
    title,
    says,
    event: issued,
  });
  return [
    ...dropped.map((id) => change(id, "Left out of this job's sheet by the planner.")),
    ...moved.map(({ step, after }) =>
      change(titleOf(step), `Moved by the planner, to stand after "${titleOf(after)}".`),
    ),
    ...own.map(({ step, after }) =>
      change(step.title, `A step of this job's own, after "${titleOf(after)}".`),
    ),
  ];
}
