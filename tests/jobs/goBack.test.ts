import { describe, expect, it } from "vitest";
import { goBack, stepsBehind } from "../../src/jobs/commands/goBack.ts";
import { grantException, leaveOut } from "../../src/jobs/commands/run.ts";
import { latestReading } from "../../src/jobs/state/jobState.ts";
import { measurementsOf } from "../../src/jobs/state/measurementsOf.ts";
import { engineer, goodRun, Tablet } from "./demo.ts";
import { smallProgramme } from "./smallSheet.ts";

const said = (text: string) => ({ text });
const psig = (text: string) => ({ text, unit: "psig" });

/** What each step of the small sheet is answered with in a good run. */
const good = {
  a: { "a-answer": said("yes"), "a-pressure": psig("50"), "a-note": said("calm") },
  b: { "b-count": said("3") },
  c: { "c-answer": said("yes"), "c-note": said("seen") },
  d: {},
  e: {},
} as const;

const small = () => new Tablet().start(smallProgramme());

/** Enters steps and releases hold points of the small sheet, in this order. */
function go(tablet: Tablet, ...items: (keyof typeof good | "h1" | "h2")[]) {
  for (const item of items) {
    tablet.wait(1);
    if (item === "h1") tablet.sign("h1", "field operator", "J. Corrow");
    if (item === "h1" || item === "h2") tablet.release(item);
    else tablet.enter(item, good[item]);
  }
  return tablet;
}

const back = (tablet: Tablet, to: string, reason = "The tool came back wet.") =>
  tablet.act((situation) => goBack(situation, to, reason));

describe("going back to a step", () => {
  it("opens it and everything after it, and keeps what was done before", () => {
    const tablet = go(small(), "a", "h1", "b", "c", "h2");
    const [went] = back(tablet, "b");
    expect([...tablet.state.done.keys()]).toEqual(["a"]);
    expect(tablet.current?.id).toBe("b");
    expect(tablet.state.doneBefore.map(({ step, again }) => [step, again.hash])).toEqual([
      ["b", went?.hash],
      ["c", went?.hash],
    ]);
  });

  it("opens a step that was left out", () => {
    const tablet = go(small(), "a", "h1", "b", "c", "h2");
    tablet.act((s) => leaveOut(s, "d", "Not on this well."));
    expect(stepsBehind(tablet.state)).toEqual(["a", "b", "c", "d"]);
    back(tablet, "c");
    expect(tablet.state.leftOut.size).toBe(0);
    go(tablet, "c", "h2");
    expect(tablet.current?.id).toBe("d");
  });

  it("makes hold points at or after it be released anew, and leaves those before it released", () => {
    const tablet = go(small(), "a", "h1", "b", "c", "h2");
    back(tablet, "c");
    expect(tablet.hold("h1")).toMatchObject({ status: "released", served: true });
    expect(tablet.hold("h2")).toMatchObject({ status: "locked", stands: false, served: false });
    expect(tablet.hold("h2").history[0]?.again).toBe(tablet.state.goneBack[0]?.event);
    go(tablet, "c");
    expect(tablet.hold("h2").status).toBe("ready");
    go(tablet, "h2");
    expect(tablet.hold("h2").status).toBe("released");
    expect(tablet.hold("h2").history).toHaveLength(2);
  });

  it("wants the signature and the exception of the new attempt", () => {
    const tablet = small();
    tablet.enter("a", { ...good.a, "a-pressure": psig("300") });
    const except = () =>
      tablet.act((s) =>
        grantException(s, "h1", "a-inside", "The gauge reads high today.", engineer),
      );
    except();
    go(tablet, "h1", "b");
    expect(tablet.hold("h1").status).toBe("released under exception");
    back(tablet, "a");
    // Nothing was read yet: with the signature of before, the operator would have signed on nothing.
    expect(tablet.hold("h1").conditions.map(({ state }) => state)).toEqual([
      "not known",
      "not known",
      "not known",
    ]);
    expect(tablet.state.signatures[0]?.setAside?.body.type).toBe("went back");
    tablet.enter("a", { ...good.a, "a-pressure": psig("300") });
    expect(tablet.hold("h1").conditions.map(({ state }) => state)).toEqual([
      "met",
      "not met",
      "not known",
    ]);
    expect(() => tablet.release("h1")).toThrow("has not signed yet");
    except();
    go(tablet, "h1");
    expect(tablet.hold("h1").status).toBe("released under exception");
  });

  it("lets the readings of before prove nothing, optional ones left empty this time included", () => {
    const tablet = go(small(), "a", "h1", "b", "c", "h2");
    back(tablet, "c");
    expect(latestReading(tablet.state, "c-note")).toBeUndefined();
    expect(latestReading(tablet.state, "a-note")?.value).toEqual({ kind: "text", text: "calm" });
    tablet.enter("c", { "c-answer": said("yes") });
    expect(tablet.hold("h2").unmet.map(({ condition }) => condition.id)).toEqual(["c-noted"]);
    expect(() => tablet.release("h2")).toThrow("Not entered yet.");
    // It is still in the log, marked.
    expect(tablet.state.readings.filter(({ field }) => field === "c-note")).toMatchObject([
      { setAside: { body: { type: "went back" } } },
    ]);
  });

  it("can be done twice; each attempt is kept", () => {
    const tablet = go(small(), "a", "h1", "b", "c");
    back(tablet, "c");
    go(tablet, "c");
    back(tablet, "b");
    go(tablet, "b", "c", "h2", "d", "e");
    expect(tablet.current).toBeUndefined();
    expect(tablet.state.goneBack.map(({ to }) => to)).toEqual(["c", "b"]);
    expect(tablet.state.doneBefore.map(({ step }) => step)).toEqual(["c", "b", "c"]);
    const notes = tablet.state.readings.filter(({ field }) => field === "c-note");
    expect(notes.map(({ setAside }) => setAside?.hash)).toEqual([
      tablet.state.goneBack[0]?.event.hash,
      tablet.state.goneBack[1]?.event.hash,
      undefined,
    ]);
  });

  it("reaches no step ahead, none that is not there, and not the one that is next", () => {
    const tablet = go(small(), "a", "h1", "b");
    expect(() => back(tablet, "d")).toThrow("has not been done yet");
    expect(() => back(tablet, "h1")).toThrow('no step "h1"');
    expect(() => back(tablet, "c")).toThrow("stands at this step already");
    expect(() => back(tablet, "a", "  ")).toThrow("Say why");
    tablet.actor = engineer;
    expect(() => back(tablet, "a")).toThrow("The wireline crew decides");
  });

  it("voids a hold point before it that stands on what was read anew since it was served", () => {
    const tablet = go(small(), "a", "h1", "b");
    // Read again after b was done: h1 has served and is not touched.
    tablet.enter("a", { ...good.a, "a-answer": said("no") });
    expect(tablet.hold("h1").status).toBe("released");
    const [went] = back(tablet, "b");
    expect(tablet.hold("h1")).toMatchObject({ status: "voided", stands: false, inReach: true });
    expect(tablet.hold("h1").voidedBy?.hash).toBe(went?.hash);
    expect(tablet.current?.id).toBe("h1");
    expect(() => tablet.enter("b", good.b)).toThrow("Hold one");
  });
});

