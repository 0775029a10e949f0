import { format } from "date-fns";
import { lazy, Suspense, useEffect, useMemo, useRef, useState } from "react";
import { Link } from "wouter";
import { targetMandrel } from "../../jobs/programme.ts";
import type { Results } from "../../jobs/results/results.ts";
import { isOpen, openBranch, openStandby } from "../../jobs/state/jobState.ts";
import { progressOf } from "../../jobs/state/progress.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { atPocket, type LiveJob, useJob } from "../useJob.ts";
import { useNow } from "../useNow.ts";
import { BrokenLog } from "./BrokenLog.tsx";
import { Changed } from "./Changed.tsx";
import { Differing } from "./Differing.tsx";
import { Finished } from "./Finished.tsx";
import { HoldView } from "./HoldView.tsx";
import { Instruments } from "./Instruments.tsx";
import { Spine } from "./Spine.tsx";
import { StepView } from "./StepView.tsx";
import "./RunSheet.css";

const ContingencyList = lazy(() => import("../Contingency/ContingencyList.tsx"));
const ContingencyView = lazy(() => import("../Contingency/ContingencyView.tsx"));
const CrewAndTime = lazy(() => import("../CrewAndTime/CrewAndTime.tsx"));

export function RunSheet({ id }: { readonly id: string }) {
  const live = useJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  if (live === "not issued" || live.state.stage === "issued") return <NotStarted id={id} />;
  return <RunSheetOf live={live} />;
}

function NotStarted({ id }: { readonly id: string }) {
  return (
    <>
      <TopBar title="Run sheet" />
      <main className="page">
        <p className="step-do">
          The run has not been started. It is started from the brief, once the programme is issued.
        </p>
        <Link href={`/jobs/${id}`} className="button next">
          Read the brief
        </Link>
      </main>
    </>
  );
}

