import { describe, expect, it } from "vitest";
import { correct, grantException } from "../../src/jobs/commands/run.ts";
import { settleConflict } from "../../src/jobs/commands/settle.ts";
import { reviewRecord } from "../../src/jobs/review/record.ts";
import { latestReading } from "../../src/jobs/state/jobState.ts";
import { engineer, goodRun, Tablet } from "./demo.ts";

const said = (text: string) => ({ text });
const latchOn = goodRun["latch-on"]?.fields ?? {};
const slipped = { ...latchOn, "latch-held": said("not held") };
const briefing = goodRun.briefing?.fields ?? {};

const corrected = (tablet: Tablet, field: string, to: string) => {
  const reading = latestReading(tablet.state, field);
  if (!reading) throw new Error(`nothing read at ${field}`);
  return correct(tablet.situation, reading, said(to), "Tapped wrong");
};

describe("an answer with which work stops, at a step that was done", () => {
  const atFirstBlow = () => new Tablet().start().runTo("first-blow");

  it("opens the step again, and what stands after it waits", () => {
    const tablet = atFirstBlow();
    tablet.wait(1);
    tablet.enter("latch-on", slipped);
    expect(tablet.state.done.has("latch-on")).toBe(false);
    expect(tablet.current?.id).toBe("latch-on");
    expect(() => tablet.enter("first-blow", {})).toThrow(
      'The step "Latch on" comes first. Not latched.',
    );
    expect(tablet.hold("level-hold")).toMatchObject({ status: "voided", stands: false });
    expect(tablet.hold("level-hold").voidedBy?.body.type).toBe("readings taken");
    expect(() => tablet.release("level-hold")).toThrow('"Latch on" comes first');
  });

  it("is over once the step is recorded with a good one; the hold point is released anew", () => {
    const tablet = atFirstBlow();
    tablet.enter("latch-on", slipped);
    tablet.wait(2);
    tablet.enter("latch-on", latchOn);
    expect(tablet.state.done.get("latch-on")?.at).toBe(tablet.clock);
    expect(tablet.state.done.has("level-last")).toBe(true);
    expect(tablet.current?.id).toBe("level-hold");
    tablet.signAll("level-hold");
    tablet.release("level-hold");
    expect(tablet.current?.id).toBe("first-blow");
  });

  it("comes by a correction as well, and goes with one", () => {
    const tablet = atFirstBlow();
    const before = tablet.state.done.get("latch-on");
    const decision = corrected(tablet, "latch-held", "not held");
    expect(decision).toMatchObject({ ok: true, stopped: expect.stringContaining("Not latched") });
    tablet.act(() => decision);
    expect(tablet.current?.id).toBe("latch-on");
    const back = corrected(tablet, "latch-held", "held");
    expect(back).not.toHaveProperty("stopped");
    tablet.act(() => back);
    expect(tablet.state.done.get("latch-on")).toBe(before);
    // What the release stood on was broken in between.
    expect(tablet.current?.id).toBe("level-hold");
  });

  it("stops the sheet where it stands, and takes nothing from a hold point whose step is done", () => {
    const tablet = new Tablet().start().runTo("stack-up");
    tablet.enter("briefing", { ...briefing, "gas-test": said("gas") });
    expect(tablet.current?.id).toBe("briefing");
    expect(() => tablet.enter("stack-up", goodRun["stack-up"]?.fields ?? {})).toThrow(
      "Gas was found",
    );
    expect(tablet.hold("permit-hold")).toMatchObject({ status: "released", served: true });
    tablet.enter("briefing", briefing);
    expect(tablet.current?.id).toBe("first-barriers-hold");
  });

  it("at the step that a hold point guards, that hold point counts again", () => {
    const tablet = new Tablet().start().runTo("low-test");
    const hold = () => tablet.hold("first-barriers-hold");
    expect(hold().served).toBe(true);
    tablet.enter("stack-up", { "wire-valves-work": said("no") });
    expect(hold()).toMatchObject({ served: false, stands: true });
    expect(tablet.current?.id).toBe("stack-up");
    const barriers = goodRun["first-barriers"]?.fields;
    tablet.enter("first-barriers", { ...barriers, "first-turns": said("9") });
    expect(hold()).toMatchObject({ status: "voided", served: false });
    expect(tablet.current?.id).toBe("first-barriers-hold");
  });

  it("admits no exception at a hold point after it", () => {
    const tablet = new Tablet().start().runTo("permit-hold");
    tablet.enter("safety-valves", {
      ...goodRun["safety-valves"]?.fields,
      "safety-valves-held": said("not held"),
    });
    expect(
      grantException(tablet.situation, "permit-hold", "safety-valves-ok", "By radio.", engineer),
    ).toMatchObject({ ok: false, why: expect.stringContaining("A safety valve that closes") });
  });

  it("opens it while two tablets differ on it, until somebody says which stands", () => {
    const one = new Tablet().start().runTo("stack-up");
    const two = new Tablet();
    two.now = one.now;
    two.merge(one.events);
    one.enter("briefing", { ...briefing, "gas-test": said("gas") });
    two.enter("briefing", { ...briefing, people: said("6") });
    for (const tablet of [one, two]) tablet.merge([...one.events, ...two.events]);
    for (const { current } of [one, two]) expect(current?.id).toBe("briefing");
    const clear = one.state.conflicts
      .get("gas-test")
      ?.find(({ value }) => value.kind === "choice" && value.choice === "clear");
    one.act((s) => settleConflict(s, "gas-test", clear?.standsOn ?? "", "The detector was calm."));
    expect(one.current?.id).toBe("first-barriers-hold");
  });

  it("says in the record why a hold point had to be released again", () => {
    const tablet = new Tablet().start().runTo("stack-up");
    tablet.enter("briefing", { ...briefing, "gas-test": said("gas") });
    const { remarkable } = reviewRecord(tablet.state, tablet.clock, tablet.writer);
    expect(remarkable.find(({ kind }) => kind === "hold point voided")).toMatchObject({
      title: tablet.hold("first-barriers-hold").hold.title,
      says: expect.stringContaining("A step before it was opened again."),
    });
  });
});
