import { describe, expect, it } from "vitest";
import { rankFaults } from "../../../src/jobs/diagnosis/rank.ts";
import type { Ranking } from "../../../src/jobs/diagnosis/ranking.ts";
import { writer } from "../../../src/jobs/display.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import { investigationOf, pressures, soundValves, wellWith } from "./liftWell.ts";

const stream: NonNullable<Well["stream"]> = {
  liquidRate: { value: 500, unit: "bbl/d" },
  liquidDensity: { value: 950, unit: "kg/m3" },
  oilApiGravity: { value: 35, unit: "" },
  gasRate: { value: 800, unit: "Mscf/d" },
  gasGravity: { value: 0.68, unit: "" },
  tubingInside: { value: 2.441, unit: "in" },
  entersAlongHole: { value: 7000, unit: "ft" },
};

function ranked(change: Partial<Well>): Ranking {
  const well = { ...wellWith(soundValves), ...change } as Well;
  const answer = rankFaults(
    { well, valves: soundValves, policy: undefined, history: [] },
    investigationOf(pressures(870, 120)),
    writer("field"),
    { draws: 100 },
  );
  if ("needs" in answer) throw new Error(answer.needs.map(({ says }) => says).join("; "));
  return answer;
}
const sound = ({ ranked: all }: Ranking) => {
  const found = all.find(({ hypothesis }) => hypothesis.fault.kind === "nothing downhole");
  if (!found) throw new Error("no sound well among them");
  return found.predicted;
};
const annulus: NonNullable<Well["annulus"]> = {
  casingInside: { value: 6.184, unit: "in" },
  tubingOutside: { value: 2.875, unit: "in" },
};

describe("where gas enters", () => {
  it("the stream is colder than without it, just above the entry and less further up", () => {
    const bare = sound(ranked({}));
    const cooled = sound(ranked({ stream }));
    const dips = cooled.profile.map(({ depth, temperature }, i) => ({
      depth,
      dip: (bare.profile[i]?.temperature?.mean ?? Number.NaN) - (temperature?.mean ?? Number.NaN),
    }));
    const most = Math.max(...dips.map(({ dip }) => dip));
    const at = dips.find(({ dip }) => dip === most)?.depth ?? 0;
    // Lift gas of some 100 to 400 psi of drop cools by about 2 to 5 degF a 100 psi (methane, from memory), into a stream with
    // several times its heat: from a tenth of a degree to a few.
    expect(most).toBeGreaterThan(0.02);
    expect(most).toBeLessThan(5);
    for (const { depth, dip } of dips) if (depth > at + 1) expect(dip).toBeLessThan(1e-9);
    const above = dips.filter(({ depth }) => depth <= at);
    for (const [i, { dip }] of above.entries()) {
      expect(dip).toBeGreaterThanOrEqual((above[i - 1]?.dip ?? 0) - 1e-9);
    }
  });

  it("steadiness is told only where the productivity index is on record", () => {
    expect(sound(ranked({ stream, annulus })).heading).toBe("not known");
    // F1 = 2 Δp J / qL through an orifice, from w² = 2 ρ Δp (E A)²: with J of 50 bbl/d/psi, 500 bbl/d and any drop above 5 psi it is above 1.
    const strong = { ...stream, productivityIndex: { value: 50, unit: "bbl/d/psi" } } as const;
    expect(sound(ranked({ stream: strong, annulus })).heading).toBe("steady");
  });

  it("a weak inflow behind a large orifice heads", () => {
    // With J of 0.02 bbl/d/psi and less than 100 psi of drop F1 is below 0.008; F2 then goes by tubing and casing volumes,
    // and a casing of 9 in holds far more gas than the tubing.
    const weak = { ...stream, productivityIndex: { value: 0.02, unit: "bbl/d/psi" } } as const;
    const wide = { ...annulus, casingInside: { value: 12, unit: "in" } } as const;
    const valves = soundValves.map((valve) =>
      valve.kind === "orifice" ? { ...valve, port: { value: 0.75, unit: "in" as const } } : valve,
    );
    const well = { ...wellWith(valves), stream: weak, annulus: wide } as Well;
    const answer = rankFaults(
      { well, valves, policy: undefined, history: [] },
      investigationOf(pressures(700, 120)),
      writer("field"),
      { draws: 100 },
    );
    if ("needs" in answer) throw new Error("no ranking");
    const heads = answer.ranked.filter(({ predicted }) => predicted.heading === "heading");
    expect(heads.length).toBeGreaterThan(0);
  });
});
