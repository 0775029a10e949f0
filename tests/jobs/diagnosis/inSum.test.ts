import { describe, expect, it } from "vitest";
import { inSumOf, sayInSum } from "../../../src/jobs/diagnosis/inSum.ts";
import type { Ranked } from "../../../src/jobs/diagnosis/ranking.ts";
import { oneRanked } from "./oneRanked.ts";

const at = (
  kind: "stuck open" | "leaking" | "latch or packing leaks",
  mandrel: number,
  p: number,
): Ranked => oneRanked(`${kind} ${mandrel}`, p, { kind, mandrel });
const said = (ranked: readonly Ranked[]) =>
  sayInSum({ ranked, inSum: inSumOf(ranked), verdict: "two or more" });

describe("what the hypotheses come to in sum", () => {
  const mixed = [
    at("stuck open", 2, 0.4),
    at("latch or packing leaks", 2, 0.25),
    at("leaking", 2, 0.1),
    oneRanked("wrong depth 2 3", 0.05, { kind: "wrong depth", mandrel: 2, other: 3 }),
    at("stuck open", 3, 0.04),
    oneRanked("tubing leak between mandrels 1 and 2", 0.06, { kind: "tubing leak", depthM: 900 }),
    oneRanked("multi-point 2 3", 0.05, { kind: "multi-point", mandrels: [2, 3] }),
  ];

  it("counts each mandrel once for every fault in its pocket, an exchange at both, and valves that work as set at none", () => {
    const { mandrels, kinds } = inSumOf(mixed);
    expect(mandrels.map(({ mandrel }) => mandrel)).toEqual([2, 3]);
    expect(mandrels[0]?.probability).toBeCloseTo(0.4 + 0.25 + 0.1 + 0.05, 12);
    expect(mandrels[1]?.probability).toBeCloseTo(0.04 + 0.05, 12);
    expect(kinds[0]).toMatchObject({ kind: "stuck open" });
    expect(kinds[0]?.probability).toBeCloseTo(0.44, 12);
    expect(kinds.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(0.95, 12);
  });

  it("names the mandrel where what is wrong there is not told apart", () => {
    expect(said(mixed)).toBe(
      "Something is wrong at mandrel 2, about 8 in 10 in sum. What it is there is not told apart: stuck open 40 %, latch or packing leaks 25 %, leaks at its seat 10 %, exchanged with another 5 %.",
    );
  });

  it("names the kind where the mandrel is not told apart", () => {
    expect(said([at("stuck open", 3, 0.4), at("stuck open", 2, 0.35), at("leaking", 1, 0.1)])).toBe(
      "A valve stuck open, about 8 in 10 in sum. Which is not told apart: at mandrel 3 40 %, at mandrel 2 35 %.",
    );
    expect(
      said([
        oneRanked("tubing leak between mandrels 1 and 2", 0.35, {
          kind: "tubing leak",
          depthM: 900,
        }),
        oneRanked("tubing leak above mandrel 1", 0.25, { kind: "tubing leak", depthM: 300 }),
      ]),
    ).toBe(
      "A hole in the tubing, about 6 in 10 in sum. Which is not told apart: between mandrels 1 and 2 35 %, above mandrel 1 25 %.",
    );
  });

  it.each([
    {
      when: "the sum is hardly more than the first alone",
      ranked: [at("stuck open", 2, 0.6), at("leaking", 2, 0.05)],
    },
    {
      when: "no mandrel and no kind comes to a half",
      ranked: [at("stuck open", 1, 0.3), at("leaking", 2, 0.2), at("leaking", 3, 0.15)],
    },
    { when: "nothing is ranked", ranked: [] },
  ])("says nothing where $when", ({ ranked }) => {
    expect(said(ranked)).toBeUndefined();
  });

  it.each(["one answer", "not enough to tell", "nothing fits"] as const)(
    "says nothing beside the verdict %s",
    (verdict) => {
      expect(sayInSum({ ranked: mixed, inSum: inSumOf(mixed), verdict })).toBeUndefined();
    },
  );
});
