import { useMemo, useState } from "react";
import { Link } from "wouter";
import { lineReadings } from "../../jobs/results/lineReadings.ts";
import { balances } from "../../jobs/results/pushOutBalances.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { PocketChoice } from "../PocketChoice/PocketChoice.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type PlannedJob, plannedAt, usePlannedJob } from "../usePlannedJob.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { Balance } from "./Balance.tsx";
import { Drift } from "./Drift.tsx";
import { LinePulls } from "./LinePulls.tsx";
import { PathTable } from "./PathTable.tsx";
import { WeakPoints } from "./WeakPoints.tsx";
import "./LineScreen.css";

const groups: readonly { readonly title: string; readonly ids: readonly ResultId[] }[] = [
  {
    title: "Stack",
    ids: ["lowest-rating", "expected-maximum", "test-pressure", "lubricator-spare"],
  },
  {
    title: "Line",
    ids: [
      "indicator-factor",
      "packing-friction",
      "fraction-of-breaking",
      "sheave-ratio",
      "gas-at-mandrel-most",
      "sour-partial-pressure",
    ],
  },
  {
    title: "Stretch and counter",
    ids: [
      "depth-reference",
      "stretch-hanging",
      "stretch-thermal",
      "stretch-at-limit",
      "counter-correction",
      "counter-at-mandrel",
    ],
  },
  {
    title: "Overpull and pins",
    ids: [
      "overpull-pull",
      "overpull-set",
      "release-pull",
      "pulling-pins",
      "pin-shear",
      "pin-shear-most",
      "pin-over-line",
      "pin-over-blow",
      "pin-over-latch",
    ],
  },
  {
    title: "Unequal pressure at the pocket",
    ids: [
      "difference-at-mandrel",
      "force-seated",
      "force-clear",
      "rush-least",
      "rush-most",
      "rush-over-weight",
    ],
  },
  { title: "Path", ids: ["mandrel-tvd", "mandrel-inclination", "mandrel-dogleg"] },
];

export default function LineScreen({ id }: { readonly id: string }) {
  const live = usePlannedJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  return <LineOf live={live} />;
}

/** Whether the string goes down, what the line should read on the way, and whether it passes. */
function LineOf({ live }: { readonly live: PlannedJob }) {
  const { writer, state } = live;
  const [chosen, setChosen] = useState<string>();
  const { programme, results } = useMemo(() => plannedAt(live, chosen), [live, chosen]);
  const readings = useMemo(() => lineReadings(state, results), [state, results]);
  const balance = useMemo(() => balances(results, readings), [results, readings]);
  return (
    <>
      <TopBar title={`Line and string, ${programme.well?.name ?? "no well"}`} />
      <main className="page line-screen">
        <Balance balances={balance} results={results} writer={writer}>
          <PocketChoice
            programme={live.programme}
            chosen={programme.job.mandrel}
            onChoose={setChosen}
          />
          <Next live={live} />
        </Balance>
        <LinePulls results={results} readings={readings} writer={writer} />
        <Drift results={results} writer={writer} />
        <section className="line-groups" aria-label="Stack, line and pins">
          {groups
            .filter(({ ids }) => ids.some((each) => results.get(each)))
            .map(({ title, ids }) => (
              <div key={title} className="card">
                <h2>{title}</h2>
                {ids.map((each) => (
                  <ResultRow key={each} id={each} results={results} writer={writer} />
                ))}
              </div>
            ))}
          <PathTable results={results} writer={writer} />
          <WeakPoints results={results} writer={writer} />
        </section>
      </main>
    </>
  );
}

/** Back to the work that this screen was opened from. */
function Next({ live: { id, state } }: { readonly live: PlannedJob }) {
  const runs = state.stage === "running" || state.stage === "sent back";
  return (
    <div className="row">
      <Link href={runs ? `/jobs/${id}/run` : `/jobs/${id}`} className="button next">
        {runs ? "Go on with the run" : "Back to the brief"}
      </Link>
    </div>
  );
}
