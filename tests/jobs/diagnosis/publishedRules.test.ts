import { describe, expect, it } from "vitest";
import type { Fault, Ranking } from "../../../src/jobs/diagnosis/ranking.ts";
import type { Evidence } from "../../../src/jobs/records/investigation.ts";
import { type Case, drawCase, drawFaulty, type FaultyWell } from "../../diagnosis/forward/cases.ts";
import { Chance } from "../../diagnosis/forward/chance.ts";
import { measure } from "../../diagnosis/forward/evidence.ts";
import { metric, writing } from "../../diagnosis/forward/written.ts";
import { mandrelsOf } from "../../diagnosis/scores.ts";
import { rank } from "./publishedRank.ts";

/**
 * What is published in words, without figures: each rule beside wells that show it, from the model in tests/diagnosis/forward.
 * Seeds are the first that have the evidence the rule speaks of; none was chosen by its answer.
 */
describe("rules that are published in words", () => {
  interface Rule {
    readonly rule: string;
    readonly source: string;
    readonly kind: NonNullable<Parameters<typeof drawCase>[1]>["kind"];
    readonly keep: readonly Evidence["kind"][];
    /** of the wells with such a fault, those that the rule speaks of */
    readonly of?: (given: Case) => boolean;
    readonly agrees: (answer: Ranking, given: Case) => boolean;
  }
  const firstTwo = ({ ranked }: Ranking) => ranked.slice(0, 2).map(({ hypothesis }) => hypothesis);
  const rules: Rule[] = [
    {
      rule: "tracer gas comes back once for each point that passes gas: an upper valve that is held open shows by its early return",
      source: "US 5,031,697 (1991), abstract: return pattern against depth of entry and volumes",
      kind: "stuck open",
      keep: ["pressures", "supply", "tracer"],
      agrees: (answer, { truth }) =>
        firstTwo(answer).some(({ fault }) =>
          mandrelsOf(fault).some((one) => mandrelsOf(truth).includes(one)),
        ),
    },
    {
      rule: "back-pressure at surface shows in the wellhead pressure and is no valve's fault",
      source:
        "common practice; the troubleshooting list of API RP 11V5 begins with it, from memory",
      kind: "back-pressure at surface",
      keep: ["pressures", "supply", "separator test"],
      agrees: (answer) =>
        firstTwo(answer).some(({ fault }) => fault.kind === "back-pressure at surface"),
    },
    {
      rule: "casing pressure and gas rate low together is the supply, before any valve is pulled",
      source: "common practice",
      kind: "supply",
      keep: ["pressures", "supply", "separator test"],
      of: ({ truth }) => truth.kind === "supply" && truth.what !== "choke larger",
      agrees: (answer) => firstTwo(answer).some(({ fault }) => fault.kind === "supply"),
    },
  ];
  it.each(rules)("$rule ($source)", ({ kind, keep, of, agrees }) => {
    const answers: boolean[] = [];
    for (let seed = 401; answers.length < 5; seed += 1) {
      const given = drawCase(seed, { amount: "much", ...(kind ? { kind } : {}) });
      const kept = given.investigation.evidence.filter((one) => keep.includes(one.kind));
      if (of && !of(given)) continue;
      if (keep.every((wanted) => kept.some((one) => one.kind === wanted))) {
        answers.push(agrees(rank(given, kept), given));
      }
    }
    // A rule of the trade has exceptions: gauges are off, and a hole that is small hardly shows. Four of five.
    expect(answers.filter(Boolean).length).toBeGreaterThanOrEqual(4);
  });
});

/** Readings of kinds that are chosen, with the errors that gauges have. */
const measured = (given: FaultyWell, seed: number, kinds: readonly Evidence["kind"][]) =>
  measure(
    kinds,
    given.simulation,
    given.moments,
    given.now,
    given.truth,
    new Chance(seed),
    writing(metric),
  );

/**
 * Wells that show what a rule speaks of, their records right. The seeds are the first from 401 on that do, whatever is made of them:
 * looked for once, since each that does not is a well unloaded for nothing.
 */
function wellsWith(
  kind: Parameters<typeof drawFaulty>[1],
  show: (given: FaultyWell) => boolean,
  seeds: readonly number[],
): { readonly seed: number; readonly given: FaultyWell }[] {
  return seeds.map((seed) => {
    const given = drawFaulty(seed, kind);
    if (given.wrongRecord !== undefined || !show(given)) throw new Error(`not shown by ${seed}`);
    return { seed, given };
  });
}

/** Depths of the pockets next above and next below, to say between which mandrels a hole is. */
const between = ({ simulation }: FaultyWell, depth: number) =>
  simulation.truth.pockets.filter((pocket) => pocket.depth < depth).length;

