import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Found } from "../../../src/jobs/diagnosis/observations.ts";
import { rankFaults } from "../../../src/jobs/diagnosis/rank.ts";
import type { NoRanking, Ranking } from "../../../src/jobs/diagnosis/ranking.ts";
import { writer } from "../../../src/jobs/display.ts";
import type { Befell } from "../../../src/jobs/library/history.ts";
import {
  type Evidence,
  evidence as evidenceSchema,
} from "../../../src/jobs/records/investigation.ts";
import type { Valve } from "../../../src/jobs/records/valve.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import {
  bellowsValve,
  bleed,
  dummy,
  investigationOf,
  level,
  mscf,
  orifice,
  pressures,
  psig,
  soundValves,
  supply,
  survey,
  tracer,
  wellWith,
} from "./liftWell.ts";

const write = writer("field");

function answer(
  evidence: readonly Evidence[],
  {
    valves = soundValves,
    well = wellWith(valves),
    history = [],
    draws = 150,
  }: { valves?: readonly Valve[]; well?: Well; history?: readonly Befell[]; draws?: number } = {},
): Ranking | NoRanking {
  return rankFaults(
    { well, valves, policy: undefined, history },
    investigationOf(...evidence),
    write,
    { draws },
  );
}
/** ft, psig, degF: lifted at 0.075 psi/ft down to 1,800 ft, 0.36 below: 122 + 135 = 257; + 1,200 × 0.36 = 689 at 3,000 ft. */
const gasAt1800: Parameters<typeof survey>[0] = [
  [0, 122, 101],
  [900, 188, 109],
  [1700, 249, 113],
  [1800, 257, 112],
  [2400, 473, 127],
  [3000, 689, 134],
  [4100, 1085, 146],
  [5200, 1481, 157],
];

function ranking(...given: Parameters<typeof answer>): Ranking {
  const made = answer(...given);
  if (!("ranked" in made)) throw new Error(`no ranking: ${JSON.stringify(made)}`);
  return made;
}
const probability = ({ ranked }: Ranking, is: (id: string) => boolean) =>
  ranked
    .filter(({ hypothesis }) => is(hypothesis.id))
    .reduce((sum, each) => sum + each.probability, 0);
const ids = ({ ranked }: Ranking, count: number) =>
  ranked.slice(0, count).map(({ hypothesis }) => hypothesis.id);

