import { describe, expect, it } from "vitest";
import { closeContingency, openContingency } from "../../src/jobs/commands/contingency.ts";
import { goBack } from "../../src/jobs/commands/goBack.ts";
import { review } from "../../src/jobs/commands/review.ts";
import { addNote } from "../../src/jobs/commands/run.ts";
import { endStandby, startStandby } from "../../src/jobs/commands/standby.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { type Times, timesOf } from "../../src/jobs/state/times.ts";
import { engineer, supervisor, Tablet } from "./demo.ts";
import { smallProgramme } from "./smallSheet.ts";

const said = (text: string) => ({ text });
const MINUTE = 60_000;

const steps = {
  a: { "a-answer": said("yes"), "a-pressure": { text: "50", unit: "psig" } },
  b: { "b-count": said("3") },
  c: { "c-answer": said("yes"), "c-note": said("seen") },
  d: {},
  e: {},
} as const;

/** Waits, then enters a step. */
const enterAfter = (tablet: Tablet, minutes: number, step: keyof typeof steps) => {
  tablet.wait(minutes);
  tablet.enter(step, steps[step]);
};

const start = () => new Tablet().start(smallProgramme());
const toC = (tablet = start()) => {
  enterAfter(tablet, 5, "a");
  tablet.wait(2);
  tablet.sign("h1", "field operator", "J. Corrow");
  tablet.wait(1);
  tablet.release("h1");
  enterAfter(tablet, 10, "b");
  return tablet;
};

const minutes = (tablet: Tablet) => {
  const times = timesOf(tablet.state, tablet.clock);
  return {
    first: (times.phases[0]?.worked ?? 0) / MINUTE,
    second: (times.phases[1]?.worked ?? 0) / MINUTE,
    standby: times.standby / MINUTE,
    contingencies: times.contingencies / MINUTE,
    whole: times.whole / MINUTE,
  };
};

const parts = ({ phases, standby, contingencies }: Times) =>
  phases.reduce((sum, { worked }) => sum + worked, standby + contingencies);

const close = (tablet: Tablet, rejoin: string) =>
  tablet.act((s) => closeContingency(s, { option: undefined, outcome: "It holds.", rejoin }));

