import { subMinutes } from "date-fns";
import { describe, expect, it } from "vitest";
import {
  closeContingency,
  noteContingency,
  openContingency,
  placesAfter,
} from "../../src/jobs/commands/contingency.ts";
import { changeCrew } from "../../src/jobs/commands/crewChange.ts";
import type { Decision } from "../../src/jobs/commands/decision.ts";
import { stepsBehind } from "../../src/jobs/commands/goBack.ts";
import { addPhotograph } from "../../src/jobs/commands/photograph.ts";
import {
  addNote,
  grantException,
  recordStep,
  releaseHold,
  signHold,
} from "../../src/jobs/commands/run.ts";
import type { Situation } from "../../src/jobs/commands/situation.ts";
import { endStandby, startStandby } from "../../src/jobs/commands/standby.ts";
import type { Actor } from "../../src/jobs/roles.ts";
import { openBranch, openStandby } from "../../src/jobs/state/jobState.ts";
import { engineer, Tablet } from "./demo.ts";
import { smallProgramme } from "./smallSheet.ts";

const said = (text: string) => ({ text });
const psig = (text: string) => ({ text, unit: "psig" });
const winch: Actor = { name: "D. Orsk", role: "winch operator" };

const start = () => new Tablet().start(smallProgramme());
/** At step c: a and b are done. */
function atC(): Tablet {
  const tablet = start();
  tablet.enter("a", { "a-answer": said("yes"), "a-pressure": psig("50") });
  tablet.sign("h1", "field operator", "J. Corrow");
  tablet.release("h1");
  tablet.enter("b", { "b-count": said("3") });
  return tablet;
}

/** Why something is refused; fails when it is not. */
function refused(tablet: Tablet, decide: (situation: Situation) => Decision): string {
  const decision = decide(tablet.situation);
  if (decision.ok) throw new Error("it was not refused");
  return decision.why;
}

const open = (tablet: Tablet) => tablet.act((s) => openContingency(s, "k"));
const ending = { option: "again", outcome: "It came loose.", rejoin: "b" };
/** A wave, long enough and not straight. */
const drawn = [
  [
    [20, 150],
    [120, 20],
    [200, 150],
    [300, 30],
  ],
] as const;
const strokes = drawn.map((stroke) => stroke.map(([x, y]) => [x, y] as const));

