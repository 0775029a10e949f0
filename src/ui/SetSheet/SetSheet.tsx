import { useMemo } from "react";
import { asEntered } from "../../jobs/display.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import { resultsOf } from "../../jobs/results/results.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type LiveJob, useJob } from "../useJob.ts";
import { Bench } from "./Bench.tsx";
import { SetLine } from "./SetLine.tsx";
import "./SetSheet.css";

/** From what is wanted at the mandrel to what the test rack has to read, in the order it is worked. */
const lines: readonly ResultId[] = [
  "mandrel-tvd",
  "temperature-flowing",
  "area-ratio",
  "dome-at-temperature",
  "dome-60",
  "test-rack-needed",
];
const back: readonly ResultId[] = [
  "card-difference",
  "replacement-opening",
  "replacement-closing",
  "replacement-spread",
  "effect-factor",
];

export default function SetSheet({ id }: { readonly id: string }) {
  const live = useJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  return <SetSheetOf live={live} />;
}

/** The sheet that goes to the shop with the replacement: every line with its working, and the bench readings. */
function SetSheetOf({ live }: { readonly live: LiveJob }) {
  const { draft, writer } = live;
  const results = useMemo(() => resultsOf(draft, {}), [draft]);
  const { well, job, replacement } = draft;
  const mandrel = targetMandrel(draft);
  if (!replacement) {
    return (
      <Sheet title="Set sheet">
        <p className="problem">
          No replacement valve is chosen. Choose one in the plan of this job.
        </p>
      </Sheet>
    );
  }
  if (!results.get("test-rack-needed")) {
    return (
      <Sheet title={`Set sheet, ${replacement.serial}`}>
        <p>A valve of kind {replacement.kind} has no bellows, and nothing to set.</p>
      </Sheet>
    );
  }
  return (
    <Sheet title={`Set sheet, ${replacement.serial}`}>
      <section className="set-sheet-head">
        <p className="set-sheet-lead">
          Set {replacement.serial}, {replacement.kind}, {replacement.size}, for mandrel{" "}
          {mandrel?.number ?? "?"} of {well?.name ?? "a well that is not here"}
          {mandrel && `, ${asEntered(mandrel.depthAlongHole)} along hole`}. Job of {job.day}.
        </p>
        {replacement.invented && <p className="small soft">Invented for the demonstration.</p>}
        <p className="caution">
          <span aria-hidden="true">!</span>
          <span>
            Charging and testing a valve is pressure work: the shop's own procedure, the maker's
            limits and local rules come first.
          </span>
        </p>
        <button type="button" className="button set-sheet-print" onClick={() => window.print()}>
          Print
        </button>
      </section>
      <section aria-labelledby="set-sheet-lines">
        <h2 id="set-sheet-lines">To the test rack</h2>
        <ol className="set-sheet-lines">
          {lines.map((each) => (
            <SetLine key={each} id={each} results={results} writer={writer} />
          ))}
        </ol>
      </section>
      <Bench valve={replacement} results={results} writer={writer} />
      <section aria-labelledby="set-sheet-back">
        <h2 id="set-sheet-back">What the card says it will do</h2>
        <ol className="set-sheet-lines">
          {back.map((each) => (
            <SetLine key={each} id={each} results={results} writer={writer} />
          ))}
        </ol>
      </section>
    </Sheet>
  );
}

function Sheet({
  title,
  children,
}: {
  readonly title: string;
  readonly children: React.ReactNode;
}) {
  return (
    <>
      <TopBar title={title} />
      <main className="page set-sheet">{children}</main>
    </>
  );
}
