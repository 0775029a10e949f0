import { describe, expect, it } from "vitest";
import {
  closeContingency,
  noteContingency,
  openContingency,
} from "../../src/jobs/commands/contingency.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import { review } from "../../src/jobs/commands/review.ts";
import { correct } from "../../src/jobs/commands/run.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { reviewRecord } from "../../src/jobs/review/record.ts";
import { standsInWords } from "../../src/jobs/review/standsInWords.ts";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { stepById } from "../../src/jobs/sheet/walk.ts";
import {
  afterApproval,
  foldJob,
  type JobState,
  latestReading,
} from "../../src/jobs/state/jobState.ts";
import { engineer, planner, readyProgramme, supervisor, Tablet } from "./demo.ts";

const closed = (answers: Parameters<Tablet["runTo"]>[1] = {}, standBy?: string) => {
  const tablet = new Tablet().start().runTo(undefined, answers, standBy);
  tablet.close("done");
  tablet.actor = engineer;
  return tablet;
};
const decide = (tablet: Tablet, decision: "approved" | "sent back", remark = "") =>
  tablet.act((s) => review(s, decision, remark, headsOf(tablet.events)));
const record = (tablet: Tablet) => reviewRecord(tablet.state, tablet.clock, tablet.writer);

describe("the engineer's decision", () => {
  it("approves, and shows what comes into the log afterwards", () => {
    const tablet = closed();
    decide(tablet, "approved", "Well done.");
    expect(tablet.state.stage).toBe("approved");
    expect(afterApproval(tablet.state)).toEqual([]);
    tablet.write({ type: "note", text: "slipped in" });
    expect(afterApproval(tablet.state)).toHaveLength(1);
  });

  it("sends back with a remark, and takes the run again when it is corrected and closed again", () => {
    const tablet = closed();
    expect(() => decide(tablet, "sent back", " ")).toThrow("Say what is missing");
    decide(tablet, "sent back", "Which gauge was that?");
    expect(tablet.state.stage).toBe("sent back");
    tablet.actor = supervisor;
    const reading = latestReading(tablet.state, "line-cut");
    if (!reading) throw new Error("no reading");
    tablet.act((s) => correct(s, reading, { text: "65", unit: "ft" }, "Measured again"));
    tablet.close("Gauge G-34.");
    tablet.actor = engineer;
    decide(tablet, "approved");
    expect(tablet.state.stage).toBe("approved");
    expect(tablet.state.reviews).toHaveLength(2);
  });

  it("is refused before the run is closed, by another role, and on a log that grew while it was read", () => {
    const open = new Tablet().start().runTo("left-location");
    open.actor = engineer;
    expect(() => decide(open, "approved")).toThrow("not closed yet");
    const tablet = closed();
    tablet.actor = supervisor;
    expect(() => decide(tablet, "approved")).toThrow("production engineer reviews");
    tablet.actor = engineer;
    const seen = headsOf(tablet.events);
    tablet.write({ type: "note", text: "while you read" });
    expect(() => tablet.act((s) => review(s, "approved", "", seen))).toThrow("grew while you");
  });

  it("does not approve a log that was bent, naming the place", () => {
    const tablet = closed();
    const event = structuredClone(tablet.events[9]);
    if (event) tablet.events[9] = { ...event, at: "2020-01-01T00:00:00.000Z" };
    expect(() => decide(tablet, "approved")).toThrow(
      /Event 10 was changed after it was written. It is on the tablet that E. Rowan and R. Tamsin wrote on .* "Hold the safety valves open", 1 Jan 2020 .* before it is number 9: readings taken in/,
    );
    expect(record(tablet).broken).toHaveLength(1);
  });
});

describe("how a run stands", () => {
  it("is not told by a log whose closing was cut away, though a decision follows", () => {
    const tablet = closed();
    decide(tablet, "approved");
    const standing = (of: JobState) => standsInWords(of, brokenLinks(of.events).length > 0);
    expect(standing(tablet.state)).toBe("Approved");
    const cut = foldJob(tablet.events.filter(({ body }) => body.type !== "run closed"));
    expect(cut.stage).toBe("running");
    expect(standing(cut)).toBe("The log is not whole: it does not tell how the run stands");
    // Said by the decision alone, too: the closing may be on a tablet whose log has not come along.
    expect(standsInWords(cut, false)).toBe(standing(cut));
    expect(standing(foldJob(tablet.events.slice(0, 40)))).toBe("Still running");
  });
});

