import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import {
  addNote,
  leaveOut,
  recordStep,
  releaseHold,
  signHold,
} from "../../src/jobs/commands/run.ts";
import { jobEvent } from "../../src/jobs/log/event.ts";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { type Step, sheet } from "../../src/jobs/sheet/sheet.ts";
import { holdPointsOf, stepsOf, stepToMend } from "../../src/jobs/sheet/walk.ts";
import { pocketHolds } from "../../src/jobs/state/pocketAtWork.ts";
import { engineer, goodRun, planner, Tablet } from "./demo.ts";

const psig = (text: string): Typed => ({ text, unit: "psig" });
const lbf = (text: string): Typed => ({ text, unit: "lbf" });
const ft = (text: string): Typed => ({ text, unit: "ft" });
const said = (text: string): Typed => ({ text });

describe("the change-out run sheet", () => {
  it("hangs together", () => {
    const parsed = sheet.safeParse(changeOut);
    expect(parsed.error?.issues ?? []).toEqual([]);
  });

  it("has as many steps and hold points as the readme says", () => {
    const said = `${stepsOf(changeOut).length} steps and ${holdPointsOf(changeOut).length} hold points`;
    expect(readFileSync("README.md", "utf8")).toContain(said);
  });

  it("has at least 25 steps and the hold points of the job", () => {
    expect(stepsOf(changeOut).length).toBeGreaterThanOrEqual(25);
    const titles = holdPointsOf(changeOut).map((hold) => hold.title);
    for (const wanted of [
      "Permit and briefing",
      "Two barriers proved",
      "Stack pressure-tested",
      "Weight beats push-out",
      "Bore and depth proved",
      "Pull string may go",
      "Equalised before unseating",
      "Replacement verified",
      "Set string may go",
      "Latched before shearing off",
      "Seated, sheared off, proved",
      "Handover",
    ]) {
      expect(titles).toContain(wanted);
    }
  });

  it("asks for two proved barriers before each of the five openings", () => {
    const openings = holdPointsOf(changeOut).filter((hold) => hold.title === "Two barriers proved");
    expect(openings.map((hold) => hold.guards)).toEqual([
      "stack-up",
      "pull-string-on",
      "inspect",
      "look-tool",
      "stack-off",
    ]);
  });

  it("takes the weight of a valve as proof of nothing: no condition looks at a line pull", () => {
    const pulls = stepsOf(changeOut)
      .flatMap((step) => step.fields)
      .filter((field) => field.kind === "quantity" && field.dimension === "force")
      .map((field) => field.id);
    const asked = holdPointsOf(changeOut)
      .flatMap((hold) => hold.conditions)
      .flatMap((condition) => [
        ...("field" in condition ? [condition.field] : []),
        ...(condition.kind === "check" ? Object.values(condition.fields ?? {}) : []),
      ]);
    expect(pulls.length).toBeGreaterThan(5);
    // The latch is pulled at: two pulls of one string, the second over the first. No weight of a valve is in it.
    const onLatch = ["test-pull-force", "set-pick-up"];
    expect(asked.filter((field) => pulls.includes(field))).toEqual(onLatch);
  });

  it("names a hold point whose condition asks for a field that no step before it takes", () => {
    const broken = structuredClone(changeOut) as typeof changeOut;
    const first = broken.phases[0]?.items[0];
    if (first?.type === "step") first.step.fields = [];
    expect(sheet.safeParse(broken).error?.issues[0]?.message).toContain("permit-number");
  });

  it("refuses limits in a unit that the field is not measured in", () => {
    const broken = structuredClone(changeOut) as typeof changeOut;
    const condition = holdPointsOf(broken)
      .flatMap((hold) => hold.conditions)
      .find((each) => each.kind === "within");
    if (condition?.kind !== "within") throw new Error("no limits in the sheet");
    condition.unit = "ft";
    expect(sheet.safeParse(broken).error?.issues[0]?.message).toContain('not measured in "ft"');
  });

  it.each([
    ["pressure-test-hold", "high", "high-test"],
    ["level-hold", "level-now", "level-last"],
    ["level-hold", "pocket-ok", "locate"],
    ["latched-hold", "same-pocket", "enter"],
    ["proof-hold", "holds", "proof-start"],
    ["push-out-hold", "push-out-ok", "let-in"],
    ["friction-hold", "friction-push-out", "friction"],
    ["depth-hold", "kickover", undefined],
  ])("shows where %s is mended when %s is open", (holdId, conditionId, step) => {
    const hold = holdPointsOf(changeOut).find((each) => each.id === holdId);
    const condition = hold?.conditions.find((each) => each.id === conditionId);
    if (!hold || !condition) throw new Error(`no ${holdId} ${conditionId}`);
    expect(stepToMend(changeOut, hold, condition)?.id).toBe(step);
  });
});

