import { useMemo, useState } from "react";
import { Link, useLocation } from "wouter";
import { issueProgramme } from "../../jobs/commands/issue.ts";
import { startRun } from "../../jobs/commands/run.ts";
import { asEntered } from "../../jobs/display.ts";
import { recordOf } from "../../jobs/planning/recordOf.ts";
import { pocketsOf } from "../../jobs/pockets.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import { readinessOf } from "../../jobs/readiness.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import { differences } from "../../jobs/sheet/differences.ts";
import { besideSaved, isSheetChanged } from "../../jobs/sheetDraft.ts";
import { workInWords } from "../../jobs/workInWords.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { InstallFirst } from "../offline/InstallFirst.tsx";
import { mustBeInstalledFirst } from "../offline/installFirst.ts";
import { SavePack } from "../Packs/SavePack.tsx";
import { PocketChoice } from "../PocketChoice/PocketChoice.tsx";
import { placeIn } from "../RecordEditor/place.ts";
import { useBegunSheet } from "../SheetEditor/useSheetDraft.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { useAct } from "../useJob.ts";
import { type PlannedJob, plannedAt, usePlannedJob } from "../usePlannedJob.ts";
import { WellDrawing } from "../WellDrawing/WellDrawing.tsx";
import { ResultRow } from "../Working/ResultRow.tsx";
import { MadeFrom } from "./MadeFrom.tsx";
import "./Brief.css";

const groups: readonly { readonly title: string; readonly ids: readonly ResultId[] }[] = [
  {
    title: "Levelling at the mandrel",
    ids: [
      "mandrel-tvd",
      "mandrel-inclination",
      "tubing-at-mandrel",
      "casing-level",
      "casing-lowest",
      "casing-highest",
    ],
  },
  {
    title: "Replacement valve",
    ids: [
      "temperature-flowing",
      "test-rack-needed",
      "card-difference",
      "replacement-opening",
      "replacement-closing",
      "injection-at-mandrel",
      "injection-friction",
    ],
  },
  {
    title: "Line and string",
    ids: [
      "push-out",
      "push-out-ratio",
      "weight-needed",
      "hanging-pull",
      "out-pull",
      "largest-pull",
      "overpull-pull",
      "pin-shear",
      "drift-clearance",
      "sour-partial-pressure",
    ],
  },
  {
    title: "Stack",
    ids: [
      "lubricator-spare",
      "lowest-rating",
      "expected-maximum",
      "test-pressure",
      "hydrate-wellhead",
      "hydrate-casing",
    ],
  },
];

export default function Brief({ id }: { readonly id: string }) {
  const live = usePlannedJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  if (!live) return <main className="page" aria-busy="true" />;
  return <BriefOf live={live} />;
}

/** What is to be done, and the numbers that matter. */
function BriefOf({ live }: { readonly live: PlannedJob }) {
  const { writer, state } = live;
  const [chosen, setChosen] = useState<string>();
  const { programme, results } = useMemo(() => plannedAt(live, chosen), [live, chosen]);
  const { well, job } = programme;
  const mandrel = targetMandrel(programme);
  const planning = state.stage === "draft" || state.stage === "issued";
  return (
    <>
      <TopBar title={`Brief, ${well?.name ?? "no well"}`} />
      <main className="page brief">
        <section className="brief-what">
          <p className="brief-lead">
            {workInWords(live.programme).join("; then: ")} of{" "}
            {well?.name ?? "a well that is not here"}
            {pocketsOf(live.programme.job).length === 1 &&
              mandrel &&
              `, ${asEntered(mandrel.depthAlongHole)} along hole`}
            .
          </p>
          <SheetInWords live={live} />
          <p>{job.reason}</p>
          <MadeFrom live={live} />
          <People live={live} />
          {well?.invented && (
            <p className="small soft">Invented for the demonstration, like all of Ember Mesa.</p>
          )}
          <p className="caution">
            <span aria-hidden="true">!</span>
            <span>
              This brief informs a competent crew. The site's permit system, local regulation, the
              operator's programme and the makers' limits come first.
            </span>
          </p>
          {planning && <UnsavedSheet live={live} />}
          {planning && <OpenPoints live={live} />}
          <Actions live={live} />
        </section>
        {well && (
          <figure className="brief-drawing">
            <Link href={`/wells/${well.id}`} aria-label={`${well.name}: open the well`}>
              <WellDrawing
                well={well}
                valves={programme.installed}
                results={results}
                writer={writer}
                target={job.mandrel}
              />
            </Link>
          </figure>
        )}
        <section className="brief-numbers">
          <PocketChoice
            programme={live.programme}
            chosen={programme.job.mandrel}
            onChoose={setChosen}
          />
          {groups.map((group) => (
            <div key={group.title} className="card">
              <h2>{group.title}</h2>
              {group.ids.map((each) => (
                <ResultRow key={each} id={each} results={results} writer={writer} />
              ))}
            </div>
          ))}
        </section>
      </main>
    </>
  );
}

