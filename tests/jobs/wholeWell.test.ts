import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { PA_PER_PSI } from "../../src/calc/units.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { writer } from "../../src/jobs/display.ts";
import { toSI } from "../../src/jobs/quantity.ts";
import { readinessOf } from "../../src/jobs/readiness.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import { type Valve, valve as valveSchema } from "../../src/jobs/records/valve.ts";
import { type Well, well as wellSchema } from "../../src/jobs/records/well.ts";
import { mandrelResultId } from "../../src/jobs/results/atMandrel.ts";
import { asPlanned, type Scenario } from "../../src/jobs/results/context.ts";
import { depthLines } from "../../src/jobs/results/depthLines.ts";
import { wholeWellOf } from "../../src/jobs/results/mandrelResults.ts";
import type { Measurements } from "../../src/jobs/results/measurements.ts";
import { type Results, resultsOf } from "../../src/jobs/results/results.ts";
import { type MandrelFigure, mandrelFigures } from "../../src/jobs/results/traced.ts";
import { unloadingInWords, unloadingOf } from "../../src/jobs/results/unloadingResult.ts";
import { entryInWords, mandrelStates } from "../../src/jobs/results/wholeWell.ts";

const write = writer("field");
/** Whole wells; with measurements the job's own results, which the levelling stands on. */
const wellOf = (
  programme: Programme,
  measured: Measurements,
  scenario: Scenario = asPlanned,
): Results =>
  Object.keys(measured).length > 0
    ? resultsOf(programme, measured, scenario)
    : wholeWellOf(programme, scenario);
const wells = { "EM-03": jobs.finished, "EM-07": jobs.ready, "EM-12": jobs.notReady };
const programmeOf = (name: keyof typeof wells) => assemble(wells[name], library);
const planned: Scenario = asPlanned;
const replaced: Scenario = { lift: "as planned", pocket: "with the replacement" };
const found: Scenario = { lift: "as found", pocket: "as installed" };

const figure = (results: Results, of: MandrelFigure, mandrel: number): number => {
  const traced = results.get(mandrelResultId(of, mandrel));
  if (traced?.outcome.state !== "known") throw new Error(`${of} of mandrel ${mandrel} not known`);
  return traced.outcome.si;
};
const psi = (results: Results, of: MandrelFigure, mandrel: number) =>
  figure(results, of, mandrel) / PA_PER_PSI;
const mscf = (value: number) => toSI("gas rate", { value, unit: "Mscf/d" });
const withWell = (programme: Programme, change: Partial<Well>): Programme => ({
  ...programme,
  well: { ...(programme.well as Well), ...change },
});
const withValve = (programme: Programme, serial: string, change: Partial<Valve>): Programme => ({
  ...programme,
  installed: programme.installed.map((valve) =>
    valve.serial === serial ? { ...valve, ...change } : valve,
  ),
});

