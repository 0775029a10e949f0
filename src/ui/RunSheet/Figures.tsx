import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";
import type { ConditionState } from "../../jobs/state/conditions.ts";
import { Ring } from "../Ring/Ring.tsx";
import { ResultRow } from "../Working/ResultRow.tsx";
import "./Figures.css";

interface FiguresProps {
  readonly step: Step;
  readonly results: Results;
  readonly writer: Writer;
}

/** The figures one works to in a step, large enough to read across the unit. */
export function Figures({ step, results, writer }: FiguresProps) {
  if (!step.figures) return null;
  return (
    <section className="figures" aria-label="Figures to work to">
      {step.figures.map((id) => (
        <ResultRow key={id} id={id} results={results} writer={writer} />
      ))}
    </section>
  );
}

const shapes = {
  met: "released",
  "not met": "fails",
  "not known": "missing",
  excepted: "released under exception",
} as const;

interface AnswersProps {
  readonly found: readonly ConditionState[];
  /** whether anything typed on this screen is part of it */
  readonly typed: boolean;
}

/** What the readings say as they are typed, before anything is recorded. */
export function Answers({ found, typed }: AnswersProps) {
  const said = found.filter((each) => each.says !== "");
  if (said.length === 0) return null;
  return (
    <section aria-live="polite" className="answers">
      <h3>{typed ? "By what is typed here" : "By the readings before this step"}</h3>
      <ul>
        {said.map(({ condition, state, says }) => (
          <li key={condition.id} className={state === "not met" ? "answer bad" : "answer"}>
            <Ring shape={shapes[state]} size={30} silent />
            <span>{says}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
