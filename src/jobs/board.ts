import { addDays, format } from "date-fns";
import { assemble } from "./assemble.ts";
import { type UnitSystem, writer } from "./display.ts";
import type { JobEvent } from "./log/event.ts";
import { logsByJob } from "./log/logsByJob.ts";
import { targetMandrel } from "./programme.ts";
import { type Readiness, readinessOf } from "./readiness.ts";
import type { Job } from "./records/job.ts";
import { siteAtmosphere } from "./results/context.ts";
import type { Role } from "./roles.ts";
import { foldJob, isOpen, type JobState, type Stage } from "./state/jobState.ts";
import { type ItemState, progressOf } from "./state/progress.ts";
import { isTalkedAbout, openQuestions } from "./state/questions.ts";
import type { Library } from "./store/library.ts";
import { changeInWords } from "./workInWords.ts";

/** A job as its card on the board shows it. */
export interface BoardJob {
  readonly job: Job;
  readonly state: JobState;
  readonly stage: Stage;
  readonly readiness: Readiness;
  readonly well: string;
  readonly target: string;
  readonly change: string;
  readonly current: ItemState | undefined;
  /** what the engineer asked about the closed run and nobody answered */
  readonly questions: number;
}

/** A job that cannot be read, and why: the others are not lost with it. */
export interface UnreadJob {
  readonly job: Job;
  readonly well: string;
  readonly fault: string;
}

export interface BoardColumn {
  readonly key: string;
  readonly title: string;
  /** the one day it is about */
  readonly day?: string;
  readonly jobs: readonly (BoardJob | UnreadJob)[];
}

/** The jobs of a board that can be read. */
export function readable(columns: readonly BoardColumn[]): BoardJob[] {
  return columns.flatMap(({ jobs }) => jobs.filter((each): each is BoardJob => !("fault" in each)));
}

/** Jobs by day: what came before, today, tomorrow, what comes later; in days of the tablet's clock. */
export function boardColumns(
  library: Library,
  events: readonly JobEvent[],
  now: string,
  units: UnitSystem,
): BoardColumn[] {
  const today = format(new Date(now), "yyyy-MM-dd");
  const tomorrow = format(addDays(new Date(now), 1), "yyyy-MM-dd");
  const logs = logsByJob(events);
  const jobs = library.jobs
    .map((job) => {
      try {
        return boardJob(job, library, logs.get(job.id) ?? [], now, units);
      } catch (error) {
        return { job, well: wellName(job, library), fault: String(error) };
      }
    })
    .sort((a, b) => a.job.day.localeCompare(b.job.day) || a.well.localeCompare(b.well));
  const on = (test: (day: string) => boolean) => jobs.filter(({ job }) => test(job.day));
  const named = (day: string) => format(new Date(`${day}T12:00`), "EEE d MMM");
  const columns = [
    { key: "earlier", title: "Earlier", jobs: on((day) => day < today) },
    {
      key: "today",
      title: `Today, ${named(today)}`,
      day: today,
      jobs: on((day) => day === today),
    },
    {
      key: "tomorrow",
      title: `Tomorrow, ${named(tomorrow)}`,
      day: tomorrow,
      jobs: on((day) => day === tomorrow),
    },
    { key: "later", title: "Later", jobs: on((day) => day > tomorrow) },
  ];
  return columns.filter(
    ({ key, jobs }) => jobs.length > 0 || key === "today" || key === "tomorrow",
  );
}

export const wellName = (job: Job, library: Library) =>
  library.wells.find((well) => well.id === job.well)?.name ?? "Well not here";

export function boardJob(
  job: Job,
  library: Library,
  log: readonly JobEvent[],
  now: string,
  units: UnitSystem,
): BoardJob {
  const state = foldJob(log);
  const programme = state.programme ?? assemble(job, library);
  const mandrel = targetMandrel(programme);
  const write = writer(units, siteAtmosphere(programme));
  return {
    job,
    state,
    stage: state.stage,
    readiness: readinessOf(programme, write),
    well: programme.well?.name ?? wellName(job, library),
    target: mandrel
      ? `Mandrel ${mandrel.number} at ${mandrel.depthAlongHole.value} ${mandrel.depthAlongHole.unit} along hole, ${mandrel.pocket} pocket`
      : "No mandrel chosen",
    change: changeInWords(programme),
    questions: isTalkedAbout(state) ? openQuestions(state).length : 0,
    current: isOpen(state) ? progressOf(state, now, write).current : undefined,
  };
}

/** An open run with an entry of this device in it: nothing of the app is exchanged under it. */
export function isUnderWay(jobs: readonly BoardJob[], device: string): boolean {
  return jobs.some(
    ({ state }) => isOpen(state) && state.events.some((event) => event.device === device),
  );
}

/** Whether a job waits for a role. One with open questions waits for the supervisor, not for the engineer who asked. */
function waitsFor(role: Role | undefined, { stage, questions }: BoardJob): boolean {
  switch (role) {
    case "planner":
      return stage === "draft";
    case "production engineer":
      return stage === "closed" && questions === 0;
    case "wireline supervisor":
      return questions > 0 || onLocation.includes(stage);
    default:
      return onLocation.includes(stage);
  }
}

const onLocation: readonly Stage[] = ["running", "sent back", "issued"];

/** The one job that whoever holds the tablet would turn to next: the earliest that waits for them. */
export function nextJob(
  jobs: readonly BoardJob[],
  role: Role | undefined,
  now: string,
): BoardJob | undefined {
  const waiting = jobs.filter((job) => waitsFor(role, job));
  const today = format(new Date(now), "yyyy-MM-dd");
  return waiting.find(({ job }) => job.day === today) ?? waiting[0];
}