describe("the demonstration's wells", () => {
  it.each(Object.keys(wells) as (keyof typeof wells)[])(
    "%s, sound, unloads to its bottom valve",
    (name) => {
      const results = wellOf(programmeOf(name), {}, planned);
      const outcome = unloadingOf(results);
      if (!outcome.ok) throw new Error(outcome.needs.join("; "));
      const checks = outcome.unloading.steps.flatMap((step) => step.checks);
      expect(outcome.unloading.reachesBottom).toBe(true);
      expect(Math.min(...checks.map(({ inHand }) => inHand))).toBeGreaterThan(10 * PA_PER_PSI);
      // On lift gas enters at the orifice and nowhere else, and the orifice takes the planned rate.
      const passing = mandrelStates(results).filter(({ mayPass }) => mayPass);
      expect(passing.map(({ valve }) => valve?.kind)).toEqual(["orifice"]);
      const rate = figure(results, "most-gas", passing[0]?.mandrel.number ?? 0);
      expect(Math.abs(rate / mscf(680) - 1)).toBeLessThan(0.05);
    },
  );

  it.each(["EM-03", "EM-07"] as const)("%s unloads with its replacement in place", (name) => {
    const results = wellOf(programmeOf(name), {}, replaced);
    expect(unloadingInWords(unloadingOf(results), write)).toMatch(/unloads to mandrel/);
    expect(mandrelStates(results)[2]?.valve?.serial).toMatch(/^EM-20/);
  });

  it("EM-12 does not unload with the wrong replacement, and the sentence says where", () => {
    const results = wellOf(programmeOf("EM-12"), {}, replaced);
    expect(unloadingInWords(unloadingOf(results), write)).toBe(
      "From 1100 psig at kick-off, 890 psig on lift and 120 psig at the wellhead the well does not unload to its deepest valve: valve 2 does not shut when gas enters at mandrel 3, 6 psi too high. It gets to mandrel 2.",
    );
  });

  it("EM-07 as found: no sound valve passes gas at that casing pressure; an open valve 3 passes what was measured", () => {
    const programme = programmeOf("EM-07");
    const results = wellOf(programme, {}, found);
    expect(entryInWords(mandrelStates(results))).toBe("By these pressures no valve passes gas.");
    // The casing stands 200 psi below where valve 3 shuts: a sound one cannot be open.
    expect(psi(results, "closing", 3) - psi(results, "injection", 3)).toBeGreaterThan(200);
    // Below mandrel 3 production stands above injection, so the gas cannot enter there.
    expect(psi(results, "production", 5)).toBeGreaterThan(psi(results, "injection", 5));
    // A valve 3 that does not shut, its charge lost, explains the casing pressure and the rate.
    const lost = wellOf(
      withValve(programme, "EM-0713", {
        card: { day: "2026-11-12", testRackOpening60F: { value: 20, unit: "psig" } },
      }),
      {},
      found,
    );
    expect(entryInWords(mandrelStates(lost))).toBe(
      "By these pressures gas should enter at mandrel 3.",
    );
    const measured = toSI("gas rate", programme.well?.lastFound?.injectionRate as never);
    expect(Math.abs(figure(lost, "most-gas", 3) / measured - 1)).toBeLessThan(0.03);
  });

  it("EM-12 as found: valve 2 throttles the measured rate; valve 3 should be open and passes nothing", () => {
    const programme = programmeOf("EM-12");
    const results = wellOf(programme, {}, found);
    const [, second, third, bottom] = mandrelStates(results);
    expect([second?.gate, third?.gate]).toEqual(["open", "open"]);
    expect(bottom?.mayPass).toBe(false);
    const measured = toSI("gas rate", programme.well?.lastFound?.injectionRate as never);
    expect(Math.abs(figure(results, "throttled-gas", 2) / measured - 1)).toBeLessThan(0.03);
    // With nothing passing at mandrel 3 the well cannot get below it, which is what is seen.
    const blocked = withWell(programme, {
      mandrels: (programme.well as Well).mandrels.map((mandrel) => {
        const { valve: _, ...rest } = mandrel;
        return mandrel.number === 3 ? { ...rest, pocketState: "empty" } : mandrel;
      }),
    });
    expect(unloadingInWords(unloadingOf(wellOf(blocked, {}, planned)), write)).toMatch(
      /injection does not get above production at mandrel 4, .* It gets to mandrel 2\./,
    );
  });

  it("EM-03 as found: the orifice alone does not take the measured rate, a cut valve 3 takes the rest", () => {
    const programme = programmeOf("EM-03");
    const results = wellOf(programme, {}, found);
    const measured = toSI("gas rate", programme.well?.lastFound?.injectionRate as never);
    const orifice = figure(results, "most-gas", 4);
    expect(measured - orifice).toBeGreaterThan(mscf(300));
    expect(measured - orifice).toBeLessThan(figure(results, "most-gas", 3));
    expect(mandrelStates(results)[2]?.gate).toBe("shut");
  });
});

