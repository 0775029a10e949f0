import { beforeEach, describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { boardJob, nextJob } from "../../src/jobs/board.ts";
import { observedFields, observeLift } from "../../src/jobs/commands/observe.ts";
import { answerQuestion, askQuestion } from "../../src/jobs/commands/questions.ts";
import { review } from "../../src/jobs/commands/review.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import type { Actor } from "../../src/jobs/roles.ts";
import { closingHash, inFours } from "../../src/jobs/state/closingHash.ts";
import { latestReading, type Question } from "../../src/jobs/state/jobState.ts";
import { aboutInWords, openQuestions } from "../../src/jobs/state/questions.ts";
import { liftRead } from "../../src/jobs/verdict/liftRead.ts";
import { engineer, planner, readyProgramme, supervisor, Tablet } from "./demo.ts";

const operator: Actor = { name: "J. Corrow", role: "field operator" };
const whole: Question["about"] = { kind: "whole record" };

const DEVICE = crypto.randomUUID();
const run = new Tablet(DEVICE).start().runTo(undefined);
/** The closed run, each test with its own. */
const closedRun = () => {
  const tablet = new Tablet(DEVICE);
  tablet.events = [...run.events];
  tablet.now = run.now;
  tablet.close();
  tablet.actor = engineer;
  return tablet;
};
const ask = (tablet: Tablet, text: string, about: Question["about"] = whole) => {
  const [asked] = tablet.act((s) => askQuestion(s, about, text));
  if (!asked) throw new Error("nothing was asked");
  return asked.hash;
};
const decide = (tablet: Tablet, decision: Parameters<typeof review>[1], remark = "") =>
  tablet.act((s) => review(s, decision, remark, headsOf(tablet.events)));

describe("questions about a closed run", () => {
  let tablet: Tablet;
  beforeEach(() => {
    tablet = closedRun();
  });

  it("are answered by the supervisor, the run closed as it was", () => {
    const asked = ask(tablet, " Which gauge was it? ");
    expect(openQuestions(tablet.state).map(({ text }) => text)).toEqual(["Which gauge was it?"]);
    tablet.actor = supervisor;
    tablet.act((s) => answerQuestion(s, asked, "G-34, on the annulus."));
    expect(openQuestions(tablet.state)).toEqual([]);
    expect(tablet.state.stage).toBe("closed");
    tablet.actor = engineer;
    tablet.act((s) => answerQuestion(s, asked, "So he said on the telephone, too."));
    expect(tablet.state.questions[0]?.answers.map(({ text }) => text)).toEqual([
      "G-34, on the annulus.",
      "So he said on the telephone, too.",
    ]);
  });

  it("say what they are about", () => {
    const reading = latestReading(tablet.state, "line-cut");
    if (!reading) throw new Error("no reading");
    const about = (of: Question["about"]) => aboutInWords(tablet.state, of);
    expect(about(whole)).toBe("The whole record");
    expect(about({ kind: "item", item: "proof-hold" })).toBe("Seated, sheared off, proved");
    expect(about({ kind: "event", event: reading.event.hash, field: "line-cut" })).toMatch(
      /^Line cut off \(readings taken in "Line cut and left", 25 Nov 2026 .*, R\. Tamsin\)$/,
    );
  });

  it.each<[string, (tablet: Tablet) => unknown, RegExp]>([
    [
      "by another than the engineer",
      (t) => {
        t.actor = supervisor;
        ask(t, "?");
      },
      /engineer asks/,
    ],
    ["without words", (t) => ask(t, "  "), /Write the question/],
    ["in too many words", (t) => ask(t, "x".repeat(4001)), /at most 4000/],
    ["about no step", (t) => ask(t, "?", { kind: "item", item: "x" }), /no step "x"/],
    [
      "about no entry",
      (t) => ask(t, "?", { kind: "event", event: "f".repeat(64) }),
      /not in the log/,
    ],
    [
      "about a field that the entry does not have",
      (t) => ask(t, "?", { kind: "event", event: t.events[4]?.hash ?? "", field: "line-cut" }),
      /not in the log/,
    ],
    [
      "after approval",
      (t) => {
        decide(t, "approved");
        ask(t, "?");
      },
      /approved/,
    ],
  ])("are refused %s", (_, act, why) => {
    expect(() => act(tablet)).toThrow(why);
  });

  it("are not asked before the run is closed", () => {
    const open = new Tablet().start();
    open.actor = engineer;
    expect(() => ask(open, "?")).toThrow("not closed yet");
  });

  it.each<[string, Actor, (asked: string) => string, string, RegExp]>([
    ["by the planner", planner, (asked) => asked, "Yes.", /supervisor answers/],
    ["with nothing", supervisor, (asked) => asked, " ", /Write the answer/],
    ["where nothing was asked", supervisor, () => "0".repeat(64), "Yes.", /not in the log/],
  ])("are not answered %s", (_, actor, of, text, why) => {
    const asked = ask(tablet, "Which gauge?");
    tablet.actor = actor;
    expect(() => tablet.act((s) => answerQuestion(s, of(asked), text))).toThrow(why);
  });

  it("keep the record from being approved, named, until each has an answer; not from being sent back", () => {
    const asked = ask(tablet, "Which gauge?", { kind: "item", item: "proof-start" });
    for (const decision of ["approved", "approved with remarks"] as const) {
      expect(() => decide(tablet, decision, "Fine.")).toThrow(
        'A question has no answer: "Which gauge?" (Make a difference across the valve).',
      );
    }
    tablet.act((s) => answerQuestion(s, asked, "G-34."));
    decide(tablet, "approved");
    expect(tablet.state.stage).toBe("approved");
    const other = closedRun();
    ask(other, "Which gauge?");
    decide(other, "sent back", "Answer me on the sheet.");
    expect(other.state.stage).toBe("sent back");
    expect(openQuestions(other.state)).toHaveLength(1);
  });

  it("wait for the supervisor on the board, not for the engineer", () => {
    const shown = () =>
      boardJob(jobs.ready, library, tablet.events, tablet.clock, tablet.writer.system);
    const waits = (role: Actor["role"]) => nextJob([shown()], role, tablet.clock) !== undefined;
    expect([waits("wireline supervisor"), waits("production engineer")]).toEqual([false, true]);
    ask(tablet, "Which gauge?");
    ask(tablet, "Whose?");
    expect(shown().questions).toBe(2);
    expect([waits("wireline supervisor"), waits("production engineer")]).toEqual([true, false]);
  });
});

describe("an approval", () => {
  it("with remarks needs the remark", () => {
    const tablet = closedRun();
    expect(() => decide(tablet, "approved with remarks", " ")).toThrow("Write the remark");
    decide(tablet, "approved with remarks", "Send the valve to the shop.");
    expect(tablet.state.stage).toBe("approved");
    expect(tablet.state.decidedBy?.decision).toBe("approved with remarks");
  });

  it("signs one fingerprint, shown before, the same after, whatever comes in later", () => {
    const tablet = closedRun();
    const before = closingHash(tablet.state);
    expect(before).toMatch(/^[0-9a-f]{64}$/);
    decide(tablet, "approved");
    expect(closingHash(tablet.state)).toBe(before);
    tablet.write({ type: "note", text: "slipped in" });
    expect(closingHash(tablet.state)).toBe(before);
  });

  it("signs another fingerprint for another log and another job", () => {
    const tablet = closedRun();
    const before = closingHash(tablet.state);
    ask(tablet, "Which gauge?");
    expect(closingHash(tablet.state)).not.toBe(before);
    const { events, ...state } = closedRun().state;
    const elsewhere = events.map((event) => ({ ...event, job: "another" }));
    expect(closingHash({ ...state, events: elsewhere })).not.toBe(before);
  });

  it("is read out in groups of four", () => {
    expect(inFours("0123456789abcdef")).toBe("0123 4567 89ab cdef");
  });
});

describe("what the well does on lift", () => {
  const reading = (tablet: Tablet, more: Partial<Parameters<typeof observeLift>[1]> = {}) => ({
    takenAt: tablet.clock,
    source: "Recorder",
    typed: {
      injectionAtSurface: { text: "905", unit: "psig" },
      wellhead: { text: "262", unit: "psig" },
      injectionRate: { text: "410", unit: "Mscf/d" },
    },
    ...more,
  });
  const typed = (injectionAtSurface: string, wellhead: string) => ({
    injectionAtSurface: { text: injectionAtSurface, unit: "psig" },
    wellhead: { text: wellhead, unit: "psig" },
  });

  it("is entered by anybody, days after the crew left, until the record is approved", () => {
    const tablet = closedRun();
    tablet.actor = operator;
    tablet.wait(3 * 24 * 60);
    tablet.act((s) => observeLift(s, reading(tablet)));
    expect(tablet.state.observed[0]?.observed).toEqual({
      type: "lift observed",
      takenAt: tablet.clock,
      source: "Recorder",
      injectionAtSurface: { value: 905, unit: "psig" },
      wellhead: { value: 262, unit: "psig" },
      injectionRate: { value: 410, unit: "Mscf/d" },
    });
    tablet.actor = engineer;
    decide(tablet, "approved");
    expect(() => tablet.act((s) => observeLift(s, reading(tablet)))).toThrow("approved");
  });

  it.each<[string, (tablet: Tablet) => Partial<Parameters<typeof observeLift>[1]>, RegExp]>([
    [
      "read in the future",
      (t) => ({ takenAt: new Date(t.now.getTime() + 60_000).toISOString() }),
      /in the future/,
    ],
    ["without a time", () => ({ takenAt: undefined }), /Say when it was read/],
    ["from nowhere", () => ({ source: " " }), /where the figures come from/],
    ["without a wellhead pressure", () => ({ typed: typed("900", "") }), /Wellhead pressure: noth/],
    ["that cannot be", () => ({ typed: typed("-40", "262") }), /cannot be; a pressure lies/],
    [
      "with a rate below nothing",
      () => ({ typed: { ...typed("900", "262"), liquidRate: { text: "-3", unit: "bbl/d" } } }),
      /Liquid rate: -3/,
    ],
    ["with the two swapped", () => ({ typed: typed("262", "900") }), /Are the two swapped\?/],
    ["beyond what the well can show", () => ({ typed: typed("4000", "262") }), /this well should/],
    [
      "from before the run",
      () => ({ takenAt: "2026-11-20T08:00:00.000Z" }),
      /run was started after that/,
    ],
  ])("is refused %s", (_, more, why) => {
    const tablet = closedRun();
    expect(() => tablet.act((s) => observeLift(s, reading(tablet, more(tablet))))).toThrow(why);
  });

  it("is kept when somebody stands by what is in doubt, which is noted", () => {
    const tablet = closedRun();
    const swapped = reading(tablet, { typed: typed("262", "270"), standBy: true });
    tablet.act((s) => observeLift(s, swapped));
    expect(tablet.state.observed).toHaveLength(1);
    expect(tablet.state.notes.at(-1)?.text).toMatch(/^Recorded as typed\. Casing pressure 262/);
  });

  it("is asked for and doubted by the gauges of the side that the gas goes down", () => {
    const programme = readyProgramme();
    if (!programme.well) throw new Error("no well");
    const well = { ...programme.well, injectionDown: "tubing" as const };
    const tablet = new Tablet().start({ ...programme, well });
    expect(observedFields(tablet.state).map(({ label }) => label)).toEqual([
      "Tubing pressure at surface",
      "Casing pressure at surface",
      "Injection gas rate",
      "Liquid rate",
    ]);
    const enter = (injection: string, production: string) =>
      tablet.act((s) => observeLift(s, reading(tablet, { typed: typed(injection, production) })));
    expect(() => enter("262", "900")).toThrow(
      "Tubing pressure 262 psig is less than the casing pressure 900 psig",
    );
    expect(() => enter("900", "")).toThrow("Casing pressure at surface: nothing entered");
    enter("900", "262");
    expect(liftRead(tablet.state)).toMatchObject({
      injectionAtSurface: { value: 900 },
      wellhead: { value: 262 },
    });
  });

  it("is not entered before the run has started", () => {
    const tablet = new Tablet();
    expect(() => tablet.act((s) => observeLift(s, reading(tablet)))).toThrow("not been started");
  });
});
