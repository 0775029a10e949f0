import { useEffect, useRef } from "react";
import { ChooseFile } from "../ChooseFile.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { MappingCard } from "./MappingCard.tsx";
import { ChangeList, ProblemList, recordsInWords } from "./Outcome.tsx";
import { PreviewTable } from "./PreviewTable.tsx";
import { SheetCard } from "./SheetCard.tsx";
import { SourceCard } from "./SourceCard.tsx";
import { SurveyFile } from "./SurveyFile.tsx";
import { type BringIn, useBringIn } from "./useBringIn.ts";
import { WaysOn } from "./WaysOn.tsx";
import { WholeTable } from "./WholeTable.tsx";
import "./BringIn.css";

/** Brings in what the office has as tables: seen before it is written, all of it or nothing. */
export default function BringInScreen() {
  const bringIn = useBringIn();
  const { opened, surveys, look, study, outcome, busy, problem, said, written } = bringIn;
  const name = surveys?.name ?? opened?.name;
  // What is still to be said comes first; what was said can be changed below what it led to.
  const isAsked = outcome?.ok === false && (outcome.open.length > 0 || outcome.count === 0);
  const found = useRef<HTMLDivElement>(null);
  // What a check found stands below all that was mapped.
  useEffect(() => {
    if (outcome && (outcome.ok || outcome.open.length + outcome.count > 0)) {
      found.current?.scrollIntoView({ block: "start" });
    }
  }, [outcome]);
  return (
    <>
      <TopBar title="Bring in" />
      <main className="page bring">
        {name === undefined ? (
          <SourceCard bringIn={bringIn} />
        ) : (
          <div className="row bring-file">
            <span>
              From <bdi>{name}</bdi>
            </span>
            <ChooseFile
              label="Choose another file"
              onFile={(file) => void bringIn.openFile(file)}
            />
            <button type="button" className="button quiet" onClick={bringIn.startOver}>
              Start over
            </button>
          </div>
        )}
        {written ? (
          <Written bringIn={bringIn} />
        ) : (
          <>
            {surveys && <SurveyFile name={surveys.name} trajectories={surveys.trajectories} />}
            <SheetCard bringIn={bringIn} />
            {look && <MappingCard bringIn={bringIn} />}
            {study && <PreviewTable rows={study.preview} />}
            <div ref={found} className="bring-found">
              {isAsked && <WholeTable bringIn={bringIn} />}
              {outcome && !outcome.ok && <ProblemList outcome={outcome} />}
              {outcome?.ok && <ChangeList outcome={outcome} />}
              {!isAsked && <WholeTable bringIn={bringIn} />}
            </div>
          </>
        )}
        {problem && (
          <p className="problem" role="alert">
            {problem}
          </p>
        )}
        {said && <p role="status">{said}</p>}
        {!written && <Next bringIn={bringIn} />}
        {busy && <Working bringIn={bringIn} />}
      </main>
    </>
  );
}

function Written({ bringIn }: { readonly bringIn: BringIn }) {
  const { written } = bringIn;
  if (!written) return null;
  const { name, new: fresh, changed, same, wells } = written;
  const vertical = wells.filter(({ path }) => path.kind === "vertical");
  return (
    <section className="card bring-written" aria-labelledby="bring-written">
      <h2 id="bring-written">It is in</h2>
      <p role="status">
        From <bdi>{name}</bdi>: {fresh.toLocaleString("en-US")} new,{" "}
        {changed.toLocaleString("en-US")} changed, {same.toLocaleString("en-US")} the same as
        before.
        {changed > 0 && " What was here before is put aside under Storage."}
      </p>
      {vertical.length > 0 && (
        <p>
          {vertical.length === 1
            ? `${vertical[0]?.name} is taken as vertical: bring in its survey if it is deviated.`
            : `${vertical.length} wells are taken as vertical: bring in the surveys of those that are deviated.`}
        </p>
      )}
      <WaysOn wells={wells}>
        <button type="button" className="button" onClick={bringIn.startOver}>
          Bring in another table
        </button>
      </WaysOn>
    </section>
  );
}

/** Goes to the first thing that is asked of a column. */
function showQuestion() {
  const asked = document.querySelector<HTMLElement>(".bring-ask");
  asked?.scrollIntoView({ block: "center" });
  asked?.querySelector("button")?.focus({ preventScroll: true });
}

/** The one next action, where there is one. */
function Next({ bringIn }: { readonly bringIn: BringIn }) {
  const { study, outcome, busy } = bringIn;
  if (!study) return null;
  const open = study.questions.length;
  const asked = outcome && !outcome.ok ? outcome.open.length : 0;
  const nothing = outcome?.ok && outcome.counts.new + outcome.counts.changed === 0;
  return (
    <div className="bring-next">
      {open > 0 && (
        <button type="button" className="button quiet" onClick={showQuestion}>
          {open === 1 ? "One question" : `${open} questions`} about the columns: show
        </button>
      )}
      {open === 0 && asked > 0 && (
        <span>
          {asked === 1 ? "One thing" : `${asked} things`} to say for the whole table, then check
          again.
        </span>
      )}
      {nothing && <span>All of it is here already, the same. There is nothing to write.</span>}
      {outcome?.ok && !nothing ? (
        <button
          type="button"
          className="button next"
          disabled={busy !== undefined}
          onClick={bringIn.write}
        >
          Write {recordsInWords(outcome)}
        </button>
      ) : (
        !nothing && (
          <button
            type="button"
            className="button next"
            disabled={open > 0 || busy !== undefined}
            onClick={bringIn.check}
          >
            Check the table
          </button>
        )
      )}
    </div>
  );
}

/** Shown after a moment: what takes less than that needs no sign. */
function Working({ bringIn }: { readonly bringIn: BringIn }) {
  const { busy } = bringIn;
  const bar = useRef<HTMLProgressElement>(null);
  const done = busy?.done;
  useEffect(() => {
    if (bar.current && done !== undefined) bar.current.value = done;
  }, [done]);
  if (!busy) return null;
  return (
    <div className="bring-working" role="status">
      <span>
        {busy.what}
        {busy.done !== undefined &&
          `: row ${busy.done.toLocaleString("en-US")} of ${busy.of?.toLocaleString("en-US")}`}
      </span>
      <progress ref={bar} {...(busy.of !== undefined && { max: busy.of })} />
      {busy.what !== "Writing" && (
        <button type="button" className="button" onClick={bringIn.cancel}>
          Stop
        </button>
      )}
    </div>
  );
}
