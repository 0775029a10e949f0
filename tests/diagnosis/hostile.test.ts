import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rankFaults } from "../../src/jobs/diagnosis/rank.ts";
import type { NoRanking, Ranking } from "../../src/jobs/diagnosis/ranking.ts";
import { writer } from "../../src/jobs/display.ts";
import { type Evidence, evidence } from "../../src/jobs/records/investigation.ts";
import { type Case, drawCase } from "./forward/cases.ts";
import { hostileEvidence } from "./hostileEvidence.ts";

const few = { draws: 40 };

function rank(given: Case, pieces: readonly Evidence[], options = {}): Ranking | NoRanking {
  return rankFaults(
    { well: given.well, valves: given.valves, policy: undefined, history: [] },
    { ...given.investigation, evidence: [...pieces] },
    writer("field"),
    options,
  );
}

/** That the answer is one: probabilities that are, and that make one together, in falling order. */
function holdsTogether(answer: Ranking | NoRanking): void {
  if ("needs" in answer) {
    expect(answer.needs.length).toBeGreaterThan(0);
    return;
  }
  const all = [...answer.ranked.map(({ probability }) => probability), answer.noneOfThese];
  for (const one of all) {
    expect(one).toBeGreaterThanOrEqual(0);
    expect(one).toBeLessThanOrEqual(1);
  }
  expect(all.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 6);
  const stated = answer.ranked.map(({ probability }) => probability);
  expect(stated).toEqual([...stated].sort((a, b) => b - a));
  expect(new Set(answer.ranked.map(({ hypothesis }) => hypothesis.id)).size).toBe(stated.length);
  expect(JSON.stringify(answer)).not.toMatch(/NaN|Infinity|undefined psi/);
}

const ordinary = drawCase(10, { amount: "much" });

describe("evidence that no well ever gave", () => {
  it("is what the schema lets through", () => {
    fc.assert(
      fc.property(hostileEvidence, (pieces) => {
        for (const one of pieces) expect(evidence.safeParse(one).error).toBeUndefined();
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("is answered all the same, with probabilities that make one", () => {
    fc.assert(
      fc.property(hostileEvidence, (pieces) => holdsTogether(rank(ordinary, pieces, few))),
      { seed: 11, numRuns: 20 },
    );
  });

  it("is answered beside ordinary evidence too", () => {
    fc.assert(
      fc.property(hostileEvidence, (pieces) =>
        holdsTogether(rank(ordinary, [...ordinary.investigation.evidence, ...pieces], few)),
      ),
      { seed: 13, numRuns: 10 },
    );
  });
});

describe("ordinary evidence", () => {
  const pieces = ordinary.investigation.evidence;
  const plain = rank(ordinary, pieces, few);

  it("gives the same answer in any order", () => {
    const turned = rank(ordinary, [...pieces].reverse(), few);
    if ("needs" in plain || "needs" in turned) throw new Error("not ranked");
    expect(turned.ranked[0]?.hypothesis.id).toBe(plain.ranked[0]?.hypothesis.id);
    expect(turned.ranked[0]?.probability).toBeCloseTo(plain.ranked[0]?.probability ?? -1, 6);
  });

  it("counts for nothing when it is set aside", () => {
    const aside = pieces.map((one) => ({ ...one, setAside: true }));
    const answer = rank(ordinary, aside, few);
    if (!("needs" in answer)) expect(answer.verdict).toBe("not enough to tell");
  });
});

describe("evidence that contradicts itself", () => {
  const { well } = ordinary;
  const base = { source: "gauge", confidence: "good" as const };
  const psig = (value: number) => ({ value, unit: "psig" as const });
  const normal = ordinary.investigation.evidence.find((one) => one.kind === "pressures");
  if (normal?.kind !== "pressures") throw new Error("no pressures");
  const reading = (id: string, casing: number, wellhead = 120): Evidence => ({
    ...base,
    id,
    at: `2026-03-10T0${id.length}:00:00.000Z`,
    kind: "pressures",
    injectionAtSurface: psig(casing),
    wellhead: psig(wellhead),
  });
  const level = (id: string, metres: number): Evidence => ({
    ...base,
    id,
    at: "2026-03-10T08:00:00.000Z",
    kind: "fluid level",
    space: "annulus",
    well: "on lift",
    depthAlongHole: { value: metres, unit: "m" },
  });
  const bleed = (id: string, to: number): Evidence => ({
    ...base,
    id,
    at: "2026-03-10T09:00:00.000Z",
    kind: "casing bleed",
    from: psig(1000),
    to: psig(to),
    took: { value: 180, unit: "min" },
    end: "at rest",
  });
  const deepest = well.mandrels.at(-1)?.depthAlongHole;

  it.each<{ what: string; pieces: Evidence[] }>([
    {
      what: "casing read at 300 and at 1,900 psig within the hour, both gauges good",
      pieces: [reading("x", 300), reading("xx", 1900)],
    },
    {
      what: "the annulus full to 60 m, and empty to below the lowest mandrel",
      pieces: [reading("x", 900), level("y", 60), level("z", 1600)],
    },
    {
      what: "a bleed that rests at 250 psig, and one that rests at 980",
      pieces: [reading("x", 900), bleed("y", 250), bleed("z", 980)],
    },
    {
      what: "gas comes back from the top after 4 minutes, and from nowhere else after 20 hours",
      pieces: [
        reading("x", 900),
        {
          ...base,
          id: "y",
          at: "2026-03-10T08:00:00.000Z",
          kind: "tracer",
          returns: [{ after: { value: 4, unit: "min" } }],
        },
        {
          ...base,
          id: "z",
          at: "2026-03-10T12:00:00.000Z",
          kind: "tracer",
          returns: [{ after: { value: 1200, unit: "min" } }],
        },
      ],
    },
    {
      what: "a well read on lift with no pressure at all in the casing",
      pieces: [reading("x", 0, 900), reading("xx", 0, 900)],
    },
  ])("does not get one answer: $what", ({ pieces }) => {
    expect(deepest).toBeDefined();
    const answer = rank(ordinary, pieces);
    holdsTogether(answer);
    if (!("needs" in answer)) expect(answer.verdict).not.toBe("one answer");
  });
});