describe("a contingency", () => {
  it("stops the sheet where it stands, and nothing else of the record", () => {
    const tablet = atC();
    open(tablet);
    expect(openBranch(tablet.state)).toMatchObject({ contingency: "k", at: "c" });
    expect(() => tablet.enter("c", { "c-answer": said("yes") })).toThrow(
      'The sheet waits: "Something went wrong" is open.',
    );
    expect(refused(tablet, (s) => startStandby(s, "Wind."))).toContain("The sheet waits");
    tablet.act((s) => addNote(s, "Wire marked at 3,120 ft.", "k"));
    expect(tablet.state.notes.at(-1)?.text).toBe("Wire marked at 3,120 ft.");
  });

  it("ends a standby: what went wrong comes first", () => {
    const tablet = atC();
    tablet.act((s) => startStandby(s, "Waiting for the crane."));
    open(tablet);
    expect(openStandby(tablet.state)).toBeUndefined();
    expect(openBranch(tablet.state)).toBeDefined();
  });

  it("is one at a time, known to the sheet, and begun in a run that is on", () => {
    const tablet = atC();
    expect(refused(tablet, (s) => openContingency(s, "none"))).toContain('no contingency "none"');
    open(tablet);
    expect(refused(tablet, (s) => openContingency(s, "k"))).toContain("close it before another");
    const draft = new Tablet();
    expect(refused(draft, (s) => openContingency(s, "k"))).toContain("has not been issued");
  });

  it("takes any of its fields, and names what is wrong with one", () => {
    const tablet = atC();
    const note = (typed: Parameters<typeof noteContingency>[1], at = tablet.clock) =>
      refused(tablet, (s) => noteContingency(s, typed, at));
    expect(note({ "k-pressure": psig("40") })).toBe("No contingency is open.");
    open(tablet);
    expect(note({})).toBe("Nothing is entered yet.");
    expect(note({ "k-pressure": psig("forty") })).toContain("Pressure k");
    expect(note({ "k-pressure": psig("40") }, "2099-01-01T00:00:00.000Z")).toContain("future");
    tablet.act((s) => noteContingency(s, { "k-pressure": psig("40") }, tablet.clock));
    expect(tablet.state.readings.at(-1)).toMatchObject({
      step: "k",
      field: "k-pressure",
      value: { value: 40, unit: "psig" },
    });
    tablet.actor = engineer;
    expect(note({ "k-pressure": psig("40") })).toContain("The wireline crew enters this");
  });

  it("goes on where it stood, with nothing done again", () => {
    const tablet = atC();
    open(tablet);
    tablet.act((s) => closeContingency(s, { ...ending, option: "on", rejoin: "c" }));
    expect(openBranch(tablet.state)).toBeUndefined();
    expect(tablet.current?.id).toBe("c");
    expect(tablet.state.doneBefore).toEqual([]);
    expect(tablet.state.branches[0]?.closed).toMatchObject({ outcome: "It came loose." });
  });

  it("goes on at a step that was done, which is then done again", () => {
    const tablet = atC();
    open(tablet);
    tablet.act((s) => closeContingency(s, ending));
    expect(tablet.current?.id).toBe("b");
    expect(tablet.state.doneBefore.map(({ step }) => step)).toEqual(["b"]);
  });

  it("goes on only where the way that was taken leads, past no hold point that it opens again", () => {
    const tablet = new Tablet().start().runTo("first-blow");
    tablet.act((s) => openContingency(s, "will-not-come"));
    const close = (rejoin: string, option: string | undefined) =>
      closeContingency(tablet.situation, { option, outcome: "Let it soak.", rejoin });
    expect(placesAfter(tablet.situation, ["level-last"])).toEqual(["level-last"]);
    expect(close("first-blow", "level-again")).toMatchObject({
      ok: false,
      why: '"Level again, let it soak" goes on at "Read both gauges again". Choose that place, or say that something else was done.',
    });
    expect(close("locate", "level-again")).toMatchObject({ ok: false });
    // A way without places of its own, or another than the sheet's, leaves the place to the supervisor.
    for (const option of ["leave-it", undefined]) {
      expect(close("first-blow", option).ok).toBe(true);
      expect(close("locate", option).ok).toBe(true);
    }
    tablet.act(() => close("level-last", "level-again"));
    expect(tablet.current?.id).toBe("level-last");
    expect(tablet.hold("level-hold")).toMatchObject({ status: "locked", stands: false });
  });

  it("goes on where it stands when that is the place, or the hold point before it", () => {
    const tablet = new Tablet().start().runTo("locate");
    tablet.act((s) => openContingency(s, "no-sleeve"));
    expect(placesAfter(tablet.situation, ["locate", "enter"])).toEqual(["locate"]);
    tablet.act((s) => closeContingency(s, { ...ending, option: "lower-slower", rejoin: "locate" }));
    tablet.runTo("level-hold");
    expect(placesAfter(tablet.situation, ["locate", "first-blow"])).toEqual([
      "locate",
      "level-hold",
    ]);
    // Nothing is passed over where every place of a way lies ahead.
    expect(placesAfter(tablet.situation, ["set-out"])).toEqual([
      ...stepsBehind(tablet.state),
      "level-hold",
    ]);
  });

  it("is ended by the supervisor, with what came of it, at a place there is", () => {
    const tablet = atC();
    open(tablet);
    const why = (given: Partial<typeof ending>) =>
      refused(tablet, (s) => closeContingency(s, { ...ending, ...given }));
    expect(why({ outcome: " " })).toContain("what came of it");
    expect(why({ outcome: "x".repeat(4001) })).toContain("at most 4000");
    expect(why({ option: "none" })).toContain('no way out "none"');
    expect(why({ rejoin: "a" })).toContain('"Again" goes on at "Step b"');
    for (const rejoin of ["e", "none", "h1"]) {
      expect(why({ rejoin })).toContain("a step that was done, or at the one that is next");
    }
    tablet.actor = winch;
    expect(why({})).toContain("The wireline supervisor says how it goes on");
  });
});

