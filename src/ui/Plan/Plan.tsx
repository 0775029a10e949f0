import { useDeferredValue, useEffect, useMemo, useRef, useState } from "react";
import { useLocation, useSearch } from "wouter";
import { NotChanged } from "../../jobs/diagnosis/changeInvestigation.ts";
import { jobReason } from "../../jobs/diagnosis/nextAction.ts";
import { writer } from "../../jobs/display.ts";
import { stagesOf } from "../../jobs/planning/jobsBefore.ts";
import { keepable, keepJob } from "../../jobs/planning/keep.ts";
import { forWell, type PlanDraft, withMine } from "../../jobs/planning/planDraft.ts";
import { propose, refusalFor } from "../../jobs/planning/proposal.ts";
import { worksFor } from "../../jobs/planning/refusal.ts";
import type { OpenPoint } from "../../jobs/readiness.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { Well } from "../../jobs/records/well.ts";
import { siteAtmosphere } from "../../jobs/results/context.ts";
import { type Library, recordKinds } from "../../jobs/store/library.ts";
import type { Wanted } from "../../jobs/store/narrowed.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { changeSettings, useSettings } from "../settings.ts";
import { useAllEvents, useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { notSaved } from "../useJob.ts";
import { ChooseWell } from "./ChooseWell.tsx";
import { FromNothing } from "./FromNothing.tsx";
import { KeyFigures } from "./KeyFigures.tsx";
import { Lines } from "./Lines.tsx";
import { OpenPoints } from "./OpenPoints.tsx";
import { PlanDrawing } from "./PlanDrawing.tsx";
import { newPlan, useKeptPlan, usePlan } from "./usePlan.ts";
import { What } from "./What.tsx";
import "./Plan.css";

/** Valve, strings and equipment are chosen among all there are. */
const everything: Wanted = {
  jobs: "all",
  whole: recordKinds.filter((kind) => kind !== "jobs" && kind !== "investigations"),
};

export default function Plan() {
  const search = useSearch();
  // What the address asked for at first: it is gone from there once it is answered.
  const [led] = useState(() => new URLSearchParams(search).get("investigation"));
  const library = useLibrary(
    led ? { ...everything, records: { investigations: [led] } } : everything,
  );
  const kept = useKeptPlan();
  if (!library || !kept) return <main className="page" aria-busy="true" />;
  return <Opened kept={kept === "none" ? undefined : kept} library={library} />;
}

interface OpenedProps {
  readonly kept: PlanDraft | undefined;
  readonly library: Library;
}

/** Which plan is made: the one begun here, the one that the address asks for, or a new one. Settled once. */
function Opened({ kept, library }: OpenedProps) {
  const search = useSearch();
  const [, go] = useLocation();
  const [asked] = useState(() => askedBy(search, library));
  const [begun, setBegun] = useState(() =>
    kept && asked && !isAbout(kept, asked) ? undefined : (kept ?? asked ?? newPlan()),
  );
  useEffect(() => {
    // What the address asked for is answered: a reload goes on with what is on the screen.
    if (begun && search !== "") go("/plan", { replace: true });
  }, [begun, search, go]);
  if (begun) return <PlanOf begun={begun} library={library} />;
  const name = library.wells.find(({ id }) => id === kept?.well)?.name ?? "no well yet";
  return (
    <>
      <TopBar title="Plan a job" />
      <main className="page">
        <div className="notice plan-begun">
          <p>
            A plan was begun on this tablet and not kept: <strong>{name}</strong>
            {kept?.reason && `, ${kept.reason}`}
          </p>
          <div className="row">
            <button type="button" className="button next" onClick={() => setBegun(kept)}>
              Go on with it
            </button>
            <button type="button" className="button" onClick={() => setBegun(asked)}>
              Drop it, begin the new one
            </button>
          </div>
        </div>
      </main>
    </>
  );
}

/** What the address asks for: a well, one of its mandrels, and the investigation that led to it. */
function askedBy(search: string, { wells, investigations }: Library): PlanDraft | undefined {
  const named = new URLSearchParams(search);
  const well = wells.find(({ id }) => id === named.get("well"));
  if (!well) return undefined;
  const led = investigations.find(
    ({ id, well: of }) => id === named.get("investigation") && of === well.id,
  );
  const draft: PlanDraft = {
    ...forWell(newPlan(), well.id),
    ...(led?.agreed && {
      reason: jobReason(led.agreed),
      investigation: led.id,
      agreed: led.agreed.at,
    }),
  };
  const target = well.mandrels.find(({ id }) => id === named.get("mandrel"));
  const [work] = target ? worksFor(target) : [];
  return target && work ? { ...draft, pockets: [{ mandrel: target.id, work }] } : draft;
}

const isAbout = (begun: PlanDraft, asked: PlanDraft): boolean =>
  begun.well === asked.well &&
  begun.investigation === asked.investigation &&
  begun.agreed === asked.agreed &&
  (asked.pockets.length === 0 ||
    begun.pockets.some(({ mandrel }) => mandrel === asked.pockets[0]?.mandrel));

interface PlanOfProps {
  readonly begun: PlanDraft;
  readonly library: Library;
}

function PlanOf({ begun, library }: PlanOfProps) {
  const plan = usePlan(begun);
  const { draft, change } = plan;
  const well = library.wells.find(({ id }) => id === draft.well);
  return (
    <>
      <TopBar title="Plan a job" />
      <main className="page plan">
        {well ? (
          <Planned plan={plan} well={well} library={library} />
        ) : (
          <ChooseWell wells={library.wells} onChoose={(id) => change((now) => forWell(now, id))} />
        )}
      </main>
    </>
  );
}

interface PlannedProps {
  readonly plan: ReturnType<typeof usePlan>;
  readonly well: Well;
  readonly library: Library;
}

function Planned({ plan, well, library }: PlannedProps) {
  const { draft, change } = plan;
  const { units } = useSettings();
  const events = useAllEvents();
  const stages = useMemo(() => stagesOf(events ?? []), [events]);
  const write = useMemo(() => writer(units, siteAtmosphere({ well })), [units, well]);
  // Words of the reason change nothing that is worked out.
  const { reason: _, ...worked } = draft;
  const key = JSON.stringify(worked);
  const later = useDeferredValue(key);
  const proposal = useMemo(
    () =>
      propose(
        { ...(JSON.parse(later) as PlanDraft), reason: "" },
        { library, stages, writer: write },
      ),
    [later, library, stages, write],
  );
  const refused = refusalFor(draft, library);
  const [sought, setSought] = useState<string>();
  const seek = (line: string) => {
    setSought(line);
    const element = document.getElementById(`plan-line-${line}`);
    element?.scrollIntoView({ block: "center" });
    element?.focus({ preventScroll: true });
  };
  return (
    <>
      <PlanDrawing
        well={well}
        library={library}
        writer={write}
        target={draft.pockets[0]?.mandrel}
        onPick={(mandrel) =>
          change((now) => {
            const of = well.mandrels.find(({ id }) => id === mandrel);
            const [work] = of ? worksFor(of) : [];
            return work ? { ...forWell(now, well.id), pockets: [{ mandrel, work }] } : now;
          })
        }
      />
      <div className="plan-right">
        <What well={well} library={library} draft={draft} refused={refused} onChange={change} />
        {proposal && !refused && (
          <>
            <OpenPoints proposal={proposal} onSeek={seek} />
            <FromNothing proposal={proposal} library={library} units={units} />
            <Lines
              lines={proposal.lines}
              mine={draft.mine}
              well={well}
              sought={sought}
              onMine={(line, value) => change((now) => withMine(now, line, value))}
            />
            <KeyFigures proposal={proposal} writer={write} />
            <Keep
              plan={plan}
              points={proposal.points}
              jobNow={() => propose(draft, { library, stages, writer: write })?.job}
            />
          </>
        )}
        {!proposal && !refused && (
          <p className="plan-next">Tap the mandrel to work on, on the drawing or in the list.</p>
        )}
      </div>
    </>
  );
}

interface KeepProps {
  readonly plan: ReturnType<typeof usePlan>;
  readonly points: readonly OpenPoint[];
  /** with the last key in it, which the screen may still be working out */
  readonly jobNow: () => Job | undefined;
}

/** The one next action: the plan becomes a job. What is open then is open on its brief, too. */
function Keep({ plan, points, jobNow }: KeepProps) {
  const { draft, keptBy, end } = plan;
  const store = useStore();
  const [, go] = useLocation();
  const [problem, setProblem] = useState("");
  const underWay = useRef(false);
  const keep = async () => {
    const job = jobNow();
    if (!job) return;
    const checked = keepable(job, draft);
    if (!checked.ok) {
      setProblem(checked.why);
      document.getElementById(`plan-${checked.at}`)?.scrollIntoView({ block: "center" });
      document.getElementById(`plan-${checked.at}`)?.focus({ preventScroll: true });
      return;
    }
    if (underWay.current) return;
    underWay.current = true;
    try {
      await keepJob(store, checked.job, draft);
    } catch (error) {
      const isSaid = error instanceof Outdated || error instanceof NotChanged;
      setProblem(isSaid ? error.message : notSaved(error));
      underWay.current = false;
      return;
    }
    changeSettings({ hadJobs: true });
    // The job is kept; a draft that stays behind only shows it once more.
    await end().catch(() => {});
    go(`/jobs/${checked.job.id}`);
  };
  return (
    <div className="plan-keep">
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <div className="row plan-keep-row">
        <button type="button" className="button next plan-keep-button" onClick={() => void keep()}>
          Keep the plan
        </button>
        <p className="small soft plan-keep-words">
          {standing(points)} {keptBy === "tablet" && "It is kept on this tablet as you type."}
          {keptBy === "screen" &&
            "Only this screen holds it: the tablet's storage did not take it."}
        </p>
      </div>
    </div>
  );
}

function standing(points: readonly OpenPoint[]): string {
  const stops = points.filter((point) => point.stops).length;
  if (stops > 0) {
    const open = points.length === 1 ? "One point is" : `${points.length} points are`;
    return `${open} open; ${stops === points.length ? "" : `${stops} `}to be mended before it is issued.`;
  }
  return points.length > 0
    ? "Ready to be issued from its brief; there is something to look at."
    : "Ready to be issued from its brief.";
}
