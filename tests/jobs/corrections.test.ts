import { describe, expect, it } from "vitest";
import { noteContingency, openContingency } from "../../src/jobs/commands/contingency.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import { correct, type Recording, recordStep } from "../../src/jobs/commands/run.ts";
import { readingInWords } from "../../src/jobs/report/readingInWords.ts";
import type { Sheet } from "../../src/jobs/sheet/sheet.ts";
import { holdPointsOf, stepOfField } from "../../src/jobs/sheet/walk.ts";
import { brokenBy } from "../../src/jobs/state/holdState.ts";
import { latestReading, type Reading } from "../../src/jobs/state/jobState.ts";
import { measurementsOf } from "../../src/jobs/state/measurementsOf.ts";
import { Tablet } from "./demo.ts";

const lbf = (text: string): Typed => ({ text, unit: "lbf" });
const ft = (text: string): Typed => ({ text, unit: "ft" });

const corrected = (tablet: Tablet, field: string, to: Typed, standBy?: { reason: string }) => {
  const reading = latestReading(tablet.state, field);
  if (!reading) throw new Error(`nothing read at ${field}`);
  return correct(tablet.situation, reading, to, "Misread", standBy);
};

describe("a correction is asked what an entry is asked", () => {
  const atCorrelate = () => new Tablet().start().runTo("correlate");

  it("for a pull that is off what is expected, and for a level below the well", () => {
    const tablet = atCorrelate();
    for (const [field, to, says] of [
      ["pick-up", lbf("5000"), /5000 lbf is .* (more than|over the limit of) /],
      ["fluid-level", ft("29100"), /lies below the end of this well.s tubing at 6380 ft/],
    ] as const) {
      const decision = corrected(tablet, field, to);
      expect(decision).toMatchObject({ ok: false, why: expect.stringMatching(says) });
      expect(decision).toHaveProperty("doubts");
    }
  });

  it("and is recorded with what somebody stands by", () => {
    const tablet = atCorrelate();
    const [correction, note] = tablet.act(() =>
      corrected(tablet, "pick-up", lbf("900"), { reason: "" }),
    );
    expect(correction?.body).toMatchObject({ type: "correction", field: "pick-up" });
    expect(note?.body).toMatchObject({
      type: "note",
      step: "gauge-down",
      text: expect.stringContaining("Recorded as typed. "),
    });
  });

  it("with a reason where it is over a limit", () => {
    const tablet = new Tablet().start().runTo("set-out");
    expect(corrected(tablet, "shear-largest", lbf("1200"))).toMatchObject({
      ok: false,
      doubts: [{ needsReason: true }],
    });
    expect(corrected(tablet, "shear-largest", lbf("1200"), { reason: " " })).toMatchObject({
      ok: false,
      why: "Say why it went over the limit.",
    });
    expect(corrected(tablet, "shear-largest", lbf("1200"), { reason: "It held." }).ok).toBe(true);
  });

  it("and refused where an entry is: friction cannot come out swapped", () => {
    const tablet = new Tablet().start().runTo("weights-down");
    expect(corrected(tablet, "pull-out", lbf("1"))).toMatchObject({
      ok: false,
      field: "pull-out",
      why: expect.stringContaining("Moving out has to pull more than moving in"),
    });
  });

  it("but not again for what was in doubt beside it", () => {
    const tablet = new Tablet()
      .start()
      .runTo("correlate", { "gauge-down": { "pick-up": lbf("900") } }, "it is tight");
    expect(corrected(tablet, "gauge-depth", ft("6361")).ok).toBe(true);
  });

  it("also for what was noted while something was dealt with", () => {
    const tablet = new Tablet().start().runTo("first-blow");
    tablet.act((s) => openContingency(s, "will-not-come"));
    tablet.act((s) => noteContingency(s, { "come-pull": lbf("700") }, s.now));
    expect(corrected(tablet, "come-pull", lbf("5000"))).toMatchObject({
      ok: false,
      doubts: [{ field: "come-pull", needsReason: true }],
    });
  });

  it("and the hold points that it broke are known by name", () => {
    const tablet = new Tablet().start().runTo("first-blow");
    const psig = (text: string) => ({ text, unit: "psig" });
    const broke = (to: string) => {
      const written = tablet.act(() =>
        corrected(tablet, "level-last-casing", psig(to), { reason: "" }),
      );
      return brokenBy(written, tablet.state, tablet.clock, tablet.writer).map(({ id }) => id);
    };
    expect(broke("753")).toEqual([]);
    expect(broke("560")).toEqual(["level-hold"]);
  });
});

