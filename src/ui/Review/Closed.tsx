import { Link } from "wouter";
import type { LiveJob } from "../useJob.ts";
import { Ask } from "./Ask.tsx";

/** What the supervisor closed the run with: a remark, and what was left unanswered, with the reason. */
export function Closed({ live }: { readonly live: LiveJob }) {
  const { state, id } = live;
  const { closed } = state;
  const closing = closed?.body.type === "run closed" ? closed.body : undefined;
  return (
    <>
      {closed && closing?.remark && (
        <p>
          {closed.actor.name}: {closing.remark}
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
