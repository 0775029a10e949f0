import { describe, expect, it } from "vitest";
import { logStudent } from "../../../src/jobs/diagnosis/logStudent.ts";
import { rankFaults } from "../../../src/jobs/diagnosis/rank.ts";
import type { Ranking } from "../../../src/jobs/diagnosis/ranking.ts";
import { writer } from "../../../src/jobs/display.ts";
import type { Evidence } from "../../../src/jobs/records/investigation.ts";
import {
  degF,
  feet,
  investigationOf,
  pressures,
  soundValves,
  supply,
  wellWith,
} from "./liftWell.ts";

/** ft: both sides of each mandrel, at 1,800, 3,000, 4,100 and 5,200 ft, and between. */
const stops = [
  0, 500, 1000, 1740, 1860, 2400, 2940, 3060, 3500, 4040, 4160, 4700, 5140, 5260,
] as const;
const mandrels = [1800, 3000, 4100] as const;

/** A survey of temperatures alone, in K beside the 105 to 161 degF of the record, from gauges of a well that runs as it should. */
function found(off: (depth: number) => number): Ranking {
  const survey: Evidence = {
    id: "survey",
    kind: "survey",
    at: "2026-11-20T08:00:00.000Z",
    source: "gauge on wire",
    confidence: "good",
    stops: stops.map((depth) => ({
      depthAlongHole: feet(depth),
      temperature: degF(Number((105 + depth / 100 + 1.8 * off(depth)).toFixed(1))),
    })),
  };
  const made = rankFaults(
    { well: wellWith(soundValves), valves: soundValves, policy: undefined, history: [] },
    investigationOf(pressures(890, 120), supply(680, 1100), survey),
    writer("field"),
    { draws: 60 },
  );
  if (!("ranked" in made)) throw new Error("no ranking");
  return made;
}

const saidOf = ({ ranked }: Ranking) => {
  const [first] = ranked;
  if (!first) throw new Error("nothing is ranked");
  return [...first.speaksFor, ...first.speaksAgainst, ...first.speaksNeither]
    .map(({ says }) => says)
    .find((says) => says.startsWith("Survey"));
};

const namesNone = (ranking: Ranking) => {
  expect(ranking.verdict).not.toBe("one answer");
  expect(ranking.inSum.mandrels[0]?.probability).toBeLessThan(0.5);
  expect(saidOf(ranking)).not.toMatch(/colder/);
};

describe("temperatures of a survey", () => {
  // The dip of a stream is taken up by the rock over some hundred metres: Ramey, JPT April 1962; here 1,300 ft.
  it.each(mandrels.flatMap((at, i) => [1.5, 2].map((by) => ({ at, by, mandrel: i + 1 }))))(
    "a step of $by K at mandrel $mandrel, taken up above it, tells that something is wrong there, and one of 2 K is named",
    ({ at, by, mandrel }) => {
      const ranking = found((depth) => (depth <= at ? -by * Math.exp((depth - at) / 1300) : 0));
      const there = ranking.inSum.mandrels.find((one) => one.mandrel === mandrel);
      expect(there?.probability).toBeGreaterThan(0.7);
      if (by < 2) return;
      expect(saidOf(ranking)).toMatch(
        new RegExp(`^Survey: \\d\\.\\d °F colder at mandrel ${mandrel} than the run of it; `),
      );
    },
  );

  it.each(mandrels.flatMap((at) => [-3, 3].map((by) => ({ at, by }))))(
    "a smooth bias of $by K about $at ft names no pocket",
    ({ at, by }) => {
      namesNone(found((depth) => by * Math.exp(-0.5 * ((depth - at) / 1000) ** 2)));
    },
  );

  it("a gauge that reads 3 K low everywhere names no pocket", () => {
    namesNone(found(() => -3));
  });

  it.each([500, 1740, 2940, 4040].flatMap((at) => [-20, -5, 5].map((by) => ({ at, by }))))(
    "one stop at $at ft that is $by K off by itself names no pocket",
    ({ at, by }) => {
      namesNone(found((depth) => (depth === at ? by : 0)));
    },
  );
});

it("a Student's t of one residual is the one of the tables", () => {
  // 5 degrees of freedom: density 0.37961 at 0, 0.21968 at 1 (8/(3π√5) (1 + x²/5)^-3); of a spread of 2, half of it at twice the residual
  expect(Math.exp(logStudent(1, 0, 0))).toBeCloseTo(0.37961, 5);
  expect(Math.exp(logStudent(1, 1, 0))).toBeCloseTo(0.21968, 5);
  expect(Math.exp(logStudent(1, 1, Math.log(2)))).toBeCloseTo(0.10984, 5);
});
