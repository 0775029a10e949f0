import canonicalize from "canonicalize";
import { addMinutes, parseISO } from "date-fns";
import { expect } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import type { Decision } from "../../src/jobs/commands/decision.ts";
import { perform } from "../../src/jobs/commands/perform.ts";
import type { Situation } from "../../src/jobs/commands/situation.ts";
import { writer } from "../../src/jobs/display.ts";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { arrivalOf, previewPack } from "../../src/jobs/pack/arrival.ts";
import { contentForJobs, picturesFor } from "../../src/jobs/pack/contents.ts";
import { makePack, readPack } from "../../src/jobs/pack/pack.ts";
import type { Actor } from "../../src/jobs/roles.ts";
import { conditionStates, isUnmet } from "../../src/jobs/state/conditions.ts";
import { type HoldState, holdStates } from "../../src/jobs/state/holdState.ts";
import { foldInOrder, foldJob } from "../../src/jobs/state/jobState.ts";
import { progressOf } from "../../src/jobs/state/progress.ts";
import { openQuestions } from "../../src/jobs/state/questions.ts";
import { type Picture, pictureHash } from "../../src/jobs/store/picture.ts";
import { type AppendOptions, type Store, StoreFailed } from "../../src/jobs/store/store.ts";
import { supervisor } from "./demo.ts";
import { PlainLog } from "./plainLog.ts";

const JOB = jobs.ready.id;
const write = writer("field");

/** What the power being cut off at the moment of a write leaves: nothing of it, or all of it and no answer. */
export type Crash = "before it was kept" | "before it was answered";

/** A tablet with a store, and what it has promised to keep. */
export class StoredTablet {
  now = parseISO("2026-11-25T06:00:00.000Z");
  /** every event that it said it keeps, as it was when it said so */
  readonly promised = new Map<string, string>();
  readonly pictures = new Set<string>();
  private readonly openStore: () => Promise<Store>;
  private store: Store | undefined;

  /** @param openStore opens what the tablet keeps things in: the same at every call */
  constructor(openStore: () => Promise<Store>) {
    this.openStore = openStore;
  }

  /** Opened anew, as after its power was cut off. */
  async open(): Promise<Store> {
    this.store = await this.openStore();
    return this.store;
  }

  get kept(): Store {
    if (!this.store) throw new Error("the tablet is not open");
    return this.store;
  }

  get clock() {
    return this.now.toISOString();
  }

  wait(minutes: number) {
    this.now = addMinutes(this.now, minutes);
  }

  async situation(actor: Actor): Promise<Situation> {
    const state = foldInOrder(await this.kept.eventsOf(JOB));
    return { state, actor, now: this.clock, writer: write };
  }

  /** Where the run stands here. */
  async progress() {
    const { state, now } = await this.situation(supervisor);
    return { state, ...progressOf(state, now, write) };
  }

  /**
   * Performs a command as the app does. A crash takes the tablet's power at the write; whoever held it opens it again
   * and presses once more, which is the same entry.
   *
   * @param meanwhile what happens before it is pressed again
   */
  async perform(
    actor: Actor,
    decide: (situation: Situation) => Decision,
    options: Pick<AppendOptions, "pictures"> = {},
    crash?: Crash,
    meanwhile: () => Promise<void> = async () => {},
  ) {
    const acting = { actor, now: this.clock, units: "field" as const, entry: crypto.randomUUID() };
    let before: readonly JobEvent[] | undefined;
    if (crash) {
      const failing = failingStore(this.kept, crash);
      const first = await perform(failing, JOB, acting, decide, options).catch((error) => error);
      if (!(first instanceof StoreFailed)) return this.promise(first, options);
      const store = await this.open();
      if (crash === "before it was answered") before = await unpromised(this, store);
      await meanwhile();
    }
    const done = await perform(this.kept, JOB, acting, decide, options);
    if (before) expect(done.events).toEqual(before);
    return this.promise(done, options);
  }

