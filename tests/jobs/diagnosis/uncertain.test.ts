import { describe, expect, it } from "vitest";
import { casingBleedMethod } from "../../../src/calc/casingBleed.ts";
import { liftNetworkMethod } from "../../../src/calc/liftNetwork.ts";
import { tracerTimeMethod } from "../../../src/calc/tracerTime.ts";
import { trendPattern } from "../../../src/jobs/diagnosis/trendPattern.ts";
import { reading, type Uncertain, uncertain } from "../../../src/jobs/diagnosis/uncertain.ts";

const ORIGIN = /common practice|chosen by Latchline, no source|SPE/;

describe("what a ranking stands on", () => {
  it.each(Object.entries<Uncertain>(uncertain))(
    "%s says what it is, how far it is spread and who says so",
    (_, { says, spread, basis }) => {
      expect(says.length).toBeGreaterThan(10);
      const [least, most] = typeof spread === "number" ? [0, spread] : spread;
      expect(most).toBeGreaterThan(least);
      expect(basis).toMatch(ORIGIN);
    },
  );
  it("readings name their basis too", () => {
    for (const { basis } of Object.values(reading)) expect(basis).toMatch(ORIGIN);
  });
  it.each([liftNetworkMethod, casingBleedMethod, tracerTimeMethod])(
    "$name has a formula and a source",
    ({ formula, source }) => {
      expect(formula).toMatch(/[=→]|rests/);
      expect(source.length).toBeGreaterThan(20);
    },
  );
});

describe("what a pen did", () => {
  const pens = (of: (hour: number) => number) =>
    Array.from({ length: 49 }, (_, i) => ({ at: 1800 * i, value: of(i / 2) }));
  it.each([
    { does: "steady", of: (h: number) => 800 + (h % 2) },
    { does: "heading", of: (h: number) => 800 + 50 * Math.sin((2 * Math.PI * h) / 4) },
    // Up in 3.5 hours, down in half an hour.
    { does: "saw tooth", of: (h: number) => 750 + (h % 4) * 28 },
    { does: "falling", of: (h: number) => 900 - 10 * h },
    { does: "climbing", of: (h: number) => 700 + 10 * h },
    { does: "settled", of: (h: number) => 700 + 200 * Math.exp(-h) },
  ])("$does", ({ does, of }) => {
    expect(trendPattern(pens(of))?.pattern).toBe(does);
  });
  it("takes the middle of the last third as its level", () => {
    expect(trendPattern(pens((h) => (h < 12 ? 900 : 760)))?.level).toBe(760);
  });
  it("says nothing of three points, or of points at one time", () => {
    expect(trendPattern(pens(() => 1).slice(0, 3))).toBeUndefined();
    expect(trendPattern([1, 2, 3, 4].map((value) => ({ at: 5, value })))).toBeUndefined();
  });
});