describe("a well on lift", () => {
  const programme = programmeOf("EM-07");

  it("is asked at other surface pressures without touching the record", () => {
    const asked = wellOf(
      programme,
      {},
      {
        ...planned,
        injectionAtSurface: { value: 990, unit: "psig" },
        wellhead: { value: 150, unit: "psig" },
      },
    );
    const [given] = asked.get(mandrelResultId("injection", 3))?.givens ?? [];
    expect(given?.origin).toEqual({ kind: "asked" });
    expect(given?.si).toBe(toSI("pressure", { value: 990, unit: "psig" }));
    const record = wellOf(programme, {}, planned);
    // 0.1 psi/ft lifted: 30 psi more at the wellhead is 30 psi more at every mandrel.
    expect(psi(asked, "production", 3) - psi(record, "production", 3)).toBeCloseTo(30, 6);
    // 990 psig at surface is some 1,100 psig at mandrel 3, more than the 1,085 psig at which its valve opens.
    expect(mandrelStates(asked)[2]?.gate).toBe("open");
  });

  it("takes the survey where there is one, and gradients once another wellhead pressure is asked about", () => {
    const surveyed = wellOf(programme, {}, found).get(mandrelResultId("production", 3));
    expect(surveyed?.method.name).toMatch(/survey/i);
    const asked = wellOf(programme, {}, { ...found, wellhead: { value: 140, unit: "psig" } });
    expect(asked.get(mandrelResultId("production", 3))?.method.name).toMatch(/gradients/i);
  });

  it("says what is missing, mandrel by mandrel, and draws no line from nothing", () => {
    const { onLift: _, ...well } = programme.well as Well;
    const bare = wellOf({ ...programme, well, installed: [] }, {}, planned);
    const states = mandrelStates(bare);
    expect(new Set(states.map(({ gate }) => gate))).toEqual(new Set(["not known"]));
    expect(states[0]?.needs).toEqual(["what sits in the pocket"]);
    expect(entryInWords(states)).toBe("Not known where gas enters: needs what sits in the pocket.");
    expect(unloadingInWords(unloadingOf(bare), write)).toMatch(
      /^Not known whether the well unloads: needs wellhead pressure on lift; gradient of the load liquid; .*what sits in mandrel 1/,
    );
    const lines = depthLines(bare);
    expect(lines.production).toEqual([]);
    expect(lines.injection.length).toBeGreaterThan(20);
  });

  it("names the part of a valve's record that is not there", () => {
    const results = wellOf(
      withValve(programme, "EM-0712", { bellowsArea: undefined as never }),
      {},
    );
    expect(mandrelStates(results)[1]).toMatchObject({ gate: "not known", needs: ["Bellows area"] });
  });

  it("draws lines that pass through the figures of every mandrel", () => {
    const results = wellOf(programme, {}, planned);
    const lines = depthLines(results);
    for (const number of [1, 2, 3, 4, 5]) {
      const depth = figure(results, "tvd", number);
      const at = (line: (typeof lines)["injection"]) =>
        line.find((point) => point.depth === depth)?.si ?? Number.NaN;
      // Integrated in one sweep against one sweep to each: the steps differ, the answer does not.
      expect(Math.abs(at(lines.injection) / figure(results, "injection", number) - 1)).toBeLessThan(
        1e-7,
      );
      expect(at(lines.production)).toBeCloseTo(figure(results, "production", number), 4);
      expect(at(lines.flowing)).toBeCloseTo(figure(results, "temperature", number), 9);
    }
  });

  it("puts the sampled band beside the first-order one, and the same draws every time", () => {
    const beside = () =>
      wellOf(programme, {}, planned).get(mandrelResultId("opening-band", 3))?.beside() ?? [];
    const [first, sampled, most] = beside();
    // 1,000 draws give a standard deviation to 1/√2000, 2.2 percent; four of those.
    expect(Math.abs((sampled?.si ?? 0) / (first?.si ?? 1) - 1)).toBeLessThan(0.09);
    const widest = figure(wellOf(programme, {}, planned), "opening-band", 3);
    expect(most?.si).toBeLessThan(widest);
    expect(beside()).toEqual(beside());
  });
});

