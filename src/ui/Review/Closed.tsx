import { format } from "date-fns";
import { Link } from "wouter";
import type { JobEvent } from "../../jobs/log/event.ts";
import type { LiveJob } from "../useJob.ts";
import { Ask } from "./Ask.tsx";

const byWhom = ({ at, actor }: JobEvent) =>
  `${format(new Date(at), "d MMM HH:mm")} by ${actor.name}, ${actor.role}`;

/**
 * What the engineer decided and why; what the supervisor closed the run with: a remark, and what was left unanswered,
 * with the reason.
 */
export function Closed({ live }: { readonly live: LiveJob }) {
  const { state, id } = live;
  const { closed, decidedBy, stage } = state;
  const closing = closed?.body.type === "run closed" ? closed.body : undefined;
  const decided = stage === "approved" || stage === "sent back" ? decidedBy : undefined;
  return (
    <>
      {decided && (
        <p className="review-decided">
          {stage === "approved" ? "Approved" : "Sent back"} {byWhom(decided.event)}
          {decided.remark && `: ${decided.remark}`}
        </p>
      )}
      {closed && (
        <p>
          Closed {byWhom(closed)}
          {closing?.remark && `: ${closing.remark}`}
        </p>
      )}
      {closed && closing?.gaps && (
        <section className="review-section" aria-label="Closed without an answer">
          <p>
            Closed with {closing.gaps.items.length} not answered. {closed.actor.name}:{" "}
            {closing.gaps.reason}
          </p>
          <ul className="review-remarks">
            {closing.gaps.items.map((says) => (
              <li key={says}>
                {says} <Ask live={live} about={{ kind: "line", says }} what={says} />
              </li>
            ))}
          </ul>
        </section>
      )}
      {state.started && (
        <Link href={`/jobs/${id}/close`} className="button review-close-out">
          Close-out: what came out, what went in, how the well was left
        </Link>
      )}
    </>
  );
}
