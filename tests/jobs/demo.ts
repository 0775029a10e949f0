import { readFileSync } from "node:fs";
import { addMinutes, parseISO } from "date-fns";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { finishedRun, signers } from "../../demo-data/finishedRun.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { closeRun } from "../../src/jobs/commands/closeRun.ts";
import type { Decision } from "../../src/jobs/commands/decision.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import {
  recordStep,
  releaseHold,
  signHold,
  startRun,
  type TypedFields,
} from "../../src/jobs/commands/run.ts";
import type { Situation } from "../../src/jobs/commands/situation.ts";
import { writer } from "../../src/jobs/display.ts";
import type { EventBody, JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder } from "../../src/jobs/log/order.ts";
import { headOf, seal } from "../../src/jobs/log/seal.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import type { Actor, Role } from "../../src/jobs/roles.ts";
import type { SheetOptions } from "../../src/jobs/sheet/changeOut/options.ts";
import { noChanges } from "../../src/jobs/sheet/sheetWanted.ts";
import { type HoldState, holdStates } from "../../src/jobs/state/holdState.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { progressOf } from "../../src/jobs/state/progress.ts";

export const demoText = () => readFileSync("demo-data/ember-mesa.json", "utf8");

/** The ready demo job's programme. Invented data: it carries the rules through, it proves no number. */
export const readyProgramme = (): Programme => assemble(jobs.ready, library);

/** The ready job with other work, another mandrel or a catcher: its records as that work needs them. */
export function programmeFor({ work, kickover, catcher }: SheetOptions): Programme {
  const { mandrel: target, replacement } = jobs.ready;
  const orienting = kickover === "orienting";
  const wells = library.wells.map((well) => ({
    ...well,
    mandrels: well.mandrels.map((mandrel) => {
      if (mandrel.id !== target) return mandrel;
      const { valve, ...pocket } = mandrel;
      const orientingSleeve = orienting ? ("yes" as const) : ("no" as const);
      return work === "set into an empty pocket" || valve === undefined
        ? { ...pocket, orientingSleeve, pocketState: "empty" as const }
        : { ...pocket, orientingSleeve, valve };
    }),
  }));
  const valves = library.valves.map((valve) =>
    work === "pull and dummy off" && valve.id === replacement
      ? { ...valve, kind: "dummy" as const }
      : valve,
  );
  const strings = library.strings.map((string) => ({
    ...string,
    tools: string.tools.map((tool) =>
      tool.kind === "kickover tool" && !orienting
        ? { ...tool, kickover: "not orienting" as const }
        : tool,
    ),
  }));
  const job = {
    ...jobs.ready,
    sheet: { work, catcher, changes: noChanges },
    strings: { ...jobs.ready.strings, ...(catcher && { catcher: "string-catcher" }) },
  };
  return assemble(job, { ...library, wells, valves, strings });
}

export const supervisor: Actor = { name: "R. Tamsin", role: "wireline supervisor" };
export const planner: Actor = { name: "E. Rowan", role: "planner" };
export const engineer: Actor = { name: "L. Ashgrove", role: "production engineer" };

/** A tablet in a test: its own clock and its own place in the log. */
export class Tablet {
  events: JobEvent[] = [];
  now = parseISO("2026-11-25T06:00:00.000Z");
  readonly device: string;
  readonly job: string;
  actor = supervisor;
  readonly writer = writer("field");

  /** @param job whose log it writes */
  constructor(device: string = crypto.randomUUID(), job = "job") {
    this.device = device;
    this.job = job;
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
      job: this.job,
      at: this.clock,
      actor: this.actor,
      body,
    }));
    const sealed = seal(drafts, this.device, headOf(this.events, this.device));
    this.events = inOrder([...this.events, ...sealed]);
    return sealed;
  }

  /** Takes in another tablet's events. */
  merge(events: readonly JobEvent[]) {
    const known = new Set(this.events.map((event) => event.hash));
    this.events = inOrder([...this.events, ...events.filter((event) => !known.has(event.hash))]);
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

  enter(step: string, typed: TypedFields, standBy?: string) {
    return this.act((situation) =>
      recordStep(situation, {
        step,
        typed,
        takenAt: this.clock,
        ...(standBy !== undefined && { standBy: { reason: standBy } }),
      }),
    );
  }

  /** Closes the run; nobody photographs in these tests. */
  close(remark = "", reason = "No camera is let into the zone.") {
    return this.act((situation) => closeRun(situation, { remark, reason }));
  }

  hold(id: string): HoldState {
    const hold = holdStates(this.state, this.clock, this.writer).get(id);
    if (!hold) throw new Error(`no hold point ${id}`);
    return hold;
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
   * Runs the sheet with the answers of a good run until an item is current, or a step stops the work.
   *
   * @param answers replace those of the good run, by step
   * @param standBy reason for what is in doubt
   */
  runTo(
    item: string | undefined,
    answers: Record<string, Record<string, Typed>> = {},
    standBy?: string,
  ) {
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
        const good = goodRun[current.id];
        const given = answers[current.id];
        if (!good && !given) throw new Error(`nothing to enter for ${current.id}`);
        // A further pocket takes as long as the first.
        this.wait((good ?? goodRun[current.id.replace(/-pocket-\d$/, "")])?.minutes ?? 10);
        const typed = { ...good?.fields, ...given };
        const done = this.enter(current.id, typed, standBy);
        if (this.current?.id === current.id && done.at(-1)?.body.type !== "step done") return this;
      }
    }
  }
}