describe("records that cannot be meant", () => {
  const programme = programmeOf("EM-07");
  const valve = (change: Partial<Valve>) => ({
    ...withValve(programme, "EM-0712", change),
    replacement: { ...(programme.replacement as Valve), ...change },
  });
  const stops = (...depths: number[]) =>
    withWell(programme, {
      lastFound: {
        ...(programme.well?.lastFound as NonNullable<Well["lastFound"]>),
        survey: depths.map((depth) => ({
          trueVerticalDepth: { value: depth, unit: "ft" },
          pressure: { value: 100 + depth / 10, unit: "psig" },
        })),
      },
    });
  const mandrelAt = (depth: number) =>
    withWell(programme, {
      mandrels: (programme.well as Well).mandrels.map((mandrel) =>
        mandrel.number === 5
          ? { ...mandrel, depthAlongHole: { value: depth, unit: "ft" } }
          : mandrel,
      ),
    });
  const inch = (value: number) => ({ value, unit: "in" as const });

  // A log or a pack of another day may hold them: they are named, and nothing falls over.
  it.each<[string, Programme]>([
    ["a port of nothing", valve({ port: inch(0) })],
    ["a port wider than the bellows", valve({ port: inch(0.7) })],
    ["no bellows area", valve({ bellowsArea: { value: 0, unit: "in2" } })],
    ["a seal inside the bore", valve({ seat: "lapped", sealDiameter: inch(0.1) })],
    ["a spring that pulls", valve({ springPressure: { value: -100, unit: "psi" } })],
    ["a spring above the card", valve({ springPressure: { value: 5000, unit: "psi" } })],
    ["a ball through the seat", valve({ ballDiameter: inch(0.05) })],
    [
      "a card of a vacuum",
      valve({ card: { day: "2026-11-12", testRackOpening60F: { value: -14, unit: "psig" } } }),
    ],
    ["a survey run upward", stops(5802, 3227, 0)],
    ["a survey with a stop twice", stops(0, 3000, 3000)],
    ["a mandrel above the ground", mandrelAt(-5)],
    ["a mandrel at the surface", mandrelAt(0)],
    ["a mandrel out of order", mandrelAt(2000)],
    ["a survey of one stop", stops(1000)],
  ])("%s", (_, of) => {
    for (const scenario of [planned, replaced, found]) {
      const asked = { ...scenario, wellhead: { value: -14.69, unit: "psig" } } as const;
      for (const each of [scenario, asked]) {
        const results = wellOf(of, {}, each);
        expect(results.all().length).toBeGreaterThan(20);
        const states = mandrelStates(results);
        expect(states).toHaveLength(5);
        expect(entryInWords(states)).toMatch(/\.$/);
        expect(unloadingInWords(unloadingOf(results), write)).toMatch(/\.$/);
        expect(depthLines(results).injection.length).toBeGreaterThan(0);
        for (const { mandrel } of states) {
          for (const figure of mandrelFigures) {
            expect(results.get(mandrelResultId(figure, mandrel.number))).toBeDefined();
          }
        }
      }
    }
    expect(readinessOf(of).points.length).toBeGreaterThanOrEqual(0);
  });

  it("are refused where they are entered", () => {
    const refusals = [
      wellSchema.safeParse(stops(0, 3000, 3000).well),
      wellSchema.safeParse(mandrelAt(-5).well),
      wellSchema.safeParse(
        withWell(programme, {
          mandrels: (programme.well as Well).mandrels.map((mandrel) => ({ ...mandrel, number: 1 })),
        }).well,
      ),
      valveSchema.safeParse(valve({ port: inch(0) }).replacement),
      valveSchema.safeParse(valve({ port: inch(0.7) }).replacement),
      valveSchema.safeParse(valve({ seat: "lapped", sealDiameter: inch(0.1) }).replacement),
      valveSchema.safeParse(valve({ ballDiameter: inch(0.05) }).replacement),
      valveSchema.safeParse(valve({ springPressure: { value: -1, unit: "psi" } }).replacement),
    ];
    expect(refusals.map(({ success }) => success)).toEqual(refusals.map(() => false));
  });
});

