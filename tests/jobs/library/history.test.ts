import { describe, expect, it } from "vitest";
import { library } from "../../../demo-data/emberMesa.ts";
import {
  type Befell,
  befellIn,
  befellInLogs,
  historyOf,
  isOnWell,
  namesValve,
  pocketHistory,
  recordLagsInWords,
} from "../../../src/jobs/library/history.ts";
import { goodRun, Tablet } from "../demo.ts";
import { answers, twoPocketProgramme } from "../twoPockets.ts";

const tablet = new Tablet().start().runTo(undefined);
const { programme } = tablet.state;
if (!programme?.replacement || !programme.well) throw new Error("no programme");
const [day] = tablet.clock.split("T");
const set = programme.replacement.serial;
const pulledSerial = goodRun.inspect?.fields["pulled-serial"]?.text ?? "";

describe("what a job's log says of valves", () => {
  it("is what came out, as it was found, and what went in, with the pocket", () => {
    const number = programme.well?.mandrels.find(({ id }) => id === programme.job.mandrel)?.number;
    const where = `${programme.well?.name}, mandrel ${number}`;
    expect(befellIn(tablet.state)).toMatchObject([
      { serial: pulledSerial, what: "pulled", where, job: programme.job.id, unapproved: true },
      { serial: set, what: "set", where, day },
    ]);
    expect(befellIn(tablet.state)[0]?.words).toContain("Complete, nothing missing");
  });

  it("is nothing of what was not done, and nothing of a valve that came back", () => {
    expect(befellIn(new Tablet().start().runTo("jar-out").state)).toEqual([]);
    const back = new Tablet().start().runTo("look-tool");
    const looked = { "tool-pins": { text: "sheared" }, "tool-valve": { text: "came back" } };
    back.enter("look-tool", looked, "looked twice");
    expect(befellIn(back.state).map(({ what }) => what)).toEqual(["pulled"]);
  });

  it("is told for each of two pockets", () => {
    const befell = befellIn(
      new Tablet().start(twoPocketProgramme()).runTo(undefined, answers).state,
    );
    expect(befell.map(({ what }) => what)).toEqual(["pulled", "set", "pulled", "set"]);
    expect(new Set(befell.map(({ where }) => where)).size).toBe(2);
    expect(new Set(befell.map(({ serial }) => serial)).size).toBe(4);
  });

  it("is looked for only in logs that name the valve, or its well", () => {
    const valve = { id: "none", serial: set.toLowerCase().replace("-", " ") };
    expect(befellInLogs(tablet.events, namesValve(valve))).toHaveLength(2);
    expect(befellInLogs(tablet.events, namesValve({ id: "none", serial: "NONE" }))).toEqual([]);
    expect(befellInLogs(tablet.events, isOnWell(programme.job.well))).toHaveLength(2);
    expect(befellInLogs(tablet.events, isOnWell("another"))).toEqual([]);
  });
});

describe("a valve's history", () => {
  const inLogs = befellIn(tablet.state);
  const before = [
    { day: "2024-03-01", what: "set" as const, where: "EM-03, mandrel 2" },
    { day: "2024-12-31", what: "pulled" as const, where: "EM-03 mandrel 2", words: "Worn." },
    { day: "2025-01-10", what: "tested" as const },
  ];

  it("joins record and log, oldest first, with the days in service where both ends are known", () => {
    const history = historyOf(
      { serial: set.replace("-", ""), history: before.toReversed() },
      inLogs,
    );
    expect(history.map(({ what, daysInService }) => [what, daysInService])).toEqual([
      ["set", undefined],
      ["pulled", 305],
      ["tested", undefined],
      ["set", undefined],
    ]);
    expect(history.at(-1)?.job).toBe(programme.job.id);
  });

  it("does not count from a set that nobody knows of", () => {
    const history = historyOf({ serial: pulledSerial }, inLogs);
    expect(history).toHaveLength(1);
    expect(history[0]?.daysInService).toBeUndefined();
  });

  it("says once what the record and the log both say, with the record's words kept", () => {
    const own = [{ day: day ?? "", what: "set" as const, where: "somewhere", words: "By hand." }];
    const history = historyOf({ serial: set, history: own }, inLogs);
    expect(history).toHaveLength(1);
    expect(history[0]).toMatchObject({ words: "By hand.", job: programme.job.id });
  });

  it("is told of a pocket, too", () => {
    const valves = [{ serial: "OLD-1", history: before }];
    const there = pocketHistory("EM-03", 2, valves, inLogs);
    expect(there.map(({ what, serial }) => [what, serial])).toEqual([
      ["set", "OLD-1"],
      ["pulled", "OLD-1"],
    ]);
    const well = library.wells.find(({ id }) => id === programme.job.well);
    const number = well?.mandrels.find(({ id }) => id === programme.job.mandrel)?.number ?? 0;
    expect(pocketHistory(well?.name ?? "", number, [], inLogs).map(({ what }) => what)).toEqual([
      "pulled",
      "set",
    ]);
  });
});

describe("a valve that a job's log has moved", () => {
  const pulled = {
    serial: "V-1",
    day: "2026-11-25",
    what: "pulled",
    where: "EM-07, mandrel 3",
    job: "job-1",
  } as const;
  const set = { ...pulled, what: "set" } as const;

  it.each([
    ["pulled, and the well's record still has it", ["EM-07, mandrel 3"], pulled, /pulled out of/],
    ["pulled, and it sits in another pocket now", ["EM-03, mandrel 2"], pulled, undefined],
    ["pulled, and in no pocket", [], pulled, undefined],
    [
      "set, and the well's record does not have it",
      [],
      set,
      /set into EM-07, mandrel 3 on 2026-11-25/,
    ],
    ["set, and the well's record has it", ["EM-07, mandrel 3"], set, undefined],
    ["set by its own record alone", [], { ...set, job: undefined }, undefined],
  ] as const)("%s", (_, pockets, last, says) => {
    const words = recordLagsInWords(pockets, [last as Befell]);
    if (says) expect(words).toMatch(says);
    else expect(words).toBeUndefined();
  });
});
