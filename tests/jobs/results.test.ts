import { describe, expect, it } from "vitest";
import { gasByGravity } from "../../src/calc/gasByGravity.ts";
import { pressureAtDepth } from "../../src/calc/standingColumn.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  fromDegF,
  fromFeetVertical,
  fromPsia,
  fromPsig,
  M_PER_FT,
  N_PER_LBF,
  PA_PER_PSI,
  STANDARD_ATMOSPHERE,
  toDegF,
  toPsig,
  verticalM,
} from "../../src/calc/units.ts";
import type { Tool, ToolString } from "../../src/jobs/records/equipment.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import type { Valve } from "../../src/jobs/records/valve.ts";
import type { Measurements } from "../../src/jobs/results/measurements.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import type { ResultId, Traced } from "../../src/jobs/results/traced.ts";
import { readyProgramme } from "./demo.ts";

/** The demo's programme carries the records here; what is checked is which of them go where. */
const programme = readyProgramme();
const psig = (gauge: number) => fromPsig(gauge, STANDARD_ATMOSPHERE);
const measured = (si: number) => ({ si, at: "2026-11-25T08:00:00.000Z", by: "test", event: "e" });
const get = (id: ResultId, of: Programme = programme, what: Measurements = {}): Traced => {
  const traced = resultsOf(of, what).get(id);
  if (!traced) throw new Error(`no ${id}`);
  return traced;
};
const value = (id: ResultId, of: Programme = programme, what: Measurements = {}): number => {
  const { outcome } = get(id, of, what);
  if (outcome.state !== "known") throw new Error(`${id} is ${outcome.state}`);
  return outcome.si;
};
const withWell = (change: Partial<NonNullable<Programme["well"]>>): Programme => ({
  ...programme,
  well: { ...(programme.well as NonNullable<Programme["well"]>), ...change },
});