describe("which valve is at fault", () => {
  it("gas high, casing below what valve 1 shuts at: something is open at mandrel 1", () => {
    const found = ranking([pressures(760, 122), supply(1000, 1100), survey(gasAt1800)]);
    expect(
      probability(found, (id) =>
        /(stuck open|leaking|set too low|packing leaks) 1$|above mandrel 1|mandrels 1 and 2|wrong depth 1 4/.test(
          id,
        ),
      ),
    ).toBeGreaterThan(0.8);
    expect(ids(found, 1)[0]).toMatch(/(stuck open|packing leaks) 1$/);
    expect(probability(found, (id) => id === "nothing downhole")).toBeLessThan(0.02);
  });
  it("a single valve that passes nothing: casing at supply, no rate", () => {
    const valves = [dummy("D-1"), orifice("A-4")];
    const found = ranking([pressures(1098, 95), supply(0, 1100)], {
      valves,
      well: wellWith(valves, [3000, 5200]),
    });
    expect(ids(found, 1)).toEqual(["plugged 2"]);
    expect(found.ranked[0]?.predicted.injectionRate?.mean).toBeLessThan(0.15 * (680 * 3.2774e-4));
  });
  it("supply pressure down and all else in step with it: the supply", () => {
    const found = ranking([pressures(765, 118), supply(500, 860)]);
    expect(found).toMatchObject({ verdict: "one answer" });
    expect(ids(found, 1)).toEqual(["supply pressure fell"]);
  });
  it("back-pressure at the wellhead", () => {
    expect(ids(ranking([pressures(900, 320), supply(670, 1100)]), 1)).toEqual(["back-pressure"]);
  });
  it("a break of gradient and a dip between mandrels 2 and 3: a hole in the tubing there", () => {
    // 0.08 psi/ft to 3,500 ft: 122 + 280 = 402; 0.36 below: + 216 = 618 at 4,100, + 396 = 1,014 at 5,200 ft.
    const found = ranking([
      pressures(800, 122),
      supply(950, 1100),
      survey([
        [0, 122, 103],
        [1800, 266, 121],
        [3000, 362, 129],
        [3300, 386, 130],
        [3500, 402, 129],
        [3700, 474, 142],
        [4100, 618, 146],
        [5200, 1014, 157],
      ]),
    ]);
    expect(ids(found, 1)).toEqual(["tubing leak between mandrels 2 and 3"]);
    const fault = found.ranked[0]?.hypothesis.fault;
    if (fault?.kind !== "tubing leak") throw new Error("not a leak");
    expect(Math.abs(fault.depthM / 0.3048 - 3500)).toBeLessThan(250);
  });
  it("casing at what valve 1 throttles at and liquid above the orifice: lift has not transferred", () => {
    // Gas at 3,000 ft: 122 + 300 = 422 psig there, + 2,200 × 0.36 = 1,214 at the orifice, where the casing has some 1,120: it
    // holds up (1,214 − 1,120) / 0.36 = 260 ft of liquid above it.
    const valves = [bellowsValve("A-2", 975), orifice("A-4")];
    const found = ranking([pressures(975, 122), supply(560, 1100), level(4940)], {
      valves,
      well: wellWith(valves, [3000, 5200]),
    });
    expect(ids(found, 1)).toEqual(["multi-point 1 2"]);
  });
  it("annulus loaded, casing at supply, no gas: the top valve does not open", () => {
    const found = ranking([pressures(1098, 118), supply(0, 1100), level(2400)]);
    expect(probability(found, (id) => /^(plugged|set too high) 1$/.test(id))).toBeGreaterThan(0.7);
  });
  it("casing above what it ran at, at the same rate: the point that works is plugged", () => {
    const found = ranking([pressures(965, 120), supply(680, 1100)]);
    const plugged = (id: string) => id === "plugged 4";
    const asItRan = ranking([pressures(890, 120), supply(680, 1100)]);
    expect(probability(found, plugged)).toBeGreaterThan(3 * probability(asItRan, plugged));
    expect(ids(found, 2)).toContain("plugged 4");
  });
  it("the well as it is meant to run stands above every fault that would show", () => {
    const found = ranking([pressures(890, 120), supply(680, 1100)]);
    expect(ids(found, 1)).toEqual(["nothing downhole"]);
    expect(found.verdict).not.toBe("one answer");
  });
  it("a tracer that is back only from the bottom speaks against gas high up", () => {
    const without = ranking([pressures(860, 120), supply(800, 1100)]);
    const predicted = without.ranked.find(({ hypothesis }) => hypothesis.id === "nothing downhole")
      ?.predicted.tracer;
    const bottom = (predicted?.["4"]?.mean ?? 0) / 60;
    expect(bottom).toBeGreaterThan(20);
    const withIt = ranking([pressures(860, 120), supply(800, 1100), tracer(Math.round(bottom))]);
    const high = (id: string) => id === "stuck open 1" || id === "above mandrel 1";
    expect(probability(withIt, high)).toBeLessThan(probability(without, high));
  });
  it("shares of a tracer's returns say how much of the gas takes which way", () => {
    const gauges = [pressures(800, 122), supply(800, 1100)];
    const times = ranking(gauges).ranked.find(({ hypothesis }) => hypothesis.id === "stuck open 2")
      ?.predicted.tracer;
    const [high, low] = ["2", "4"].map((key) => Math.round((times?.[key]?.mean ?? 0) / 60)) as [
      number,
      number,
    ];
    expect(high).toBeGreaterThan(10);
    expect(low).toBeGreaterThan(high);
    const odds = (upper: number | undefined) => {
      const shares = upper === undefined ? [undefined, undefined] : [upper, 100 - upper];
      const returned: Evidence = {
        ...(tracer(high, low) as Extract<Evidence, { kind: "tracer" }>),
        returns: [high, low].map((value, i) => ({
          after: { value, unit: "min" },
          ...(shares[i] === undefined ? {} : { share: { value: shares[i], unit: "%" } }),
        })),
      };
      const found = ranking([...gauges, returned]);
      return (
        probability(found, (id) => id === "stuck open 2") /
        probability(found, (id) => id === "leaking 2")
      );
    };
    // A leaking seat lets by a part of what the open port does.
    expect(odds(85)).toBeGreaterThan(1.2 * odds(15));
    expect(odds(85)).toBeGreaterThan(odds(undefined));
  });
  it("a casing that rests where the lowest valve shuts speaks for no hole above it", () => {
    // (915 + 14.7)(1 − 0.0939) = 842 psia at 60 degF; × 1.21 at 157 degF = 1,020 psia; / 1.126 for the gas above it =
    // 906 psia, 891 psig at surface, by hand.
    const valves = soundValves.map((valve, i) => (i === 3 ? bellowsValve("A-4", 915) : valve));
    const before = [pressures(930, 120), supply(650, 1100)];
    const without = ranking(before, { valves });
    const withIt = ranking([...before, bleed(930, 891, 300)], { valves });
    const holes = (id: string) => /stuck open|leaking|packing|tubing leak/.test(id);
    expect(probability(withIt, holes)).toBeLessThan(0.5 * probability(without, holes));
  });
  it("a casing that rests far below every closing pressure says something is open, and hardly where", () => {
    // Valve 3's closing pressure is some 880 psig at surface. Not lifted, mandrel 1 stands anywhere between 120 psig and a
    // column of 120 + 1,800 × 0.36 = 768 psig, mandrel 2 up to 1,200: 450 psig at surface can be either.
    const valves = soundValves.map((valve, i) => (i === 3 ? bellowsValve("A-4", 915) : valve));
    const before = [pressures(800, 120), supply(680, 1100)];
    const without = ranking(before, { valves });
    const withIt = ranking([...before, bleed(800, 450, 600)], { valves });
    const holes = (id: string) => /stuck open|leaking|packing|tubing leak/.test(id);
    expect(probability(withIt, holes)).toBeGreaterThan(0.9);
    const odds = (of: Ranking) =>
      probability(of, (id) => id === "stuck open 1") /
      probability(of, (id) => id === "stuck open 2");
    expect(Math.abs(Math.log(odds(withIt) / odds(without)))).toBeLessThan(Math.log(4));
  });
  it("two valves of one set pressure are told apart by their ports, and the orifice from any valve", () => {
    const twin = { ...bellowsValve("A-2", 1000), port: { value: 0.25, unit: "in" as const } };
    const ranks = (second: Valve) =>
      ranking([pressures(890, 120)], {
        valves: soundValves.map((valve, i) => (i === 1 ? second : valve)),
        draws: 20,
      }).ranked.map(({ hypothesis }) => hypothesis);
    expect(ranks(twin).some(({ id }) => id === "wrong depth 1 2")).toBe(true);
    expect(ranks(bellowsValve("A-2", 1000)).some(({ id }) => id === "wrong depth 1 2")).toBe(false);
    expect(ranks(twin).find(({ id }) => id === "wrong depth 1 4")?.title).toBe(
      "Orifice sits in mandrel 1, the valve of that in mandrel 4",
    );
  });
  it("more gas than a port can pass is no valve stuck open", () => {
    // 3/16 in at 760 psig against 257 is past its critical ratio: some 680 Mscf/d of the 1,000 read. A hole may be any size.
    const found = ranking([
      pressures(760, 122),
      supply(1000, 1100),
      survey([
        [0, 122, 101],
        [900, 188, 109],
        [1700, 249, 113],
        [1800, 257, 112],
        [2400, 473, 127],
        [3000, 689, 134],
        [5200, 1481, 157],
      ]),
    ]);
    expect(probability(found, (id) => id === "stuck open 1")).toBeLessThan(
      0.2 * probability(found, (id) => id === "latch or packing leaks 1"),
    );
  });
  it("early pulls and years in the pocket raise a mandrel's share, and say so", () => {
    const history: Befell[] = [
      {
        serial: "B-9",
        day: "2015-03-01",
        what: "pulled",
        where: "W-1, mandrel 2",
        daysInService: 90,
      },
      { serial: "A-2", day: "2015-03-02", what: "set", where: "W-1, mandrel 2" },
    ];
    const found = ranking([pressures(800, 122), supply(1000, 1100)], { history });
    const stuck = (number: number) =>
      found.ranked.find(({ hypothesis }) => hypothesis.id === `stuck open ${number}`);
    expect(stuck(2)?.prior).toBeGreaterThan(2 * (stuck(1)?.prior ?? 1));
    expect(
      stuck(2)?.speaksFor.some(({ kind, says }) => kind === "history" && says.includes("A-2")),
    ).toBe(true);
  });
  it("the job that an investigation led to, and what befell the pockets later, change nothing of it", () => {
    const evidence = [pressures(800, 122), supply(1000, 1100)];
    const agreed = { at: "", by: "", hypothesis: "", says: "", reason: "", job: "own" };
    const investigation = { ...investigationOf(...evidence), agreed };
    const ranked = (history: readonly Befell[]) =>
      rankFaults(
        { well: wellWith(soundValves), valves: soundValves, policy: undefined, history },
        investigation,
        write,
        { draws: 40 },
      );
    const early = {
      serial: "A-2",
      what: "pulled",
      where: "W-1, mandrel 2",
      daysInService: 90,
    } as const;
    const own = { ...early, day: "2026-11-20", job: "own" };
    const later = { ...early, day: "2026-11-22" };
    expect(ranked([own, later])).toEqual(ranked([]));
    expect(ranked([{ ...own, job: "before" }])).not.toEqual(ranked([]));
  });
});

