import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { pullsOf } from "./pulls.ts";
import "./InstrumentStrip.css";

interface InstrumentStripProps {
  readonly results: Results;
  readonly writer: Writer;
  readonly step: Step;
}

/** The instruments that matter now, in one line above the action, where the tablet stands upright. */
export function InstrumentStrip({ results, writer, step }: InstrumentStripProps) {
  if (step.string === undefined) return null;
  return (
    <section className="instrument-strip" aria-label="Instruments in short">
      {step.string !== "gauge" && (
        <ResultRow
          id="difference-at-mandrel"
          label="Annulus less tubing"
          results={results}
          writer={writer}
        />
      )}
      <ResultRow
        id={pullsOf(step).hanging}
        label="Hanging at mandrel"
        results={results}
        writer={writer}
      />
      <ResultRow id="largest-pull" label="Pull, at most" results={results} writer={writer} />
    </section>
  );
}
