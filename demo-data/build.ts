import { addMinutes, parseISO } from "date-fns";
import { assemble } from "../src/jobs/assemble.ts";
import { closeRun } from "../src/jobs/commands/closeRun.ts";
import type { Decision } from "../src/jobs/commands/decision.ts";
import { issueProgramme } from "../src/jobs/commands/issue.ts";
import { correct, recordStep, releaseHold, signHold, startRun } from "../src/jobs/commands/run.ts";
import type { Situation } from "../src/jobs/commands/situation.ts";
import { writer } from "../src/jobs/display.ts";
import type { JobEvent } from "../src/jobs/log/event.ts";
import { headOf, seal } from "../src/jobs/log/seal.ts";
import { makePack, type Pack } from "../src/jobs/pack/pack.ts";
import type { Job } from "../src/jobs/records/job.ts";
import type { Actor, Role } from "../src/jobs/roles.ts";
import { foldJob, latestReading } from "../src/jobs/state/jobState.ts";
import { progressOf } from "../src/jobs/state/progress.ts";
import { jobs, library, MADE_ON } from "./emberMesa.ts";
import { finishedRun, signers } from "./finishedRun.ts";

/**
 * Builds the demonstration pack through the app's own rules: the finished run was decided step by step
 * as on a tablet, so its log is a real one. The same every time.
 */
const OFFICE = "00000000-0000-4000-8000-0000000000a1";
const TABLET = "00000000-0000-4000-8000-0000000000b2";
const planner: Actor = { name: "E. Rowan", role: "planner" };
const supervisor: Actor = { name: "R. Tamsin", role: "wireline supervisor" };

class Recorder {
  readonly events: JobEvent[] = [];
  private now: Date;
  private serial = 0;
  private readonly job: Job;
  private readonly name: string;

  constructor(job: Job, name: string, start: string) {
    this.job = job;
    this.name = name;
    this.now = parseISO(start);
  }

  get state() {
    return foldJob(this.events);
  }

  get clock() {
    return this.now.toISOString();
  }

  wait(minutes: number) {
    this.now = addMinutes(this.now, minutes);
  }

  situation(actor: Actor): Situation {
    return { state: this.state, actor, now: this.clock, writer: writer("field") };
  }

  act(actor: Actor, device: string, decide: (situation: Situation) => Decision) {
    const decision = decide(this.situation(actor));
    if (!decision.ok) throw new Error(`${this.name}: ${decision.why}`);
    const drafts = decision.bodies.map((body) => {
      this.serial += 1;
      return {
        id: `${this.name}-0000-4000-8000-${String(this.serial).padStart(12, "0")}`,
        job: this.job.id,
        at: this.clock,
        actor,
        body,
      };
    });
    this.events.push(...seal(drafts, device, headOf(this.events, device)));
  }
}

function issued(recorder: Recorder, job: Job) {
  recorder.act(planner, OFFICE, ({ state }) =>
    issueProgramme(state, assemble(job, library), planner),
  );
}

function finished(): JobEvent[] {
  const recorder = new Recorder(jobs.finished, "00000003", "2026-11-23T14:10:00.000Z");
  issued(recorder, jobs.finished);
  recorder.wait(15 * 60);
  recorder.act(supervisor, TABLET, startRun);
  for (;;) {
    const { current } = progressOf(recorder.state, recorder.clock, writer("field"));
    if (!current) break;
    if (current.type === "hold") {
      for (const { condition } of current.hold.conditions) {
        if (condition.kind !== "signature") continue;
        const name = signers[condition.role] ?? "";
        recorder.act(supervisor, TABLET, (situation) =>
          signHold(situation, current.id, { name, role: condition.role as Role }),
        );
      }
      recorder.act(supervisor, TABLET, (situation) => releaseHold(situation, current.id));
      continue;
    }
    const entry = finishedRun[current.id];
    if (!entry) throw new Error(`nothing to enter for ${current.id}`);
    recorder.wait(entry.minutes);
    recorder.act(supervisor, TABLET, (situation) =>
      recordStep(situation, {
        step: current.id,
        typed: entry.fields,
        takenAt: situation.now,
        ...(entry.standBy !== undefined && { standBy: { reason: entry.standBy } }),
      }),
    );
    if (current.id === "line-left") correctLineCut(recorder);
  }
  recorder.act(supervisor, TABLET, (situation) =>
    closeRun(situation, {
      remark: "All as planned but one blow over the limit while shearing off.",
      reason: "The permit let no camera into the zone; the valve is sealed for the shop.",
    }),
  );
  return recorder.events;
}

/** Somebody noticed a wrong figure: the old one stays in the log beside the new one. */
function correctLineCut(recorder: Recorder) {
  const reading = latestReading(recorder.state, "line-cut");
  if (!reading) throw new Error("no line-cut reading");
  recorder.wait(3);
  recorder.act(supervisor, TABLET, (situation) =>
    correct(situation, reading, { text: "80", unit: "ft" }, "Cut 80 ft, not 60: measured again."),
  );
}

export function demoPack(): Pack {
  const ready = new Recorder(jobs.ready, "00000007", "2026-11-24T15:30:00.000Z");
  issued(ready, jobs.ready);
  return makePack(
    {
      records: {
        ...library,
        jobs: [...library.jobs],
        investigations: [...library.investigations],
      },
      events: [...finished(), ...ready.events],
    },
    `${MADE_ON}T05:00:00.000Z`,
  );
}