  private promise(
    done: Decision & { readonly events: readonly JobEvent[] },
    { pictures = [] }: Pick<AppendOptions, "pictures">,
  ) {
    for (const event of done.events) this.promised.set(event.hash, text(event));
    if (done.events.length > 0) for (const { sha256 } of pictures) this.pictures.add(sha256);
    return done;
  }

  /** Gives its job to another tablet in a pack, as a file goes from hand to hand. */
  async giveTo(other: StoredTablet): Promise<void> {
    const events = await this.kept.eventsOf(JOB);
    const content = contentForJobs([jobs.ready], library, events);
    const pictures = await picturesFor(this.kept, events);
    const read = readPack(JSON.stringify(makePack({ ...content, pictures }, this.clock)));
    if (!read.ok) throw new Error(read.why);
    const there = await other.kept.library();
    const preview = previewPack(read.pack, there, await other.kept.eventsOf(JOB));
    await other.kept.receive(arrivalOf(read.pack, preview, there, "keep mine"));
    for (const [hash, promised] of this.promised) other.promised.set(hash, promised);
    for (const sha256 of this.pictures) other.pictures.add(sha256);
  }

  /** Everything that has to be true of a tablet at any moment. */
  async check(): Promise<void> {
    const events = await this.kept.eventsOf(JOB);
    // Nothing disappeared, nothing changed, nothing came that nobody wrote.
    expect(new Map(events.map((event) => [event.hash, text(event)]))).toEqual(this.promised);
    for (const sha256 of this.pictures) {
      const picture = await this.kept.picture(sha256);
      expect(picture && pictureHash(picture.bytes)).toBe(sha256);
    }
    expect(brokenLinks(events)).toEqual([]);
    checkFold(events);
    checkHolds(events, this.clock);
  }
}

const text = (value: unknown) => canonicalize(value) as string;

/** What was written and not answered for. */
async function unpromised(tablet: StoredTablet, store: Store): Promise<JobEvent[]> {
  const events = await store.eventsOf(JOB);
  return events.filter(({ hash }) => !tablet.promised.has(hash));
}

/** A store whose power goes at the first write. */
function failingStore(store: Store, crash: Crash): Pick<Store, "eventsOf" | "append"> {
  return {
    eventsOf: (job) => store.eventsOf(job),
    append: async (drafts, options) => {
      if (crash === "before it was answered") await store.append(drafts, options);
      throw new StoreFailed(new Error("the power was cut off"));
    },
  };
}

