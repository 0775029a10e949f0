import { useState } from "react";
import { useLocation, useSearch } from "wouter";
import type { ToolString } from "../../jobs/records/equipment.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { Library } from "../../jobs/store/library.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { copyFor, withString } from "../../jobs/stringJobs.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

/** The job from whose plan the string was opened, which the address names. */
export function useNamedJob({ jobs }: Library): Job | undefined {
  const named = new URLSearchParams(useSearch()).get("job");
  return jobs.find(({ id }) => id === named);
}

interface CopyForJobProps {
  /** as it stands on the screen */
  readonly string: ToolString;
  readonly job: Job;
  readonly library: Library;
  /** What was changed here has gone into the copy. */
  readonly onTaken: () => Promise<void>;
}

/** Another string for one job: the other jobs keep the one they have. */
export function CopyForJob({ string, job, library, onTaken }: CopyForJobProps) {
  const store = useStore();
  const [, navigate] = useLocation();
  const [copying, setCopying] = useState(false);
  const [problem, setProblem] = useState("");
  const well = library.wells.find(({ id }) => id === job.well);

  const copy = async () => {
    setCopying(true);
    setProblem("");
    const made = copyFor(string, { well }, crypto.randomUUID());
    let kept = "";
    try {
      await store.put("strings", made);
      kept = ` The copy is kept as "${made.name}": choose it in the plan of the job.`;
      await store.put("jobs", withString(job, made, string.id));
      await onTaken();
      navigate(`/strings/${made.id}?job=${job.id}`);
    } catch (error) {
      setProblem(`${error instanceof Outdated ? error.message : notSaved(error)}${kept}`);
    } finally {
      setCopying(false);
    }
  };

  return (
    <>
      <button
        type="button"
        className="button"
        disabled={copying || string.tools.length === 0}
        onClick={() => void copy()}
      >
        Copy as another string for {well?.name ?? "this job"}
      </button>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </>
  );
}