describe("standby", () => {
  it("stops the sheet with its reason until it ends", () => {
    const tablet = atC();
    expect(refused(tablet, (s) => startStandby(s, ""))).toBe("Say what the crew waits for.");
    tablet.act((s) => startStandby(s, "Lightning."));
    expect(() => tablet.enter("c", { "c-answer": said("yes") })).toThrow(
      "The crew stands by (Lightning.). End the standby first.",
    );
    expect(refused(tablet, (s) => startStandby(s, "More lightning."))).toContain("stands by");
    tablet.wait(30);
    tablet.act(endStandby);
    expect(tablet.state.standbys).toHaveLength(1);
    expect(refused(tablet, endStandby)).toBe("The crew does not stand by.");
    tablet.enter("c", { "c-answer": said("yes"), "c-note": said("seen") });
    expect(tablet.state.done.has("c")).toBe(true);
  });

  it("is the crew's to keep", () => {
    const tablet = atC();
    tablet.actor = engineer;
    expect(refused(tablet, (s) => startStandby(s, "Rain."))).toContain("wireline crew keeps");
  });
});

describe("a crew change", () => {
  const handover = { to: "S. Ivel", state: "String at surface, crown valve shut.", drawn: {} };

  it("says who gives, who takes and how things stand, with what they drew", () => {
    const tablet = atC();
    tablet.act((s) => changeCrew(s, { ...handover, drawn: { by: strokes } }));
    expect(tablet.state.crewChanges).toMatchObject([
      {
        by: { name: "R. Tamsin" },
        to: { name: "S. Ivel", role: "wireline supervisor" },
        state: handover.state,
        drawn: { by: strokes },
      },
    ]);
  });

  it("is refused without a name, a state, another person, or a drawing that is one", () => {
    const tablet = atC();
    const why = (given: Partial<typeof handover> & { drawn?: object }) =>
      refused(tablet, (s) => changeCrew(s, { ...handover, ...given }));
    expect(why({ to: " " })).toBe("Enter who takes the run over.");
    expect(why({ to: "r tamsin" })).toContain("has the run already");
    expect(why({ state: "" })).toContain("Say where things stand");
    expect(why({ to: "x".repeat(401) })).toContain("at most 400");
    expect(why({ drawn: { to: [[[5, 5] as const]] } })).toContain(
      "What S. Ivel drew is not a signature yet.",
    );
    tablet.actor = winch;
    expect(why({})).toContain("A wireline supervisor hands the run over");
  });
});

describe("a signature on a hold point", () => {
  it("is kept as drawn, and refused when the drawing is a slip of the finger", () => {
    const tablet = start();
    tablet.enter("a", { "a-answer": said("yes"), "a-pressure": psig("50") });
    const by: Actor = { name: "J. Corrow", role: "field operator" };
    expect(refused(tablet, (s) => signHold(s, "h1", by, [[[9, 9]]]))).toContain(
      "What J. Corrow drew is not a signature yet.",
    );
    tablet.act((s) => signHold(s, "h1", by, strokes));
    expect(tablet.state.signatures.at(-1)).toMatchObject({ by, drawn: strokes });
  });
});

describe("when a gauge was read", () => {
  /** The tubing was bled at the step before; the crew types when it read the gauges. */
  const read = (tablet: Tablet, minutesAgo: number, standBy?: { reason: string }) =>
    recordStep(tablet.situation, {
      step: "a",
      typed: { "a-answer": said("yes"), "a-pressure": psig("50") },
      takenAt: subMinutes(tablet.now, minutesAgo).toISOString(),
      ...(standBy && { standBy }),
    });
  const afterB = () => {
    const tablet = atC();
    tablet.wait(30);
    return tablet;
  };

  it("is asked about where a step was done since, and recorded when somebody stands by it", () => {
    const tablet = afterB();
    const asked = read(tablet, 31);
    expect(asked).toMatchObject({
      ok: false,
      doubts: [{ field: "a-pressure", needsReason: false }],
      why: expect.stringMatching(
        /^Read 25 Nov \d\d:\d\d, and "Step b" was done after that, 25 Nov/,
      ),
    });
    const stood = tablet.act(() => read(tablet, 31, { reason: "" }));
    expect(stood.map(({ body }) => body.type)).toEqual(["readings taken", "note"]);
  });

  it("is not asked about within the minute in which that step was done, or after", () => {
    const tablet = afterB();
    expect(read(tablet, 30).ok).toBe(true);
    expect(read(tablet, 1).ok).toBe(true);
    // A clock that was set back says nothing of what is read just now.
    tablet.wait(-60);
    expect(read(tablet, 0).ok).toBe(true);
  });
});

