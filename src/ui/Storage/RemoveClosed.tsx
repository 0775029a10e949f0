import { useMemo, useState } from "react";
import { foldJob } from "../../jobs/state/jobState.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { allJobs, useAllEvents, useLibrary, useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { useOnlyHere } from "./useEvidence.ts";

/** Closed and approved jobs can leave the tablet once all that was entered here is in a file. */
export function RemoveClosed() {
  const store = useStore();
  const library = useLibrary(allJobs);
  const events = useAllEvents();
  const onlyHere = useOnlyHere();
  const [problem, setProblem] = useState("");
  const closed = useMemo(
    () =>
      (library?.jobs ?? []).filter(({ id }) => {
        const { stage } = foldJob((events ?? []).filter((event) => event.job === id));
        return stage === "closed" || stage === "approved";
      }),
    [library, events],
  );
  if (closed.length === 0) return null;
  const remove = (job: string) =>
    store.remove({ jobs: [job] }).then(
      () => setProblem(""),
      (error: unknown) => setProblem(notSaved(error)),
    );
  return (
    <section aria-labelledby="storage-closed">
      <h2 id="storage-closed">Closed jobs</h2>
      <ul className="storage-jobs">
        {closed.map(({ id, well, day }) => {
          const name = `${library?.wells.find((each) => each.id === well)?.name ?? well}, ${day}`;
          const left = onlyHere.find(({ job }) => job === id)?.count ?? 0;
          return (
            <li key={id}>
              {left > 0 ? (
                <p>
                  <strong>{name}</strong>: {left} {left === 1 ? "entry is" : "entries are"} in no
                  file yet. Save its pack first; then it can be removed here.
                </p>
              ) : (
                <HoldButton
                  label={`Remove ${name}`}
                  consequence="Its log and its pictures leave this tablet. Its well and other records stay."
                  aside
                  onHeld={() => void remove(id)}
                />
              )}
            </li>
          );
        })}
      </ul>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </section>
  );
}
