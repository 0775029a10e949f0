import { describe, expect, it } from "vitest";
import { closeOutOf } from "../../src/jobs/closeOut/closeOut.ts";
import { gapsOf } from "../../src/jobs/closeOut/gaps.ts";
import type { CloseOutLine } from "../../src/jobs/closeOut/line.ts";
import { correct, leaveOut } from "../../src/jobs/commands/run.ts";
import { writer } from "../../src/jobs/display.ts";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import type { Sheet } from "../../src/jobs/sheet/sheet.ts";
import { foldJob, latestReading } from "../../src/jobs/state/jobState.ts";
import { demoText, programmeFor, readyProgramme, Tablet } from "./demo.ts";
import { answers, twoPocketProgramme } from "./twoPockets.ts";

const { content } = JSON.parse(demoText()) as { content: { events: JobEvent[] } };
const finished = foldJob(content.events.filter(({ job }) => job === "job-em-03-3"));
const LATER = "2026-11-26T06:00:00.000Z";

const linesOf = (tablet: Tablet): ReadonlyMap<string, CloseOutLine> =>
  byId(closeOutOf(tablet.state, tablet.clock, tablet.writer));
const byId = (sections: ReturnType<typeof closeOutOf>) =>
  new Map(sections.flatMap(({ lines }) => lines.map((line) => [line.id, line] as const)));
const gapsIn = (tablet: Tablet) =>
  gapsOf(closeOutOf(tablet.state, tablet.clock, tablet.writer)).map(({ says, at }) => [says, at]);
const photograph = (tablet: Tablet, at: string) =>
  tablet.write({
    type: "photograph",
    picture: "a".repeat(64),
    width: 4,
    height: 3,
    caption: "Seat",
    at,
  });

describe("the close-out of the demonstration's finished run", () => {
  const lines = byId(closeOutOf(finished, LATER, writer("field")));
  const says = (id: string) => lines.get(id)?.says;

  it.each([
    ["pulled-serial", "EM-0313"],
    ["pulled-condition", "Port or stem cut, Groove across seat and stem tip; packing whole."],
    ["pulled-charge", "Not tested here"],
    ["new-serial", "EM-2037"],
    ["new-card", "952 psig by the card read on location; no bench reading on record"],
    ["pocket-depth", "4113 ft"],
    ["high-test", "1400 psig to 1392 psig, in 10 min. Held."],
    ["shear-largest", "1090 lbf, 11 hits"],
    ["line-on-drum", "14200 ft"],
    ["well-status", "On injection"],
    ["exceptions", "None."],
    [
      "over-limit-1",
      "1090 lbf was read; the limit was 1055 lbf. Stood by: One blow came harder than meant; wire looked at and cut back afterwards.",
    ],
    ["pull-largest", "840 lbf, 19 hits, free, no surge"],
    ["test-pull", "410 lbf, holds"],
    ["time-whole", "14 h 55 min"],
  ])("says of %s: %s", (id, words) => {
    expect(says(id)).toBe(words);
  });

  it("says where a limit was passed, and that none was where none was", () => {
    const [over] = [...lines.values()].filter(({ id }) => id === "over-limit-1");
    expect(over?.label).toBe('Over the limit: largest line pull, "Jar up to shear off"');
    const ids = [...linesOf(new Tablet().start().runTo("correlate")).keys()];
    expect(ids).toContain("over-limit");
  });

  it("says a corrected figure as it stands, from the entry and its correction", () => {
    const cut = lines.get("line-cut");
    expect(cut?.says).toBe("80 ft, Jarred most at 4,113 ft on the counter.");
    expect(cut?.events.map(({ body }) => body.type)).toEqual(["readings taken", "correction"]);
  });

  it("says who took the well over and who gave it", () => {
    expect(says("taken-over")).toMatch(
      /^J\. Corrow, field operator, signed .* by name, given by R\. Tamsin$/,
    );
  });

  it("was closed with the one gap that it had, and the reason", () => {
    const gaps = gapsOf(closeOutOf(finished, LATER, writer("field")));
    expect(gaps.map(({ says: each }) => each)).toEqual(["Pulled: photographs. None taken."]);
    const body = finished.closed?.body;
    expect(body?.type === "run closed" && body.gaps?.items).toEqual(gaps.map((each) => each.says));
    expect(body?.type === "run closed" && body.gaps?.reason).toMatch(/no camera/);
  });

  it("is written in the units of whoever reads it", () => {
    // 1090 lbf = 4,848.6 N = 485 daN, to the whole daN.
    const metric = byId(closeOutOf(finished, LATER, writer("metric")));
    expect(metric.get("shear-largest")?.says).toBe("485 daN, 11 hits");
  });
});

