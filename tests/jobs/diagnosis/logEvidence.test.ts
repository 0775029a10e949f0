import { parseISO } from "date-fns";
import { describe, expect, it } from "vitest";
import { evidenceOfLog, type LogDraft } from "../../../src/jobs/diagnosis/logEvidence.ts";
import type { LogRead } from "../../../src/jobs/diagnosis/readLog.ts";

type Read = Extract<LogRead, { ok: true }>;

const psig = (value: number) => ({ value, unit: "psig" as const });
const feet = (value: number) => ({ value, unit: "ft" as const });
const trend: Read = {
  ok: true,
  kind: "trend",
  points: [0, 1, 2, 3].map((hour) => ({
    at: `2026-11-20T0${hour}:00:00.000Z`,
    casing: psig(900 + hour),
  })),
  stops: [],
  said: [],
};
const survey: Read = {
  ok: true,
  kind: "survey",
  points: [],
  stops: [1000, 2000, 3000].map((depth) => ({
    depthAlongHole: feet(depth),
    pressure: psig(depth / 5),
  })),
  said: [],
};
const draft: LogDraft = {
  text: "",
  day: "2026-11-20",
  time: "09:30",
  source: " Recorder 12 ",
  confidence: "good",
  remark: " ",
};
const noon = parseISO("2026-11-20T12:00").toISOString();

describe("a table that becomes evidence", () => {
  it("is of the moment at which its first pen stands, with source and trust as they were said", () => {
    const checked = evidenceOfLog("one", draft, trend, noon);
    expect(checked).toMatchObject({
      ok: true,
      evidence: {
        id: "one",
        kind: "trend",
        at: "2026-11-20T00:00:00.000Z",
        source: "Recorder 12",
        confidence: "good",
      },
    });
    if (!checked.ok || checked.evidence.kind !== "trend") throw new Error("not a trend");
    expect(checked.evidence.points).toHaveLength(4);
    // A remark of spaces is none.
    expect(checked.evidence.remark).toBeUndefined();
  });

  it("of a survey is of the day and time that somebody says, by the tablet's clock", () => {
    expect(evidenceOfLog("one", { ...draft, remark: "second run" }, survey, noon)).toMatchObject({
      ok: true,
      evidence: {
        kind: "survey",
        at: parseISO("2026-11-20T09:30").toISOString(),
        remark: "second run",
        stops: survey.stops,
      },
    });
  });

  it.each([
    ["no day", { day: "" }],
    ["no time, which is not its midnight", { time: "" }],
    ["a day that is still to come", { day: "2026-11-21" }],
  ])("asks when a survey was run: %s", (_, typed) => {
    expect(evidenceOfLog("one", { ...draft, ...typed }, survey, noon)).toEqual({
      ok: false,
      problems: { at: "Enter day and time at which it was run, not later than now." },
    });
  });

  it("asks where it comes from", () => {
    expect(evidenceOfLog("one", { ...draft, source: "  " }, trend, noon)).toEqual({
      ok: false,
      problems: { source: "Say where it comes from: recorder and its number, or historian." },
    });
  });

  it("says which part a record does not take", () => {
    const checked = evidenceOfLog("one", { ...draft, source: "x".repeat(401) }, trend, noon);
    expect(checked).toMatchObject({
      ok: false,
      problems: { any: expect.stringMatching(/^source: .*Mend it, then keep it again\.$/) },
    });
  });
});
