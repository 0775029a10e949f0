import { format } from "date-fns";
import { lazy, Suspense, useMemo, useState } from "react";
import { Link } from "wouter";
import { review } from "../../jobs/commands/review.ts";
import { headsOf } from "../../jobs/log/heads.ts";
import { describeBroken } from "../../jobs/log/verify.ts";
import { focus, pocketsOf } from "../../jobs/pockets.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import type { Comparison } from "../../jobs/review/planActual.ts";
import { type ReviewRecord, reviewRecord } from "../../jobs/review/record.ts";
import { afterApproval } from "../../jobs/state/jobState.ts";
import { pocketHolds, wellNow } from "../../jobs/state/pocketAtWork.ts";
import { progressOf } from "../../jobs/state/progress.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { verdictOf } from "../../jobs/verdict/verdict.ts";
import { workInWords } from "../../jobs/workInWords.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { SavePack } from "../Packs/SavePack.tsx";
import { PocketChoice } from "../PocketChoice/PocketChoice.tsx";
import { useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type LiveJob, notSaved, useAct } from "../useJob.ts";
import { useNow } from "../useNow.ts";
import { usePlannedJob } from "../usePlannedJob.ts";
import { Changes } from "./Changes.tsx";
import { MeasuredInputs } from "./MeasuredInputs.tsx";
import { PlanActual } from "./PlanActual.tsx";
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

const stageWords = {
  draft: "Being planned",
  issued: "Issued, not started",
  running: "Still running",
  closed: "Closed, waits for the engineer",
  "sent back": "Sent back to the supervisor",
  approved: "Approved",
} as const;

/** Plan against actual, everything out of the ordinary, and the engineer's decision. */
function ReviewOf({ live }: { readonly live: LiveJob }) {
  const { id, state, writer, programme } = live;
  const now = useNow(300);
  const record = useMemo(() => reviewRecord(state, now, writer), [state, now, writer]);
  const verdict = useMemo(() => verdictOf(state, writer), [state, writer]);
  const progress = useMemo(() => progressOf(state, now, writer), [state, now, writer]);
  return (
    <>
      <TopBar title={`Record, ${programme.well?.name ?? ""}`} />
      <main className="page review">
        <header className="review-head">
          <h2>
            {workInWords(programme).join("; then: ")} of {programme.well?.name}
          </h2>
          <p>
            {stageWords[state.stage]}.{" "}
            {state.started && `Run of ${format(new Date(state.started.at), "d MMM yyyy")}, `}
            programme revision {state.revision}.
            {programme.well?.invented && " Invented for the demonstration."}
          </p>
          {state.closed?.body.type === "run closed" && state.closed.body.remark && (
            <p>
              {state.closed.actor.name}: {state.closed.body.remark}
            </p>
          )}
        </header>
        <LogState live={live} record={record} />
        {verdict && state.readings.length > 0 && <Verdict verdict={verdict} writer={writer} />}
        <Changes state={state} remarkable={record.remarkable} writer={writer} />
        <PlanActual comparisons={record.comparisons} writer={writer} />
        {verdict && <SetValve state={state} verdict={verdict} writer={writer} />}
        <OfPockets live={live} comparisons={record.comparisons} />
        <Notes live={live} />
        <Walk live={live} items={progress.items} />
        <Decision live={live} record={record} />
        {state.stage === "approved" && <WellAsLeft live={live} />}
        <div className="row">
          <SavePack job={id} />
          <Link href="/" className="button quiet">
            To the board
          </Link>
        </div>
      </main>
    </>
  );
}

function LogState({ live, record }: { readonly live: LiveJob; readonly record: ReviewRecord }) {
  const { events } = live.state;
  const uncovered = afterApproval(live.state);
  const [broken] = record.broken;
  if (broken) {
    return (
      <p className="problem">
        The log is not whole: {describeBroken(broken)}. The record cannot be approved as it is.
      </p>
    );
  }
  return (
    <div>
      <p>
        The log holds {events.length} events in an unbroken chain. Last:{" "}
        {Object.values(headsOf(events)).map((hash) => (
          <span key={hash} className="figure review-hash">
            {hash}{" "}
          </span>
        ))}
      </p>
      {uncovered.length > 0 && (
        <p className="problem">
          {uncovered.length} {uncovered.length === 1 ? "event has" : "events have"} come into the
          log after the approval, which does not cover {uncovered.length === 1 ? "it" : "them"}.
        </p>
      )}
    </div>
  );
}

interface OfPocketsProps {
  readonly live: LiveJob;
  readonly comparisons: readonly Comparison[];
}

/** What goes by a pocket, for each pocket of the job; a chart is loaded when somebody looks at it. */
function OfPockets({ live, comparisons }: OfPocketsProps) {
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
      <MeasuredInputs state={state} writer={writer} pocket={pocket} />
    </>
  );
}

function Notes({ live }: { readonly live: LiveJob }) {
  const { notes, reviews } = live.state;
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
              <strong>{each.decision === "approved" ? "Approved" : "Sent back"}.</strong>{" "}
              {each.remark}
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

function Decision({ live, record }: { readonly live: LiveJob; readonly record: ReviewRecord }) {
  const { id, state } = live;
  const act = useAct(id);
  const [remark, setRemark] = useState("");
  const [problem, setProblem] = useState("");
  if (state.stage !== "closed") return null;
  const decide = async (decision: "approved" | "sent back") => {
    const done = await act((situation) =>
      review(situation, decision, remark, headsOf(state.events)),
    );
    setProblem(done.ok ? "" : done.why);
  };
  return (
    <section className="card review-section">
      <h2>Decision</h2>
      <label className="review-remark">
        Remark
        <textarea rows={3} value={remark} onChange={(event) => setRemark(event.target.value)} />
      </label>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <div className="review-decide">
        <HoldButton
          label="Approve the record"
          consequence={`You sign the last event of the log. ${record.remarkable.length} ${record.remarkable.length === 1 ? "thing" : "things"} out of the ordinary.`}
          disabled={record.broken.length > 0}
          onHeld={() => void decide("approved")}
        />
        <button
          type="button"
          className="button review-back"
          onClick={() => void decide("sent back")}
        >
          Send back with this remark
        </button>
      </div>
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
