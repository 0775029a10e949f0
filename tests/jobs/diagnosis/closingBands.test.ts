import { describe, expect, it } from "vitest";
import { library } from "../../../demo-data/emberMesa.ts";
import { closingBands } from "../../../src/jobs/diagnosis/closingBands.ts";
import { lookedAt } from "../../../src/jobs/lookedAt.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import { mandrelResultId } from "../../../src/jobs/results/atMandrel.ts";
import { asPlanned } from "../../../src/jobs/results/context.ts";
import { wholeWellOf } from "../../../src/jobs/results/mandrelResults.ts";

const em07 = library.wells.find(({ id }) => id === "em-07") as Well;
const bandsOf = (well: Well, of = library) => {
  const results = wholeWellOf(lookedAt(well, { ...of, wells: [well] }), asPlanned);
  return { results, bands: closingBands(results) };
};

describe("closing pressures at surface", () => {
  it("stand from the top down, each lower than the valve's own closing pressure, with its working", () => {
    const { results, bands } = bandsOf(em07);
    expect(bands.map(({ mandrel }) => mandrel)).toEqual([1, 2, 3, 4]);
    for (const { mandrel, at, least, most, results: ids } of bands) {
      const closing = results.value(mandrelResultId("closing", mandrel)) as number;
      expect(at).toBeLessThan(closing);
      expect(most - at).toBeCloseTo(at - least, 6);
      expect(most).toBeGreaterThan(least);
      for (const id of ids) expect(results.get(id)?.givens.length).toBeGreaterThan(0);
    }
  });

  it("are none of an orifice, and none where the gas is not known, which the figure says", () => {
    const { injectionGas: _, ...dry } = em07;
    const { results, bands } = bandsOf(dry);
    expect(bands).toEqual([]);
    expect(results.get("closing-at-surface of mandrel 1")?.outcome).toEqual({
      state: "missing",
      needs: ["injection gas, by gravity or analysis"],
    });
  });

  it("are none of a valve that the production pressure shuts", () => {
    const turned = {
      ...library,
      valves: library.valves.map((valve) =>
        valve.serial === "EM-0712" ? { ...valve, kind: "production-operated" as const } : valve,
      ),
    };
    const { results, bands } = bandsOf(em07, turned);
    expect(bands.map(({ mandrel }) => mandrel)).toEqual([1, 3, 4]);
    expect(results.get("closing-at-surface of mandrel 2")?.outcome).toEqual({
      state: "missing",
      needs: ["a valve that the injection pressure shuts"],
    });
  });
});