describe("results of a job", () => {
  it("set the valve at the flowing temperature and level the mandrel at the shut-in one", () => {
    // By hand from the records: 4,283 ft of 5,900 ft on the lines 108-164 and 84-158 degF.
    const share = value("mandrel-tvd") / M_PER_FT / 5900;
    expect(toDegF(value("temperature-flowing") as never)).toBeCloseTo(108 + share * 56, 6);
    expect(toDegF(value("temperature-shut-in") as never)).toBeCloseTo(84 + share * 74, 6);
    expect(get("test-rack-needed").givens.map((given) => given.origin)).toContainEqual({
      kind: "calculated",
      result: "temperature-flowing",
    });
    expect(get("casing-level").givens.map((given) => given.name)).toContain("Shut-in temperatures");
  });

  it("add gas down to the fluid level and liquid below it, true vertical both", () => {
    const gas = gasByGravity({ specificGravity: 0.66, co2: 0.011, h2s: 0, n2: 0.008 });
    const temperatures = temperatureProfile([
      { depth: verticalM(0), temperature: fromDegF(84) },
      { depth: fromFeetVertical(5900), temperature: fromDegF(158) },
    ]);
    const top = verticalM(value("fluid-level-tvd"));
    const depth = verticalM(value("mandrel-tvd"));
    const gradient = (0.36 * PA_PER_PSI) / M_PER_FT;
    const byHand = pressureAtDepth(psig(320), depth, gas, temperatures, { top, gradient }).pressure;
    expect(value("tubing-at-mandrel")).toBeCloseTo(byHand, 0);
  });

  it("give a difference that is zero when the casing stands at the level, and the band's ends at its ends", () => {
    const at = (casing: ResultId) => {
      const si = value(casing);
      return (
        value("difference-at-mandrel", programme, { "casing pressure": measured(si) }) / PA_PER_PSI
      );
    };
    expect(at("casing-level")).toBeCloseTo(0, 3);
    expect(at("casing-highest")).toBeCloseTo(50, 3);
    expect(at("casing-lowest")).toBeCloseTo(-100, 3);
  });

  it("take what was measured in place of what was expected, and say so", () => {
    const reading = measured(psig(400));
    const traced = get("push-out", programme, { "wellhead pressure": reading });
    // 0.108 in wire: 9.161 lbf per 1,000 psi (pressure x area).
    expect(value("push-out", programme, { "wellhead pressure": reading }) / N_PER_LBF).toBeCloseTo(
      3.664,
      3,
    );
    expect(traced.givens[0]?.origin).toEqual({ kind: "measured", at: reading.at, by: "test" });
  });

  it("take the card as it is read on location over the card on record", () => {
    const read = measured(psig(911));
    const difference =
      value("card-difference", programme, { "card set pressure": read }) / PA_PER_PSI;
    expect(difference).toBeCloseTo(
      911 - toPsig(value("test-rack-needed") as never, STANDARD_ATMOSPHERE),
      6,
    );
  });

  it("count gauges from the site's own atmosphere", () => {
    const high = withWell({ atmosphere: { value: 12.2, unit: "psia" } });
    const force = (of: Programme) => value("push-out", of) / N_PER_LBF;
    // The same gauge pressure pushes with the same force wherever the gauge stands.
    expect(force(high)).toBeCloseTo(force(programme), 9);
    // The units library's psi has twelve digits.
    expect(resultsOf(high, {}).context.atmosphere).toBeCloseTo(fromPsia(12.2), 3);
    expect(value("test-rack-needed", high)).not.toBeCloseTo(value("test-rack-needed"), -2);
  });

  it("name what is missing, through every result that waits for it, and never fill it in", () => {
    const {
      injectionGas: _,
      tubingGas: __,
      ...bare
    } = programme.well as NonNullable<Programme["well"]>;
    const without: Programme = { ...programme, well: bare };
    const needs = (id: ResultId) => {
      const { outcome } = get(id, without);
      return outcome.state === "missing" ? outcome.needs : outcome.state;
    };
    expect(needs("injection-at-mandrel")).toEqual(["injection gas, by gravity or analysis"]);
    expect(needs("tubing-at-mandrel")).toEqual(["gas in the tubing"]);
    expect(needs("casing-level")).toEqual([
      "injection gas, by gravity or analysis",
      "gas in the tubing",
    ]);
    expect(get("difference-at-mandrel").outcome).toEqual({
      state: "missing",
      needs: ["Casing pressure at surface"],
    });
    expect(get("largest-pull", { ...programme, line: undefined }).outcome.state).toBe("missing");
  });

  it("say that an annulus of unknown liquid is not known, and that too much liquid has no answer", () => {
    const casing = { "casing pressure": measured(psig(760)) };
    const unknown = withWell({ annulusLiquid: { state: "not known" } });
    expect(get("annulus-at-mandrel", unknown, casing).outcome).toEqual({
      state: "missing",
      needs: ["liquid level in the annulus"],
    });
    const flooded = withWell({
      annulusLiquid: {
        state: "standing",
        topTrueVertical: { value: 200, unit: "ft" },
        gradient: { value: 0.45, unit: "psi/ft" },
      },
    });
    expect(get("casing-level", flooded).outcome.state).toBe("no answer");
  });

  it("take the tubing's own gas where the record has it, and say so where the injection gas stands in", () => {
    const own = {
      specificGravity: { value: 0.8, unit: "" },
      co2: { value: 2, unit: "mol %" },
      h2s: { value: 0, unit: "mol %" },
      n2: { value: 1, unit: "mol %" },
    } as const;
    const heavier = withWell({ tubingGas: own });
    expect(value("tubing-at-mandrel", heavier)).toBeGreaterThan(value("tubing-at-mandrel"));
    const warned = (of: Programme) =>
      get("tubing-at-mandrel", of).warnings.some(
        (warning) => warning.kind === "note" && warning.text.includes("taken to be the injection"),
      );
    const { tubingGas: _, ...unsaid } = programme.well as NonNullable<Programme["well"]>;
    expect(warned({ ...programme, well: unsaid })).toBe(true);
    expect(warned(heavier)).toBe(false);
    // The annulus holds injection gas whatever stands in the tubing.
    const casing = { "casing pressure": measured(psig(760)) };
    expect(value("annulus-at-mandrel", heavier, casing)).toBe(
      value("annulus-at-mandrel", programme, casing),
    );
  });

  it("count the shop's gauge from the shop's air, not from the well's", () => {
    const { replacement } = programme;
    if (!replacement?.card) throw new Error("no card");
    const inShopAt = (psia: number): Programme => ({
      ...programme,
      replacement: {
        ...replacement,
        card: { ...replacement.card, atmosphere: { value: psia, unit: "psia" } } as never,
      },
    });
    // By hand: on the rack Ptro (1 - R) + patm R = Pd, all absolute; read by a gauge, Ptro = (Pd - patm)/(1 - R).
    const standard = value("test-rack-needed");
    const thin = value("test-rack-needed", inShopAt(12.0));
    const ratio = 0.0291 / 0.31;
    const byHand = ((14.695948775 - 12.0) / (1 - ratio)) * PA_PER_PSI;
    expect((thin - standard) / byHand).toBeCloseTo(1, 4);
  });

  it("weigh string and wire in gas above the fluid level and in liquid below it", () => {
    const { strings, line } = programme;
    if (!strings.pull || !line) throw new Error("no string");
    const pounds = strings.pull.tools.reduce((sum, tool) => sum + tool.weight.value, 0);
    const perThousand = line.massPerLength?.value ?? 0;
    const density = programme.job.expected.fluidDensity?.value ?? 0;
    // By hand, US units: buoyancy from densities in lb/ft3; steel 7,850 kg/m3 = 490.06 lb/ft3.
    const steel = 490.06;
    const liquid = 0.36 * 144;
    const depth = value("mandrel-tvd") / M_PER_FT;
    const level = value("fluid-level-tvd") / M_PER_FT;
    const inches = line.diameter.value;
    const wire = perThousand / 1000 / ((Math.PI * inches ** 2) / 4 / 144);
    const inclination = value("mandrel-inclination");
    const byHand =
      pounds * (1 - liquid / steel) * Math.cos(inclination) +
      (perThousand / 1000) *
        (level * (1 - density / wire) + (depth - level) * (1 - liquid / wire)) -
      value("push-out") / N_PER_LBF;
    expect(value("hanging-pull") / N_PER_LBF).toBeCloseTo(byHand, 0);
  });

  it("measure the lubricator against the longest string with the valve that hangs on it", () => {
    const { strings, stack, replacement, policy } = programme;
    const length = (string: typeof strings.pull) =>
      (string?.tools ?? []).reduce((sum, t) => sum + (t.lengthExtended ?? t.length).value, 0);
    const available = (stack?.items ?? []).reduce(
      (sum, i) => sum + (i.usableLength?.value ?? 0),
      0,
    );
    const longest = Math.max(length(strings.pull), length(strings.set));
    const byHand =
      available -
      longest -
      (replacement?.length?.value ?? 0) -
      (policy?.lubricatorMargin.value.value ?? 0);
    expect(value("lubricator-spare") / M_PER_FT).toBeCloseTo(byHand, 6);
  });

  it("measure the lubricator against the gauge string, too, and by lengths that are known only", () => {
    const { strings } = programme;
    const withTool = (purpose: "gauge" | "pull", change: Partial<Tool>): Programme => {
      const string = strings[purpose] as ToolString;
      const [first, ...rest] = string.tools as [Tool, ...Tool[]];
      return {
        ...programme,
        strings: {
          ...strings,
          [purpose]: { ...string, tools: [{ ...first, ...change }, ...rest] },
        },
      };
    };
    const spare = (of: Programme) => resultsOf(of, {}).get("lubricator-spare")?.outcome;
    const { gauge } = strings;
    const others = (gauge?.tools ?? [])
      .slice(1)
      .reduce((sum, t) => sum + (t.lengthExtended ?? t.length).value, 0);
    const long = spare(withTool("gauge", { length: { value: 40, unit: "ft" } }));
    // 36 ft of lubricator, 2 ft of margin, and no valve hangs on it.
    expect(long?.state === "known" && long.si / M_PER_FT).toBeCloseTo(36 - 40 - others - 2, 6);
    const open = withTool("pull", { kind: "jars", name: "Spare jars" });
    expect(spare(open)).toEqual({
      state: "missing",
      needs: [`length of Spare jars, extended (${strings.pull?.name})`],
    });
    const { length: _, ...replacement } = programme.replacement as Valve;
    expect(spare({ ...programme, replacement })).toEqual({
      state: "missing",
      needs: [`length of the valve on it (${strings.set?.name})`],
    });
  });

  it("find the narrowest bore in stack and well, and no bore below where the string goes", () => {
    const nipple = (depth: number, bore: number) => ({
      name: "nipple",
      kind: "nipple" as const,
      depthAlongHole: { value: depth, unit: "ft" as const },
      bore: { value: bore, unit: "in" as const },
    });
    const inch = M_PER_FT / 12;
    expect(value("drift-clearance") / inch).toBeCloseTo(2.313 - 2.3, 6);
    expect(
      value("drift-clearance", withWell({ restrictions: [nipple(6340, 1.5)] })) / inch,
    ).toBeCloseTo(2.347 - 2.3, 6);
    // Up to 30 ft below the target counts, where the string comes up into the sleeve.
    expect(
      value("drift-clearance", withWell({ restrictions: [nipple(4405, 1.5)] })) / inch,
    ).toBeCloseTo(1.5 - 2.3, 6);
  });

  it("have no set pressure for a valve without a bellows", () => {
    const orifice: Programme = {
      ...programme,
      replacement: {
        ...(programme.replacement as NonNullable<Programme["replacement"]>),
        kind: "orifice",
      },
    };
    const results = resultsOf(orifice, {});
    expect(results.get("test-rack-needed")).toBeUndefined();
    expect(results.all().map((traced) => traced.id)).not.toContain("card-difference");
  });

  it("show a method, a source and where every figure came from", () => {
    for (const traced of resultsOf(programme, {}).all()) {
      expect(traced.method.formula, traced.id).not.toBe("");
      expect(traced.method.source, traced.id).not.toBe("");
      expect(traced.givens.length, traced.id).toBeGreaterThan(0);
    }
  });
});