const at = (text: string, unit?: string): Typed => ({ text, ...(unit !== undefined && { unit }) });
const psig = (text: string) => at(text, "psig");
const lbf = (text: string) => at(text, "lbf");
const ft = (text: string) => at(text, "ft");

/** Where the ready job differs from the finished one: another well, mandrel 3 of EM-07. */
const own: Readonly<Record<string, TypedFields>> = {
  "weights-down": {
    "upper-stop": ft("1200"),
    "upper-hanging": lbf("145"),
    "upper-pick-up": lbf("172"),
    "upper-slack-off": lbf("119"),
    "lower-stop": ft("2400"),
    "lower-hanging": lbf("182"),
    "lower-pick-up": lbf("209"),
    "lower-slack-off": lbf("155"),
  },
  "gauge-down": {
    "gauge-diameter": at("2.30", "in"),
    "gauge-depth": ft("6360"),
    "fluid-level": ft("2910"),
    hanging: lbf("235"),
    "pick-up": lbf("270"),
    "slack-off": lbf("200"),
  },
  correlate: {
    "known-is": at("landing nipple"),
    "known-depth": ft("6340"),
    "known-counter": ft("6343"),
  },
  "level-first": {
    "level-first-level": ft("2910"),
    "level-first-casing": psig("748"),
    "level-first-wellhead": psig("318"),
  },
  locate: {
    "tagged-above": ft("3242"),
    "tagged-below": ft("5294"),
    "pocket-depth": ft("4383"),
    "key-pull": lbf("480"),
  },
  "level-last": { "level-last-casing": psig("752"), "level-last-wellhead": psig("319") },
  inspect: {
    "pulled-serial": at("EM-0713"),
    "pulled-complete": at("complete"),
    "pulled-condition": at("port cut"),
    "pulled-charge": at("not tested"),
  },
  card: { "new-serial": at("em 2041"), "new-card": psig("948") },
  "pocket-open": {
    "pocket-open-level": ft("2910"),
    "pocket-open-casing": psig("740"),
    "pocket-open-wellhead": psig("318"),
  },
  enter: { "set-pick-up": lbf("300"), "set-depth": ft("4383") },
  "test-pull": { "test-pull-force": lbf("450"), "test-pull-held": at("held") },
  shear: { "shear-hits": at("11"), "shear-largest": lbf("990"), "shear-sign": at("clear") },
  "proof-start": {
    "proof-start-level": ft("2910"),
    "proof-start-casing": psig("702"),
    "proof-start-wellhead": psig("52"),
  },
  "proof-end": { "proof-end-casing": psig("700"), "proof-end-wellhead": psig("52") },
};

interface Good {
  readonly minutes: number;
  readonly fields: Readonly<Record<string, Typed>>;
}

/** What a run enters where another kind of work, another mandrel or a catcher brings steps of its own. */
const barriersProved = (name: string): TypedFields => ({
  [`${name}-turns`]: at("14"),
  [`${name}-crown`]: at("held"),
  [`${name}-second-is`]: at("upper master valve"),
  [`${name}-second`]: at("held"),
  [`${name}-cavity`]: psig("0"),
  [`${name}-trapped`]: at("none"),
});
const ownString = (name: string): TypedFields => ({
  [`${name}-measured`]: at("yes"),
  [`${name}-union-pressure`]: psig("1300"),
  [`${name}-union`]: at("yes"),
  [`${name}-zero`]: at("yes"),
});
const ofVariants: Readonly<Record<string, TypedFields>> = {
  "pocket-look": { "pocket-found": at("empty") },
  "look-block": { "block-shows": at("open pocket") },
  "proof-back-start": {
    "proof-back-start-level": ft("2910"),
    "proof-back-start-casing": psig("400"),
    "proof-back-start-wellhead": psig("318"),
  },
  "proof-back-end": {
    "proof-back-end-casing": psig("401"),
    "proof-back-end-wellhead": psig("318"),
  },
  "catcher-barriers": barriersProved("catcher"),
  "catcher-string-on": { "catcher-fits": at("yes"), ...ownString("catcher") },
  "catcher-set": {
    "catcher-pull": lbf("410"),
    "catcher-held": at("held"),
    "catcher-shear": at("clear"),
    "catcher-depth": ft("6343"),
  },
  "catcher-out": { "catcher-all-out": at("yes") },
  "fetch-barriers": barriersProved("fetch"),
  "fetch-string-on": ownString("fetch"),
  "catcher-plan": {
    "catcher-route": at("waited"),
    "catcher-lower-checks": at("hold"),
    "catcher-time": at("15", "min"),
    "catcher-barrier": at("wireline valves on still wire, then crown valve"),
  },
  "catcher-debris": { debris: at("nothing") },
  "catcher-level": {
    "catcher-level-casing": psig("690"),
    "catcher-level-wellhead": psig("60"),
    "catcher-is-level": at("steady"),
  },
  fetch: { "fetch-hits": at("4"), "fetch-largest": lbf("520"), "fetch-free": at("quiet") },
  "fetch-out": { "fetch-all-out": at("yes") },
  "caught-barriers": barriersProved("caught"),
  "caught-look": { "caught-words": at("nothing") },
};

/** A run without anything out of the ordinary for the ready job: EM-07, mandrel 3. */
export const goodRun: Readonly<Record<string, Good>> = Object.fromEntries([
  ...Object.entries(finishedRun).map(([step, { minutes, fields }]) => [
    step,
    { minutes, fields: (own[step] ?? fields) as Good["fields"] },
  ]),
  // A proof is watched for the policy's time; the rest takes as long as it takes.
  ...Object.entries(ofVariants).map(([step, fields]) => [step, { minutes: 20, fields }]),
]);