/** What was found at choke and meter, and nothing else read there. */
const foundAtChoke = (found: Found): Evidence => ({
  id: "found",
  kind: "supply",
  at: "2026-11-20T08:30:00.000Z",
  source: "operator",
  confidence: "good",
  found,
});

describe("a choke that is frozen", () => {
  it("comes first where the casing has bled far below what the well ran at, and not unless it was found so", () => {
    const found = ranking([pressures(600, 120), foundAtChoke("frozen")]);
    expect(ids(found, 1)).toEqual(["choke smaller"]);
    const unseen = ranking([pressures(600, 120)]);
    const smaller = (id: string) => id === "choke smaller";
    expect(probability(found, smaller)).toBeGreaterThan(5 * probability(unseen, smaller));
    const says = found.ranked[0]?.speaksFor.map((line) => line.says);
    expect(says).toContain(
      "At choke and meter: frozen; so it is found in 4 of 100 wells where it is not the cause",
    );
  });
  it("leaves the gas shut in: no more than the casing held, and none through the valves", () => {
    const found = ranking([pressures(600, 120), supply(0, 1100), foundAtChoke("frozen")]);
    expect(ids(found, 1)).toEqual(["choke smaller"]);
    const [first] = found.ranked;
    expect(first?.predicted.injectionAtSurface?.mean).toBeLessThan(900 * 6895);
    // A well at supply pressure without gas is no frozen choke: nothing would have brought it up to that.
    const atSupply = ranking([pressures(1098, 118), supply(0, 1100)]);
    expect(probability(atSupply, (id) => id === "choke smaller")).toBeLessThan(0.02);
  });
  it("has ice in a bean that is as it is meant to be", () => {
    // 680 Mscf/d from some 1,100 psig ahead of it into 890: a bean of 0.15 to 0.2 in.
    const bean = { ...foundAtChoke("frozen"), choke: { value: 0.18, unit: "in" } } as Evidence;
    const found = ranking([pressures(600, 120), bean]);
    expect(ids(found, 2)).toContain("choke smaller");
    const [first] = found.ranked;
    const says = [...(first?.speaksAgainst ?? []), ...(first?.speaksNeither ?? [])];
    expect(says.map((line) => line.says).join("; ")).toMatch(
      /Injection choke 0\.180 in; 0\.\d{3} to 0\.\d{3} in expected/,
    );
  });
  it("is not to be looked at again", () => {
    const asked = (given: readonly Evidence[]) => ranking(given).next.map(({ what }) => what);
    expect(asked([pressures(600, 120)]).join()).toContain("look at the choke");
    expect(asked([pressures(600, 120), foundAtChoke("frozen")]).join()).not.toContain(
      "look at the choke",
    );
  });
});

