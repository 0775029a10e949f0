import { readFileSync } from "node:fs";
import { addMinutes, parseISO } from "date-fns";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { finishedRun, signers } from "../../demo-data/finishedRun.ts";
import type { Decision } from "../../src/jobs/commands/decision.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import {
  recordStep,
  releaseHold,
  type Situation,
  signHold,
  startRun,
} from "../../src/jobs/commands/run.ts";
import { writer } from "../../src/jobs/display.ts";
import type { EventBody, JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder } from "../../src/jobs/log/order.ts";
import { headOf, seal } from "../../src/jobs/log/seal.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import type { Actor, Role } from "../../src/jobs/roles.ts";
import { holdPointsOf } from "../../src/jobs/sheet/walk.ts";
import { holdState } from "../../src/jobs/state/holdState.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { progressOf } from "../../src/jobs/state/progress.ts";
import { assemble } from "../../src/jobs/store/library.ts";

export const demoText = () => readFileSync("demo-data/ember-mesa.json", "utf8");

/** The ready demo job's programme. Invented data: it carries the rules through, it proves no number. */
export const readyProgramme = (): Programme => assemble(jobs.ready, library);

export const supervisor: Actor = { name: "R. Tamsin", role: "wireline supervisor" };
export const planner: Actor = { name: "E. Rowan", role: "planner" };
export const engineer: Actor = { name: "L. Ashgrove", role: "production engineer" };

/** A tablet in a test: its own clock and its own place in the log. */
export class Tablet {
  events: JobEvent[] = [];
  now = parseISO("2026-11-25T06:00:00.000Z");
  readonly device: string;
  actor = supervisor;
  readonly writer = writer("field");

  constructor(device = crypto.randomUUID()) {
    this.device = device;
  }

  get clock() {
    return this.now.toISOString();
  }

  get state() {
    return foldJob(this.events);
  }

  get situation(): Situation {
    return { state: this.state, actor: this.actor, now: this.clock, writer: this.writer };
  }

  get current() {
    return progressOf(this.state, this.clock, this.writer).current;
  }

  wait(minutes: number) {
    this.now = addMinutes(this.now, minutes);
  }

  write(...bodies: EventBody[]) {
    const drafts = bodies.map((body) => ({
      id: crypto.randomUUID(),
      job: "job",
      at: this.clock,
      actor: this.actor,
      body,
    }));
    const sealed = seal(drafts, this.device, headOf(this.events, this.device));
    this.events = inOrder([...this.events, ...sealed]);
    return sealed;
  }

  /** Decides and writes; throws what was refused. */
  act(decide: (situation: Situation) => Decision) {
    const decision = decide(this.situation);
    if (!decision.ok) throw new Error(decision.why);
    return this.write(...decision.bodies);
  }

  start(programme: Programme = readyProgramme()) {
    this.actor = planner;
    this.act(({ state, actor }) => issueProgramme(state, programme, actor));
    this.actor = supervisor;
    this.act(startRun);
    return this;
  }

  enter(step: string, typed: Record<string, Typed>) {
    return this.act((situation) => recordStep(situation, step, typed, this.clock));
  }

  hold(id: string) {
    const hold = holdPointsOf(this.state.programme?.sheet ?? readyProgramme().sheet).find(
      (each) => each.id === id,
    );
    if (!hold) throw new Error(`no hold point ${id}`);
    return holdState(hold, this.state, this.clock, this.writer);
  }

  sign(hold: string, role: Role, name = signers[role] ?? "N. N.") {
    return this.act((situation) => signHold(situation, hold, { name, role }));
  }

  signAll(hold: string) {
    for (const { condition } of this.hold(hold).conditions) {
      if (condition.kind === "signature") this.sign(hold, condition.role);
    }
  }

  release(hold: string) {
    return this.act((situation) => releaseHold(situation, hold));
  }

  /**
   * Runs the sheet with the answers of a good run until an item is current.
   *
   * @param answers replace those of the good run, by step
   */
  runTo(item: string | undefined, answers: Record<string, Record<string, Typed>> = {}) {
    for (;;) {
      const { current } = this;
      if (current?.id === item || !current) {
        if (current?.id !== item) throw new Error(`never came to ${item}`);
        return this;
      }
      if (current.type === "hold") {
        this.signAll(current.id);
        this.release(current.id);
      } else {
        this.wait(goodRun[current.id]?.minutes ?? 1);
        this.enter(current.id, { ...goodRun[current.id]?.fields, ...answers[current.id] } as Record<
          string,
          Typed
        >);
      }
    }
  }
}

/** A run without anything out of the ordinary for the ready job: EM-07, mandrel 3. */
export const goodRun: Readonly<Record<string, { minutes: number; fields: Record<string, Typed> }>> =
  (() => {
    const at = (text: string, unit?: string): Typed => ({ text, ...(unit && { unit }) });
    const own: Record<string, Record<string, Typed>> = {
      "gauge-down": {
        "gauge-diameter": at("2.30", "in"),
        "gauge-depth": at("4600", "ft"),
        "fluid-level": at("2910", "ft"),
        hanging: at("235", "lbf"),
      },
      tag: { "tag-target": at("4383", "ft"), neighbours: at("yes") },
      "level-first": {
        "level-route": at("bled annulus"),
        "level-first-casing": at("748", "psig"),
        "level-first-wellhead": at("318", "psig"),
      },
      "level-last": {
        "level-last-casing": at("752", "psig"),
        "level-last-wellhead": at("319", "psig"),
      },
      "proof-start": {
        "proof-start-casing": at("702", "psig"),
        "proof-start-wellhead": at("52", "psig"),
      },
      "proof-end": {
        "proof-end-casing": at("700", "psig"),
        "proof-end-wellhead": at("52", "psig"),
      },
      card: { "new-serial": at("em 2041"), "new-card": at("948", "psig") },
      shear: {
        "shear-hits": at("11"),
        "shear-largest": at("990", "lbf"),
        "shear-sign": at("clear"),
      },
    };
    return Object.fromEntries(
      Object.entries(finishedRun).map(([step, { minutes, fields }]) => [
        step,
        { minutes, fields: { ...(fields as Record<string, Typed>), ...own[step] } },
      ]),
    );
  })();