describe("the record", () => {
  it("of a good run has nothing out of the ordinary", () => {
    expect(record(closed()).remarkable).toEqual([]);
  });

  it("lists a limit that was exceeded, an adverse answer, a correction, an exception", () => {
    const tablet = new Tablet().start().runTo(
      "line-left",
      {
        shear: { "shear-largest": { text: "1200", unit: "lbf" } },
        "jar-out": { "pull-free": { text: "surge" } },
      },
      "harder than meant",
    );
    tablet.runTo("account");
    const reading = latestReading(tablet.state, "line-cut");
    if (!reading) throw new Error("no reading");
    tablet.act((s) => correct(s, reading, { text: "65", unit: "ft" }, "Measured again"));
    const { remarkable, comparisons } = record(tablet);
    expect(remarkable.map((each) => each.kind).sort()).toEqual([
      "answer",
      "correction",
      "limit exceeded",
    ]);
    expect(remarkable.find((each) => each.kind === "limit exceeded")?.says).toBe(
      "1200 lbf was read; the limit was 1055 lbf. Stood by: harder than meant",
    );
    expect(remarkable.find((each) => each.kind === "answer")?.says).toBe("Free, with a surge");
    expect(comparisons.find((each) => each.reading.field === "shear-largest")?.exceedsMost).toBe(
      true,
    );
  });

  it("says of a limit that was exceeded why it was stood by, and lists that by itself once it is corrected", () => {
    const pulls = { "test-pull-force": { text: "1200", unit: "lbf" } };
    const tablet = new Tablet()
      .start()
      .runTo("shear", { "test-pull": pulls }, "gauge checked after");
    const remarks = () =>
      record(tablet).remarkable.map(({ kind, says }) => [kind, says.replace(/\d+ lbf/g, "…")]);
    expect(remarks()).toEqual([
      ["limit exceeded", "… was read; the limit was …. Stood by: gauge checked after"],
    ]);
    const reading = latestReading(tablet.state, "test-pull-force");
    if (!reading) throw new Error("no reading");
    tablet.act((s) => correct(s, reading, { text: "450", unit: "lbf" }, "Misread"));
    expect(remarks().map(([kind]) => kind)).toEqual(["stood by", "correction"]);
  });

  it("lists what was in doubt and stood by, under the step it was read in", () => {
    const pickUp = { "pick-up": { text: "900", unit: "lbf" } };
    const tablet = new Tablet()
      .start()
      .runTo("correlate", { "gauge-down": pickUp }, "tight at the collar");
    expect(record(tablet).remarkable.filter(({ kind }) => kind === "stood by")).toMatchObject([
      {
        title: stepById(changeOut, "gauge-down")?.title,
        says: expect.stringMatching(/^Line pull picking up there: 900 lbf.*tight at the collar$/),
        event: { actor: supervisor },
      },
    ]);
  });

  it("lists a lock that stays on the injection gas", () => {
    const tablet = closed({ injection: { "lock-off": { text: "stays" } } });
    expect(record(tablet).remarkable).toMatchObject([
      { kind: "answer", title: "Lock on the injection gas", says: "Stays on, handed over so" },
    ]);
  });

  it("gives what was noted while something was dealt with, each with its time", () => {
    const tablet = new Tablet().start().runTo("first-blow");
    const note = (psig: string) =>
      tablet.act((s) => noteContingency(s, { "come-casing": { text: psig, unit: "psig" } }, s.now));
    const dealWith = (...readings: string[]) => {
      tablet.act((s) => openContingency(s, "will-not-come"));
      for (const each of readings) note(each);
      tablet.act((s) =>
        closeContingency(s, { option: "level-again", outcome: "It came.", rejoin: "level-last" }),
      );
      expect(tablet.current?.id).toBe("level-last");
    };
    dealWith("1000", "940");
    dealWith("752");
    const says = record(tablet)
      .remarkable.filter(({ kind }) => kind === "contingency")
      .map((each) => each.says);
    expect(says).toEqual([
      expect.stringMatching(
        /It came\. Noted: Casing.* 1000 psig, 25 Nov \d\d:\d\d; Casing.* 940 psig, 25 Nov \d\d:\d\d\.$/,
      ),
      expect.stringMatching(/It came\. Noted: Casing.* 752 psig, 25 Nov \d\d:\d\d\.$/),
    ]);
  });

  it("says which programme the crew worked on when two were issued unseen by each other", () => {
    const office = new Tablet();
    office.actor = planner;
    office.act(({ state, actor }) => issueProgramme(state, readyProgramme(), actor));
    const crew = new Tablet();
    crew.events = [...office.events];
    office.wait(1);
    office.act(({ state, actor }) => issueProgramme(state, readyProgramme(), actor));
    crew.wait(5);
    crew.write({ type: "run started", programme: office.events[0]?.hash ?? "" });
    crew.merge(office.events);
    expect(crew.state.revision).toBe(1);
    expect(crew.state.unfollowed).toHaveLength(1);
    expect(record(crew).remarkable[0]).toMatchObject({ kind: "not followed" });
  });

  it("lists a reading that does not fit its field, which counts for nothing", () => {
    const tablet = new Tablet().start();
    tablet.write({
      type: "readings taken",
      step: "as-found",
      takenAt: tablet.clock,
      entries: [
        {
          field: "as-found-casing",
          value: { kind: "quantity", dimension: "length", value: 800, unit: "ft" },
        },
      ],
    });
    expect(latestReading(tablet.state, "as-found-casing")).toBeUndefined();
    expect(record(tablet).remarkable[0]?.says).toContain("does not fit the field");
  });

  it("lists a hold point that was passed without a release", () => {
    const tablet = new Tablet().start().runTo("permit-hold");
    tablet.write({ type: "step done", step: "measure-strings" });
    expect(record(tablet).remarkable.map((each) => each.kind)).toContain(
      "hold point passed unreleased",
    );
  });
});
