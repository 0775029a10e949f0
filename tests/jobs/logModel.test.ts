import "fake-indexeddb/auto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { signers } from "../../demo-data/finishedRun.ts";
import { closeRun } from "../../src/jobs/commands/closeRun.ts";
import {
  closeContingency,
  noteContingency,
  openContingency,
} from "../../src/jobs/commands/contingency.ts";
import { changeCrew } from "../../src/jobs/commands/crewChange.ts";
import type { Decision } from "../../src/jobs/commands/decision.ts";
import { goBack, stepsBehind } from "../../src/jobs/commands/goBack.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import { observeLift } from "../../src/jobs/commands/observe.ts";
import { addPhotograph } from "../../src/jobs/commands/photograph.ts";
import { answerQuestion, askQuestion } from "../../src/jobs/commands/questions.ts";
import { review } from "../../src/jobs/commands/review.ts";
import {
  addNote,
  correct,
  grantException,
  leaveOut,
  recordStep,
  releaseHold,
  signHold,
  startRun,
  type TypedFields,
} from "../../src/jobs/commands/run.ts";
import { settleConflict } from "../../src/jobs/commands/settle.ts";
import type { Situation } from "../../src/jobs/commands/situation.ts";
import { endStandby, startStandby } from "../../src/jobs/commands/standby.ts";
import { eventBody } from "../../src/jobs/log/event.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import type { Actor } from "../../src/jobs/roles.ts";
import { fieldById } from "../../src/jobs/sheet/walk.ts";
import { holdStates } from "../../src/jobs/state/holdState.ts";
import { type LiftObserved, openBranch, openStandby } from "../../src/jobs/state/jobState.ts";
import { openDexieStore } from "../../src/jobs/store/dexieStore.ts";
import type { AppendOptions, Store } from "../../src/jobs/store/store.ts";
import { engineer, planner, supervisor } from "./demo.ts";
import { memoryStore } from "./memoryStore.ts";
import { PlainLog } from "./plainLog.ts";
import { smallProgramme, smallSheet } from "./smallSheet.ts";
import { type Crash, checkAlike, checkVoided, pictureOf, StoredTablet } from "./twoTablets.ts";

const operator: Actor = { name: "A. Brack", role: "winch operator" };
const people = [supervisor, supervisor, supervisor, operator, engineer, planner];
const HOLDS = ["h1", "h2"] as const;
const STEPS = ["a", "b", "c", "d", "e"];
const said = (text: string) => ({ text });
const answersTo = (answer: string, pressure: string): Readonly<Record<string, TypedFields>> => ({
  a: { "a-answer": said(answer), "a-pressure": { text: pressure, unit: "psig" } },
  b: { "b-count": said("2") },
  c: { "c-answer": said(answer), "c-note": said("seen") },
});
const good = answersTo("yes", "50");

/** Two tablets of one crew, and what has happened to them in all the runs so far. */
interface Pair {
  readonly tablets: readonly [StoredTablet, StoredTablet];
  readonly seen: Map<string, number>;
}
/** Nothing but which tablets there are: what they hold is asked of them and of their promises. */
type Nothing = Record<string, never>;

const count = ({ seen }: Pair, what: string) => seen.set(what, (seen.get(what) ?? 0) + 1);

/** One thing that somebody does on one of the tablets, or between them. */
class Move implements fc.AsyncCommand<Nothing, Pair> {
  private readonly what: string;
  private readonly on: 0 | 1;
  private readonly does: (tablet: StoredTablet, pair: Pair, other: StoredTablet) => Promise<void>;

  constructor(what: string, on: 0 | 1, does: Move["does"]) {
    this.what = what;
    this.on = on;
    this.does = does;
  }

  check = () => true;

  async run(_: Nothing, pair: Pair): Promise<void> {
    const tablet = pair.tablets[this.on];
    const other = pair.tablets[this.on === 0 ? 1 : 0];
    const before = other.promised.size;
    await this.does(tablet, pair, other);
    tablet.wait(2);
    await tablet.check();
    if (other.promised.size > before) await other.check();
  }

  toString = () => `${this.what} on ${this.on === 0 ? "the first" : "the second"}`;
}

interface Pressed {
  readonly actor?: Actor;
  readonly crash?: Crash | undefined;
  readonly options?: Pick<AppendOptions, "pictures">;
}

