import type { Writer } from "../../jobs/display.ts";
import type { Proposal } from "../../jobs/planning/proposal.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import { ResultRow } from "../Working/ResultRow.tsx";

const ids: readonly ResultId[] = [
  "in-pull",
  "hanging-pull",
  "out-pull",
  "push-out-ratio",
  "lubricator-spare",
  "test-pressure",
  "casing-lowest",
  "casing-highest",
  "test-rack-needed",
  "card-difference",
];

/** What follows from the plan: the figures that decide, and the hold points of its run sheet. */
export function KeyFigures({
  proposal: { results, holdPoints },
  writer,
}: {
  readonly proposal: Proposal;
  readonly writer: Writer;
}) {
  const notYet = ids.flatMap((id) => {
    const traced = results.get(id);
    return traced && traced.outcome.state !== "known" ? [traced.label] : [];
  });
  return (
    <section className="card plan-figures" aria-labelledby="plan-figures">
      <h2 id="plan-figures">What follows</h2>
      {ids
        .filter((id) => results.value(id) !== undefined)
        .map((id) => (
          <ResultRow key={id} id={id} results={results} writer={writer} />
        ))}
      {notYet.length > 0 && (
        <p className="small soft plan-not-yet">
          Worked out once nothing of what they need is open: {notYet.join("; ")}.
        </p>
      )}
      <details>
        <summary>{holdPoints.length} hold points on its run sheet</summary>
        <ol>
          {holdPoints.map((title, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: one title may stand at several places
            <li key={index}>{title}</li>
          ))}
        </ol>
      </details>
    </section>
  );
}