describe("a good run", () => {
  it("goes from start to a closed run with every hold point released on the way", () => {
    const tablet = new Tablet().start().runTo(undefined);
    for (const hold of holdPointsOf(changeOut)) {
      expect(tablet.hold(hold.id).status, hold.title).toBe("released");
    }
    tablet.close();
    expect(tablet.state.stage).toBe("closed");
    // Every event that a decision led to is one that a pack could carry.
    for (const event of tablet.events) {
      expect(jobEvent.safeParse(event).error?.issues ?? [], event.body.type).toEqual([]);
    }
  });

  it("does not let a step be done before its turn, nor a hold point be passed", () => {
    const tablet = new Tablet().start();
    expect(() => tablet.enter("jar-out", {})).toThrow("Permit and programme");
    tablet.runTo("permit-hold");
    expect(() => tablet.enter("measure-strings", { "strings-measured": said("yes") })).toThrow(
      "Permit and briefing",
    );
  });

  it("is not closed before its last step", () => {
    const tablet = new Tablet().start().runTo("left-location");
    expect(() => tablet.close()).toThrow("Leave the location");
  });

  it("shows what the pocket holds as the run goes on", () => {
    const tablet = new Tablet().start().runTo("jar-out");
    expect(pocketHolds(tablet.state)).toBeUndefined();
    tablet.runTo("pull-out");
    expect(pocketHolds(tablet.state)).toBe("nothing");
    tablet.runTo("proof-start");
    expect(pocketHolds(tablet.state)).toBe("replacement");
  });
});

/** Every answer of the sheet that stops the work: step, field, answer, reason. */
const stops = stepsOf(changeOut).flatMap((step) =>
  step.fields.flatMap((field) =>
    field.kind === "choice"
      ? field.choices.flatMap(({ value, stop }) =>
          stop === undefined ? [] : [{ step: step.id, field: field.id, value, stop }],
        )
      : [],
  ),
);

describe("an answer that stops the work", () => {
  it("is given in the places where going on would hurt", () => {
    expect(stops.map(({ field }) => field)).toEqual(
      expect.arrayContaining([
        "gas-test",
        "lift-gas-locked",
        "safety-valves-held",
        "surface-valves",
        "closure-ready",
        "first-trapped",
        "pull-zero",
        "wire-valves-work",
        "pull-union",
        "latch-held",
        "pull-all-out",
        "set-union",
        "test-pull-held",
        "shear-sign",
        "cap-tested",
      ]),
    );
  });

  it.each(stops)("is recorded and leaves $step open: $field $value", (row) => {
    const tablet = new Tablet().start().runTo(row.step);
    const fields = { ...goodRun[row.step]?.fields, [row.field]: said(row.value) };
    const decision = recordStep(tablet.situation, {
      step: row.step,
      typed: fields,
      takenAt: tablet.clock,
      standBy: { reason: "as it was" },
    });
    if (!decision.ok) throw new Error(decision.why);
    expect(decision.stopped).toBe(row.stop);
    tablet.write(...decision.bodies);
    expect(tablet.current?.id).toBe(row.step);
    expect(tablet.events.at(-1)?.body.type).toBe("readings taken");
    // Mended, it goes on.
    tablet.wait(1);
    tablet.enter(row.step, goodRun[row.step]?.fields ?? {});
    expect(tablet.state.done.has(row.step)).toBe(true);
  });
});