/** Performs a command, its tablet cut off at the write where a crash is given, and holds what comes of it. */
async function press(
  tablet: StoredTablet,
  pair: Pair,
  decide: (situation: Situation) => Decision,
  { actor = supervisor, crash, options = {} }: Pressed = {},
) {
  const [one, two] = pair.tablets;
  const before = await tablet.situation(actor);
  const holds = holdStates(before.state, before.now, before.writer);
  const done = await tablet.perform(actor, decide, options, crash, () =>
    (tablet === one ? two : one).giveTo(tablet),
  );
  for (const { body } of done.events) {
    count(pair, body.type);
    if (body.type === "lift observed" && body.corrects) count(pair, "lift corrected");
  }
  const after = await tablet.situation(actor);
  if (crash) return done;
  for (const [id, hold] of holdStates(after.state, after.now, after.writer)) {
    const earlier = holds.get(id);
    if (earlier && checkVoided(earlier, hold, done.events, after.state.events)) {
      count(pair, "voided");
    }
  }
  return done;
}

/** Releases a hold point: granted exactly when the plain rules say so. */
async function release(
  tablet: StoredTablet,
  pair: Pair,
  hold: "h1" | "h2",
  actor: Actor = supervisor,
) {
  const { state, now, writer } = await tablet.situation(actor);
  const open = state.stage === "running" || state.stage === "sent back";
  const stands = holdStates(state, now, writer).get(hold)?.stands ?? false;
  const may = open && !stands && new PlainLog(state.events).mayRelease(hold, actor.role);
  const done = await press(tablet, pair, (s) => releaseHold(s, hold), { actor });
  expect([hold, actor.role, done.ok]).toEqual([hold, actor.role, may]);
}

const recording = (tablet: StoredTablet, step: string, typed: TypedFields, ago = 0) => ({
  step,
  typed,
  takenAt: new Date(tablet.now.getTime() - ago * 60_000).toISOString(),
  standBy: { reason: "seen, and meant" },
});

/** Does whatever is next as a good crew would. */
async function goOn(tablet: StoredTablet, pair: Pair): Promise<void> {
  const { state, current } = await tablet.progress();
  if (state.stage === "issued") {
    await press(tablet, pair, startRun);
    return;
  }
  if (state.stage === "closed") {
    const seen = headsOf(state.events);
    const back = (s: Situation) => review(s, "sent back", "c is thin", seen);
    await press(tablet, pair, back, { actor: engineer });
    return;
  }
  if (openBranch(state)) {
    const ending = { option: "on", outcome: "It holds.", rejoin: current?.id ?? "" };
    await press(tablet, pair, (s) => closeContingency(s, ending));
    return;
  }
  if (openStandby(state)) {
    await press(tablet, pair, endStandby);
    return;
  }
  if (!current) {
    await press(tablet, pair, (s) => closeRun(s, { remark: "", reason: "A small sheet." }));
    return;
  }
  if (current.type === "step") {
    const { id, step } = current;
    if (step.optional && state.events.length % 2 === 0) {
      await press(tablet, pair, (s) => leaveOut(s, id, "not needed here"));
      return;
    }
    await press(tablet, pair, (s) => recordStep(s, recording(tablet, id, good[id] ?? {})));
    return;
  }
  const hold = current.id as "h1" | "h2";
  const mend = { "a-yes": "a", "a-inside": "a", "a-still-yes": "a", "c-yes": "c", "c-noted": "c" };
  const steps = new PlainLog(state.events).open(hold).map((id) => mend[id as keyof typeof mend]);
  for (const step of new Set(steps)) {
    await press(tablet, pair, (s) => recordStep(s, recording(tablet, step, good[step] ?? {})));
  }
  for (const [field, differing] of state.conflicts) {
    const stands = differing.at(-1)?.standsOn ?? "";
    await press(tablet, pair, (s) => settleConflict(s, field, stands, "seen together"));
  }
  const signer: Actor = { name: signers["field operator"] ?? "", role: "field operator" };
  await press(tablet, pair, (s) => signHold(s, hold, signer));
  await release(tablet, pair, hold);
}

/** Says that the wellhead pressure of a reading on lift was another. */
const correctLift =
  (tablet: StoredTablet, { event, observed }: LiftObserved, wellhead: string) =>
  (s: Situation) =>
    observeLift(s, {
      takenAt: [observed.takenAt, tablet.clock].sort()[0],
      source: observed.source,
      typed: {
        injectionAtSurface: { text: "870", unit: "psig" },
        wellhead: { text: wellhead, unit: "psig" },
      },
      corrects: { event: event.hash, reason: "misread" },
      standBy: true,
    });

