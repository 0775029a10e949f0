import { useMemo } from "react";
import { Link } from "wouter";
import { closeOutOf } from "../../jobs/closeOut/closeOut.ts";
import { gapsOf } from "../../jobs/closeOut/gaps.ts";
import { isOpen } from "../../jobs/state/jobState.ts";
import { progressOf } from "../../jobs/state/progress.ts";
import { workInWords } from "../../jobs/workInWords.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { BrokenLog } from "../RunSheet/BrokenLog.tsx";
import { useSettings } from "../settings.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type LiveJob, useJob } from "../useJob.ts";
import { useNow } from "../useNow.ts";
import { CloseRun } from "./CloseRun.tsx";
import { Gaps } from "./Gaps.tsx";
import { Handed } from "./Handed.tsx";
import { LiftObserved } from "./LiftObserved.tsx";
import { Sections } from "./Sections.tsx";
import "./CloseOut.css";

export default function CloseOutScreen({ id }: { readonly id: string }) {
  const live = useJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  if (live === "not issued" || !live.state.started) return <NotStarted id={id} />;
  return <CloseOutOf live={live} />;
}

function NotStarted({ id }: { readonly id: string }) {
  return (
    <>
      <TopBar title="Close-out" />
      <main className="page">
        <p>There is nothing to close out: the run has not been started.</p>
        <Link href={`/jobs/${id}`} className="button next">
          Read the brief
        </Link>
      </main>
    </>
  );
}

/** What the record says at the end, what it does not say, and the closing of the run. */
function CloseOutOf({ live }: { readonly live: LiveJob }) {
  const { id, state, writer, programme } = live;
  const now = useNow(60);
  const { actor } = useSettings();
  const sections = useMemo(() => closeOutOf(state, now, writer), [state, now, writer]);
  const { current } = useMemo(() => progressOf(state, now, writer), [state, now, writer]);
  const gaps = gapsOf(sections);
  const open = isOpen(state);
  return (
    <>
      <TopBar title={`Close-out, ${programme.well?.name ?? ""}`} />
      <main className="page close-out">
        <header className="close-head">
          <h2>
            {workInWords(programme).join("; then: ")} of {programme.well?.name}
          </h2>
          <p>
            {actor
              ? `${actor.name}, ${actor.role}, holds this tablet.`
              : "Nobody has said who holds this tablet."}
          </p>
          {open && current && (
            <div className="close-stands">
              <p className="problem">
                The sheet stands at "
                {current.type === "hold" ? current.hold.hold.title : current.step.title}". The run
                is closed when every step is done.
              </p>
              <Link href={`/jobs/${id}/run`} className="button next">
                Go on with the run
              </Link>
            </div>
          )}
          {!open && <Handed live={live} className="close-done" />}
        </header>
        <BrokenLog live={live} />
        <Gaps job={id} gaps={gaps} open={open} />
        {open && !current && (
          <a href="#close-run" className={gaps.length === 0 ? "button next" : "button"}>
            Go to closing the run
          </a>
        )}
        <Sections sections={sections} />
        {open && !current && <CloseRun live={live} gaps={gaps} />}
        <LiftObserved live={live} />
      </main>
    </>
  );
}
