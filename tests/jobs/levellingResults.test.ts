import { describe, expect, it } from "vitest";
import { N_PER_LBF, PA_PER_PSI, toDegF } from "../../src/calc/units.ts";
import { toSI } from "../../src/jobs/quantity.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import { type Well, well as wellSchema } from "../../src/jobs/records/well.ts";
import type { Measurements } from "../../src/jobs/results/measurements.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import type { ResultId } from "../../src/jobs/results/traced.ts";
import { readyProgramme } from "./demo.ts";

const programme = readyProgramme();
const read = (value: number) => ({
  si: toSI("pressure", { value, unit: "psig" }),
  at: "2026-11-25T08:00:00.000Z",
  by: "test",
  event: "e",
});
const value = (id: ResultId, measured: Measurements, of: Programme = programme): number => {
  const { outcome } = resultsOf(of, measured).get(id) ?? {};
  if (outcome?.state !== "known") throw new Error(`${id} is ${outcome?.state}`);
  return outcome.si;
};
const withWell = (change: Partial<Well>): Programme => ({
  ...programme,
  well: { ...(programme.well as Well), ...change },
});

describe("the wellhead's band", () => {
  const casing = { "casing pressure": read(800) };

  it("is the casing's from the other side: at its ends the difference is the policy's", () => {
    for (const [end, psi] of [
      ["wellhead-level", 0],
      ["wellhead-lowest", 50],
      ["wellhead-highest", -100],
    ] as const) {
      const wellhead = { ...read(0), si: value(end, casing) };
      const difference = value("difference-at-mandrel", {
        ...casing,
        "wellhead pressure": wellhead,
      });
      // The column is integrated up for the band and down for the difference: the same within 0.01 psi.
      expect(Math.abs(difference / PA_PER_PSI - psi)).toBeLessThan(0.01);
    }
  });

  it("waits for a casing pressure that was read", () => {
    expect(resultsOf(programme, {}).get("wellhead-level")?.outcome).toEqual({
      state: "missing",
      needs: ["Casing pressure at surface"],
    });
  });
});

describe("the force that is left on the valve", () => {
  it("is the difference on the net seal area, and on the whole bore once a stack is clear", () => {
    const measured = { "casing pressure": read(900), "wellhead pressure": read(318) };
    const psi = value("difference-at-mandrel", measured) / PA_PER_PSI;
    // Areas of bores 1.031 and 0.996 in, from memory: 0.8348 and 0.7791 in2 (statics).
    expect(value("force-seated", measured) / N_PER_LBF).toBeCloseTo(psi * (0.8348 - 0.7791), 1);
    expect(value("force-clear", measured) / N_PER_LBF).toBeCloseTo(psi * 0.8348, 0);
  });

  it("is not known without the mandrel's bores", () => {
    const well = programme.well as Well;
    const bare = withWell({
      mandrels: well.mandrels.map(({ upperBore: _, lowerBore: __, ...rest }) => rest),
    });
    const outcome = resultsOf(bare, { "casing pressure": read(900) }).get("force-seated")?.outcome;
    expect(outcome).toEqual({
      state: "missing",
      needs: ["Upper seal bore of the pocket", "Lower seal bore of the pocket"],
    });
  });
});

describe("hydrates", () => {
  it("take the gas of the space and the pressure that was read there", () => {
    // Towler and Mokhatab (2005), from memory, 714.7 psia and 0.66: by hand 13.47 ln P + 34.27 ln g - 1.675 ln P ln g - 20.35.
    const [p, g] = [Math.log(714.696), Math.log(0.66)];
    const byHand = 13.47 * p + 34.27 * g - 1.675 * p * g - 20.35;
    const got = toDegF(value("hydrate-casing", { "casing pressure": read(700) }) as never);
    expect(got).toBeCloseTo(byHand, 2);
  });

  it("say that a sour gas is worse than the figure", () => {
    const well = programme.well as Well;
    const sour = withWell({
      tubingGas: { ...(well.injectionGas as object), h2s: { value: 2, unit: "mol %" } } as never,
    });
    const texts = (of: Programme) =>
      resultsOf(of, {})
        .get("hydrate-wellhead")
        ?.warnings.map((warning) => (warning.kind === "note" ? warning.text : ""));
    expect(texts(sour)?.join()).toMatch(/not conservative/);
    expect(texts(programme)?.join()).not.toMatch(/not conservative/);
  });
});