const tablet = fc.constantFrom<0 | 1>(0, 1);
const crash = fc.option(fc.constantFrom<Crash>("before it was kept", "before it was answered"), {
  nil: undefined,
  freq: 5,
});
const answer = fc.constantFrom("yes", "yes", "no");
const pressure = fc.constantFrom("50", "70", "120");
const place = fc.nat(30);
const nth = <T>(list: readonly T[], index: number) => list[index % Math.max(1, list.length)];

const goingOn = fc.tuple(tablet, fc.integer({ min: 1, max: 4 })).map(
  ([on, times]) =>
    new Move(`go on ${times} times`, on, async (t, pair) => {
      for (let i = 0; i < times; i += 1) await goOn(t, pair);
    }),
);

/** What has to meet with something else to come about. */
const rare = [
  fc.tuple(tablet, answer, pressure).map(
    ([on, says, psig]) =>
      new Move(`go on to b, then read ${says}, ${psig} psig`, on, async (t, pair) => {
        for (let i = 0; i < 4 && (await t.progress()).current?.id !== "b"; i += 1) {
          await goOn(t, pair);
        }
        const typed = answersTo(says, psig).a ?? {};
        await press(t, pair, (s) => recordStep(s, recording(t, "a", typed)));
      }),
  ),
  fc
    .tuple(
      tablet,
      fc.constantFrom("a-inside", "a-inside", "a-inside", "a-yes"),
      fc.constantFrom(engineer, engineer, engineer, planner),
    )
    .map(
      ([on, condition, by]) =>
        new Move(`read 120 psig and let ${condition} pass by ${by.role}`, on, async (t, pair) => {
          const reason = "Gauge reads high, second gauge agrees.";
          await press(t, pair, (s) =>
            recordStep(s, recording(t, "a", answersTo("yes", "120").a ?? {})),
          );
          const done = await press(t, pair, (s) => grantException(s, "h1", condition, reason, by));
          if (done.ok) expect([condition, by.role]).toEqual(["a-inside", "production engineer"]);
        }),
    ),
  fc.tuple(tablet, pressure, pressure, place, fc.boolean()).map(
    ([on, here, there, which, settles]) =>
      new Move(`read ${here} here and ${there} there, then meet`, on, async (t, pair, other) => {
        const decide = (who: StoredTablet, psig: string) => (s: Situation) =>
          recordStep(s, recording(who, "a", answersTo("yes", psig).a ?? {}));
        await press(t, pair, decide(t, here));
        await press(other, pair, decide(other, there));
        await t.giveTo(other);
        await other.giveTo(t);
        await checkAlike(t, other);
        const differing = (await t.progress()).state.conflicts.get("a-pressure");
        if (!differing) return;
        count(pair, "in conflict");
        const stands = nth(differing, which)?.standsOn ?? "";
        const settle = (s: Situation) =>
          settleConflict(s, "a-pressure", stands, "gauge 2 is right");
        if (settles) await press(t, pair, settle);
      }),
  ),
  fc.tuple(tablet, place, answer, pressure, crash).map(
    ([on, which, says, psig, cut]) =>
      new Move(`correct reading ${which}: ${says}, ${psig} psig`, on, async (t, pair) => {
        const { state } = await t.progress();
        const reading = nth(state.readings, which);
        const field = reading && fieldById(smallSheet, reading.field);
        if (!reading || !field) return;
        const text = { choice: says, quantity: psig, count: "3", text: "seen twice" }[field.kind];
        const typed = { text, ...(field.kind === "quantity" && { unit: "psig" }) };
        await press(t, pair, (s) => correct(s, reading, typed, "misread"), { crash: cut });
      }),
  ),
  fc.tuple(tablet, fc.boolean(), crash).map(
    ([on, starts, cut]) =>
      new Move(starts ? "stand by" : "end standby", on, async (t, pair) => {
        const decide = starts ? (s: Situation) => startStandby(s, "thunder") : endStandby;
        await press(t, pair, decide, { crash: cut });
      }),
  ),
  fc.tuple(tablet, place, crash).map(
    ([on, which, cut]) =>
      new Move(`close what went wrong, on at ${which}`, on, async (t, pair) => {
        const { state, current } = await t.progress();
        const rejoin = nth([current?.id ?? "", ...stepsBehind(state)], which) ?? "";
        const option = rejoin === "b" ? "again" : "on";
        const ending = { option, outcome: "Mended.", rejoin };
        await press(t, pair, (s) => closeContingency(s, ending), { crash: cut });
      }),
  ),
];

