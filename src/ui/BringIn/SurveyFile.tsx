import { useState } from "react";
import { asEntered } from "../../jobs/display.ts";
import type { Trajectory } from "../../jobs/files/witsml.ts";
import type { Well } from "../../jobs/records/well.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { surveyForWell, wellByName } from "../../jobs/tables/surveyFile.ts";
import { useLibrary, useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { WaysOn } from "./WaysOn.tsx";

/** A survey is for one of the wells here, whichever the planner says. */
const everyWell = { whole: ["wells"] } as const;

interface SurveyFileProps {
  readonly name: string;
  readonly trajectories: readonly Trajectory[];
}

/** The surveys of a WITSML file: which is for which well, what is new in it, and then it is written. */
export function SurveyFile({ name, trajectories }: SurveyFileProps) {
  const library = useLibrary(everyWell);
  if (!library) return null;
  return (
    <section className="bring-surveys" aria-labelledby="bring-surveys">
      <h2 id="bring-surveys">
        {trajectories.length === 1
          ? "One survey in the file"
          : `${trajectories.length} surveys in the file`}
      </h2>
      {library.wells.length === 0 && (
        <p className="problem">
          No well is here yet: bring in the table of wells and mandrels first, then this file.
        </p>
      )}
      {trajectories.map((trajectory, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two surveys of a file may be named alike
        <SurveyCard key={index} file={name} trajectory={trajectory} wells={library.wells} />
      ))}
    </section>
  );
}

interface CardProps {
  readonly file: string;
  readonly trajectory: Trajectory;
  readonly wells: readonly Well[];
}

const leftOut = (of: Trajectory["skipped"]) =>
  of.map(({ station, why }) => (
    <li key={`${station} ${why}`}>
      <strong>
        <bdi>{station}</bdi>
      </strong>
      : {why}
    </li>
  ));

function SurveyCard({ file, trajectory, wells }: CardProps) {
  const store = useStore();
  const guessed = wellByName(trajectory, wells)?.id ?? "";
  const [chosen, setChosen] = useState(guessed);
  const [problem, setProblem] = useState("");
  const [said, setSaid] = useState("");
  const [writing, setWriting] = useState(false);
  const well = wells.find(({ id }) => id === chosen);
  const { stations, skipped, problems, notes } = trajectory;
  const fit = well && surveyForWell(trajectory, well);
  const write = async () => {
    if (!well || fit?.is !== "changes") return;
    setWriting(true);
    setProblem("");
    try {
      const copy = { made: new Date().toISOString(), why: `before ${file} was brought in` };
      await store.receive({ records: { wells: [fit.well] }, events: [], copy });
      setSaid(`It is in: ${well.name} has a path of ${stations.length} stations.`);
    } catch (error) {
      setProblem(
        error instanceof Outdated
          ? "Nothing was written: the well was changed on this device while you were looking. Look again, then write."
          : notSaved(error),
      );
    }
    setWriting(false);
  };
  const [first, last] = [stations[0], stations.at(-1)];
  const title = [trajectory.well, trajectory.wellbore, trajectory.name].filter(Boolean).join(", ");
  return (
    <article className="card bring-survey">
      <h3>
        <bdi>{title || "A survey without a name"}</bdi>
      </h3>
      <p>
        {stations.length} stations
        {first &&
          last &&
          ` from ${asEntered(first.depthAlongHole)} to ${asEntered(last.depthAlongHole)}`}
        .{trajectory.azimuthFrom && ` Azimuths from ${trajectory.azimuthFrom}.`}
      </p>
      {notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      {problems.length > 0 && (
        <>
          <p className="problem">
            {problems.length === 1 ? "One station" : `${problems.length} stations`} of this survey
            cannot be read, so it is not taken: a path with a hole in it is a wrong path. Have the
            file mended, then choose it again.
          </p>
          <ul>{leftOut(problems)}</ul>
        </>
      )}
      {skipped.length > 0 && (
        <details>
          <summary>
            {skipped.length} left out, by what the file says of{" "}
            {skipped.length === 1 ? "it" : "them"}
          </summary>
          <ul>{leftOut(skipped)}</ul>
        </details>
      )}
      {problems.length === 0 && (
        <label className="bring-answer">
          Which well is it of?
          <select
            value={chosen}
            onChange={(event) => {
              setChosen(event.target.value);
              setSaid("");
            }}
          >
            <option value="">Choose</option>
            {wells.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      {problems.length === 0 && guessed !== "" && chosen === guessed && (
        <p className="soft small">Found by its name. Make sure that it is this well.</p>
      )}
      {fit?.is === "refused" && problems.length === 0 && <p className="problem">{fit.why}</p>}
      {fit && fit.is !== "refused" && !said && <p>{fit.words}</p>}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {said && <p role="status">{said}</p>}
      {said && well && <WaysOn wells={[well]} />}
      {fit?.is === "changes" && !said && (
        <div className="row">
          <button
            type="button"
            className="button next"
            disabled={writing}
            onClick={() => void write()}
          >
            {writing ? "Writing…" : `Write the path of ${well?.name}`}
          </button>
        </div>
      )}
    </article>
  );
}