describe("a gas by analysis", () => {
  const percent = (value: number) => ({ value, unit: "mol %" as const });
  const analysis = {
    methane: percent(88),
    ethane: percent(6),
    propane: percent(3),
    nitrogen: percent(1),
    carbon_dioxide: percent(2),
  };

  it("goes into the column by the DETAIL equation", () => {
    const of = withWell({ injectionGas: { analysis } });
    const injection = resultsOf(of, {}).get("injection-at-mandrel");
    expect(injection?.outcome.state).toBe("known");
    expect(injection?.givens.find(({ symbol }) => symbol === "gas")?.shown).toBe(
      "by analysis, 5 components",
    );
    const { gas } = resultsOf(of, {}).context;
    expect(gas.ok && gas.value.method.name).toMatch(/DETAIL/);
  });

  it.each([
    ["that does not add up", { analysis: { ...analysis, methane: percent(80) } }, "92.00 mol %"],
    [
      "beside a gravity",
      { analysis, specificGravity: { value: 0.66, unit: "" } },
      "by an analysis",
    ],
    ["with half a gravity", { specificGravity: { value: 0.66, unit: "" } }, "unless the gas"],
    ["of a name nobody knows", { analysis: { ...analysis, neon: percent(0) } }, "neon"],
  ])("is refused %s", (_, injectionGas, says) => {
    const parsed = wellSchema.safeParse({ ...programme.well, injectionGas });
    expect(parsed.success).toBe(false);
    expect(parsed.error?.message).toContain(says);
  });
});

describe("flowing temperatures by correlation", () => {
  const { flowing: _, ...shutInOnly } = (programme.well as Well).temperatures;
  const stream: NonNullable<Well["stream"]> = {
    liquidRate: { value: 400, unit: "bbl/d" },
    liquidDensity: { value: 58, unit: "lb/ft3" },
    oilApiGravity: { value: 32, unit: "" },
    gasRate: { value: 800, unit: "Mscf/d" },
    gasGravity: { value: 0.7, unit: "" },
    tubingInside: { value: 2.441, unit: "in" },
    entersAlongHole: { value: 6300, unit: "ft" },
  };

  it("stand in where no points are known, between the rock and the bottom, and say so", () => {
    const of = withWell({ temperatures: shutInOnly, stream });
    const flowing = value("temperature-flowing", {}, of);
    expect(flowing).toBeGreaterThan(value("temperature-shut-in", {}, of));
    expect(flowing).toBeLessThan(toSI("temperature", { value: 165, unit: "degF" }));
    const notes = resultsOf(of, {}).get("temperature-flowing")?.warnings ?? [];
    expect(JSON.stringify(notes)).toMatch(/Shiu and Beggs/);
  });

  it("leave them missing while nobody said what flows", () => {
    const outcome = resultsOf(withWell({ temperatures: shutInOnly }), {}).get(
      "temperature-flowing",
    )?.outcome;
    expect(outcome).toEqual({ state: "missing", needs: ["flowing temperatures"] });
  });
});

describe("friction of the injected gas", () => {
  it("is negligible in a wide annulus and not known without its diameters", () => {
    expect(value("injection-friction", {}) / PA_PER_PSI).toBeLessThan(1);
    const { annulus: _, ...bare } = programme.well as Well;
    const outcome = resultsOf({ ...programme, well: bare }, {}).get("injection-friction")?.outcome;
    expect(outcome).toEqual({
      state: "missing",
      needs: ["Casing, inside", "Tubing, outside"],
    });
  });
});