const others = [
  fc.tuple(tablet, fc.boolean()).map(
    ([on, answers]) =>
      new Move(`go on to the close and ask${answers ? ", answered" : ""}`, on, async (t, pair) => {
        const stage = async () => (await t.progress()).state.stage;
        for (let i = 0; i < 12 && (await stage()) !== "closed"; i += 1) await goOn(t, pair);
        const about = { kind: "item", item: "c" } as const;
        await press(t, pair, (s) => askQuestion(s, about, "Who saw it?"), { actor: engineer });
        const asked = (await t.progress()).state.questions.at(-1)?.event.hash ?? "";
        if (answers) await press(t, pair, (s) => answerQuestion(s, asked, "Both of us."));
      }),
  ),
  fc.tuple(tablet, fc.constantFrom(...STEPS, "current"), answer, pressure, fc.nat(40), crash).map(
    ([on, step, says, psig, ago, cut]) =>
      new Move(`record ${step}: ${says}, ${psig} psig, ${cut ?? ""}`, on, async (t, pair) => {
        const { current } = await t.progress();
        const id = step === "current" ? (current?.id ?? "") : step;
        const typed = answersTo(says, psig)[id] ?? {};
        await press(t, pair, (s) => recordStep(s, recording(t, id, typed, ago)), { crash: cut });
      }),
  ),
  tablet.map(
    (on) =>
      new Move("leave d out", on, async (t, pair) => {
        await press(t, pair, (s) => leaveOut(s, "d", "not needed here"));
      }),
  ),
  fc
    .tuple(tablet, fc.constantFrom(...HOLDS), fc.constantFrom(...people))
    .map(
      ([on, hold, by]) =>
        new Move(`release ${hold} as ${by.role}`, on, (t, pair) => release(t, pair, hold, by)),
    ),
  fc.tuple(tablet, fc.constantFrom("J. Corrow", "R. Tamsin"), crash).map(
    ([on, name, cut]) =>
      new Move(`sign h1 as ${name}`, on, async (t, pair) => {
        const drawn = [
          [
            [0, 100],
            [300, 20],
            [40, 180],
          ],
        ] as const;
        const by: Actor = { name, role: "field operator" };
        await press(t, pair, (s) => signHold(s, "h1", by, drawn as never), { crash: cut });
      }),
  ),
  fc.tuple(tablet, crash).map(
    ([on, cut]) =>
      new Move("note", on, async (t, pair) => {
        await press(t, pair, (s) => addNote(s, "wind is up", "b"), { crash: cut });
      }),
  ),
  fc.tuple(tablet, place, crash).map(
    ([on, which, cut]) =>
      new Move(`go back to step ${which} of those done`, on, async (t, pair) => {
        const to = nth(stepsBehind((await t.progress()).state), which) ?? "a";
        await press(t, pair, (s) => goBack(s, to, "done by mistake"), { crash: cut });
      }),
  ),
  fc.tuple(tablet, crash).map(
    ([on, cut]) =>
      new Move("something goes wrong", on, async (t, pair) => {
        await press(t, pair, (s) => openContingency(s, "k"), { crash: cut });
      }),
  ),
  fc.tuple(tablet, pressure, crash).map(
    ([on, psig, cut]) =>
      new Move(`note ${psig} psig of what went wrong`, on, async (t, pair) => {
        const typed = { "k-pressure": { text: psig, unit: "psig" } };
        await press(t, pair, (s) => noteContingency(s, typed, t.clock), { crash: cut });
      }),
  ),
  fc.tuple(tablet, crash).map(
    ([on, cut]) =>
      new Move("change the crew", on, async (t, pair) => {
        const handover = { to: "D. Quill", state: "String in the lubricator.", drawn: {} };
        await press(t, pair, (s) => changeCrew(s, handover), { crash: cut });
      }),
  ),
  fc.tuple(tablet, fc.nat(9), crash).map(
    ([on, own, cut]) =>
      new Move(`photograph ${own}`, on, async (t, pair) => {
        const picture = pictureOf(own);
        const taken = { picture: picture.sha256, width: 4, height: 3, caption: "tree", at: "a" };
        const options = { pictures: [picture] };
        await press(t, pair, (s) => addPhotograph(s, taken), { crash: cut, options });
      }),
  ),
  fc.tuple(tablet, place, crash).map(
    ([on, which, cut]) =>
      new Move(`settle on ${which}`, on, async (t, pair) => {
        const { state } = await t.progress();
        const [field, differing] = nth([...state.conflicts], which) ?? ["", []];
        const stands = nth(differing, which)?.standsOn ?? "";
        await press(t, pair, (s) => settleConflict(s, field, stands, "gauge 2 is right"), {
          crash: cut,
        });
      }),
  ),
  fc
    .tuple(
      tablet,
      fc.constantFrom(
        "approved",
        "approved with remarks",
        ...Array.from({ length: 5 }, () => "sent back"),
      ),
      crash,
    )
    .map(
      ([on, decision, cut]) =>
        new Move(`review: ${decision}`, on, async (t, pair) => {
          const { events, stage } = (await t.progress()).state;
          const seen = headsOf(events);
          const open = new PlainLog(events).unanswered.length > 0;
          const decide = (s: Situation) => review(s, decision as never, "c is thin", seen);
          const done = await press(t, pair, decide, { actor: engineer, crash: cut });
          if (cut) return;
          const may = stage === "closed" && (decision === "sent back" || !open);
          expect([decision, stage, done.ok]).toEqual([decision, stage, may]);
        }),
    ),
  fc.tuple(tablet, place, fc.constantFrom(...people), crash).map(
    ([on, which, by, cut]) =>
      new Move(`ask about entry ${which} as ${by.role}`, on, async (t, pair) => {
        const { state } = await t.progress();
        const event = nth(state.events, which)?.hash ?? "";
        const ask = (s: Situation) => askQuestion(s, { kind: "event", event }, "How sure is it?");
        const done = await press(t, pair, ask, { actor: by, crash: cut });
        const may =
          (state.stage === "closed" || state.stage === "sent back") &&
          by.role === "production engineer";
        if (!cut) expect([by.role, state.stage, done.ok]).toEqual([by.role, state.stage, may]);
      }),
  ),
  fc.tuple(tablet, place, fc.constantFrom(supervisor, engineer), crash).map(
    ([on, which, by, cut]) =>
      new Move(`answer question ${which} as ${by.role}`, on, async (t, pair) => {
        const { questions } = (await t.progress()).state;
        const asked = nth(questions, which)?.event.hash ?? "";
        await press(t, pair, (s) => answerQuestion(s, asked, "Read twice."), {
          actor: by,
          crash: cut,
        });
      }),
  ),
  fc.tuple(tablet, fc.constantFrom(...people), crash).map(
    ([on, by, cut]) =>
      new Move(`read the well on lift as ${by.role}`, on, async (t, pair) => {
        const { state } = await t.progress();
        const typed = {
          injectionAtSurface: { text: "870", unit: "psig" },
          wellhead: { text: "260", unit: "psig" },
        };
        const reading = { takenAt: t.clock, source: "gauges", typed, standBy: true };
        const done = await press(t, pair, (s) => observeLift(s, reading), {
          actor: by,
          crash: cut,
        });
        const may = state.started !== undefined && state.stage !== "approved";
        if (!cut) expect([state.stage, done.ok]).toEqual([state.stage, may]);
      }),
  ),
  fc.tuple(tablet, place, pressure, crash).map(
    ([on, which, psig, cut]) =>
      new Move(`correct reading on lift ${which}: ${psig} psig`, on, async (t, pair) => {
        const { state } = await t.progress();
        const wrong = nth(state.observed, which);
        if (!wrong) return;
        const done = await press(t, pair, correctLift(t, wrong, psig), { crash: cut });
        const { takenAt, wellhead } = wrong.observed;
        const isSame = takenAt <= t.clock && String(wellhead.value) === psig;
        const may = state.stage !== "approved" && !wrong.corrected && !isSame;
        if (!cut) expect([state.stage, done.ok]).toEqual([state.stage, may]);
      }),
  ),
  fc.tuple(tablet, tablet, place, pressure, pressure).map(
    ([on, meets, which, here, there]) =>
      new Move(`correct one reading on lift, ${here} here, ${there} there`, on, async (t, p, o) => {
        const { state } = await t.progress();
        const wrong = nth(state.observed, which);
        if (!wrong) return;
        await t.giveTo(o);
        await press(t, p, correctLift(t, wrong, here));
        await press(o, p, correctLift(o, wrong, there));
        await t.giveTo(o);
        if (meets === 0) await o.giveTo(t);
        const both = (await o.progress()).state.observed;
        if (both.some(({ corrected }) => corrected?.apart)) count(p, "lift corrected apart");
      }),
  ),
  fc.tuple(tablet, crash).map(
    ([on, cut]) =>
      new Move("issue again", on, async (t, pair) => {
        const decide = ({ state, actor }: Situation) =>
          issueProgramme(state, smallProgramme(), actor);
        await press(t, pair, decide, { actor: planner, crash: cut });
      }),
  ),
  fc
    .tuple(tablet, fc.integer({ min: -90, max: 90 }))
    .map(
      ([on, minutes]) =>
        new Move(`clock moved by ${minutes} min`, on, async (t) => t.wait(minutes)),
    ),
  tablet.map(
    (on) =>
      new Move("power cut", on, async (t) => {
        await t.open();
      }),
  ),
  tablet.map((on) => new Move("pack given away", on, async (t, _, other) => t.giveTo(other))),
  tablet.map(
    (on) =>
      new Move("packs exchanged", on, async (t, _, other) => {
        await t.giveTo(other);
        await other.giveTo(t);
        await checkAlike(t, other);
      }),
  ),
];