function RunSheetOf({ live }: { readonly live: LiveJob }) {
  const { state, writer, programme } = live;
  const now = useNow();
  const progress = useMemo(() => progressOf(state, now, writer), [state, now, writer]);
  // The close-out leads to the step that answers what is missing.
  const [viewing, setViewing] = useState(
    () => new URLSearchParams(location.search).get("step") ?? undefined,
  );
  const [said, setSaid] = useState("");
  const [keysSlot, setKeysSlot] = useState<HTMLElement | null>(null);
  const [panel, setPanel] = useState<"none" | "spine" | "instruments">("none");
  const [aside, setAside] = useState<"none" | "wrong" | "crew">("none");
  const [before, setBefore] = useState<{ readonly results: Results; readonly of?: string }>();
  const [typed, setTyped] = useState<Results>();
  const branch = openBranch(state);
  const standby = openStandby(state);
  const item =
    progress.items.find((each) => each.id === viewing) ?? progress.current ?? progress.items.at(-1);
  // What a step or hold point works to is of its own mandrel.
  const pocket = item?.type === "step" ? item.step.pocket : item?.hold.hold.pocket;
  const here = useMemo(() => atPocket(live, pocket), [live, pocket]);
  const view = (id: string) => {
    setViewing(id);
    setSaid("");
    setBefore(undefined);
    setPanel("none");
    setAside("none");
    window.scrollTo({ top: 0 });
  };
  const recorded = (words: string) => {
    setViewing(undefined);
    setSaid(words);
    setBefore({ results: here.results, ...(pocket !== undefined && { of: pocket }) });
    setAside("none");
    window.scrollTo({ top: 0 });
  };
  const show = (what: typeof aside) => {
    setAside(aside === what ? "none" : what);
    setPanel("none");
    window.scrollTo({ top: 0 });
  };
  const deals = branch !== undefined && viewing === undefined;
  const shown = aside !== "none" ? aside : deals ? branch.event.hash : item?.id;
  const middle = useTitleFocus(shown);
  if (!item) return null;
  const isCurrent = item === progress.current;
  const place = progress.items.indexOf(item) + 1;
  return (
    <div className="run">
      <TopBar
        title={`${programme.well?.name ?? "Run sheet"}, mandrel ${targetMandrel(here.programme)?.number ?? "?"}`}
      />
      <div className="run-strip">
        <button
          type="button"
          className="button strip-button"
          aria-expanded={panel === "spine"}
          onClick={() => setPanel(panel === "spine" ? "none" : "spine")}
        >
          {item.phase.title}, {place} of {progress.items.length}
        </button>
        <button
          type="button"
          className="button strip-button"
          aria-expanded={panel === "instruments"}
          onClick={() => setPanel(panel === "instruments" ? "none" : "instruments")}
        >
          Instruments
        </button>
      </div>
      <div className="run-always">
        <Always live={live} aside={aside} onShow={show} />
      </div>
      <main className="run-body">
        <div className={`run-spine${panel === "spine" ? " shown" : ""}`}>
          <Spine progress={progress} viewed={item.id} onView={view} />
          <div className="spine-always">
            <Always live={live} aside={aside} onShow={show} />
          </div>
        </div>
        <div className="run-middle" ref={middle}>
          <BrokenLog live={live} />
          {state.stage === "sent back" && (
            <p className="problem">The engineer sent it back: {state.reviews.at(-1)?.remark}</p>
          )}
          {said !== "" && (
            <p className="run-said" role="status">
              {said}
            </p>
          )}
          {before && <Changed live={atPocket(live, before.of)} before={before.results} />}
          {standby && aside !== "crew" && (
            <button type="button" className="button run-back" onClick={() => show("crew")}>
              The crew stands by since {format(new Date(standby.event.at), "HH:mm")}:{" "}
              {standby.reason}. End it here.
            </button>
          )}
          <Differing live={live} />
          {branch && !deals && aside === "none" && (
            <button type="button" className="button run-back" onClick={() => recorded("")}>
              The sheet waits: back to what went wrong
            </button>
          )}
          {aside === "none" && !deals && !isCurrent && progress.current && !branch && (
            <button
              type="button"
              className="button run-back"
              onClick={() => view(progress.current?.id ?? "")}
            >
              Back to where the run stands:{" "}
              {progress.current.type === "hold"
                ? progress.current.hold.hold.title
                : progress.current.step.title}
            </button>
          )}
          {aside === "none" && !progress.current && (
            <Finished live={live} aside={viewing !== undefined} />
          )}
          {aside === "wrong" ? (
            <Suspense>
              <ContingencyList
                live={live}
                at={progress.current?.id}
                onClose={() => setAside("none")}
                onOpened={() => recorded("")}
              />
            </Suspense>
          ) : aside === "crew" ? (
            <Suspense>
              <CrewAndTime live={live} onClose={() => setAside("none")} onSaid={recorded} />
            </Suspense>
          ) : deals ? (
            <Suspense>
              <ContingencyView
                live={live}
                branch={branch}
                progress={progress}
                keysSlot={keysSlot}
                onSaid={recorded}
              />
            </Suspense>
          ) : item.type === "step" ? (
            <StepView
              key={item.id}
              live={here}
              item={item}
              isCurrent={isCurrent}
              onRecorded={recorded}
              keysSlot={keysSlot}
              onTyped={setTyped}
            />
          ) : (
            <HoldView key={item.id} live={here} item={item} onView={view} onRecorded={recorded} />
          )}
        </div>
        {/* The step's number keys take the instruments' place while a number is typed. */}
        <aside className={`run-side${panel === "instruments" ? " shown" : ""}`}>
          <div ref={setKeysSlot} />
          <Instruments
            live={typed ? { ...here, results: typed } : here}
            step={item.type === "step" ? item.step : undefined}
          />
        </aside>
      </main>
    </div>
  );
}

interface AlwaysProps {
  readonly live: LiveJob;
  readonly aside: "none" | "wrong" | "crew";
  readonly onShow: (what: "wrong" | "crew") => void;
}

/** One tap away from everywhere: what to do when something is wrong, and who has the run. */
function Always({ live: { state }, aside, onShow }: AlwaysProps) {
  if (!isOpen(state)) {
    const notes = state.stage === "approved" ? "" : "; notes and photographs are still taken";
    return <p className="run-closed">The run is closed: no step is changed any more{notes}.</p>;
  }
  return (
    <>
      <button
        type="button"
        className="button strip-button always-wrong"
        aria-expanded={aside === "wrong"}
        onClick={() => onShow("wrong")}
      >
        Something is wrong
      </button>
      <button
        type="button"
        className="button strip-button"
        aria-expanded={aside === "crew"}
        onClick={() => onShow("crew")}
      >
        Crew and time
      </button>
    </>
  );
}

/** When another item comes up its title takes the focus, so that a screen reader says where the run stands now. */
function useTitleFocus(id: string | undefined) {
  const middle = useRef<HTMLDivElement>(null);
  const shown = useRef(id);
  useEffect(() => {
    if (shown.current === id) return;
    shown.current = id;
    middle.current?.querySelector<HTMLElement>(".step-title")?.focus({ preventScroll: true });
  }, [id]);
  return middle;
}