/** Whatever the log says is in the state, in one of its lists, or among what it names as not followed. */
function checkFold(events: readonly JobEvent[]): void {
  const state = foldInOrder(events);
  const unfollowed = new Set(state.unfollowed.map(({ event }) => event.hash));
  const plain = new PlainLog(events);
  const followed = (type: JobEvent["body"]["type"]) =>
    plain.all(type).flatMap(({ hash }) => (unfollowed.has(hash) ? [] : [hash]));
  const named = (list: readonly { readonly event: JobEvent }[]) =>
    list.map(({ event }) => event.hash);
  const readings = plain
    .all("readings taken")
    .flatMap(({ hash, body }) => body.entries.map(({ field, value }) => [hash, field, value]));
  expect(
    new Set(
      state.readings.map(({ event, field, original }) => text([event.hash, field, original])),
    ),
  ).toEqual(new Set(readings.map(text)));
  expect(state.readings).toHaveLength(readings.length);
  expect(new Set(state.readings.flatMap(({ corrections }) => named(corrections)))).toEqual(
    new Set(followed("correction")),
  );
  expect(named(state.signatures)).toEqual(followed("hold signed"));
  expect(named(state.releases)).toEqual(followed("hold released"));
  expect(named(state.exceptions)).toEqual(followed("exception granted"));
  expect(named(state.notes)).toEqual(followed("note"));
  expect(named(state.goneBack)).toEqual(followed("went back"));
  expect(named(state.branches)).toEqual(followed("branch opened"));
  expect(
    state.branches.flatMap(({ closed }) => (closed ? [closed.event.hash] : [])).sort(),
  ).toEqual(followed("branch closed").sort());
  expect(named(state.standbys)).toEqual(followed("standby started"));
  expect(state.standbys.flatMap(({ ended }) => (ended ? [ended.hash] : [])).sort()).toEqual(
    followed("standby ended").sort(),
  );
  expect(named(state.crewChanges)).toEqual(followed("crew changed"));
  expect(named(state.photographs)).toEqual(followed("photograph"));
  expect(named(state.observed)).toEqual(followed("lift observed"));
  expect(named(state.observed.filter(({ corrected }) => !corrected))).toEqual(
    plain.onLift().map(({ hash }) => hash),
  );
  expect(named(state.questions)).toEqual(followed("question asked"));
  expect(state.questions.flatMap(({ answers }) => named(answers)).sort()).toEqual(
    followed("question answered").sort(),
  );
  expect(named(openQuestions(state))).toEqual(plain.unanswered);
  expect(named(state.reviews)).toEqual(plain.all("review").map(({ hash }) => hash));
  expect(named(state.doneApart)).toEqual(plain.doneApart().map(({ hash }) => hash));
  for (const step of ["a", "b", "c", "d", "e"]) {
    expect([step, state.done.has(step)]).toEqual([step, plain.isDone(step)]);
    expect([step, state.leftOut.has(step)]).toEqual([step, plain.isLeftOut(step)]);
  }
  for (const field of ["a-answer", "a-pressure", "c-answer", "c-note", "b-count"]) {
    const differing = state.conflicts.get(field)?.map(({ standsOn }) => standsOn) ?? [];
    expect([field, [...differing].sort()]).toEqual([
      field,
      plain
        .differing(field)
        .map(({ hash }) => hash)
        .sort(),
    ]);
  }
}

/** No hold point stands while something it asks for is not so. */
function checkHolds(events: readonly JobEvent[], now: string): void {
  const state = foldInOrder(events);
  if (!state.programme) return;
  const plain = new PlainLog(events);
  for (const [id, hold] of holdStates(state, now, write)) {
    const name = id as "h1" | "h2";
    const found = conditionStates(hold.hold, state, now, write).filter(
      ({ condition }) => condition.kind !== "signature",
    );
    expect([name, found.filter(isUnmet).map(({ condition }) => condition.id)]).toEqual([
      name,
      plain.open(name),
    ]);
    expect([name, hold.served]).toEqual([name, plain.servedAt(name) !== undefined]);
    if (!hold.stands) continue;
    if (hold.served) expect([name, plain.wasServedWell(name)]).toEqual([name, true]);
    else expect([name, plain.open(name)]).toEqual([name, []]);
  }
}

/** Two tablets that have exchanged their packs say the same of the job, in whatever order its events are read. */
export async function checkAlike(one: StoredTablet, two: StoredTablet): Promise<void> {
  const [here, there] = [await one.kept.eventsOf(JOB), await two.kept.eventsOf(JOB)];
  expect(there).toEqual(here);
  const fold = foldJob([...here].reverse());
  expect(fold).toEqual(foldInOrder(there));
  expect(progressOf(fold, one.clock, write)).toEqual(
    progressOf(foldInOrder(there), one.clock, write),
  );
}

/** What becomes of a hold point when its tablet writes: broken, it is voided there and then, by that event. */
export function checkVoided(
  before: HoldState,
  after: HoldState,
  written: readonly JobEvent[],
  events: readonly JobEvent[],
): boolean {
  const name = after.hold.id as "h1" | "h2";
  const broken = !before.served && before.stands && new PlainLog(events).open(name).length > 0;
  const back = written.some(({ body }) => body.type === "went back");
  if (!broken || back) return false;
  expect([name, after.status, after.stands]).toEqual([name, "voided", false]);
  expect(written.map(({ hash }) => hash)).toContain(after.voidedBy?.hash);
  return true;
}

/** A picture as a camera gives it, one for each number. */
export function pictureOf(own: number): Picture {
  const bytes = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, own]);
  return { sha256: pictureHash(bytes), type: "image/jpeg", bytes };
}
