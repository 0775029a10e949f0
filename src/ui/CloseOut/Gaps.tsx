import { Link } from "wouter";
import type { Gap } from "../../jobs/closeOut/gaps.ts";
import { Ring } from "../Ring/Ring.tsx";

interface GapsProps {
  readonly job: string;
  readonly gaps: readonly Gap[];
  /** the crew can still answer them */
  readonly open: boolean;
}

/** What nothing in the log answers comes first, each with the way to the step that answers it. */
export function Gaps({ job, gaps, open }: GapsProps) {
  if (gaps.length === 0) {
    return <p className="close-whole">Everything that is asked for at the end is answered.</p>;
  }
  return (
    <section className="card close-section" aria-label="Not answered">
      <h2>
        {gaps.length} {gaps.length === 1 ? "thing is" : "things are"} not answered
      </h2>
      {open && <p>Answer {gaps.length === 1 ? "it" : "them"}, or say why not when closing.</p>}
      <ul className="close-gaps">
        {gaps.map(({ id, says, at }) => (
          <li key={id}>
            <Ring shape="missing" size={30} silent />
            <span>{says}</span>
            {open && at !== undefined && (
              <Link href={`/jobs/${job}/run?step=${encodeURIComponent(at)}`} className="button">
                Answer it
              </Link>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