/** Two tablets with the job on them, its programme issued on the first and brought to the second. */
async function twoTablets(
  stores: () => () => Promise<Store>,
  seen: Map<string, number>,
): Promise<Pair> {
  const tablets = [new StoredTablet(stores()), new StoredTablet(stores())] as const;
  const [first, second] = tablets;
  await first.open();
  await second.open();
  await first.kept.receive({ records: { ...library, jobs: [jobs.ready] }, events: [] });
  const pair = { tablets, seen };
  const decide = ({ state, actor }: Situation) => issueProgramme(state, smallProgramme(), actor);
  await press(first, pair, decide, { actor: planner });
  await first.giveTo(second);
  return pair;
}

/** How many times as many histories are made up as usual; thousands take a quarter of an hour and more. */
const TIMES = Number(process.env.LATCHLINE_HISTORIES_TIMES ?? 1);

const inMemory = () => {
  const store = memoryStore();
  return async () => store;
};

/** What tablets keep things in, and how many histories are made up for it: the browser's database takes its time. */
const keeping = [
  {
    name: "the browser's database",
    histories: 4,
    stores: () => {
      const name = crypto.randomUUID();
      return () => openDexieStore(name);
    },
  },
  {
    name: "memory",
    histories: 40,
    stores: inMemory,
  },
];

