import { Link } from "wouter";
import { isOpen } from "../../jobs/state/jobState.ts";
import { Handed } from "../CloseOut/Handed.tsx";
import type { LiveJob } from "../useJob.ts";

interface FinishedProps {
  readonly live: LiveJob;
  /** a step is looked at: what is to do there comes first */
  readonly aside: boolean;
}

/** After the last step: what the record says is looked through and the run closed, then the pack goes to the engineer. */
export function Finished({ live, aside }: FinishedProps) {
  const { id, state } = live;
  if (isOpen(state)) {
    return (
      <section className="run-finished">
        {!aside && (
          <p className="step-do">
            Every step is done. What is wrong in it is corrected before closing.
          </p>
        )}
        <Link href={`/jobs/${id}/close`} className={aside ? "button" : "button next"}>
          Close out the run
        </Link>
      </section>
    );
  }
  return <Handed live={live} className="run-finished" />;
}
