import { addMilliseconds } from "date-fns";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { closeContingency, openContingency } from "../../src/jobs/commands/contingency.ts";
import { goBack } from "../../src/jobs/commands/goBack.ts";
import { correct } from "../../src/jobs/commands/run.ts";
import { settleConflict } from "../../src/jobs/commands/settle.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { holdStates } from "../../src/jobs/state/holdState.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { timesOf } from "../../src/jobs/state/times.ts";
import { Tablet } from "./demo.ts";
import { smallProgramme } from "./smallSheet.ts";

const said = (text: string) => ({ text });
const answers = (pressure: string) => ({
  "a-answer": said("yes"),
  "a-pressure": { text: pressure, unit: "psig" },
});
const DAY = 86_400_000;

/**
 * A run on two tablets with everything in it whose place in the log matters: conflict, settling, correction,
 * releases, a release that is voided, going back, a contingency. Before each entry the tablet's clock is moved.
 */
function run(clocks: readonly number[]) {
  const one = new Tablet("00000000-0000-4000-8000-00000000000a");
  const two = new Tablet("00000000-0000-4000-8000-00000000000b");
  const begun = one.now;
  let next = 0;
  const on = (tablet: Tablet) => {
    tablet.now = addMilliseconds(begun, clocks[next] ?? 0);
    next += 1;
    return tablet;
  };
  const meet = () => {
    one.merge(two.events);
    two.merge(one.events);
  };
  on(one).start(smallProgramme());
  meet();
  on(one).enter("a", answers("50"));
  on(two).enter("a", answers("70"));
  meet();
  const [, other] = one.state.conflicts.get("a-pressure") ?? [];
  on(one).act((s) => settleConflict(s, "a-pressure", other?.event.hash ?? "", "seen together"));
  meet();
  on(two).sign("h1", "field operator", "J. Corrow");
  on(two).release("h1");
  meet();
  on(one).enter("b", { "b-count": said("2") });
  on(one).enter("c", { "c-answer": said("yes"), "c-note": said("seen") });
  on(one).release("h2");
  meet();
  const reading = two.state.readings.find(({ field }) => field === "c-answer");
  if (!reading) throw new Error("nothing to correct");
  on(two).act((s) => correct(s, reading, said("no"), "misread"));
  meet();
  on(one).act((s) => openContingency(s, "k"));
  on(one).act((s) =>
    closeContingency(s, { option: "again", outcome: "From b again.", rejoin: "b" }),
  );
  meet();
  on(two).enter("b", { "b-count": said("3") });
  on(two).act((s) => goBack(s, "b", "counted wrongly"));
  meet();
  return { events: two.events, clock: two.clock, tablet: two };
}

/** What a log says, without when: the same for every clock. */
function withoutClocks({ events, clock, tablet }: ReturnType<typeof run>) {
  const state = foldJob([...events].reverse());
  return {
    order: state.events.map(({ device, sequence, body }) => [device, sequence, body.type]),
    stage: state.stage,
    done: [...state.done.keys()],
    readings: state.readings.map(({ field, value, setAside }) => [field, value, !!setAside]),
    conflicts: [...state.conflicts.keys()],
    doneBefore: state.doneBefore.map(({ step }) => step),
    branches: state.branches.map(({ closed }) => closed?.option),
    holds: [...holdStates(state, clock, tablet.writer)].map(
      ([id, { status, history, voidedBy }]) => [
        id,
        status,
        voidedBy?.sequence,
        history.map(({ release, again }) => [release.event.sequence, again?.sequence]),
      ],
    ),
  };
}

describe("clocks", () => {
  const steadily = run(Array.from({ length: 20 }, (_, i) => i * 60_000));

  it("that jump, stutter or run backwards do not disturb order, fold or hold points", () => {
    const regular = withoutClocks(steadily);
    expect(regular.holds).toMatchObject([
      ["h1", "released", undefined, [[expect.any(Number), undefined]]],
      ["h2", "locked", undefined, [[expect.any(Number), expect.any(Number)]]],
    ]);
    const clock = fc.oneof(
      fc.integer({ min: -3650 * DAY, max: 3650 * DAY }),
      fc.integer({ min: -5, max: 5 }),
      fc.constant(0),
    );
    fc.assert(
      fc.property(fc.array(clock, { minLength: 16, maxLength: 20 }), (clocks) => {
        const there = run(clocks);
        expect(withoutClocks(there)).toEqual(regular);
        expect(brokenLinks(there.events)).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it("that run backwards show in the times, which then say nothing", () => {
    const backwards = run(Array.from({ length: 20 }, (_, i) => -i * DAY));
    const times = timesOf(foldJob(backwards.events), backwards.clock);
    expect(times.clockMoved).toBe(true);
    expect(times.whole).toBe(0);
    expect(timesOf(foldJob(steadily.events), steadily.clock).clockMoved).toBe(false);
  });
});