describe("what to measure next", () => {
  it("tells the pocket from another where the first two answers are in one pocket", () => {
    const found = ranking([pressures(1100, 120)]);
    expect(ids(found, 2)).toEqual(["plugged 1", "set too high 1"]);
    expect(found.next.map(({ kind }) => kind)).toContain("survey");
    for (const { between, settles } of found.next) {
      expect(between).toEqual([
        "Valve in mandrel 1 plugged or will not open",
        "Valve in mandrel 2 plugged or will not open",
      ]);
      expect(settles).toBeGreaterThan(0.05);
      expect(settles).toBeLessThanOrEqual(1);
    }
    // Valve 1 that lets nothing by leaves the well loaded: no gas enters. Past it the well is lifted from mandrel 1, at 1,800 ft.
    const run = found.next.find(({ kind }) => kind === "survey");
    expect(run?.ifFirst).toBe("no gas entering");
    expect(run?.ifSecond).toMatch(/^most of the gas entering by 18\d\d ± \d{3} ft$/);
  });
  it("says no depth more sharply than a survey finds it, and a middle and its spread with the same digits", () => {
    const found = ranking([pressures(890, 120)]);
    const said = found.next.flatMap(({ ifFirst, ifSecond }) => [ifFirst, ifSecond]).join("; ");
    expect(said).toMatch(/gas entering by 5200 ± 1\d\d ft/);
    expect(said).not.toMatch(/± 0|\d\.\d ft/);
  });
  it("puts first what settles most of where to go", () => {
    const { next } = ranking([pressures(742, 128)]);
    const settles = next.map((each) => each.settles);
    expect(settles).toEqual([...settles].sort((a, b) => b - a));
    expect(next.every(({ between: [first, second] }) => first !== second)).toBe(true);
  });
});