/** How many times ten more histories are made up for a kind of event that has not come up yet. */
const MOST_MORE = 40;

describe("the log of one job on two tablets, whatever is done in whatever order", () => {
  // Going on is likelier than any other single thing, so that runs come to their end; what is rare otherwise comes next.
  const often = [...Array.from({ length: 6 }, () => goingOn), ...rare, ...rare, ...rare];
  const commands = fc.commands([...others, ...often], { maxCommands: 40, size: "max" });
  const seen = new Map<string, number>();

  const everyHistory = (stores: () => () => Promise<Store>) =>
    fc.asyncProperty(commands, async (list) => {
      const pair = await twoTablets(stores, seen);
      await fc.asyncModelRun(() => ({ model: {}, real: pair }), list);
      const [one, two] = pair.tablets;
      await one.giveTo(two);
      await two.giveTo(one);
      await checkAlike(one, two);
    });

  it.each(keeping)(
    "loses nothing, holds together, means the same on both, and lets no hold point stand on what is not so, in $name",
    async ({ histories, stores }) => {
      await fc.assert(everyHistory(stores), { numRuns: histories * TIMES });
    },
    // Many histories, and on a busy machine: how long they take is not asked here.
    300_000 * TIMES,
  );

  it("goes through every kind of event on the way, voided hold points and conflicts among them", async () => {
    // Made from the schema: a new kind of event that no move writes shows here.
    const kinds: string[] = eventBody.options.map((option) => option.shape.type.value);
    const besides = ["voided", "in conflict", "lift corrected", "lift corrected apart"];
    const missing = () => [...kinds, ...besides].filter((kind) => !seen.has(kind));
    // The rarest kind is left out of a handful of histories by chance now and then: more are made up for it.
    for (let more = 0; missing().length > 0 && more < MOST_MORE; more++)
      await fc.assert(everyHistory(inMemory), { numRuns: 10 });
    expect(missing()).toEqual([]);
  }, 300_000);
});