describe("a tablet that had not heard of going back", () => {
  /** Two tablets with the run at c; the first goes back to a, the second works on without knowing. */
  const apart = (work: (other: Tablet) => void, early: boolean) => {
    const one = go(small(), "a", "h1", "b");
    const two = new Tablet();
    two.now = one.now;
    two.merge(one.events);
    // Ticks decide which of the two the log has first; the outcome must not hang on that.
    for (let i = 0; i < 8; i += 1) (early ? one : two).write({ type: "note", text: "wind rising" });
    back(one, "a");
    work(two);
    one.merge(two.events);
    return one;
  };

  it.each([true, false])(
    "has done its step for the attempt before (in the log first: %s)",
    (early) => {
      const tablet = apart((other) => go(other, "c"), early);
      expect(tablet.state.done.has("c")).toBe(false);
      expect(tablet.state.doneBefore.map(({ step }) => step).sort()).toEqual(["a", "b", "c"]);
      expect(latestReading(tablet.state, "c-note")).toBeUndefined();
      expect(tablet.current?.id).toBe("a");
      go(tablet, "a", "h1", "b");
      expect(tablet.current?.id).toBe("c");
    },
  );

  it.each([true, false])("has released for the attempt before (in the log first: %s)", (early) => {
    const tablet = apart((other) => go(other, "c", "h2"), early);
    expect(tablet.hold("h2").history).toMatchObject([{ again: { body: { type: "went back" } } }]);
    expect(tablet.hold("h2").release).toBeUndefined();
    go(tablet, "a", "h1", "b", "c");
    expect(tablet.hold("h2").status).toBe("ready");
  });
});

describe("going back on the change-out sheet", () => {
  it("begins the watch of the pressures again", () => {
    const tablet = new Tablet().start().runTo("first-blow");
    tablet.wait(20);
    back(tablet, "level-last");
    expect(tablet.hold("level-hold").inReach).toBe(false);
    tablet.enter("level-last", goodRun["level-last"]?.fields ?? {});
    const steady = tablet
      .hold("level-hold")
      .conditions.find(
        ({ condition }) => condition.kind === "check" && condition.check === "steady",
      );
    expect(steady).toMatchObject({
      state: "not known",
      says: expect.stringContaining("for 0 min so far"),
    });
    tablet.wait(30);
    tablet.enter("level-last", goodRun["level-last"]?.fields ?? {});
    tablet.signAll("level-hold");
    tablet.release("level-hold");
    expect(tablet.hold("level-hold").status).toBe("released");
  });

  it("works the figures out without a line angle that was measured in the attempt before", () => {
    const tablet = new Tablet().start().runTo("friction");
    const fields = goodRun.friction?.fields ?? {};
    const angle = tablet.current?.type === "step" ? tablet.current.step.fields : [];
    const field = angle.find((each) => each.kind === "quantity" && each.channel === "line angle");
    if (!field) throw new Error("no line angle on the sheet");
    const measured = () => measurementsOf(tablet.state, tablet.writer.atmosphere)["line angle"];
    tablet.enter("friction", { ...fields, [field.id]: { text: "80", unit: "deg" } });
    expect(measured()?.si).toBeCloseTo((80 * Math.PI) / 180, 9);
    back(tablet, "friction");
    expect(measured()).toBeUndefined();
    tablet.enter("friction", { ...fields, [field.id]: said("") });
    expect(measured()).toBeUndefined();
  });
});