describe("an answer that need not be there is taken back", () => {
  const empty: Typed = { text: "" };
  const channels = (tablet: Tablet) => measurementsOf(tablet.state, tablet.writer.atmosphere);
  const cardHold = (tablet: Tablet) => {
    const hold = holdPointsOf(tablet.state.programme?.sheet as Sheet).find(({ conditions }) =>
      conditions.some(
        (each) => each.kind === "check" && Object.values(each.fields ?? {}).includes("new-card"),
      ),
    );
    if (!hold) throw new Error("no hold point looks at the card");
    return hold.id;
  };
  const again = (tablet: Tablet, field: string, more: Partial<Recording> = {}): Recording => {
    const step = stepOfField(tablet.state.programme?.sheet as Sheet, field);
    if (!step) throw new Error(`no step asks for ${field}`);
    const typed = Object.fromEntries(
      step.fields.map(({ id }): [string, Typed] => {
        const value = latestReading(tablet.state, id)?.value;
        if (value?.kind === "quantity") {
          return [id, { text: String(value.value), unit: value.unit }];
        }
        return [id, { text: value?.kind === "text" ? value.text : "" }];
      }),
    );
    const emptied = Object.keys(typed).filter((id) => typed[id]?.text !== "");
    return {
      step: step.id,
      typed: { ...typed, [field]: empty },
      takenAt: tablet.clock,
      emptied,
      ...more,
    };
  };

  it("by a correction with its reason; the old value stays, and the hold point that stood on it falls", () => {
    const tablet = new Tablet().start().runTo("set-string-on");
    const before = latestReading(tablet.state, "new-card");
    expect(channels(tablet)["card set pressure"]).toBeDefined();
    const written = tablet.act(() => corrected(tablet, "new-card", empty));
    expect(written.map(({ body }) => body)).toMatchObject([
      { type: "correction", field: "new-card", value: { kind: "none" }, reason: "Misread" },
    ]);
    expect(latestReading(tablet.state, "new-card")).toBeUndefined();
    expect(channels(tablet)["card set pressure"]).toBeUndefined();
    const kept = tablet.state.readings.findLast(({ field }) => field === "new-card");
    expect(kept?.original).toEqual(before?.original);
    expect(readingInWords(tablet.state, kept as Reading)).toMatch(
      /^taken back \(entered as \d+ psig; taken back on .* by R. Tamsin: Misread\)$/,
    );
    const broken = brokenBy(written, tablet.state, tablet.clock, tablet.writer);
    expect(broken.map(({ id }) => id)).toContain(cardHold(tablet));
  });

  it("and what it had replaced does not come back", () => {
    const tablet = new Tablet().start().runTo("set-string-on");
    const card = { text: "951", unit: "psig" };
    const { typed, ...rest } = again(tablet, "new-card");
    tablet.act((s) => recordStep(s, { ...rest, typed: { ...typed, "new-card": card } }));
    tablet.act(() => corrected(tablet, "new-card", empty));
    expect(channels(tablet)["card set pressure"]).toBeUndefined();
    expect(latestReading(tablet.state, "new-card")).toBeUndefined();
  });

  it("by recording its step again with the field emptied, once somebody says why", () => {
    const tablet = new Tablet().start().runTo("set-string-on");
    const stood = latestReading(tablet.state, "new-card");
    const asked = recordStep(tablet.situation, again(tablet, "new-card"));
    expect(asked).toMatchObject({
      ok: false,
      why: expect.stringMatching(/psig stood there and was emptied/),
      doubts: [{ field: "new-card", needsReason: true }],
    });
    expect(
      recordStep(tablet.situation, again(tablet, "new-card", { standBy: { reason: " " } })),
    ).toMatchObject({ ok: false, why: "Say why it is taken back." });
    const standBy = { reason: "Read off another valve's card" };
    const written = tablet.act((s) => recordStep(s, again(tablet, "new-card", { standBy })));
    expect(written.map(({ body }) => body)).toContainEqual({
      type: "correction",
      corrects: stood?.event.hash,
      field: "new-card",
      value: { kind: "none" },
      reason: standBy.reason,
    });
    expect(written.some(({ body }) => body.type === "note")).toBe(false);
    expect(latestReading(tablet.state, "new-card")).toBeUndefined();
  });

  it("but a gauge that was not shown as it stood is not taken back by leaving it empty", () => {
    const tablet = new Tablet().start().runTo("set-string-on");
    tablet.act((s) => recordStep(s, again(tablet, "new-card", { emptied: [] })));
    expect(latestReading(tablet.state, "new-card")).toBeDefined();
  });

  it("never one that every job has, and never as an entry", () => {
    const tablet = new Tablet().start().runTo("set-string-on");
    expect(corrected(tablet, "new-serial", empty)).toMatchObject({
      ok: false,
      why: expect.stringContaining("nothing entered"),
    });
    const serial = latestReading(tablet.state, "new-serial");
    const none = { kind: "none" } as const;
    tablet.write({
      type: "correction",
      corrects: serial?.event.hash ?? "",
      field: "new-serial",
      value: none,
      reason: "Tapped wrong",
    });
    expect(latestReading(tablet.state, "new-serial")?.value).toEqual(serial?.value);
    const step = stepOfField(tablet.state.programme?.sheet as Sheet, "new-card")?.id ?? "";
    const takenAt = tablet.clock;
    tablet.write({
      type: "readings taken",
      step,
      entries: [{ field: "new-card", value: none }],
      takenAt,
    });
    expect(latestReading(tablet.state, "new-card")).toBeDefined();
    expect(tablet.state.unfollowed).toHaveLength(2);
  });
});
