import { useState } from "react";
import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { AnyResultId } from "../../jobs/results/traced.ts";
import { Figure } from "./Figure.tsx";
import { WorkingDialog } from "./WorkingDialog.tsx";
import "./Working.css";

interface WorkingFigureProps {
  readonly id: AnyResultId;
  readonly results: Results;
  readonly writer: Writer;
}

/** A calculated number in a table; its working is one tap away. Nothing where it is not known. */
export function WorkingFigure({ id, results, writer }: WorkingFigureProps) {
  const [open, setOpen] = useState(false);
  const traced = results.get(id);
  if (traced?.outcome.state !== "known") return null;
  return (
    <>
      <button type="button" className="working-figure" onClick={() => setOpen(true)}>
        <Figure dimension={traced.dimension} si={traced.outcome.si} writer={writer} calculated />
        <span className="hidden-label">, its working</span>
      </button>
      {open && (
        <WorkingDialog id={id} results={results} writer={writer} onClose={() => setOpen(false)} />
      )}
    </>
  );
}
