import { useEffect, useMemo, useRef, useState } from "react";
import { Link } from "wouter";
import { targetMandrel } from "../../jobs/programme.ts";
import { progressOf } from "../../jobs/state/progress.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type LiveJob, useJob } from "../useJob.ts";
import { useNow } from "../useNow.ts";
import { Finished } from "./Finished.tsx";
import { HoldView } from "./HoldView.tsx";
import { Instruments } from "./Instruments.tsx";
import { Spine } from "./Spine.tsx";
import { StepView } from "./StepView.tsx";
import "./RunSheet.css";

export function RunSheet({ id }: { readonly id: string }) {
  const live = useJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  if (live.state.stage === "draft" || live.state.stage === "issued")
    return <NotStarted live={live} />;
  return <RunSheetOf live={live} />;
}

function NotStarted({ live }: { readonly live: LiveJob }) {
  return (
    <>
      <TopBar title="Run sheet" />
      <main className="page">
        <p className="step-do">
          The run has not been started. It is started from the brief, once the programme is issued.
        </p>
        <Link href={`/jobs/${live.id}`} className="button next">
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
  const [viewing, setViewing] = useState<string>();
  const [said, setSaid] = useState("");
  const [keysSlot, setKeysSlot] = useState<HTMLElement | null>(null);
  const [panel, setPanel] = useState<"none" | "spine" | "instruments">("none");
  const item =
    progress.items.find((each) => each.id === viewing) ?? progress.current ?? progress.items.at(-1);
  const view = (id: string) => {
    setViewing(id);
    setSaid("");
    setPanel("none");
    window.scrollTo({ top: 0 });
  };
  const recorded = (words: string) => {
    setViewing(undefined);
    setSaid(words);
    window.scrollTo({ top: 0 });
  };
  const middle = useTitleFocus(item?.id);
  if (!item) return null;
  const isCurrent = item === progress.current;
  const place = progress.items.indexOf(item) + 1;
  return (
    <div className="run">
      <TopBar
        title={`${programme.well?.name ?? "Run sheet"}, mandrel ${targetMandrel(programme)?.number ?? "?"}`}
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
      <main className="run-body">
        <div className={`run-spine${panel === "spine" ? " shown" : ""}`}>
          <Spine progress={progress} viewed={item.id} onView={view} />
        </div>
        <div className="run-middle" ref={middle}>
          {state.stage === "sent back" && (
            <p className="problem">The engineer sent it back: {state.reviews.at(-1)?.remark}</p>
          )}
          {said && (
            <p className="run-said" role="status">
              {said}
            </p>
          )}
          {!isCurrent && progress.current && (
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
          {!progress.current && <Finished live={live} />}
          {item.type === "step" ? (
            <StepView
              key={item.id}
              live={live}
              item={item}
              isCurrent={isCurrent}
              onRecorded={recorded}
              keysSlot={keysSlot}
            />
          ) : (
            <HoldView key={item.id} live={live} item={item} onView={view} onRecorded={recorded} />
          )}
        </div>
        {/* The step's number keys take the instruments' place while a number is typed. */}
        <aside className={`run-side${panel === "instruments" ? " shown" : ""}`}>
          <div ref={setKeysSlot} />
          <Instruments live={live} step={item.type === "step" ? item.step : undefined} />
        </aside>
      </main>
    </div>
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
