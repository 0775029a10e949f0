import { format } from "date-fns";
import { type ReactNode, useMemo } from "react";
import { describeWarning } from "../../calc/describeWarning.ts";
import { asEntered } from "../../jobs/display.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import { toSI } from "../../jobs/quantity.ts";
import { type Results, resultsOf } from "../../jobs/results/results.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type LiveJob, useJob } from "../useJob.ts";
import { Figure } from "../Working/Figure.tsx";
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
  const { draft, writer, state } = live;
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
      <section>
        <p className="set-sheet-lead">
          {replacement.serial} for mandrel {mandrel?.number ?? "?"} of{" "}
          {well?.name ?? "a well that is not here"}
          {mandrel && `, ${asEntered(mandrel.depthAlongHole)} along hole`}. Job of {job.day}.
        </p>
        <Target live={live} results={results} />
        {replacement.invented && <p className="small soft">Invented for the demonstration.</p>}
        <p className="caution">
          <span aria-hidden="true">!</span>
          <span>
            Charging and testing a valve is pressure work: the shop's own procedure, the maker's
            limits and local rules come first.
          </span>
        </p>
        <p className="set-sheet-printed small">
          Printed {format(new Date(), "yyyy-MM-dd HH:mm")}
          {state.stage === "draft"
            ? ", from a programme that is not issued yet"
            : `, programme revision ${state.revision}`}
          .
        </p>
        <button type="button" className="button set-sheet-print" onClick={() => window.print()}>
          Print
        </button>
      </section>
      <Bench valve={replacement} results={results} writer={writer} />
      <section aria-labelledby="set-sheet-lines">
        <h2 id="set-sheet-lines">How it comes about</h2>
        <ol className="set-sheet-lines">
          {lines.map((each) => (
            <SetLine key={each} id={each} results={results} writer={writer} />
          ))}
        </ol>
      </section>
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

/** The figure the shop works to, and what the valve is. */
function Target({ live, results }: { readonly live: LiveJob; readonly results: Results }) {
  const { writer, draft } = live;
  const { replacement: valve, policy } = draft;
  const needed = results.get("test-rack-needed");
  const tolerance = policy && toSI("pressure difference", policy.setPressureTolerance.value);
  const facts = [
    valve?.kind,
    valve?.size,
    valve?.port && `port ${asEntered(valve.port)}`,
    valve?.seat && `${valve.seat} seat`,
    valve?.latch,
    valve?.charge === "none" ? "no charge, spring only" : "nitrogen charge",
  ].filter(Boolean);
  return (
    <>
      <p className="set-sheet-target">
        {needed?.outcome.state === "known" ? (
          <>
            Set to <Figure dimension="pressure" si={needed.outcome.si} writer={writer} calculated />{" "}
            at 60 °F
            {tolerance !== undefined && `, ± ${writer.write("pressure difference", tolerance)}`}
          </>
        ) : (
          "Not known yet what to set it to: see below what is missing."
        )}
      </p>
      <p>{facts.join(", ")}</p>
      {needed?.warnings.map((warning) => {
        const words = describeWarning(warning, writer.measure);
        return (
          <p key={words} className="small">
            Mind: {words}.
          </p>
        );
      })}
    </>
  );
}

function Sheet({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <>
      <TopBar title={title} />
      <main className="page set-sheet">{children}</main>
    </>
  );
}