/**
 * Al Abdin, Analysis of gas lift installation problems, SPE 87278 (2000), abstract as stored on scribd.com, has the flowing survey
 * of pressure and temperature first among the subsurface methods; only its first page could be read.
 */
describe("a flowing survey where all but some of the gas goes through a hole in the tubing", () => {
  it("has the hole first, between the right mandrels, in four wells of five", () => {
    const answers = wellsWith(
      "tubing leak",
      ({ now }) => (now.shares.at(-1) ?? 0) > 0.85,
      [401, 402, 409, 412, 422],
    ).map(({ seed, given }) => {
      const { ranked } = rank(
        given,
        measured(given, seed, ["pressures", "supply", "survey"]).evidence,
      );
      const fault = ranked[0]?.hypothesis.fault;
      const truth = given.truth as Extract<Fault, { kind: "tubing leak" }>;
      return (
        fault?.kind === "tubing leak" &&
        between(given, fault.depthM) === between(given, truth.depthM)
      );
    });
    expect(answers.filter(Boolean).length).toBeGreaterThanOrEqual(4);
  });
});

/**
 * "A temperature anomaly at a given depth is indicative of a leak at that depth": US 2,383,455 (Abadie, 1945) in the words of
 * US 5,031,697 (Wellington, Simmons and Richardson, 1991), background, read at patents.justia.com.
 *
 * Where the ranking does not go as far: of temperatures alone, a stop every 25 m and read to a tenth, it does not have the hole
 * first though the stream is a kelvin colder just above it than just below. In two of the four wells the log by itself goes best
 * with gas entering there; it counts as a dozen stops would, and does not outweigh what the gauges at surface say. What it must
 * not do is to name another place for certain.
 */
describe("a temperature log with a step at a hole in the tubing", () => {
  const withStep = wellsWith(
    "tubing leak",
    ({ truth, simulation }) => {
      const { depthM } = truth as Extract<Fault, { kind: "tubing leak" }>;
      return simulation.streamAt(depthM + 30) - simulation.streamAt(depthM - 30) > 1;
    },
    [401, 402, 403, 408],
  );
  it.each(withStep)(
    "gets no certain answer that is another place: well $seed",
    ({ seed, given }) => {
      const { perforations } = given.simulation.truth;
      const log: Evidence = {
        id: "log",
        at: "2026-03-11T06:00:00.000Z",
        source: "gauge on wire",
        confidence: "good",
        kind: "survey",
        stops: Array.from({ length: Math.floor(perforations / 25) }, (_, i) => 25 * (i + 1)).map(
          (depth) => ({
            depthAlongHole: { value: depth, unit: "m" as const },
            temperature: {
              value: Number((given.simulation.streamAt(depth) - 273.15).toFixed(1)),
              unit: "degC" as const,
            },
          }),
        ),
      };
      const { verdict, ranked } = rank(given, [
        ...measured(given, seed, ["pressures", "supply"]).evidence,
        log,
      ]);
      const fault = ranked[0]?.hypothesis.fault;
      const truth = given.truth as Extract<Fault, { kind: "tubing leak" }>;
      const isRight =
        fault?.kind === "tubing leak" &&
        between(given, fault.depthM) === between(given, truth.depthM);
      expect(verdict === "one answer" && !isRight).toBe(false);
      expect(JSON.stringify(ranked)).not.toMatch(/NaN|Infinity/);
    },
  );
});

/**
 * "Valve stuck closed: well moves operating point shallower (lower production)": troubleshooting notes in a public repository, after
 * API RP 11V6, Takacs, Gas Lift Manual (2005), and Brown, Technology of Artificial Lift Methods 1 (1977).
 */
describe("an operating valve that passes nothing, so that one above it lifts the well", () => {
  it("is in the first two by a survey and a test, in four wells of five", () => {
    const isLifted = ({ truth, now, simulation }: FaultyWell) => {
      const last = simulation.truth.pockets.length;
      return (
        truth.kind === "plugged" &&
        truth.mandrel === last &&
        Math.max(...now.shares.slice(0, -2)) > 0.6
      );
    };
    const answers = wellsWith("plugged", isLifted, [401, 402, 403, 406, 408]).map(
      ({ seed, given }) => {
        const evidence = measured(given, seed, ["pressures", "supply", "separator test", "survey"]);
        const last = given.simulation.truth.pockets.length;
        return rank(given, evidence.evidence)
          .ranked.slice(0, 2)
          .some(({ hypothesis: { fault } }) => fault.kind === "plugged" && fault.mandrel === last);
      },
    );
    expect(answers.filter(Boolean).length).toBeGreaterThanOrEqual(4);
  });
});
