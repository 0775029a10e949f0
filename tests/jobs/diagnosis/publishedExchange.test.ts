import { beforeAll, describe, expect, it } from "vitest";
import type { Ranking } from "../../../src/jobs/diagnosis/ranking.ts";
import { valve } from "../../../src/jobs/records/valve.ts";
import { well } from "../../../src/jobs/records/well.ts";
import { Chance } from "../../diagnosis/forward/chance.ts";
import { drawWell } from "../../diagnosis/forward/design.ts";
import { measure } from "../../diagnosis/forward/evidence.ts";
import { records } from "../../diagnosis/forward/records.ts";
import { seen, unload } from "../../diagnosis/forward/truth.ts";
import { HOUR } from "../../diagnosis/forward/units.ts";
import { metric, writing } from "../../diagnosis/forward/written.ts";
import { mandrelsOf } from "../../diagnosis/scores.ts";
import { rank } from "./publishedRank.ts";

/**
 * "All three (3) IPO valves were installed in the wrong mandrels, causing the well to multipoint and to inject shallow"; "its production
 * was 1/2 of its pre-IPO conversion rate". Source: case study "Well A" of a tracer survey, a Markdown page in a public
 * repository (its figures are pictures, only the text could be read). Which valve sat where is not in the text.
 *
 * Made here in wells of the second model with three valves above an orifice: the lowest set one in the top mandrel, the others one
 * down each. In most wells that changes nothing once they are on their orifice. In those that give much the well stays on the
 * top mandrel; the seeds are the first five from 401 on in which it does, their records right.
 */
const seeds = [421, 450, 454, 463, 475];

interface Exchanged {
  readonly seed: number;
  /** liquid with the valves exchanged over liquid before */
  readonly production: number;
  readonly shares: readonly number[];
  readonly answer: Ranking;
}

function exchanged(seed: number): Exchanged {
  const chance = new Chance(seed);
  const drawn = drawWell(chance);
  if (!drawn) throw new Error(`no well from seed ${seed}`);
  const { pockets } = drawn.truth;
  const before = unload(drawn.truth);
  const write = writing(metric);
  const written = records(drawn, before.simulation, before.now, chance, write);
  if (written.wrongRecord !== undefined || pockets.length !== 4) throw new Error(`not ${seed}`);
  const from = [2, 0, 1, 3];
  const again = unload({
    ...drawn.truth,
    pockets: pockets.map((pocket, i) => ({
      ...pocket,
      valve: pockets[from[i] as number]?.valve ?? pocket.valve,
    })),
  });
  const moments = again.simulation.run(12 * HOUR, 300);
  const now = seen(moments.slice(-48));
  const { evidence } = measure(
    ["pressures", "supply", "separator test", "tracer"],
    again.simulation,
    moments,
    now,
    { kind: "nothing downhole" },
    new Chance(seed),
    write,
  );
  const given = {
    well: well.parse(written.well),
    valves: written.valves.map((one) => valve.parse(one)),
  };
  return {
    seed,
    production: now.liquidOut / before.now.liquidOut,
    shares: now.shares,
    answer: rank(given, evidence),
  };
}

describe("three valves in the wrong mandrels", () => {
  let wells: Exchanged[] = [];
  beforeAll(() => {
    wells = seeds.map(exchanged);
  }, 120_000);

  it("has the well inject at its top mandrel and lose about half, as in the source", () => {
    for (const { production, shares } of wells) {
      expect(shares[0]).toBeGreaterThan(0.95);
      expect(production).toBeGreaterThan(0.3);
      expect(production).toBeLessThan(0.65);
    }
  });

  it("is found at the mandrel where the gas goes in, in four wells of five", () => {
    const found = wells.filter(({ answer }) =>
      answer.ranked.slice(0, 2).some(({ hypothesis: { fault } }) => mandrelsOf(fault).includes(1)),
    );
    expect(found.length).toBeGreaterThanOrEqual(4);
  });

  /**
   * Where it does not go as far as the source: the top valve is taken for one that stands open. That three valves are exchanged is
   * no hypothesis, and of two exchanged ones the well is taken to have come down to its orifice, which these have not.
   */
  it("is not ruled sound: that nothing is wrong downhole gets less than a twentieth", () => {
    for (const { answer } of wells) {
      const sound = answer.ranked.find(({ hypothesis }) => hypothesis.id === "nothing downhole");
      expect(sound?.probability).toBeLessThan(0.05);
    }
  });
});
