import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { Link } from "wouter";
import {
  type BoardJob,
  boardColumns,
  isUnderWay,
  nextJob,
  readable,
  type UnreadJob,
} from "../../jobs/board.ts";
import { readinessGroups } from "../../jobs/readiness.ts";
import type { Role } from "../../jobs/roles.ts";
import { InstallFirst } from "../offline/InstallFirst.tsx";
import { mustBeInstalledFirst } from "../offline/installFirst.ts";
import { acceptNewVersion, useAppState } from "../offline/updates.ts";
import { PackArrivals } from "../Packs/PackArrivals.tsx";
import { Ring } from "../Ring/Ring.tsx";
import { StorageLine } from "../Storage/StorageLine.tsx";
import { changeSettings, useSettings } from "../settings.ts";
import { allJobs, useAllEvents, useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { useNow } from "../useNow.ts";
import { Approved } from "./Approved.tsx";
import "./Board.css";

export default function Board() {
  const library = useLibrary(allJobs);
  const events = useAllEvents();
  const now = useNow(60);
  const { units, demonstrated, hadJobs, actor } = useSettings();
  const store = useStore();
  const { waiting } = useAppState();
  const [importing, setImporting] = useState(false);
  const columns = useMemo(
    () => library && events && boardColumns(library, events, now, units),
    [library, events, now, units],
  );
  const jobs = useMemo(() => readable(columns ?? []), [columns]);
  const next = nextJob(jobs, actor?.role, now);
  const empty = library !== undefined && library.jobs.length === 0;
  const [demoProblem, setDemoProblem] = useState("");

  const asked = useRef(false);
  const load = useCallback(async () => {
    try {
      const { importDemonstration } = await import("../Packs/demonstration.ts");
      await importDemonstration(store);
      changeSettings({ demonstrated: true });
    } catch (error) {
      setDemoProblem((error as Error).message);
    }
  }, [store]);
  useEffect(() => {
    if (library && library.jobs.length > 0 && !hadJobs) changeSettings({ hadJobs: true });
    // Offered once, on the very first opening; taken away, it stays away.
    if (!empty || demonstrated || hadJobs || asked.current) return;
    asked.current = true;
    void load();
  }, [library, empty, demonstrated, hadJobs, load]);

  return (
    <>
      <TopBar title="Board" />
      <main className="page board">
        {waiting && !isUnderWay(jobs, store.device) && <NewVersion />}
        <StorageLine />
        {library?.wells.some((well) => well.invented) && <DemonstrationNotice />}
        {empty && demonstrated && (
          <p className="board-empty">
            No jobs on this tablet.{" "}
            {hadJobs &&
              "There were some before: if nobody removed them, import their packs again or look on another tablet."}
          </p>
        )}
        {demoProblem && (
          <p className="problem">The demonstration could not be loaded: {demoProblem}</p>
        )}
        {(empty || actor?.role === "planner") && <Office isEmpty={empty} />}
        <div className="board-columns" aria-busy={columns === undefined}>
          {columns?.map((column) => (
            <section
              key={column.key}
              aria-label={column.title}
              className={`board-column ${column.key}`}
            >
              <header className="board-day">
                <h2>{column.title}</h2>
                {column.day && column.jobs.length > 0 && (
                  <Link href={`/days/${column.day}`} className="button quiet">
                    Order and load-out
                  </Link>
                )}
              </header>
              {column.jobs.length === 0 && <p className="soft">No job.</p>}
              {column.jobs.map((each) =>
                "fault" in each ? (
                  <UnreadCard key={each.job.id} of={each} />
                ) : (
                  <JobCard key={each.job.id} of={each} isNext={each === next} role={actor?.role} />
                ),
              )}
            </section>
          ))}
        </div>
        <div className="row board-packs">
          {mustBeInstalledFirst() ? (
            <InstallFirst />
          ) : (
            <>
              <button type="button" className="button" onClick={() => setImporting(true)}>
                Import a pack
              </button>
              <Link href="/read-codes" className="button">
                Read codes
              </Link>
            </>
          )}
          {empty && (
            <button type="button" className="button" onClick={() => void load()}>
              Load the demonstration
            </button>
          )}
        </div>
        {!empty && actor?.role !== "planner" && <Office isEmpty={false} />}
        <PackArrivals importing={importing} onImporting={setImporting} />
      </main>
    </>
  );
}

/** What an office does before there is a job. For a planner it stands on top. */
function Office({ isEmpty }: { readonly isEmpty: boolean }) {
  return (
    <nav aria-label="Office" className="row board-office">
      <Link href="/plan" className={isEmpty ? "button next" : "button"}>
        Plan a job
      </Link>
      <Link href="/library" className="button">
        Library
      </Link>
      <Link href="/bring-in" className="button">
        Bring in tables
      </Link>
      <Link href="/which-valve" className="button">
        Which valve is at fault
      </Link>
    </nav>
  );
}

function NewVersion() {
  return (
    <div className="notice row" role="status">
      <span>A newer version of Latchline is here, whole, and waits.</span>
      <button type="button" className="button" onClick={acceptNewVersion}>
        Use it now
      </button>
    </div>
  );
}

function DemonstrationNotice() {
  const store = useStore();
  const [problem, setProblem] = useState("");
  const remove = async () => {
    try {
      const { removeDemonstration } = await import("../Packs/demonstration.ts");
      const left = await removeDemonstration(store);
      changeSettings({ hadJobs: left > 0 });
    } catch (error) {
      setProblem(String(error));
    }
  };
  return (
    <div className="notice row">
      <span>
        <strong>Demonstration.</strong> The wells of Ember Mesa, their people and valves are
        invented. Removing it takes its jobs and their logs, too.
      </span>
      <button type="button" className="button" onClick={() => void remove()}>
        Remove the demonstration
      </button>
      {problem && <p className="problem">It could not be removed: {problem}</p>}
    </div>
  );
}

const stageWords = {
  draft: "Being planned",
  issued: "Programme issued",
  running: "Running",
  closed: "Closed, waits for the engineer",
  "sent back": "Sent back to the supervisor",
} as const;

/** The others are worked on as ever. */
function UnreadCard({ of }: { readonly of: UnreadJob }) {
  return (
    <article className="card job-card">
      <h3 className="job-well">{of.well}</h3>
      <p className="problem">
        This job cannot be read on this tablet ({of.fault}). Nothing of it was changed. Import its
        pack again, or open it on another tablet.
      </p>
    </article>
  );
}

interface JobCardProps {
  readonly of: BoardJob;
  readonly isNext: boolean;
  readonly role: Role | undefined;
}

function JobCard({ of, isNext, role }: JobCardProps) {
  const { job, stage, readiness, current, questions } = of;
  const worst = readiness.points[0];
  const [href, action] = nextAction(of, role);
  const planning = stage === "draft" || stage === "issued";
  return (
    <article className="card job-card">
      <header>
        <h3 className="job-well">
          <Link href={`/jobs/${job.id}`}>{of.well}</Link>
        </h3>
        {stage === "approved" ? (
          <Approved state={of.state} />
        ) : (
          <span className="stage">
            {stage === "closed" && questions > 0 ? "Closed, asked about" : stageWords[stage]}
          </span>
        )}
      </header>
      <p>{of.target}</p>
      <p>
        <strong>{of.change}</strong>
      </p>
      {planning && (
        <ul className="knots">
          {readinessGroups.map((group) => (
            <li key={group}>
              <Ring
                shape={readiness.groups[group] === "ready" ? "released" : readiness.groups[group]}
                size={22}
                silent
              />
              <span>
                {group}
                <span className="hidden-label">: {readiness.groups[group]}</span>
              </span>
            </li>
          ))}
        </ul>
      )}
      {planning && worst && (
        <p className={worst.stops ? "problem small" : "small soft"}>{worst.says}</p>
      )}
      {current && (
        <p>
          Next:{" "}
          {current.type === "hold" ? `hold point "${current.hold.hold.title}"` : current.step.title}
        </p>
      )}
      {questions > 0 && (
        <p>
          {questions} {questions === 1 ? "question waits" : "questions wait"} for the supervisor
        </p>
      )}
      <Link href={href} className={isNext ? "button next" : "button"}>
        {action}
      </Link>
      {stage === "closed" && (
        <Link href={`/jobs/${job.id}/close`} className="button quiet">
          Close-out and readings on lift
        </Link>
      )}
    </article>
  );
}

function nextAction(
  { job, stage, readiness, questions }: BoardJob,
  role: Role | undefined,
): readonly [href: string, label: string] {
  switch (stage) {
    case "draft":
      return [
        `/jobs/${job.id}`,
        readiness.points.some((point) => point.stops) ? "See what is open" : "Read and issue",
      ];
    case "issued":
      return [`/jobs/${job.id}`, "Read the brief"];
    case "running":
      return [`/jobs/${job.id}/run`, "Go on with the run"];
    case "sent back":
      return [`/jobs/${job.id}/run`, "Answer the engineer"];
    case "closed":
      return [
        `/jobs/${job.id}/review`,
        questions > 0 && role === "wireline supervisor" ? "Answer the engineer" : "Review",
      ];
    case "approved":
      return [`/jobs/${job.id}/review`, "Read the record"];
  }
}