describe("what the answer says", () => {
  it("names as near only what has half of the first, and asks for no measurement", () => {
    const found = ranking([pressures(742, 128)]);
    const [first, ...others] = found.ranked;
    if (!first) throw new Error("no answer");
    const near = others.filter(({ probability: p }) => p >= first.probability / 2);
    expect(near.map(({ hypothesis }) => hypothesis.id)).toContain("stuck open 2");
    const named = ({ hypothesis, probability: p }: (typeof others)[number]) =>
      `${hypothesis.title} (${Math.round(100 * p)} %)`;
    expect(found.says).toBe(
      [
        `${named(first)} comes first.`,
        ...near.map((each) => `${named(each)} stands near it.`),
      ].join(" "),
    );
    const alone = ranking([pressures(890, 120), foundAtChoke("in order")]);
    expect(alone.says).toMatch(
      /comes first\. No other is near it, yet all the others together leave it open\.$/,
    );
  });
  it("says between what a reading was expected, and of one outside it what comes nearest", () => {
    const lines = ({ ranked }: Ranking) =>
      ranked.flatMap(({ speaksFor, speaksAgainst, speaksNeither }) =>
        [...speaksFor, ...speaksAgainst, ...speaksNeither].flatMap(({ says }) => {
          const [, read, low, high, best] =
            /^Injection pressure at surface (\d+) psig; (\d+) to (\d+) psig expected(?:, (\d+) psig where it comes nearest)?$/.exec(
              says,
            ) ?? [];
          return read === undefined
            ? []
            : [{ read: Number(read), low: Number(low), high: Number(high), best }];
        }),
      );
    const all = lines(ranking([pressures(743, 122), supply(1000, 1100)]));
    expect(all).toHaveLength(39);
    for (const { read, low, high, best } of all) {
      expect(low).toBeLessThan(high);
      expect(best === undefined).toBe(read >= low && read <= high);
    }
    // The first is not contradicted by its own line.
    expect(all[0]?.best).toBeUndefined();
  });
  it("has every line of every answer in one list of three", () => {
    const { ranked } = ranking([pressures(743, 122), supply(1000, 1100), tracer(25, 60)]);
    for (const { speaksFor, speaksAgainst, speaksNeither } of ranked) {
      expect([...speaksFor, ...speaksAgainst, ...speaksNeither]).toHaveLength(5);
    }
  });
  it("says where a survey and a tracer have gas enter, and where the answer has it", () => {
    const found = ranking([pressures(760, 122), survey(gasAt1800), tracer(25)]);
    const [first] = found.ranked;
    const says = [
      ...(first?.speaksFor ?? []),
      ...(first?.speaksAgainst ?? []),
      ...(first?.speaksNeither ?? []),
    ].map((line) => line.says);
    const line = says.find((each) => each.startsWith("Survey"));
    const [, by, here] =
      /go best with gas entering by (\d+) ft; this answer has most of the gas enter by (\d+) ft$/.exec(
        line ?? "",
      ) ?? [];
    expect(Math.abs(Number(by) - 1800)).toBeLessThan(100);
    expect(here).toBe("1800");
    expect(says).toContain(
      "Tracer back after 25 min; this answer has most of the gas enter by 1800 ft",
    );
  });
  it("says that casing and tubing look exchanged where they fit the other way round", () => {
    const found = ranking([pressures(128, 742)]);
    expect(found.verdict).toBe("nothing fits");
    expect(found.says).toBe(
      "What was read fits nothing that was thought of (none of these: 100 %). Casing and tubing look exchanged: 742 psig on the casing and 128 psig on the tubing would fit.",
    );
    const neither = ranking([pressures(20, 3000)]);
    expect(neither.says).not.toContain("exchanged");
    expect(neither.says).toContain("Check the readings first");
  });
  it("does not use a level below the end of the tubing, and says so", () => {
    const found = ranking([pressures(890, 120), level(9000)]);
    const without = ranking([pressures(890, 120)]);
    expect(found.unused).toEqual([
      {
        evidence: "level",
        why: "it lies below the end of the tubing at 5600 ft: look at the depth; if it is right, gas goes round that end, which is not ranked",
      },
    ]);
    expect(found.verdict).toBe(without.verdict);
    expect(found.ranked.map((each) => each.probability)).toEqual(
      without.ranked.map((each) => each.probability),
    );
    // A shot is good to some percent: a little below is at the end.
    expect(ranking([pressures(890, 120), level(5650)]).unused).toEqual([]);
  });
  it("does not look for gas entering where liquid stands in a well that does not flow, and says so", () => {
    // ft, psig, degF: gas of some 0.0025 psi/ft down to 1,600 ft, liquid of 0.43 psi/ft below.
    const standing: Parameters<typeof survey>[0] = [
      [0, 122, 80],
      [900, 124, 91],
      [1600, 126, 99],
      [2400, 470, 109],
      [3000, 728, 116],
      [4100, 1201, 129],
      [5200, 1674, 142],
    ];
    const found = ranking([pressures(760, 122), survey(standing)]);
    expect(found.unused).toEqual([
      {
        evidence: "survey",
        why: "gas alone stands in the tubing down to 1600 ft at least: the well did not flow, or not steadily, while the survey was run, and where gas enters is not to be seen in it. Look first at why nothing flows",
      },
    ]);
    expect(found.ranked).toEqual(ranking([pressures(760, 122)]).ranked);
    expect(ranking([pressures(760, 122), survey(gasAt1800)]).unused).toEqual([]);
  });
});