describe("where a job's time went", () => {
  it("is nothing before the run is started", () => {
    expect(timesOf(new Tablet().state, "2026-11-25T06:00:00.000Z")).toMatchObject({
      whole: 0,
      standby: 0,
      contingencies: 0,
      phases: [],
    });
  });

  it("goes to the phase of each entry, up to now", () => {
    const tablet = toC();
    enterAfter(tablet, 7, "c");
    tablet.wait(4);
    expect(minutes(tablet)).toEqual({
      first: 18,
      second: 11,
      standby: 0,
      contingencies: 0,
      whole: 29,
    });
  });

  it("goes to standby and to what went wrong while they last, inside a phase", () => {
    const tablet = toC();
    tablet.wait(1);
    tablet.act((s) => startStandby(s, "Wind over the limit."));
    tablet.wait(30);
    tablet.act((s) => addNote(s, "still blowing"));
    tablet.wait(15);
    tablet.act(endStandby);
    tablet.wait(2);
    tablet.act((s) => openContingency(s, "k"));
    tablet.wait(20);
    close(tablet, "c");
    enterAfter(tablet, 7, "c");
    expect(minutes(tablet)).toEqual({
      first: 21,
      second: 7,
      standby: 45,
      contingencies: 20,
      whole: 93,
    });
  });

  it("stays with a contingency until the last of two that were opened apart is closed", () => {
    const one = toC();
    const two = new Tablet();
    two.now = one.now;
    two.merge(one.events);
    for (const tablet of [one, two]) {
      tablet.wait(1);
      tablet.act((s) => openContingency(s, "k"));
    }
    one.merge(two.events);
    one.wait(10);
    close(one, "c");
    one.wait(10);
    close(one, "c");
    expect(minutes(one).contingencies).toBe(20);
  });

  it("stays with standby until the last of two that were begun apart has ended", () => {
    const one = toC();
    const two = new Tablet();
    two.now = one.now;
    two.merge(one.events);
    for (const tablet of [one, two]) {
      tablet.wait(1);
      tablet.act((s) => startStandby(s, "No crane."));
    }
    one.merge(two.events);
    one.wait(10);
    one.act(endStandby);
    one.wait(10);
    one.act(endStandby);
    expect(minutes(one).standby).toBe(20);
  });

  it("counts what is done again each time, and how often", () => {
    const tablet = toC();
    enterAfter(tablet, 7, "c");
    tablet.act((s) => goBack(s, "c", "Wrong tool."));
    enterAfter(tablet, 9, "c");
    expect(minutes(tablet).second).toBe(16);
    expect(timesOf(tablet.state, tablet.clock).phases.map(({ attempts }) => attempts)).toEqual([
      1, 2,
    ]);
  });

  it("ends with the first close: what was sent back is mended in the office", () => {
    const tablet = toC();
    enterAfter(tablet, 7, "c");
    tablet.release("h2");
    enterAfter(tablet, 1, "d");
    enterAfter(tablet, 1, "e");
    tablet.wait(3);
    tablet.close();
    const closed = minutes(tablet);
    expect(closed).toMatchObject({ first: 18, second: 12, whole: 30 });
    tablet.wait(600);
    expect(minutes(tablet)).toEqual(closed);
    tablet.actor = engineer;
    tablet.act((s) => review(s, "sent back", "The serial is missing.", headsOf(s.state.events)));
    tablet.actor = supervisor;
    enterAfter(tablet, 60, "c");
    tablet.close();
    expect(minutes(tablet)).toEqual(closed);
  });

  it("goes on with the later clock where two tablets worked apart; no clock moved", () => {
    const one = toC();
    const two = new Tablet();
    two.now = one.now;
    two.merge(one.events);
    for (let i = 0; i < 6; i += 1) {
      one.wait(5);
      one.act((s) => addNote(s, "here"));
      two.wait(7);
      two.act((s) => addNote(s, "there"));
    }
    one.merge(two.events);
    one.now = two.now;
    expect(minutes(one)).toMatchObject({ first: 18 + 42, whole: 18 + 42 });
    expect(timesOf(one.state, one.clock).clockMoved).toBe(false);
    // An entry that had seen the other's and is older by its clock gives it away.
    one.wait(-30);
    one.act((s) => addNote(s, "after the other"));
    expect(timesOf(one.state, two.clock).clockMoved).toBe(true);
  });

  it("says so when a clock was set back, and counts nothing below zero", () => {
    const tablet = toC();
    expect(timesOf(tablet.state, tablet.clock).clockMoved).toBe(false);
    enterAfter(tablet, -500, "c");
    const times = timesOf(tablet.state, tablet.clock);
    expect(times.clockMoved).toBe(true);
    expect(times.phases.map(({ worked }) => worked / MINUTE)).toEqual([18, 0]);
  });

  it("has parts that make the whole, whatever was in between", () => {
    const tablet = toC();
    const acts: (() => void)[] = [
      () => tablet.act((s) => addNote(s, "x")),
      () => tablet.act((s) => startStandby(s, "No crane.")),
      () => tablet.act((s) => openContingency(s, "k")),
      () => close(tablet, "c"),
      () => tablet.enter("c", steps.c),
      () => tablet.act((s) => goBack(s, "b", "again")),
      () => tablet.act((s) => startStandby(s, "No crane.")),
      () => tablet.act(endStandby),
      // The stand-by took the release back.
      () => tablet.release("h1"),
      () => tablet.enter("b", steps.b),
    ];
    for (const [index, act] of acts.entries()) {
      tablet.wait(index + 1);
      act();
      const times = timesOf(tablet.state, tablet.clock);
      expect(parts(times), `after act ${index}`).toBe(times.whole);
      tablet.wait(index + 1);
      const later = timesOf(tablet.state, tablet.clock);
      expect(parts(later), `while act ${index} lasts`).toBe(later.whole);
    }
    expect(minutes(tablet).standby).toBeGreaterThan(0);
  });
});
