import { describe, expect, it } from "vitest";
import { observeLift } from "../../src/jobs/commands/observe.ts";
import { answerQuestion, askQuestion } from "../../src/jobs/commands/questions.ts";
import { review } from "../../src/jobs/commands/review.ts";
import { jobEvent } from "../../src/jobs/log/event.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { reviewRecord } from "../../src/jobs/review/record.ts";
import type { Actor } from "../../src/jobs/roles.ts";
import { aboutInWords } from "../../src/jobs/state/questions.ts";
import { liftRead } from "../../src/jobs/verdict/liftRead.ts";
import { engineer, Tablet } from "./demo.ts";

const operator: Actor = { name: "J. Corrow", role: "field operator" };
const run = new Tablet().start().runTo(undefined);
/** The closed run, each test with its own. */
const closedRun = () => {
  const tablet = new Tablet(run.device);
  tablet.events = [...run.events];
  tablet.now = run.now;
  tablet.close();
  tablet.actor = engineer;
  return tablet;
};

describe("a reading on lift that was typed wrong", () => {
  const figures = {
    injectionAtSurface: { text: "905", unit: "psig" },
    wellhead: { text: "266", unit: "psig" },
    injectionRate: { text: "410", unit: "Mscf/d" },
  };
  const read = (tablet: Tablet, more: Partial<Parameters<typeof observeLift>[1]> = {}) => ({
    takenAt: tablet.clock,
    source: "Recorder",
    typed: figures,
    ...more,
  });
  /** A closed run with one reading on lift, and that reading. */
  const watched = () => {
    const tablet = closedRun();
    tablet.act((s) => observeLift(s, read(tablet)));
    const wrong = tablet.state.observed[0];
    if (!wrong) throw new Error("not observed");
    const as = (wellhead: string, more: Partial<Parameters<typeof observeLift>[1]> = {}) => ({
      takenAt: wrong.observed.takenAt,
      source: "Recorder",
      typed: { ...figures, wellhead: { text: wellhead, unit: "psig" } },
      corrects: { event: wrong.event.hash, reason: "Misread" },
      ...more,
    });
    return { tablet, wrong, as };
  };
  const standing = ({ state }: Tablet) =>
    state.observed.filter(({ corrected }) => !corrected).map(({ observed }) => observed);

  it("is corrected by one entry that names it and says why; it stays in the log, and does not stand", () => {
    const { tablet, wrong, as } = watched();
    tablet.actor = operator;
    tablet.wait(30);
    const written = tablet.act((s) => observeLift(s, as("226")));
    expect(written.map(({ body }) => body)).toEqual([
      {
        ...wrong.observed,
        wellhead: { value: 226, unit: "psig" },
        corrects: { event: wrong.event.hash, reason: "Misread" },
      },
    ]);
    expect(written.every((event) => jobEvent.safeParse(event).success)).toBe(true);
    expect(tablet.state.observed).toMatchObject([
      {
        event: wrong.event,
        observed: wrong.observed,
        corrected: { event: written[0], reason: "Misread", apart: false },
      },
      { event: written[0] },
    ]);
    expect(standing(tablet)).toEqual([written[0]?.body]);
    expect(liftRead(tablet.state)).toMatchObject({ event: written[0], wellhead: { value: 226 } });
  });

  it("with too late a time does not stay the latest", () => {
    const { tablet, wrong, as } = watched();
    tablet.wait(120);
    tablet.act((s) => observeLift(s, read(tablet, { typed: as("241").typed })));
    const late = tablet.state.observed.at(-1);
    if (!late) throw new Error("not observed");
    const earlier = new Date(Date.parse(wrong.observed.takenAt) - 60 * 60_000).toISOString();
    const corrects = { event: late.event.hash, reason: "Wrong time" };
    tablet.act((s) => observeLift(s, as("241", { takenAt: earlier, corrects })));
    expect(liftRead(tablet.state)?.event).toEqual(wrong.event);
  });

  it("loses a rate that was not measured, and is corrected again by correcting what stands", () => {
    const { tablet, as } = watched();
    const { injectionRate: _, ...typed } = figures;
    tablet.act((s) => observeLift(s, as("266", { typed })));
    expect(liftRead(tablet.state)).not.toHaveProperty("injectionRate");
    const event = tablet.state.observed.at(-1)?.event.hash ?? "";
    tablet.act((s) => observeLift(s, as("226", { corrects: { event, reason: "Misread, too" } })));
    expect(tablet.state.observed.map(({ corrected }) => corrected?.reason)).toEqual([
      "Misread",
      "Misread, too",
      undefined,
    ]);
    expect(liftRead(tablet.state)?.wellhead.value).toBe(226);
  });

  it.each<[string, (of: ReturnType<typeof watched>) => Parameters<typeof observeLift>[1], RegExp]>([
    [
      "without a reason",
      ({ as, wrong }) => as("226", { corrects: { event: wrong.event.hash, reason: " " } }),
      /^Say why it is corrected\.$/,
    ],
    ["by what stands there", ({ as }) => as("266"), /^That is what stands there already\.$/],
    [
      "where it is not in the log",
      ({ as, tablet }) =>
        as("226", { corrects: { event: tablet.events[0]?.hash ?? "", reason: "Misread" } }),
      /^The reading to correct is not in the log\.$/,
    ],
    [
      "a second time",
      ({ as, tablet }) => {
        tablet.act((s) => observeLift(s, as("226")));
        return as("236");
      },
      /^L\. Ashgrove corrected this reading already, .*correct the one that stands in its place\.$/,
    ],
    ["with the two swapped", ({ as }) => as("960"), /Are the two swapped\?/],
    [
      "read in the future",
      ({ as, tablet }) => as("226", { takenAt: new Date(+tablet.now + 60_000).toISOString() }),
      /in the future/,
    ],
    [
      "in an approved record",
      ({ as, tablet }) => {
        tablet.actor = engineer;
        tablet.act((s) => review(s, "approved", "", headsOf(tablet.events)));
        return as("226");
      },
      /The record is approved/,
    ],
  ])("is not corrected %s", (_, correction, why) => {
    const of = watched();
    const given = correction(of);
    const before = of.tablet.events;
    expect(() => of.tablet.act((s) => observeLift(s, given))).toThrow(why);
    expect(of.tablet.events).toEqual(before);
  });

  it("is corrected with what is in doubt when somebody stands by it, which is noted", () => {
    const { tablet, as } = watched();
    tablet.act((s) => observeLift(s, as("960", { standBy: true })));
    expect(liftRead(tablet.state)?.wellhead.value).toBe(960);
    expect(tablet.state.notes.at(-1)?.text).toMatch(/^Recorded as typed\. .*swapped\?$/);
  });

  it("and corrected on two tablets: both corrections stay, the later in the log stands, and can be corrected", () => {
    const { tablet, wrong, as } = watched();
    const other = new Tablet();
    other.now = tablet.now;
    other.actor = operator;
    other.merge(tablet.events);
    tablet.act((s) => observeLift(s, as("226")));
    other.act((s) => observeLift(s, as("236")));
    tablet.merge(other.events);
    other.merge(tablet.events);
    expect(other.state).toEqual(tablet.state);
    const [first, second] = tablet.state.observed.slice(1);
    if (!first || !second) throw new Error("not corrected");
    expect(
      tablet.state.observed.map(({ corrected }) => [corrected?.event, corrected?.apart]),
    ).toEqual([
      [first.event, false],
      [second.event, true],
      [undefined, undefined],
    ]);
    expect(standing(tablet)).toEqual([second.observed]);
    const { remarkable } = reviewRecord(tablet.state, tablet.clock, tablet.writer);
    const [was, is] = [first, second].map(({ observed }) => observed.wellhead.value);
    expect(remarkable.filter(({ title }) => title === "The well on lift")).toMatchObject([
      { kind: "correction", says: `Wellhead pressure 266 psig corrected to ${was} psig: Misread` },
      {
        kind: "tablets differed",
        says: `Two tablets corrected one reading. The later in the log stands: Wellhead pressure ${was} psig corrected to ${is} psig. Its reason: Misread`,
      },
    ]);
    expect(() => tablet.act((s) => observeLift(s, as("246")))).toThrow("already");
    const corrects = { event: second.event.hash, reason: "Read once more together" };
    tablet.act((s) => observeLift(s, as("231", { corrects })));
    expect(standing(tablet)).toMatchObject([{ wellhead: { value: 231 } }]);
    expect(tablet.state.observed[0]?.event).toEqual(wrong.event);
  });

  it("is not followed where it corrects what is not there", () => {
    const { tablet, wrong } = watched();
    const nowhere = { event: "0".repeat(64), reason: "Misread" };
    tablet.write({ ...wrong.observed, corrects: nowhere });
    expect(standing(tablet)).toEqual([wrong.observed]);
    expect(tablet.state.unfollowed.map(({ why }) => why)).toEqual([
      "It corrects a reading on lift that is not there.",
    ]);
  });

  it("is still what a question about it was asked of", () => {
    const { tablet, wrong, as } = watched();
    const about = { kind: "event", event: wrong.event.hash } as const;
    tablet.actor = engineer;
    tablet.act((s) => askQuestion(s, about, "Which gauge?"));
    const before = aboutInWords(tablet.state, about);
    tablet.actor = operator;
    tablet.act((s) => observeLift(s, as("226")));
    expect(aboutInWords(tablet.state, about)).toBe(before);
    expect(before).toMatch(/^Lift observed, .*, L\. Ashgrove$/);
    const asked = tablet.state.questions[0]?.event.hash ?? "";
    tablet.actor = engineer;
    tablet.act((s) => answerQuestion(s, asked, "The recorder's; it was misread."));
    expect(tablet.state.questions[0]?.answers).toHaveLength(1);
  });
});