describe("what cannot be told", () => {
  it("readings that contradict each other name no valve", () => {
    const found = ranking([
      pressures(300, 122, "one"),
      pressures(1060, 130, "other"),
      supply(680, 1100),
    ]);
    expect(found.verdict).toBe("nothing fits");
    expect(found.noneOfThese).toBeGreaterThanOrEqual(0.5);
  });
  it("no evidence is no ranking, and says what is needed", () => {
    expect(answer([])).toEqual({
      needs: [{ says: expect.stringContaining("casing and tubing pressure"), at: undefined }],
    });
  });
  it("evidence that cannot be used leaves what was thought before, and is listed with why", () => {
    const found = ranking([{ ...level(5000), well: "shut in" } as Evidence]);
    expect(found.verdict).toBe("not enough to tell");
    expect(found.unused).toEqual([{ evidence: "level", why: expect.stringContaining("shut in") }]);
    for (const { probability: now, prior } of found.ranked) expect(now).toBeCloseTo(prior, 6);
  });
  it("names what the record lacks, with the field that takes it", () => {
    const well = { ...wellWith(soundValves), temperatures: {}, onLift: undefined, mandrels: [] };
    const bare: Well = { ...wellWith(soundValves), temperatures: {}, onLift: {}, pressures: {} };
    const made = answer([{ ...level(5000) }], { well: bare });
    expect("needs" in made && made.needs.map(({ at }) => at)).toEqual([
      "temperatures.flowing",
      "onLift.wellhead",
      "onLift.injectionRate",
      "pressures.operatingInjectionAtSurface",
    ]);
    expect("needs" in answer([level(5000)], { well: well as Well })).toBe(true);
  });
  it("a valve without a card is ranked all the same, and said", () => {
    const { card: _, ...bare } = bellowsValve("A-2", 975);
    const valves = soundValves.map((valve, i) => (i === 1 ? (bare as Valve) : valve));
    const found = ranking([pressures(890, 120), supply(680, 1100)], { valves });
    expect(found.assumed.join(" ")).toContain("Valve A-2: no test-rack opening on its card");
  });
  it("of an orifice no charge is doubted, of a dummy nothing is plugged", () => {
    const valves = soundValves.map((valve, i) => (i === 1 ? dummy("A-2") : valve));
    const all = ranking([pressures(890, 120)], { valves }).ranked.map(
      ({ hypothesis }) => hypothesis.id,
    );
    expect(all.filter((id) => id.endsWith(" 2") && !/multi|tubing/.test(id))).toEqual([
      "latch or packing leaks 2",
    ]);
    expect(all.filter((id) => id.endsWith(" 4") && !/multi|wrong|tubing/.test(id)).sort()).toEqual([
      "latch or packing leaks 4",
      "plugged 4",
    ]);
  });
});

