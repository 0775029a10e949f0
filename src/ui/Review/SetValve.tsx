import { useMemo } from "react";
import { asEntered, type Writer } from "../../jobs/display.ts";
import { mandrelResultId } from "../../jobs/results/atMandrel.ts";
import type { Results } from "../../jobs/results/results.ts";
import {
  type SetValve as SetValveOf,
  settingInWords,
  setValves,
} from "../../jobs/review/setValveCheck.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import type { Verdict } from "../../jobs/verdict/verdict.ts";
import { Figure } from "../Working/Figure.tsx";
import { ResultRow } from "../Working/ResultRow.tsx";
import type { AskSlot } from "./askSlot.ts";

interface SetValveProps {
  readonly state: JobState;
  readonly verdict: Verdict;
  readonly writer: Writer;
  readonly ask?: AskSlot | undefined;
}

/** Every valve that was set: its setting, and what it does at the pressures read after the return. */
export function SetValve({ state, verdict, writer, ask }: SetValveProps) {
  const set = useMemo(() => setValves(state, verdict, writer), [state, verdict, writer]);
  if (set.length === 0) return null;
  return (
    <section className="card review-section" aria-labelledby="set-valve-title">
      <h2 id="set-valve-title">The valve that was set</h2>
      {set.map((each) => (
        <div key={each.pocket} className="set-valve">
          <h3>
            {each.valve.serial}, {each.valve.kind}, mandrel {each.mandrel ?? "?"}
          </h3>
          <p className="set-valve-says">{each.says}</p>
          <p>Setting: {settingInWords(each, writer)}.</p>
          <Against of={each} writer={writer} />
          {verdict.well && each.now?.opening !== undefined && (
            <Now of={each} results={verdict.well.results} writer={writer} />
          )}
          {ask?.(
            { kind: "line", says: `Valve ${each.valve.serial}, mandrel ${each.mandrel ?? "?"}` },
            each.valve.serial,
          )}
        </div>
      ))}
    </section>
  );
}

/** The setting against what the programme's design wants. */
function Against({ of, writer }: { readonly of: SetValveOf; readonly writer: Writer }) {
  const { wanted, needed, byDesign } = of;
  if (!wanted) return null;
  return (
    <p>
      The programme wants it to open at {asEntered(wanted)} at the mandrel
      {needed !== undefined && (
        <>
          , which needs <Figure dimension="pressure" si={needed} writer={writer} calculated /> on
          the test rack
        </>
      )}
      {byDesign !== undefined && (
        <>
          . By its card it opens at{" "}
          <Figure dimension="pressure" si={byDesign} writer={writer} calculated /> there
        </>
      )}
      .
    </p>
  );
}

interface NowProps {
  readonly of: SetValveOf;
  readonly results: Results;
  readonly writer: Writer;
}

function Now({ of: { now, valve }, results, writer }: NowProps) {
  if (!now) return null;
  const byProduction = valve.kind === "production-operated";
  const rows = [
    [byProduction ? "production" : "injection", "On its bellows"],
    [byProduction ? "injection" : "production", "On its seat"],
    ["opening", "Opens at"],
    ["opening-band", "Its opening may differ by ±"],
    ["closing", "Shuts at"],
  ] as const;
  return (
    <div className="set-valve-now">
      {rows.map(([figure, label]) => (
        <ResultRow
          key={figure}
          id={mandrelResultId(figure, now.mandrel)}
          label={label}
          results={results}
          writer={writer}
        />
      ))}
    </div>
  );
}
