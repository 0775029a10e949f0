import { useState } from "react";
import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { AnyResultId } from "../../jobs/results/traced.ts";
import { Figure } from "./Figure.tsx";
import { WorkingDialog } from "./WorkingDialog.tsx";
import "./Working.css";

interface ResultRowProps {
  readonly id: AnyResultId;
  readonly results: Results;
  readonly writer: Writer;
  /** in place of the result's own name */
  readonly label?: string;
}

/** A calculated number; its working is one tap away. */
export function ResultRow({ id, results, writer, label }: ResultRowProps) {
  const [open, setOpen] = useState(false);
  const traced = results.get(id);
  if (!traced) return null;
  const { outcome, warnings } = traced;
  return (
    <>
      <button type="button" className="result-row" onClick={() => setOpen(true)}>
        <span className="result-label">
          {label ?? traced.label}
          {warnings.some((warning) => warning.kind === "outside") && (
            <strong className="result-flag"> (outside its range)</strong>
          )}
        </span>
        {outcome.state === "known" ? (
          <Figure dimension={traced.dimension} si={outcome.si} writer={writer} calculated />
        ) : (
          <span className="result-missing">
            {outcome.state === "missing"
              ? `not known: needs ${outcome.needs.join("; ")}`
              : `no answer: ${outcome.why}`}
          </span>
        )}
      </button>
      {open && (
        <WorkingDialog id={id} results={results} writer={writer} onClose={() => setOpen(false)} />
      )}
    </>
  );
}