/** In what the sheet is not the usual one: as the crew has it, and as the next revision will give it to them. */
function SheetInWords({ live: { programme, draft, state } }: { readonly live: PlannedJob }) {
  const issued = differences(programme.job, programme.well);
  const next = differences(draft.job, draft.well);
  const changed = state.stage === "issued" && next.join() !== issued.join();
  return (
    <>
      {issued.length > 0 && <Differences title="Run sheet, not the usual one" each={issued} />}
      {changed && (
        <Differences
          title={`Run sheet, changed for revision ${state.revision + 1}`}
          each={next.length > 0 ? next : ["The usual one."]}
        />
      )}
    </>
  );
}

/** Whoever issues now should know of changes that somebody began on the run sheet and did not save. */
function UnsavedSheet({ live: { record } }: { readonly live: PlannedJob }) {
  const begun = useBegunSheet(record);
  if (!begun || !isSheetChanged(besideSaved(begun, record))) return null;
  return (
    <p className="caution">
      <span aria-hidden="true">!</span>
      <span>
        The run sheet has changes on this tablet that are not saved. A revision that is issued now
        is without them.
      </span>
    </p>
  );
}

function Differences({ title, each }: { readonly title: string; readonly each: string[] }) {
  return (
    <div className="brief-sheet">
      <h2>{title}</h2>
      <ul>
        {each.map((says) => (
          <li key={says}>{says}</li>
        ))}
      </ul>
    </div>
  );
}

