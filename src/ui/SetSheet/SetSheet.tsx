import { format } from "date-fns";
import { useId, useMemo } from "react";
import { describeWarning } from "../../calc/describeWarning.ts";
import { asEntered, type Writer } from "../../jobs/display.ts";
import { focus, pocketsOf } from "../../jobs/pockets.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import { toSI } from "../../jobs/quantity.ts";
import type { Programme } from "../../jobs/records/programme.ts";
import { type Results, resultsOf } from "../../jobs/results/results.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type PlannedJob, usePlannedJob } from "../usePlannedJob.ts";
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
  const live = usePlannedJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  return <SetSheetOf live={live} />;
}

/** The sheets that go to the shop with the replacements, one after the other. */
function SetSheetOf({ live }: { readonly live: PlannedJob }) {
  const pockets = pocketsOf(live.draft.job);
  const [only] = pockets.length === 1 ? [live.draft.replacement?.serial] : [];
  return (
    <>
      <TopBar title={only ? `Set sheet, ${only}` : "Set sheet"} />
      <main className="page set-sheet">
        {pockets.map((pocket) => (
          <SheetOfValve key={pocket} live={live} pocket={pocket} />
        ))}
      </main>
    </>
  );
}

interface SheetOfValveProps {
  readonly live: PlannedJob;
  /** mandrel, by its id */
  readonly pocket: string;
}

/** Every line with its working, and the bench readings. */
function SheetOfValve({ live, pocket }: SheetOfValveProps) {
  const { writer, state } = live;
  const name = useId();
  const draft = focus(live.draft, pocket);
  const results = useMemo(() => resultsOf(draft, {}), [draft]);
  const { well, job, replacement } = draft;
  const mandrel = targetMandrel(draft);
  if (!replacement) {
    return (
      <p className="problem">
        No replacement valve is chosen for mandrel {mandrel?.number ?? "?"}. Choose one in the plan
        of this job.
      </p>
    );
  }
  if (!results.get("test-rack-needed")) {
    return (
      <p>
        {replacement.serial} for mandrel {mandrel?.number ?? "?"}: a valve of kind{" "}
        {replacement.kind} has no bellows, and nothing to set.
      </p>
    );
  }
  return (
    <article className="set-sheet-valve">
      <section>
        <p className="set-sheet-lead">
          {replacement.serial} for mandrel {mandrel?.number ?? "?"} of{" "}
          {well?.name ?? "a well that is not here"}
          {mandrel && `, ${asEntered(mandrel.depthAlongHole)} along hole`}. Job of {job.day}.
        </p>
        <Target draft={draft} results={results} writer={writer} />
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
      <section aria-labelledby={`${name}-lines`}>
        <h2 id={`${name}-lines`}>How it comes about</h2>
        <ol className="set-sheet-lines">
          {lines.map((each) => (
            <SetLine key={each} id={each} results={results} writer={writer} />
          ))}
        </ol>
      </section>
      <section aria-labelledby={`${name}-back`}>
        <h2 id={`${name}-back`}>What the card says it will do</h2>
        <ol className="set-sheet-lines">
          {back.map((each) => (
            <SetLine key={each} id={each} results={results} writer={writer} />
          ))}
        </ol>
      </section>
    </article>
  );
}

interface TargetProps {
  readonly draft: Programme;
  readonly results: Results;
  readonly writer: Writer;
}

/** The figure the shop works to, and what the valve is. */
function Target({ draft, results, writer }: TargetProps) {
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
