import { useEffect, useMemo, useState } from "react";
import { Link } from "wouter";
import { cut, type Grain } from "../../jobs/codes/cut.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { useEvents, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { Choice } from "./Choice.tsx";
import { type JobInCodes, jobInCodes } from "./jobInCodes.ts";
import { Sequence } from "./Sequence.tsx";

/** A job shown as codes, one after the other, to the camera of another tablet. */
export function ShowCodes({ id }: { readonly id: string }) {
  const store = useStore();
  const [made, setMade] = useState<JobInCodes | "missing">();
  const [problem, setProblem] = useState("");
  const [times, setTimes] = useState(1);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the count is how often they were asked for
  useEffect(() => {
    let over = false;
    jobInCodes(store, id).then(
      (job) => {
        if (!over) setMade(job);
      },
      (error: Error) => {
        if (!over) setProblem(`The codes could not be made: ${error.message}. Open this again.`);
      },
    );
    return () => {
      over = true;
    };
  }, [store, id, times]);
  if (made === "missing") return <Nowhere what="job" />;
  return (
    <>
      <TopBar title={made ? `Codes, ${made.well}` : "Codes"} />
      <main className="page codes-page">
        {problem && (
          <p className="problem" role="alert">
            {problem}
          </p>
        )}
        {!made && !problem && <p role="status">Making the codes.</p>}
        {made && <Shown id={id} job={made} onAgain={() => setTimes(times + 1)} />}
      </main>
    </>
  );
}

interface ShownProps {
  readonly id: string;
  readonly job: JobInCodes;
  readonly onAgain: () => void;
}

function Shown({ id, job, onAgain }: ShownProps) {
  const [grain, setGrain] = useState<Grain>("fine");
  const made = useMemo(() => cut(job.text, grain), [job.text, grain]);
  const newer = (useEvents(id)?.length ?? job.events) - job.events;
  const about = (
    <>
      {newer > 0 && (
        <div className="notice codes-newer" role="status">
          <p>
            The job has {newer} newer {newer === 1 ? "entry" : "entries"} than these codes.
          </p>
          <button type="button" className="button" onClick={onAgain}>
            Make the codes anew
          </button>
        </div>
      )}
      <fieldset>
        <legend>Codes</legend>
        <div className="codes-choice">
          <Choice
            name="grain"
            label="Fine"
            isChosen={grain === "fine"}
            onChoose={() => setGrain("fine")}
          />
          <Choice
            name="grain"
            label="Coarse, where fine ones are not read"
            isChosen={grain === "coarse"}
            onChoose={() => setGrain("coarse")}
          />
        </div>
      </fieldset>
      <p>{leftBehind(job)}</p>
      <p className="small soft">
        Shown is not saved: until a pack or a backup is saved, what was entered here stays listed as
        on this tablet only.
      </p>
      <Link href={`/jobs/${id}`} className="button">
        Back to the brief
      </Link>
    </>
  );
  if (!made.ok) {
    return (
      <section className="codes-too-large">
        <p className="problem" role="alert">
          {made.why}
        </p>
        {about}
      </section>
    );
  }
  return (
    <Sequence key={`${made.transfer} ${grain}`} made={made} grain={grain}>
      {about}
    </Sequence>
  );
}

function leftBehind({ ofLog, ofStrings }: JobInCodes): string {
  const parts = [
    ofLog > 0 && `${ofLog} of the log`,
    ofStrings > 0 && `${ofStrings} of tool strings`,
  ];
  const count = parts.filter((part) => part !== false).join(" and ");
  if (count === "") return "Photographs do not travel in codes; this job has none.";
  const says = `Photographs do not travel in codes: ${count} stay behind. Save a pack to carry them over, too.`;
  // Their string comes over without them, and is not alike then.
  return ofStrings === 0
    ? says
    : `${says} A tablet that has the string with its photographs already asks which to have: keep what is there.`;
}