describe("any evidence at all", () => {
  const draw = { numRuns: 25 };
  const pressure = fc.double({ min: -14, max: 49_000, noNaN: true }).map(psig);
  const usual = fc.double({ min: 0, max: 1500, noNaN: true }).map(psig);
  const either = fc.oneof(usual, pressure);
  const depth = fc
    .double({ min: -100, max: 20_000, noNaN: true })
    .map((value) => ({ value, unit: "ft" as const }));
  const rate = fc.double({ min: 0, max: 1e5, noNaN: true }).map(mscf);
  const time = fc
    .double({ min: 0, max: 80_000, noNaN: true })
    .map((value) => ({ value, unit: "min" as const }));
  const instant = fc
    .integer({ min: 0, max: 2_000_000 })
    .map((s) => new Date(1.79e12 + 1000 * s).toISOString());
  const base = {
    id: fc.integer({ min: 0, max: 999 }).map(String),
    at: instant,
    source: fc.constant("gauge"),
    confidence: fc.constantFrom("good" as const, "fair" as const, "doubtful" as const),
  };
  const anything: fc.Arbitrary<Evidence> = fc.oneof(
    fc.record({
      ...base,
      kind: fc.constant("pressures" as const),
      injectionAtSurface: either,
      wellhead: either,
    }),
    fc.record({
      ...base,
      kind: fc.constant("supply" as const),
      injectionRate: rate,
      supplyPressure: either,
      choke: fc
        .double({ min: 0, max: 70, noNaN: true })
        .map((value) => ({ value, unit: "in" as const })),
      found: fc.constantFrom("in order" as const, "frozen" as const, "supply fell" as const),
    }),
    fc.record({
      ...base,
      kind: fc.constant("casing bleed" as const),
      from: either,
      to: either,
      took: time,
      end: fc.constantFrom("at rest" as const, "still falling" as const),
    }),
    fc.record({
      ...base,
      kind: fc.constant("fluid level" as const),
      space: fc.constantFrom("annulus" as const, "tubing" as const),
      well: fc.constant("on lift" as const),
      depthAlongHole: depth,
    }),
    fc.record({
      ...base,
      kind: fc.constant("survey" as const),
      stops: fc.array(
        fc.record({
          depthAlongHole: depth,
          pressure: either,
          temperature: fc
            .double({ min: -100, max: 500, noNaN: true })
            .map((value) => ({ value, unit: "degF" as const })),
        }),
        { minLength: 2, maxLength: 12 },
      ),
    }),
    fc.record({
      ...base,
      kind: fc.constant("tracer" as const),
      returns: fc.array(fc.record({ after: time }), { minLength: 1, maxLength: 4 }),
    }),
    fc.record({
      ...base,
      kind: fc.constant("trend" as const),
      points: fc.array(
        fc.record({ at: instant, casing: either, tubing: either, injectionRate: rate }),
        { minLength: 2, maxLength: 20 },
      ),
    }),
    fc.record({
      ...base,
      kind: fc.constant("separator test" as const),
      liquidRate: fc
        .double({ min: 0, max: 1e5, noNaN: true })
        .map((value) => ({ value, unit: "bbl/d" as const })),
      gasRate: rate,
    }),
  );
  const gasOnly = wellWith(soundValves);
  it.each<{ which: string; well: Well }>([
    { which: "gas down the annulus", well: wellWith(soundValves) },
    { which: "gas down the tubing", well: { ...wellWith(soundValves), injectionDown: "tubing" } },
    {
      which: "next to no liquid on lift, a heavy column without it",
      well: {
        ...gasOnly,
        onLift: {
          ...gasOnly.onLift,
          liftedGradient: { value: 0.005, unit: "psi/ft" },
          gradientBelow: { value: 0.45, unit: "psi/ft" },
        },
      },
    },
  ])("gives probabilities that make 1, and no number that is none; $which", ({ well }) => {
    fc.assert(
      fc.property(fc.array(anything, { minLength: 1, maxLength: 5 }), (given) => {
        for (const each of given) evidenceSchema.parse(each);
        const found = ranking(given, { well, draws: 24 });
        const all = found.ranked.reduce((sum, each) => sum + each.probability, found.noneOfThese);
        expect(all).toBeCloseTo(1, 9);
        const text = JSON.stringify(found, (_, value) =>
          typeof value === "number" && !Number.isFinite(value) ? "NOT A NUMBER" : value,
        );
        expect(text).not.toMatch(/NOT A NUMBER|NaN|Infinity|undefined/);
      }),
      draw,
    );
  });
  it("is the same every time", () => {
    const given = [pressures(800, 122), supply(1000, 1100), tracer(20, 45)];
    expect(ranking(given, { draws: 60 })).toEqual(ranking(given, { draws: 60 }));
  });
});
