import { addDays, format } from "date-fns";
import { writer } from "../../jobs/display.ts";
import type { JobEvent } from "../../jobs/log/event.ts";
import { targetMandrel, valveToPull } from "../../jobs/programme.ts";
import { type Readiness, readinessOf } from "../../jobs/readiness.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { Programme } from "../../jobs/records/programme.ts";
import { siteAtmosphere } from "../../jobs/results/context.ts";
import type { Role } from "../../jobs/roles.ts";
import { foldJob, type JobState, type Stage } from "../../jobs/state/jobState.ts";
import { type ItemState, progressOf } from "../../jobs/state/progress.ts";
import { assemble, type Library } from "../../jobs/store/library.ts";

/** A job as its card on the board shows it. */
export interface BoardJob {
  readonly job: Job;
  readonly state: JobState;
  readonly stage: Stage;
  readonly programme: Programme;
  readonly readiness: Readiness;
  readonly well: string;
  readonly target: string;
  readonly change: string;
  readonly current: ItemState | undefined;
}

export interface BoardColumn {
  readonly key: string;
  readonly title: string;
  readonly jobs: readonly BoardJob[];
}

/** Jobs by day: what came before, today, tomorrow, what comes later. */
export function boardColumns(
  library: Library,
  events: readonly JobEvent[],
  now: string,
  units: "field" | "metric",
): BoardColumn[] {
  const today = format(new Date(now), "yyyy-MM-dd");
  const tomorrow = format(addDays(new Date(now), 1), "yyyy-MM-dd");
  const jobs = library.jobs
    .map((job) => boardJob(job, library, events, now, units))
    .sort((a, b) => a.job.day.localeCompare(b.job.day) || a.well.localeCompare(b.well));
  const on = (test: (day: string) => boolean) => jobs.filter(({ job }) => test(job.day));
  const named = (day: string) => format(new Date(`${day}T12:00`), "EEE d MMM");
  const columns = [
    { key: "earlier", title: "Earlier", jobs: on((day) => day < today) },
    { key: "today", title: `Today, ${named(today)}`, jobs: on((day) => day === today) },
    { key: "tomorrow", title: `Tomorrow, ${named(tomorrow)}`, jobs: on((day) => day === tomorrow) },
    { key: "later", title: "Later", jobs: on((day) => day > tomorrow) },
  ];
  return columns.filter(
    ({ key, jobs }) => jobs.length > 0 || key === "today" || key === "tomorrow",
  );
}

function boardJob(
  job: Job,
  library: Library,
  events: readonly JobEvent[],
  now: string,
  units: "field" | "metric",
): BoardJob {
  const state = foldJob(events.filter((event) => event.job === job.id));
  const programme = state.programme ?? assemble(job, library);
  const mandrel = targetMandrel(programme);
  const write = writer(units, siteAtmosphere(programme));
  const running = state.stage === "running" || state.stage === "sent back";
  return {
    job,
    state,
    stage: state.stage,
    programme,
    readiness: readinessOf(programme, write),
    well: programme.well?.name ?? "Well not here",
    target: mandrel
      ? `Mandrel ${mandrel.number} at ${mandrel.depthAlongHole.value} ${mandrel.depthAlongHole.unit} along hole, ${mandrel.pocket} pocket`
      : "No mandrel chosen",
    change: `${valveToPull(programme)?.serial ?? "valve in pocket"} out, ${programme.replacement?.serial ?? "none chosen"} in`,
    current: running ? progressOf(state, now, write).current : undefined,
  };
}

/** The stages that wait for a role. */
const waitsFor: Partial<Readonly<Record<Role, readonly Stage[]>>> = {
  planner: ["draft"],
  "production engineer": ["closed"],
};

/** The one job that whoever holds the tablet would turn to next: the earliest that waits for them. */
export function nextJob(
  jobs: readonly BoardJob[],
  role: Role | undefined,
  now: string,
): BoardJob | undefined {
  const stages = (role && waitsFor[role]) ?? ["running", "sent back", "issued"];
  const waiting = jobs.filter(({ stage }) => stages.includes(stage));
  const today = format(new Date(now), "yyyy-MM-dd");
  return waiting.find(({ job }) => job.day === today) ?? waiting[0];
}
