import { describe, expect, it } from "vitest";
import { noteContingency, openContingency } from "../../src/jobs/commands/contingency.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import { correct } from "../../src/jobs/commands/run.ts";
import { brokenBy } from "../../src/jobs/state/holdState.ts";
import { latestReading } from "../../src/jobs/state/jobState.ts";
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
