import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { liftTraverse } from "../../src/calc/liftTraverse.ts";
import { verticalPath } from "../../src/calc/path.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  absolutePa,
  fromDegF,
  fromFeetVertical,
  fromInches,
  PA_PER_PSI,
} from "../../src/calc/units.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { rankFaults } from "../../src/jobs/diagnosis/rank.ts";
import { writer } from "../../src/jobs/display.ts";
import type { Well } from "../../src/jobs/records/well.ts";
import { mandrelResultId } from "../../src/jobs/results/atMandrel.ts";
import { asPlanned } from "../../src/jobs/results/context.ts";
import { depthLines } from "../../src/jobs/results/depthLines.ts";
import { wholeWellOf } from "../../src/jobs/results/mandrelResults.ts";

/** EM-03 is vertical, with its orifice at 5,180 ft; its records made to say what flows in place of gradients. */
const programme = assemble(jobs.finished, library);
const { survey: _, ...lastFound } = programme.well?.lastFound ?? {};
const stream: NonNullable<Well["stream"]> = {
  liquidRate: { value: 600, unit: "bbl/d" },
  liquidDensity: { value: 950, unit: "kg/m3" },
  oilApiGravity: { value: 35, unit: "" },
  gasRate: { value: 800, unit: "Mscf/d" },
  gasGravity: { value: 0.68, unit: "" },
  tubingInside: { value: 2.441, unit: "in" },
  entersAlongHole: { value: 5580, unit: "ft" },
};
const well = {
  ...(programme.well as Well),
  lastFound,
  onLift: {
    wellhead: { value: 120, unit: "psig" },
    injectionRate: { value: 680, unit: "Mscf/d" },
  },
  stream,
} as Well;
const of = (changed: Partial<Well> = {}) =>
  wholeWellOf({ ...programme, well: { ...well, ...changed } }, asPlanned);
const production = (results: ReturnType<typeof of>, mandrel: number) =>
  results.get(mandrelResultId("production", mandrel));

describe("production pressure of a well whose stream is on record, and no survey or gradients", () => {
  it("is that of the traverse with the same stream, put together by hand", () => {
    // 1 bbl is 0.158987294928 m3, 1 scf 0.028316846592 m3, a day 86,400 s; 35 degAPI is 849.9 kg/m3 at 999.01 of water.
    const bblDay = 0.158987294928 / 86400;
    const mscfDay = 28.316846592 / 86400;
    const oil = (999.012 * 141.5) / (131.5 + 35);
    const byHand = liftTraverse(
      {
        liquidRate: 600 * bblDay,
        waterCut: (950 - oil) / (999.012 * 1.05 - oil),
        apiGravity: 35,
        waterGravity: 1.05,
        formationGasRatio: (120 * mscfDay) / (600 * bblDay),
        formationGas: { specificGravity: 0.68, co2: 0, h2s: 0, n2: 0 },
        liftGas: { specificGravity: 0.66, co2: 0.011, h2s: 0, n2: 0.008 },
      },
      {
        conduit: { outer: fromInches(2.441), inner: 0, roughness: fromInches(0.0018) },
        path: verticalPath(),
        temperatures: temperatureProfile([
          { depth: fromFeetVertical(0), temperature: fromDegF(107) },
          { depth: fromFeetVertical(5600), temperature: fromDegF(161) },
        ]),
        bottom: fromFeetVertical(5580),
      },
      [{ depth: fromFeetVertical(5180), rate: 680 * mscfDay }],
      absolutePa((120 + 14.696) * PA_PER_PSI),
    );
    for (const [mandrel, feet] of [
      [1, 1820],
      [4, 5180],
    ] as const) {
      const { outcome } = production(of(), mandrel) ?? {};
      const si = outcome?.state === "known" ? outcome.si : Number.NaN;
      // A tenth of a psi: the density of water has four digits here.
      expect(Math.abs(si - byHand.at(fromFeetVertical(feet)).pressure)).toBeLessThan(
        0.1 * PA_PER_PSI,
      );
    }
  });

  it("names the correlation and says that it was not measured", () => {
    const traced = production(of(), 3);
    expect(traced?.method.source).toContain("Beggs and Brill");
    expect(traced?.warnings.map((each) => (each.kind === "note" ? each.text : ""))).toContainEqual(
      expect.stringContaining("not measured"),
    );
  });

  it("draws the same as a line", () => {
    const results = of();
    const at = (mandrel: number, figure: "tvd" | "production") => {
      const outcome = results.get(mandrelResultId(figure, mandrel))?.outcome;
      return outcome?.state === "known" ? outcome.si : Number.NaN;
    };
    const line = depthLines(results).production;
    const point = line.find(({ depth }) => Math.abs(depth - at(2, "tvd")) < 1e-6);
    expect(point?.si).toBeCloseTo(at(2, "production"), 3);
  });

  it("gives way to stated gradients, and names what of the stream is missing", () => {
    const onLift = library.wells.find(({ id }) => id === "em-03")?.onLift;
    expect(production(of({ onLift }), 3)?.method.name).toMatch(/gradients/i);
    const { wellhead } = well.onLift ?? {};
    const bare = production(of({ onLift: wellhead && { wellhead } }), 3)?.outcome;
    expect(bare).toMatchObject({ state: "missing", needs: ["Injection rate"] });
    const heavy = of({ stream: { ...stream, liquidDensity: { value: 1500, unit: "kg/m3" } } });
    expect(production(heavy, 3)?.outcome).toMatchObject({ state: "no answer" });
  });
});

describe("which valve is at fault, in a well whose stream is on record", () => {
  it("stands on the correlation, and says so", () => {
    const answer = rankFaults(
      { well, valves: library.valves, policy: undefined, history: [] },
      {
        id: "one",
        revision: 1,
        well: well.id,
        opened: "2026-11-20T06:00:00.000Z",
        openedBy: "office",
        evidence: [
          {
            id: "gauges",
            kind: "pressures",
            at: "2026-11-20T06:00:00.000Z",
            source: "gauges",
            confidence: "good",
            injectionAtSurface: { value: 800, unit: "psig" },
            wellhead: { value: 122, unit: "psig" },
          },
        ],
      },
      writer("field"),
      { draws: 60 },
    );
    if ("needs" in answer) throw new Error(answer.needs.map(({ says }) => says).join("; "));
    expect(answer.assumed).toContainEqual(
      expect.stringMatching(/^Gradient above and below .*Beggs and Brill/),
    );
    const shallow = answer.ranked[0]?.predicted.profile;
    expect(shallow?.every(({ pressure }) => Number.isFinite(pressure.mean))).toBe(true);
  });
});
