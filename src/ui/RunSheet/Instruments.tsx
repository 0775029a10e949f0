import { targetMandrel } from "../../jobs/programme.ts";
import { toSI } from "../../jobs/quantity.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";
import { fieldById } from "../../jobs/sheet/walk.ts";
import { quantitySI } from "../../jobs/state/measurementsOf.ts";
import { valvesOf, wellNow } from "../../jobs/state/pocketAtWork.ts";
import type { LiveJob } from "../useJob.ts";
import { WellDrawing } from "../WellDrawing/WellDrawing.tsx";
import { Figure } from "../Working/Figure.tsx";
import { ResultRow } from "../Working/ResultRow.tsx";
import { pullsOf } from "./pulls.ts";
import { Scale } from "./Scale.tsx";
import "./Instruments.css";

interface InstrumentsProps {
  readonly live: LiveJob;
  readonly step: Step | undefined;
}

/** What the hand on the lever has to know: line pull, the mandrel's pressures, weight against push-out. */
export function Instruments({ live, step }: InstrumentsProps) {
  const { programme, results, writer, state } = live;
  const { well } = programme;
  return (
    <section className="instruments" aria-label="Instruments">
      <div className="instrument-scales">
        <Mandrel live={live} />
        <LinePull live={live} step={step} />
        <Balance live={live} />
      </div>
      {well && (
        <div className="instrument-well">
          <WellDrawing
            well={wellNow(well, state)}
            valves={valvesOf(state.programme ?? programme)}
            results={results}
            writer={writer}
            target={programme.job.mandrel}
            toolAt={toolDepth(live, step)}
            slim
          />
        </div>
      )}
    </section>
  );
}

/** Where the string should be when the step is done, true vertical, m. */
function toolDepth({ results }: LiveJob, step: Step | undefined): number | undefined {
  const mandrel = results.value("mandrel-tvd");
  switch (step?.stringAt) {
    case "surface":
      return 0;
    case "mandrel":
      return mandrel;
    case "below mandrel":
      return mandrel && mandrel * 1.05;
    case undefined:
      return undefined;
  }
}

function Mandrel({ live }: { readonly live: LiveJob }) {
  const { programme, results, writer } = live;
  const { policy } = programme;
  const number = targetMandrel(programme)?.number ?? "?";
  const difference = results.value("difference-at-mandrel");
  const above = policy ? toSI("pressure difference", policy.annulusAboveTubing.value) : 0;
  const below = policy ? toSI("pressure difference", policy.tubingAboveAnnulus.value) : 0;
  const reach = 2.5 * Math.max(above, below, 1);
  return (
    <Scale
      label={`Annulus against tubing at mandrel ${number}`}
      from={-reach}
      to={reach}
      limits={[-below, above]}
      expected={0}
      measured={difference}
    >
      <ResultRow
        id="difference-at-mandrel"
        label={sideInWords(difference)}
        results={results}
        writer={writer}
      />
      <ResultRow id="casing-lowest" label="Casing from" results={results} writer={writer} />
      <ResultRow id="casing-highest" label="Casing to" results={results} writer={writer} />
    </Scale>
  );
}

/** A sign alone is misread at arm's length. */
function sideInWords(difference: number | undefined): string {
  if (difference === undefined) return "Difference";
  return difference < 0 ? "Tubing is higher" : "Annulus is higher";
}

function LinePull({ live, step }: InstrumentsProps) {
  const { results, writer, state } = live;
  const largest = results.value("largest-pull");
  const pulls = pullsOf(step);
  const sheet = live.programme.sheet;
  const last = state.readings.findLast((reading) => {
    const field = fieldById(sheet, reading.field);
    return field?.kind === "quantity" && field.dimension === "force";
  });
  const measured = quantitySI(last, writer.atmosphere);
  const lastLabel = last && fieldById(sheet, last.field)?.label;
  return (
    <Scale
      label={`Line pull at mandrel ${targetMandrel(live.programme)?.number ?? "?"}`}
      from={0}
      to={(largest ?? 5000) * 1.15}
      limits={largest === undefined ? [] : [largest]}
      expected={results.value(pulls.hanging)}
      measured={measured}
    >
      <ResultRow id="largest-pull" label="At most" results={results} writer={writer} />
      <ResultRow id={pulls.goingIn} label="Going in" results={results} writer={writer} />
      <ResultRow id={pulls.hanging} label="Hanging" results={results} writer={writer} />
      <ResultRow id={pulls.comingOut} label="Coming out" results={results} writer={writer} />
      {measured !== undefined && (
        <p className="instrument-last">
          <span>Last: {lastLabel}</span>
          <Figure dimension="force" si={measured} writer={writer} />
        </p>
      )}
    </Scale>
  );
}

function Balance({ live }: { readonly live: LiveJob }) {
  const { programme, results, writer } = live;
  const ratio = results.value("push-out-ratio");
  const least = programme.policy?.pushOutRatio.value;
  return (
    <Scale
      label="Weight over push-out and friction"
      from={0}
      to={Math.max(4, (least ?? 1) * 2)}
      limits={least === undefined ? [] : [least]}
      expected={ratio}
    >
      <ResultRow id="push-out-ratio" label="Ratio" results={results} writer={writer} />
    </Scale>
  );
}
