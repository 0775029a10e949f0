import type { Step } from "../../jobs/sheet/sheet.ts";
import type { LiveJob } from "../useJob.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import "./InstrumentStrip.css";

interface InstrumentStripProps {
  readonly live: LiveJob;
  readonly step: Step;
}

/** The instruments that matter now, in one line above the action, where the tablet stands upright. */
export function InstrumentStrip({ live, step }: InstrumentStripProps) {
  const { results, writer } = live;
  const hanging = step.string === "set" ? "hanging-set" : "hanging-pull";
  return (
    <section className="instrument-strip" aria-label="Instruments in short">
      <ResultRow
        id="difference-at-mandrel"
        label="Annulus less tubing"
        results={results}
        writer={writer}
      />
      <ResultRow id={hanging} label="Hanging" results={results} writer={writer} />
      <ResultRow id="largest-pull" label="Pull, at most" results={results} writer={writer} />
    </section>
  );
}
