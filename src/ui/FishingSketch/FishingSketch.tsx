import { format } from "date-fns";
import { useEffect, useState } from "react";
import { flushSync } from "react-dom";
import { asEntered } from "../../jobs/display.ts";
import { photographsOf } from "../../jobs/fishingSketch.ts";
import type { ToolString } from "../../jobs/records/equipment.ts";
import type { Library } from "../../jobs/store/library.ts";
import { changedSinceIssue } from "../../jobs/stringJobs.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import type { LiveJob } from "../useJob.ts";
import { usePlannedJob } from "../usePlannedJob.ts";
import { SketchedString } from "./SketchedString.tsx";
import "./FishingSketch.css";

export default function FishingSketch({ id }: { readonly id: string }) {
  const live = usePlannedJob(id);
  const strings = live === undefined || live === "missing" ? [] : chosen(live);
  const library = useLibrary({ records: { strings: strings.map((string) => string.id) } });
  if (live === "missing") return <Nowhere what="job" />;
  if (!live || !library) return <main className="page" aria-busy="true" />;
  return <SketchOf live={live} library={library} />;
}

interface SketchProps {
  readonly live: LiveJob;
  readonly library: Library;
}

/** Every string of a job on paper: what a fishing crew asks for when one of them stays in the hole. */
function SketchOf({ live, library }: SketchProps) {
  const { programme, writer, state } = live;
  const { well, job, line } = programme;
  const printed = usePrinted();
  // A string chosen for two runs is one string.
  const strings = [...new Map(chosen(live).map((string) => [string.id, string])).values()];
  return (
    <>
      <TopBar title={`Fishing sketch, ${well?.name ?? "no well"}`} />
      <main className="page sketch">
        <section className="sketch-head">
          <p className="sketch-lead">
            Strings for {well?.name ?? "a well that is not here"}, job of {job.day}.
          </p>
          <p>
            Line:{" "}
            {line
              ? `${line.name}, ${asEntered(line.diameter)}, breaks at ${asEntered(line.breakingStrength)} (${line.strengthFrom})`
              : "not chosen"}
            .
          </p>
          <p className="caution">
            <span aria-hidden="true">!</span>
            <span>
              On location every part is measured before it goes in: length closed and extended,
              outside diameter, fishing neck, pins. Whoever measured signs on the paper. A part
              without dimensions does not go in (common practice).
            </span>
          </p>
          {strings.some(({ invented }) => invented) && (
            <p className="small soft">Invented for the demonstration.</p>
          )}
          <p className="sketch-printed small">
            Printed {format(printed, "yyyy-MM-dd HH:mm")}
            {state.stage === "draft"
              ? ", from a programme that is not issued yet"
              : `, programme revision ${state.revision}`}
            .
          </p>
          {strings.length === 0 ? (
            <p className="problem">No string is chosen. Choose one in the plan of this job.</p>
          ) : (
            <button
              type="button"
              className="button next sketch-print"
              onClick={() => window.print()}
            >
              Print
            </button>
          )}
        </section>
        {strings.map((string) => (
          <SketchedString
            key={string.id}
            string={string}
            photographs={photographsOf(string, library)}
            changed={state.stage !== "draft" && changedSinceIssue(string, library)}
            programme={programme}
            writer={writer}
          />
        ))}
      </main>
    </>
  );
}

/** When it is printed: the screen may have been open for hours. */
function usePrinted(): Date {
  const [at, setAt] = useState(() => new Date());
  useEffect(() => {
    // What is printed is drawn before the handler returns.
    const print = () => flushSync(() => setAt(new Date()));
    window.addEventListener("beforeprint", print);
    return () => window.removeEventListener("beforeprint", print);
  }, []);
  return at;
}

const chosen = ({ programme }: LiveJob): ToolString[] =>
  Object.values(programme.strings).filter((string) => string !== undefined);
