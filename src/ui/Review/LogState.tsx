import { brokenInWords } from "../../jobs/brokenInWords.ts";
import { headsOf } from "../../jobs/log/heads.ts";
import { uncoveredInWords } from "../../jobs/report/stageInWords.ts";
import type { ReviewRecord } from "../../jobs/review/record.ts";
import { closingHash, inFours } from "../../jobs/state/closingHash.ts";
import type { LiveJob } from "../useJob.ts";

interface LogStateProps {
  readonly live: LiveJob;
  readonly record: ReviewRecord;
}

/** Whether the log holds, and the one fingerprint of it that is signed, printed and read out. */
export function LogState({ live, record }: LogStateProps) {
  const { state } = live;
  const { events, stage } = state;
  const uncovered = uncoveredInWords(state);
  const [broken] = record.broken;
  if (broken) {
    return (
      <div className="problem review-broken" role="alert">
        <p>
          {stage === "approved"
            ? "The log is not whole: it is not the log that was approved."
            : "The log is not whole: the record cannot be approved as it is."}
        </p>
        <p>{brokenInWords(broken, state)}</p>
      </div>
    );
  }
  const hash = closingHash(state);
  const signs =
    stage === "approved"
      ? "What was signed"
      : stage === "closed"
        ? "What an approval signs"
        : "The log as it stands";
  return (
    <section className="review-section" aria-label="The log">
      <p>The log holds {events.length} events in an unbroken chain.</p>
      {hash && (
        <p>
          {signs}, as one fingerprint: <span className="figure review-hash">{inFours(hash)}</span>
        </p>
      )}
      <details>
        <summary className="small soft review-heads">Last entry of each tablet</summary>
        {Object.values(headsOf(events)).map((head) => (
          <span key={head} className="figure review-hash">
            {head}
          </span>
        ))}
      </details>
      {uncovered && <p className="problem">{uncovered}</p>}
    </section>
  );
}