function People({ live }: { readonly live: PlannedJob }) {
  const { crew, pins } = live.programme.job;
  const { strings, line, stack } = live.programme;
  const rows: [string, string][] = [
    ["Supervisor", crew.supervisor ?? "not named"],
    ["Field operator", crew.fieldOperator ?? "not named"],
    ["Engineer", crew.engineer ?? "not named"],
    [
      "Strings",
      Object.values(strings)
        .map((string) => string?.name)
        .filter(Boolean)
        .join("; ") || "not chosen",
    ],
    ["Line", line?.name ?? "not chosen"],
    ["Stack", stack?.name ?? "not chosen"],
    ["Pull run", pullRunInWords(live.programme.job)],
    [
      "Pins",
      pins
        ? `${pins.count} of ${pins.material}${pins.batch ? `, batch ${pins.batch}` : ""}`
        : "not stated",
    ],
  ];
  return (
    <dl className="brief-people">
      {rows.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** What the pull run may do before it stops. */
function pullRunInWords({ release }: Job): string {
  const limits = [
    release?.mostHits !== undefined && `${release.mostHits} jar hits at most`,
    release?.mostPull && `${asEntered(release.mostPull)} at most`,
    release?.kickover && `kickover tool: ${release.kickover}`,
    release?.cutBackAfter && `wire cut back ${asEntered(release.cutBackAfter)} after jarring`,
  ].filter((limit) => typeof limit === "string");
  return limits.join(", ") || "no limits stated";
}

function OpenPoints({ live }: { readonly live: PlannedJob }) {
  const { draft } = live;
  const { points } = readinessOf(draft, live.writer);
  if (points.length === 0)
    return <p>Nothing is open: well, valve, strings, stack, people and run sheet are ready.</p>;
  return (
    <div>
      <h2>Open, worst first</h2>
      <ul className="brief-points">
        {points.map((point) => {
          const record = recordOf(point, { programme: draft, job: draft.job });
          return (
            <li key={point.says} className={point.stops ? "problem" : "caution"}>
              {!point.stops && <span aria-hidden="true">!</span>}
              <span>{point.says}</span>
              {record && (
                <Link href={placeIn(record, `jobs/${live.id}`)} className="button brief-mend">
                  {record.says}
                </Link>
              )}
            </li>
          );
        })}
      </ul>
    </div>
  );
}

function Actions({ live }: { readonly live: PlannedJob }) {
  const { id, state, draft } = live;
  const act = useAct(id);
  const [, go] = useLocation();
  const [problem, setProblem] = useState("");
  const { stage, revision } = state;
  const stopped = readinessOf(draft, live.writer).points.some((point) => point.stops);
  const issue = async () => {
    const done = await act((situation) => issueProgramme(situation.state, draft, situation.actor));
    setProblem(done.ok ? "" : done.why);
  };
  const start = async () => {
    const done = await act(startRun);
    if (done.ok) go(`/jobs/${id}/run`);
    else setProblem(done.why);
  };
  return (
    <div className="brief-actions">
      {stage !== "draft" && (
        <p className="small soft">
          Programme revision {revision}, issued by {state.issued?.actor.name}. The crew works on
          this revision only.
        </p>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <div className="row">
        {stage === "draft" && (
          <button
            type="button"
            className={stopped ? "button" : "button next"}
            onClick={() => void issue()}
          >
            Issue programme, revision 1
          </button>
        )}
        {stage === "issued" && (
          <>
            {mustBeInstalledFirst() ? (
              <InstallFirst />
            ) : (
              <button type="button" className="button next" onClick={() => void start()}>
                Start the run
              </button>
            )}
            <button type="button" className="button" onClick={() => void issue()}>
              Issue revision {revision + 1}
            </button>
          </>
        )}
        {(stage === "running" || stage === "sent back") && (
          <Link href={`/jobs/${id}/run`} className="button next">
            Go on with the run
          </Link>
        )}
        {(stage === "closed" || stage === "approved") && (
          <Link href={`/jobs/${id}/review`} className="button next">
            Open the record
          </Link>
        )}
        {(stage === "draft" || stage === "issued") && (
          <Link
            href={`/edit/jobs/${id}`}
            className={stage === "draft" && stopped ? "button next" : "button"}
          >
            Change the plan
          </Link>
        )}
        {(stage === "draft" || stage === "issued") && (
          <Link href={`/jobs/${id}/sheet`} className="button">
            Run sheet for this job
          </Link>
        )}
        {live.results.get("test-rack-needed") && (
          <Link href={`/jobs/${id}/set-sheet`} className="button">
            Set sheet
          </Link>
        )}
        <Link href={`/jobs/${id}/line`} className="button">
          Line and string
        </Link>
        {Object.values(live.programme.strings).some((string) => string !== undefined) && (
          <Link href={`/jobs/${id}/sketch`} className="button">
            Fishing sketch
          </Link>
        )}
        {state.started && (
          <Link href={`/jobs/${id}/report`} className="button">
            Report
          </Link>
        )}
        <SavePack job={id} />
        <Link href={`/jobs/${id}/codes`} className="button">
          Show as codes
        </Link>
      </div>
      <Records live={live} />
    </div>
  );
}

/** The records behind the plan, each a tap away. */
function Records({ live }: { readonly live: PlannedJob }) {
  const { well, replacement, strings, line, stack, policy } = live.draft;
  const links = [
    well && [`/edit/wells/${well.id}`, `Well ${well.name}`],
    replacement && [`/edit/valves/${replacement.id}`, `Valve ${replacement.serial}`],
    strings.gauge && [`/strings/${strings.gauge.id}?job=${live.id}`, strings.gauge.name],
    strings.pull && [`/strings/${strings.pull.id}?job=${live.id}`, strings.pull.name],
    strings.set && [`/strings/${strings.set.id}?job=${live.id}`, strings.set.name],
    line && [`/edit/lines/${line.id}`, line.name],
    stack && [`/edit/stacks/${stack.id}`, stack.name],
    policy && [`/edit/policies/${policy.id}`, policy.name],
  ].filter((link) => link !== undefined) as [string, string][];
  return (
    <nav aria-label="Records" className="brief-records">
      {links.map(([address, name]) => (
        <Link key={address} href={address} className="button quiet">
          {name}
        </Link>
      ))}
    </nav>
  );
}
