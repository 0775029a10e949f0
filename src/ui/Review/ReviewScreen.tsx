import { format } from "date-fns";
import { lazy, Suspense, useMemo, useState } from "react";
import { Link } from "wouter";
import { focus, pocketsOf } from "../../jobs/pockets.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import { isStoodBy } from "../../jobs/review/entryRemarks.ts";
import type { Comparison } from "../../jobs/review/planActual.ts";
import { reviewRecord } from "../../jobs/review/record.ts";
import { decisionWords, standsInWords } from "../../jobs/review/standsInWords.ts";
import { pocketHolds, wellNow } from "../../jobs/state/pocketAtWork.ts";
import { progressOf } from "../../jobs/state/progress.ts";
import { isTalkedAbout } from "../../jobs/state/questions.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { verdictOf } from "../../jobs/verdict/verdict.ts";
import { workInWords } from "../../jobs/workInWords.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { LiftObserved } from "../CloseOut/LiftObserved.tsx";
import { SavePack } from "../Packs/SavePack.tsx";
import { PocketChoice } from "../PocketChoice/PocketChoice.tsx";
import { useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { useSettings } from "../settings.ts";
import { useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type LiveJob, notSaved } from "../useJob.ts";
import { useNow } from "../useNow.ts";
import { usePlannedJob } from "../usePlannedJob.ts";
import { Ask } from "./Ask.tsx";
import type { AskSlot } from "./askSlot.ts";
import { BegunBefore } from "./BegunBefore.tsx";
import { BEGUN, BegunQuestions } from "./begunQuestions.ts";
import { Changes } from "./Changes.tsx";
import { Closed } from "./Closed.tsx";
import { Decision } from "./Decision.tsx";
import { LogState } from "./LogState.tsx";
import { MeasuredInputs } from "./MeasuredInputs.tsx";
import { PlanActual } from "./PlanActual.tsx";
import { Questions } from "./Questions.tsx";
import { SetValve } from "./SetValve.tsx";
import { Verdict } from "./Verdict.tsx";
import { Walk } from "./Walk.tsx";
import "./Review.css";

const Weights = lazy(() => import("./Weights.tsx"));

export default function ReviewScreen({ id }: { readonly id: string }) {
  const live = usePlannedJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  return <ReviewOf live={live} />;
}

/** Plan against actual, everything out of the ordinary, and the engineer's decision. */
function ReviewOf({ live }: { readonly live: LiveJob }) {
  const { id, state, writer, programme } = live;
  const { actor } = useSettings();
  const begun = useHalfTyped(id, BEGUN, {});
  const now = useNow(300);
  const record = useMemo(() => reviewRecord(state, now, writer), [state, now, writer]);
  const verdict = useMemo(() => verdictOf(state, writer), [state, writer]);
  const progress = useMemo(() => progressOf(state, now, writer), [state, now, writer]);
  const ask: AskSlot = (about, what) => <Ask live={live} about={about} what={what} />;
  return (
    <BegunQuestions value={begun}>
      <TopBar title={`Record, ${programme.well?.name ?? ""}`} />
      <main className="page review">
        <header className="review-head">
          <h2>
            {workInWords(programme).join("; then: ")} of {programme.well?.name}
          </h2>
          <p>
            {standsInWords(state, record.broken.length > 0)}.{" "}
            {state.started && `Run of ${format(new Date(state.started.at), "d MMM yyyy")}, `}
            programme revision {state.revision}.
            {programme.well?.invented && " Invented for the demonstration."}
          </p>
          <Closed live={live} />
          {state.stage === "closed" && actor?.role === "production engineer" && (
            <a href="#decision" className="button review-close-out">
              Go to the decision
            </a>
          )}
        </header>
        {isTalkedAbout(state) && actor?.role === "production engineer" && (
          <BegunBefore live={live} />
        )}
        <Questions live={live} />
        <LogState live={live} record={record} />
        {verdict && state.readings.length > 0 && (
          <Verdict verdict={verdict} writer={writer} ask={ask} />
        )}
        <Changes state={state} remarkable={record.remarkable} writer={writer} ask={ask} />
        <PlanActual comparisons={record.comparisons} writer={writer} ask={ask} />
        {verdict && <SetValve state={state} verdict={verdict} writer={writer} ask={ask} />}
        <OfPockets live={live} comparisons={record.comparisons} ask={ask} />
        <Notes live={live} />
        <Walk live={live} items={progress.items} />
        <LiftObserved live={live} />
        <Decision live={live} record={record} />
        {state.stage === "approved" && <WellAsLeft live={live} />}
        <div className="row">
          <SavePack job={id} />
          <Link href={`/jobs/${id}/report`} className="button">
            Report
          </Link>
          <Link href="/" className="button quiet">
            To the board
          </Link>
        </div>
      </main>
    </BegunQuestions>
  );
}

interface OfPocketsProps {
  readonly live: LiveJob;
  readonly comparisons: readonly Comparison[];
  readonly ask: AskSlot;
}

/** What goes by a pocket, for each pocket of the job; a chart is loaded when somebody looks at it. */
function OfPockets({ live, comparisons, ask }: OfPocketsProps) {
  const { state, writer, programme } = live;
  const [pocket, setPocket] = useState(programme.job.mandrel);
  const [looked, setLooked] = useState(false);
  if (state.readings.length === 0) return null;
  return (
    <>
      <PocketChoice programme={programme} chosen={pocket} onChoose={setPocket} />
      <details
        className="card review-phase"
        onToggle={({ currentTarget }) => setLooked(looked || currentTarget.open)}
      >
        <summary>Weights on the depth chart</summary>
        {looked && (
          <Suspense fallback={<p>Drawing…</p>}>
            <Weights state={state} comparisons={comparisons} writer={writer} pocket={pocket} />
          </Suspense>
        )}
      </details>
      <MeasuredInputs state={state} writer={writer} pocket={pocket} ask={ask} />
    </>
  );
}

function Notes({ live }: { readonly live: LiveJob }) {
  const { reviews } = live.state;
  // What was stood by is listed under what changed and why.
  const notes = live.state.notes.filter((note) => !isStoodBy(note));
  if (notes.length === 0 && reviews.length === 0) return null;
  return (
    <section className="card review-section">
      <h2>Notes and decisions</h2>
      <ul className="review-remarks">
        {notes.map((note) => (
          <li key={note.event.hash}>
            <p>{note.text}</p>
            <p className="small soft">
              {format(new Date(note.event.at), "d MMM HH:mm")}, {note.event.actor.name}
            </p>
          </li>
        ))}
        {reviews.map((each) => (
          <li key={each.event.hash}>
            <p>
              <strong>{decisionWords[each.decision]}.</strong> {each.remark}
            </p>
            <p className="small soft">
              {format(new Date(each.event.at), "d MMM HH:mm")}, {each.event.actor.name},{" "}
              {each.event.actor.role}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The log says what the pocket holds now; the well's record says it too once somebody puts it there. */
function WellAsLeft({ live }: { readonly live: LiveJob }) {
  const store = useStore();
  const library = useLibrary({ records: { wells: [live.programme.well?.id ?? ""] } });
  const [problem, setProblem] = useState("");
  const { programme, state } = live;
  const well = library?.wells.find((each) => each.id === programme.well?.id);
  const now = pocketsOf(programme.job).flatMap((pocket) => {
    const holds = pocketHolds(state, pocket);
    const of = focus(programme, pocket);
    const sits = holds === "replacement" ? `${of.replacement?.serial} sits in` : "Nothing sits in";
    return holds ? [`${sits} mandrel ${targetMandrel(of)?.number ?? "?"}`] : [];
  });
  if (!well || now.length === 0) return null;
  const left = wellNow(well, state);
  const says = now.join(". ");
  if (JSON.stringify(left) === JSON.stringify(well)) {
    return <p>{says}; so says the well's record.</p>;
  }
  const keep = async () => {
    try {
      await store.put("wells", { ...left, revision: well.revision + 1 });
    } catch (error) {
      setProblem(error instanceof Outdated ? error.message : notSaved(error));
    }
  };
  return (
    <section className="card review-section">
      <h2>The well as left</h2>
      <p>{says}. The well's record still says otherwise.</p>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="button" className="button" onClick={() => void keep()}>
        Put it into the well's record
      </button>
    </section>
  );
}