describe("what is not answered", () => {
  it("is listed with the step that answers it, and gone when it is answered", () => {
    const tablet = new Tablet().start().runTo(undefined, {
      inspect: { "pulled-charge": { text: "" } },
      "line-left": { "line-on-drum": { text: "" } },
      account: { "well-status": { text: "" } },
    });
    expect(gapsIn(tablet)).toEqual([
      ["Pulled: charge left. Not answered.", "inspect"],
      ["Pulled: photographs. None taken.", "inspect"],
      ["Line: left on the drum. Not answered.", "line-left"],
      ["The well when left: the well. Not answered.", "account"],
    ]);
    tablet.enter("account", {
      "nothing-left": { text: "nothing" },
      "well-status": { text: "shut in" },
    });
    photograph(tablet, "inspect");
    expect(gapsIn(tablet)).toHaveLength(2);
    expect(linesOf(tablet).get("well-status")?.says).toBe("Shut in");
    expect(linesOf(tablet).get("photographs-inspect")?.says).toBe("1: Seat");
  });

  it("is no gap where the step was left out with a reason", () => {
    const tablet = new Tablet().start().runTo("injection");
    tablet.act((s) => leaveOut(s, "injection", "The plant is down until Friday."));
    tablet.runTo(undefined);
    expect(linesOf(tablet).get("final-pressures")).toMatchObject({
      says: '"Return to injection, gently" was left out: The plant is down until Friday.',
    });
    expect(gapsIn(tablet).map(([says]) => says)).toEqual(["Pulled: photographs. None taken."]);
  });

  it("of a sheet of before it was asked for is a gap that says so", () => {
    const programme = readyProgramme();
    const asked = ["pulled-charge", "pulled-opening", "line-on-drum", "well-status"];
    const before: Sheet = {
      ...programme.sheet,
      phases: programme.sheet.phases.map((phase) => ({
        ...phase,
        items: phase.items.map((item) =>
          item.type === "step"
            ? {
                ...item,
                step: {
                  ...item.step,
                  fields: item.step.fields.filter(({ id }) => !asked.includes(id)),
                },
              }
            : item,
        ),
      })),
    };
    const tablet = new Tablet().start({ ...programme, sheet: before }).runTo(undefined);
    const notAsked = "This job's run sheet does not ask for it.";
    expect(gapsIn(tablet)).toEqual([
      [`Pulled: charge left. ${notAsked}`, undefined],
      ["Pulled: photographs. None taken.", "inspect"],
      [`Line: left on the drum. ${notAsked}`, undefined],
      [`The well when left: the well. ${notAsked}`, undefined],
    ]);
  });

  it("is not the charge of a dummy's pocket, nor a pulled valve where none was", () => {
    const empty = programmeFor({
      work: "set into an empty pocket",
      kickover: "orienting",
      catcher: false,
    });
    const tablet = new Tablet().start(empty).runTo(undefined);
    const ids = [...linesOf(tablet).keys()];
    expect(ids).toContain("pocket-found");
    expect(ids.filter((id) => /^pulled-|free-pressures|pull-largest/.test(id))).toEqual([]);
    expect(gapsIn(tablet)).toEqual([["Pocket found: photographs. None taken.", "look-block"]]);
  });
});

describe("closing", () => {
  it("with a gap needs a reason, which goes into the log with what was not answered", () => {
    const tablet = new Tablet().start().runTo(undefined);
    expect(() => tablet.close("", " ")).toThrow(
      "Not answered: Pulled: photographs. None taken. Answer it, or say why",
    );
    const [closed] = tablet.close("All well.", "No camera on this permit.");
    expect(closed?.body).toEqual({
      type: "run closed",
      remark: "All well.",
      gaps: { items: ["Pulled: photographs. None taken."], reason: "No camera on this permit." },
    });
  });

  it("without a gap asks for no reason and keeps none", () => {
    const tablet = new Tablet().start().runTo(undefined);
    photograph(tablet, "inspect");
    const [closed] = tablet.close("", "said all the same");
    expect(closed?.body).toEqual({ type: "run closed" });
  });

  it("is refused before every step is done, and to another than the supervisor", () => {
    const tablet = new Tablet().start().runTo("left-location");
    expect(() => tablet.close()).toThrow("Leave the location");
    tablet.runTo(undefined);
    tablet.actor = { name: "A. Brack", role: "winch operator" };
    expect(() => tablet.close()).toThrow("The wireline supervisor closes the run");
  });

  it("takes a correction into what it says", () => {
    const tablet = new Tablet().start().runTo(undefined);
    const drum = latestReading(tablet.state, "line-on-drum");
    if (!drum) throw new Error("no reading");
    tablet.act((s) => correct(s, drum, { text: "14020", unit: "ft" }, "Figures turned round"));
    expect(linesOf(tablet).get("line-on-drum")?.says).toBe("14020 ft");
  });
});

describe("the close-out of two pockets in one rig-up", () => {
  it("says what came out of each and what went in, and asks for each", () => {
    const tablet = new Tablet().start(twoPocketProgramme()).runTo(undefined, answers);
    const sections = closeOutOf(tablet.state, tablet.clock, tablet.writer);
    expect(sections.slice(0, 4).map(({ title }) => title)).toEqual([
      "Pulled, mandrel 3",
      "Set, mandrel 3",
      "Pulled, mandrel 4",
      "Set, mandrel 4",
    ]);
    const lines = byId(sections);
    expect(lines.get("pulled-serial")?.says).toBe("EM-0713");
    expect(lines.get("pulled-serial-pocket-2")?.says).toBe("EM-0714");
    expect(lines.get("new-serial-pocket-2")?.says).toBe("EM-2050");
    expect(lines.get("pocket-depth-pocket-2")).toMatchObject({
      label: "Resting on the latch, mandrel 4",
      says: "5293 ft",
    });
    expect(gapsOf(sections).map(({ says, at }) => [says, at])).toContainEqual([
      "Pulled, mandrel 4: photographs. None taken.",
      "inspect-pocket-2",
    ]);
  });
});