describe("one person", () => {
  const signs = (tablet: Tablet, name: string, role: Actor["role"]) =>
    signHold(tablet.situation, "pressure-test-hold", { name, role });
  const atTest = () => new Tablet().start().runTo("pressure-test-hold");

  it("signs in one role: not as a second person beside whom they signed before", () => {
    expect(signs(atTest(), "j corrow", "well owner's representative")).toMatchObject({
      ok: false,
      field: "well owner's representative",
      why: 'J. Corrow signed "Permit and briefing" as field operator. One person has one role on a job: the well owner\'s representative is somebody else. Where that name is wrong, the field operator signs there again.',
    });
  });

  it("does not sign for the other side when somebody else holds the tablet", () => {
    const tablet = atTest();
    tablet.actor = winch;
    expect(signs(tablet, "R. Tamsin", "well owner's representative")).toMatchObject({
      ok: false,
      why: expect.stringMatching(/^R\. Tamsin .* as wireline supervisor\./),
    });
    expect(signs(tablet, "M. Estery", "well owner's representative").ok).toBe(true);
  });

  it("neither lets a condition pass nor releases what they signed in another role", () => {
    const tablet = start();
    tablet.enter("a", { "a-answer": said("yes"), "a-pressure": psig("300") });
    tablet.sign("h1", "field operator", "J. Corrow");
    const grant = (name: string) =>
      grantException(tablet.situation, "h1", "a-inside", "The gauge reads high.", {
        name,
        role: "production engineer",
      });
    expect(grant("J. Corrow")).toMatchObject({ ok: false, field: "authoriser" });
    expect(grant(engineer.name).ok).toBe(true);
    tablet.act(() => grant("D. Quill"));
    tablet.actor = { name: "D. Quill", role: "wireline supervisor" };
    expect(refused(tablet, (s) => releaseHold(s, "h1"))).toContain(
      'D. Quill gave an exception at "Hold one" as production engineer.',
    );
    expect(
      refused(tablet, (s) => changeCrew(s, { to: "J. Corrow", state: "All well.", drawn: {} })),
    ).toContain("the wireline supervisor is somebody else");
  });

  it("may lead the crew after having been its winch operator", () => {
    const tablet = start();
    tablet.actor = winch;
    tablet.enter("a", { "a-answer": said("yes"), "a-pressure": psig("50") });
    tablet.sign("h1", "field operator", "J. Corrow");
    tablet.actor = { ...winch, role: "wireline supervisor" };
    tablet.release("h1");
    expect(tablet.hold("h1").status).toBe("released");
  });

  it("is not held to a name that stood there by mistake, once the right one has signed", () => {
    const tablet = start();
    tablet.enter("a", { "a-answer": said("yes"), "a-pressure": psig("50") });
    tablet.sign("h1", "field operator", "S. Ivel");
    tablet.actor = { name: "S. Ivel", role: "wireline supervisor" };
    expect(refused(tablet, (s) => releaseHold(s, "h1"))).toContain("signs there again");
    tablet.sign("h1", "field operator", "J. Corrow");
    tablet.release("h1");
    expect(tablet.hold("h1").status).toBe("released");
  });
});

describe("a photograph", () => {
  const taken = { picture: "a".repeat(64), width: 1600, height: 1200, caption: " Chart ", at: "b" };

  it("stands in the log by the hash of its picture, with place and caption", () => {
    const tablet = atC();
    tablet.actor = engineer;
    tablet.act((s) => addPhotograph(s, taken));
    tablet.act((s) => addPhotograph(s, { ...taken, caption: "" }));
    expect(tablet.state.photographs).toMatchObject([
      { picture: taken.picture, caption: "Chart", at: "b" },
      { picture: taken.picture, at: "b" },
    ]);
    expect(tablet.state.photographs[1]?.caption).toBeUndefined();
  });

  it("is refused before the programme is issued, and with a caption that is a letter", () => {
    expect(refused(new Tablet(), (s) => addPhotograph(s, taken))).toContain("not been issued");
    expect(
      refused(start(), (s) => addPhotograph(s, { ...taken, caption: "x".repeat(401) })),
    ).toContain("Caption: 401 characters; at most 400.");
  });
});