describe("a well that cannot be judged", () => {
  const programme = programmeOf("EM-07");
  const says = (of: Programme) =>
    readinessOf(of)
      .points.map((point) => point.says)
      .join(" | ");

  it("is asked about when its gradients or injection pressures are the wrong way round", () => {
    const onLift = programme.well?.onLift as NonNullable<Well["onLift"]>;
    expect(says(programme)).toBe("");
    expect(
      says(
        withWell(programme, {
          onLift: { ...onLift, loadGradient: { value: 0.05, unit: "psi/ft" } },
        }),
      ),
    ).toMatch(/load liquid \(0\.050 psi\/ft\) is less than the lifted one/);
    expect(
      says(
        withWell(programme, {
          pressures: {
            ...(programme.well as Well).pressures,
            operatingInjectionAtSurface: { value: 1200, unit: "psig" },
          },
        }),
      ),
    ).toMatch(/Operating injection \(1200 psig\) is above full injection/);
  });

  it("is asked about when it is not known whether it unloads", () => {
    const { onLift: _, ...well } = programme.well as Well;
    expect(says({ ...programme, well })).toMatch(
      /With EM-2041 in place: Not known whether the well unloads: needs wellhead pressure on lift/,
    );
  });

  it("says which gas should enter where once an empty pocket or a dummy sits at the bottom", () => {
    const dummy = withValve(programme, "EM-0715", { kind: "dummy" });
    const entry = wellOf(dummy, {}, planned)
      .get(mandrelResultId("production", 5))
      ?.givens.find(({ symbol }) => symbol === "he");
    expect(entry?.si).toBeCloseTo(figure(wellOf(dummy, {}, planned), "tvd", 4), 6);
  });
});

describe("injection down the tubing", () => {
  const reversed = withWell(programmeOf("EM-07"), {
    injectionDown: "tubing",
    tubingGas: {
      specificGravity: { value: 0.8, unit: "" },
      co2: { value: 0, unit: "mol %" },
      h2s: { value: 0, unit: "mol %" },
      n2: { value: 0, unit: "mol %" },
    },
  });
  const casing = {
    "casing pressure": {
      si: toSI("pressure", { value: 750, unit: "psig" }),
      at: "2026-11-25T08:00:00.000Z",
      by: "test",
      event: "e",
    },
  };

  it("puts the produced gas into the annulus and the injection gas into the tubing", () => {
    const { annulusGas, tubingGas, gas } = wellOf(reversed, casing).context;
    expect(tubingGas).toBe(gas);
    if (!annulusGas.ok || !gas.ok) throw new Error("gases not known");
    expect(annulusGas.value.molarMass).toBeGreaterThan(gas.value.molarMass);
    const heavier = wellOf(reversed, casing).value("annulus-at-mandrel") ?? 0;
    const lighter = wellOf(programmeOf("EM-07"), casing).value("annulus-at-mandrel") ?? 0;
    expect(heavier).toBeGreaterThan(lighter);
    const names = (id: "annulus-at-mandrel" | "tubing-at-mandrel") =>
      wellOf(reversed, casing)
        .get(id)
        ?.givens.map((given) => given.name);
    expect(names("annulus-at-mandrel")).toContain("Gas in the annulus");
    expect(names("tubing-at-mandrel")).toContain("Injection gas");
    const friction = wellOf(reversed, casing).get("injection-friction");
    expect(friction?.label).toBe("Friction of the gas going down the tubing");
    // What stands in the casing on lift is what is produced, not what is injected.
    const casingOnLift = wellOf(reversed, {}).get("hydrate-casing")?.givens[0];
    expect(casingOnLift?.name).toBe("Wellhead pressure on lift");
    expect(wellOf(reversed, casing).get("force-seated")?.outcome).toEqual({
      state: "missing",
      needs: ["how the mandrel is ported, with injection down the tubing"],
    });
  });

  it("is named before the job goes out, and does not stop it", () => {
    const point = readinessOf(reversed).points.find(({ says }) => /down the tubing/.test(says));
    expect(point).toMatchObject({ weight: "ask", stops: false });
  });
});
