import { isStoodBy } from "../../review/entryRemarks.ts";
import { stepById } from "../../sheet/walk.ts";
import type { Cell, Part } from "../document.ts";
import { byWhom, entryNumber, type Reported } from "../reported.ts";
import { when } from "../when.ts";

/**
 * Notes, what was said when the run changed hands or was closed, and every decision, in the order of the log. What was
 * stood by is out of the ordinary and stands there.
 */
export function notesPart({ state, programme }: Reported): Part | undefined {
  const { notes, reviews, crewChanges } = state;
  const titleOf = (step: string | undefined) =>
    step === undefined ? "Note" : `Note, ${stepById(programme.sheet, step)?.title ?? step}`;
  const closings = state.events.flatMap((event) =>
    event.body.type === "run closed"
      ? [{ event, what: "Closing remark", says: closingInWords(event.body) }]
      : [],
  );
  const lines = [
    ...notes
      .filter((note) => !isStoodBy(note))
      .map(({ event, step, text }) => ({ event, what: titleOf(step), says: text })),
    ...crewChanges.map(({ event, by, to, state: stands }) => ({
      event,
      what: `Crew change, ${by.name} to ${to.name}`,
      says: stands,
    })),
    ...closings,
    ...reviews.map(({ event, decision, remark }) => ({
      event,
      what: `Decision: ${decision}`,
      says: remark ?? "without remark",
    })),
  ].filter(({ says }) => says !== "");
  if (lines.length === 0) return undefined;
  lines.sort(
    (one, other) =>
      (state.position.get(one.event.hash) ?? 0) - (state.position.get(other.event.hash) ?? 0),
  );
  return {
    id: "notes",
    title: "Notes and decisions",
    blocks: [
      {
        kind: "table",
        columns: [
          { title: "Entry", align: "right", share: 0.7 },
          { title: "Time", share: 1.5 },
          { title: "What", share: 2.2 },
          { title: "Says", share: 4.2 },
          { title: "By", share: 1.9 },
        ],
        rows: lines.map(({ event, what, says }): Cell[] => [
          entryNumber(state, event),
          when(event.at),
          what,
          says,
          byWhom(event),
        ]),
      },
    ],
  };
}

function closingInWords({
  remark,
  gaps,
}: {
  readonly remark?: string | undefined;
  readonly gaps?: { readonly items: readonly string[]; readonly reason: string } | undefined;
}): string {
  const open = gaps ? [`Left unanswered: ${gaps.items.join("; ")}. Why: ${gaps.reason}`] : [];
  return [...(remark ? [remark] : []), ...open].join("\n");
}