describe("what is typed and unlikely", () => {
  const at = (step: string, typed: Record<string, Typed>) => {
    const tablet = new Tablet().start().runTo(step);
    const fields = { ...goodRun[step]?.fields, ...typed };
    const record = (standBy?: { reason: string }) =>
      recordStep(tablet.situation, {
        step,
        typed: fields,
        takenAt: tablet.clock,
        ...(standBy && { standBy }),
      });
    return { tablet, record };
  };

  it.each([
    ["jar-out", { "pull-largest": lbf("9999") }, /8999 lbf over the limit of 1000 lbf/, true],
    ["as-found", { "as-found-casing": psig("8600") }, /more than the 1100 psig/, false],
    ["locate", { "pocket-depth": ft("43830") }, /below the end of this well's tubing/, false],
    ["gauge-down", { hanging: lbf("-40") }, /a line cannot push/, false],
  ])("in %s is asked about, and recorded when somebody stands by it", (step, typed, why, asks) => {
    const { tablet, record } = at(step, typed);
    const first = record();
    expect(first.ok).toBe(false);
    if (first.ok) return;
    expect(first.why).toMatch(why);
    expect(first.doubts?.map((doubt) => doubt.needsReason)).toEqual([asks]);
    const unreasoned = record({ reason: " " });
    expect(unreasoned.ok).toBe(!asks);
    const stood = record({ reason: "looked twice" });
    if (!stood.ok) throw new Error(stood.why);
    tablet.write(...stood.bodies);
    expect(tablet.state.notes.at(-1)?.text).toMatch(why);
    expect(tablet.state.notes.at(-1)?.text).toContain("looked twice");
  });

  it("friction that runs backwards is refused: the two are swapped", () => {
    const { record } = at("friction", { "pull-in": lbf("124"), "pull-out": lbf("72") });
    expect(record()).toMatchObject({ ok: false, why: expect.stringContaining("swapped") });
  });

  it("readings from the future are refused", () => {
    const tablet = new Tablet().start().runTo("as-found");
    const decision = recordStep(tablet.situation, {
      step: "as-found",
      typed: goodRun["as-found"]?.fields ?? {},
      takenAt: new Date(tablet.now.getTime() + 60_000).toISOString(),
    });
    expect(decision).toMatchObject({ ok: false, why: expect.stringContaining("future") });
  });

  it("an empty field is refused by name and nothing is written", () => {
    const tablet = new Tablet().start().runTo("level-last");
    const before = tablet.events.length;
    expect(() =>
      tablet.enter("level-last", {
        "level-last-casing": psig("750"),
        "level-last-wellhead": psig(""),
      }),
    ).toThrow("Wellhead pressure: nothing entered");
    expect(tablet.events.length).toBe(before);
  });

  it("a text too long for the log is refused, and half a letter is made whole", () => {
    const { record } = at("permit", { "permit-number": said("7".repeat(401)) });
    expect(record()).toMatchObject({ ok: false, field: "permit-number" });
    const half = at("permit", { "permit-number": said("P-\ud83d") });
    const done = half.record();
    if (!done.ok) throw new Error(done.why);
    const [event] = half.tablet.write(...done.bodies);
    expect(jobEvent.safeParse(event).success).toBe(true);
    expect(JSON.stringify(event)).toContain("P-\ufffd");
  });
});

describe("a step recorded again", () => {
  const line = {
    "line-cut": ft("80"),
    "line-on-drum": ft("14020"),
    "line-remarks": said("Jarred most at 4,113 ft."),
  };
  const again = (tablet: Tablet, untouched: string[]) =>
    recordStep(tablet.situation, {
      step: "line-left",
      typed: line,
      takenAt: tablet.clock,
      untouched,
    });
  const done = () => {
    const tablet = new Tablet();
    tablet.start().runTo("account", { "line-left": { ...line, "line-on-drum": said("") } });
    tablet.wait(40);
    return tablet;
  };

  it("writes what was missing, and not once more what nobody read again", () => {
    const decision = again(done(), ["line-cut", "line-remarks"]);
    expect(decision).toMatchObject({ ok: true, bodies: [{ type: "readings taken" }] });
    const [body] = decision.ok ? decision.bodies : [];
    expect(body?.type === "readings taken" && body.entries.map(({ field }) => field)).toEqual([
      "line-on-drum",
    ]);
  });

  it("writes once more what two tablets differ on, though it looks untouched: that is how it is settled", () => {
    const { situation, clock } = done();
    const { state } = situation;
    const [reading] = state.readings.filter(({ field }) => field === "line-cut");
    const conflicts = new Map([["line-cut", reading ? [reading] : []]]);
    const decision = recordStep(
      { ...situation, state: { ...state, conflicts } },
      { step: "line-left", typed: line, takenAt: clock, untouched: Object.keys(line) },
    );
    const [body] = decision.ok ? decision.bodies : [];
    expect(body?.type === "readings taken" && body.entries.map(({ field }) => field)).toEqual([
      "line-cut",
    ]);
  });

  it("says so where nothing of it was read again", () => {
    const decision = again(done(), Object.keys(line));
    expect(decision).toMatchObject({ ok: false, why: expect.stringContaining("read again") });
  });

  it("writes everything the first time, whatever the screen showed before", () => {
    const tablet = new Tablet();
    tablet.start().runTo("line-left");
    const decision = again(tablet, Object.keys(line));
    const [body] = decision.ok ? decision.bodies : [];
    expect(body?.type === "readings taken" && body.entries).toHaveLength(3);
  });
});

describe("a second person", () => {
  const atHold = () => new Tablet().start().runTo("level-hold");

  it("cannot be the one who holds the tablet, however the name is written", () => {
    const sign = (name: string) =>
      signHold(atHold().situation, "level-hold", { name, role: "field operator" });
    expect(sign("r tamsin")).toMatchObject({
      ok: false,
      why: expect.stringContaining("second person"),
    });
    expect(sign("J. Corrow").ok).toBe(true);
    expect(sign("  ")).toMatchObject({ ok: false, why: expect.stringContaining("Enter the name") });
  });

  it("witnesses the pins: not the one who enters them", () => {
    const tablet = new Tablet()
      .start()
      .runTo("replacement-hold", { pins: { "pin-witness": said("R Tamsin") } });
    expect(
      tablet
        .hold("replacement-hold")
        .unmet.map((each) => each.says)
        .join(" "),
    ).toContain("cannot witness what");
  });
});

describe("roles", () => {
  it("decide who may do what", () => {
    const tablet = new Tablet().start().runTo("permit-hold");
    tablet.signAll("permit-hold");
    tablet.actor = engineer;
    expect(() => tablet.act((s) => releaseHold(s, "permit-hold"))).toThrow(
      "wireline supervisor releases",
    );
    expect(() => tablet.enter("permit", {})).toThrow("crew enters readings");
    expect(() => tablet.act((s) => signHold(s, "permit-hold", planner))).toThrow(
      "does not ask for the planner",
    );
  });
});

describe("leaving out", () => {
  const optional = stepsOf(changeOut).filter((step: Step) => step.optional);

  it("is for optional steps in their turn, with a reason", () => {
    expect(optional.map((step) => step.id)).toEqual(["injection"]);
    const tablet = new Tablet().start();
    expect(() => tablet.act((s) => leaveOut(s, "permit", "no need"))).toThrow("every job");
    tablet.runTo("injection");
    expect(() => tablet.act((s) => leaveOut(s, "injection", ""))).toThrow("Say why");
    tablet.act((s) => leaveOut(s, "injection", "Well stays shut in for the plant stop."));
    expect(tablet.current?.id).toBe("line-left");
  });
});

describe("notes", () => {
  it("are taken at any time between issue and approval, never empty", () => {
    const tablet = new Tablet();
    expect(addNote(tablet.situation, "too early")).toMatchObject({ ok: false });
    tablet.start();
    expect(addNote(tablet.situation, " ")).toMatchObject({ ok: false });
    expect(addNote(tablet.situation, "wind rising", "permit").ok).toBe(true);
  });
});
