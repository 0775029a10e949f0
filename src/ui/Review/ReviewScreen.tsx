import { format } from "date-fns";
import { type ReactNode, useMemo, useState } from "react";
import { Link } from "wouter";
import { review } from "../../jobs/commands/review.ts";
import { headsOf } from "../../jobs/log/heads.ts";
import { describeBroken } from "../../jobs/log/verify.ts";
import { focus, pocketsOf } from "../../jobs/pockets.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import type { Comparison } from "../../jobs/review/planActual.ts";
import { type ReviewRecord, reviewRecord } from "../../jobs/review/record.ts";
import type { Remarkable } from "../../jobs/review/remarkable.ts";
import { afterApproval } from "../../jobs/state/jobState.ts";
import { pocketHolds, wellNow } from "../../jobs/state/pocketAtWork.ts";
import { progressOf } from "../../jobs/state/progress.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { workInWords } from "../../jobs/workInWords.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { SavePack } from "../Packs/SavePack.tsx";
import { useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type LiveJob, notSaved, useAct } from "../useJob.ts";
import { useNow } from "../useNow.ts";
import { usePlannedJob } from "../usePlannedJob.ts";
import { Figure } from "../Working/Figure.tsx";
import { Walk } from "./Walk.tsx";
import "./Review.css";

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
        <Remarks remarkable={record.remarkable} />
        <Plan live={live} comparisons={record.comparisons} />
        <Notes live={live} />
        <Walk live={live} items={progress.items} />
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

function Remarks({ remarkable }: { readonly remarkable: readonly Remarkable[] }) {
  return (
    <section className="card review-section">
      <h2>Out of the ordinary</h2>
      {remarkable.length === 0 && (
        <p>
          Nothing: no exception, no correction, no step left out, no limit exceeded, nothing in
          doubt that was stood by.
        </p>
      )}
      <ul className="review-remarks">
        {remarkable.map((each) => (
          <li key={`${each.kind}${each.title}${each.event?.hash}`}>
            <p className="review-kind">{each.kind}</p>
            <p>
              <strong>{each.title}.</strong> {each.says}
            </p>
            {each.event && (
              <p className="small soft">
                {format(new Date(each.event.at), "d MMM HH:mm")}, {each.event.actor.name},{" "}
                {each.event.actor.role}
              </p>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Readings that the calculations had something to say about, beside what they said. */
function Plan({
  live,
  comparisons,
}: {
  readonly live: LiveJob;
  readonly comparisons: readonly Comparison[];
}) {
  const { writer } = live;
  const planned = comparisons.filter(
    (each) => each.expected !== undefined || each.most !== undefined,
  );
  return (
    <section className="card review-section">
      <h2>Plan against actual</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Reading</th>
            <th scope="col">Read</th>
            <th scope="col">Expected</th>
            <th scope="col">Not more than</th>
            <th scope="col">Read less expected</th>
          </tr>
        </thead>
        <tbody>
          {planned.map((each) => {
            const cell = (si: number | undefined, calculated = true): ReactNode =>
              si === undefined ? (
                ""
              ) : (
                <Figure
                  dimension={each.dimension}
                  si={si}
                  writer={writer}
                  calculated={calculated}
                />
              );
            return (
              <tr
                key={each.reading.event.hash + each.reading.field}
                className={each.exceedsMost ? "exceeds" : ""}
              >
                <th scope="row">
                  {each.label}
                  {each.exceedsMost && <strong> (over the limit)</strong>}
                </th>
                <td data-name="read">{cell(each.actual, false)}</td>
                <td data-name="expected">{cell(each.expected)}</td>
                <td data-name="not more than">{cell(each.most)}</td>
                <td data-name="difference">
                  {each.expected !== undefined && each.dimension !== "pressure"
                    ? cell(each.actual - each.expected)
                    : each.expected !== undefined && (
                        <Figure
                          dimension="pressure difference"
                          si={each.actual - each.expected}
                          writer={writer}
                          calculated
                        />
                      )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
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
