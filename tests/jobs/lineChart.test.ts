import { describe, expect, it } from "vitest";
import {
  fromFeetAlongHole,
  fromPsig,
  M_PER_FT,
  N_PER_LBF,
  RAD_PER_DEG,
  STANDARD_ATMOSPHERE,
} from "../../src/calc/units.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import {
  type LineChart,
  lineChart,
  type Movement,
  type Worked,
} from "../../src/jobs/results/lineChart.ts";
import { linePulls, lineReadings } from "../../src/jobs/results/lineReadings.ts";
import type { Measurements } from "../../src/jobs/results/measurements.ts";
import { type Balance, balances } from "../../src/jobs/results/pushOutBalances.ts";
import { type Results, resultsOf } from "../../src/jobs/results/results.ts";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { stepsOf } from "../../src/jobs/sheet/walk.ts";
import { resultsAt } from "../../src/jobs/state/conditions.ts";
import { readyProgramme, Tablet } from "./demo.ts";

/**
 * A vertical hole, nothing but the records' figures in it, so that every pull is a sum by hand: gauge string
 * 112 lb, line 31.18 lb per 1,000 ft of 0.108 in, 320 psig at the wellhead, 30 lbf in the packing, liquid of
 * 0.36 psi/ft from 2,900 ft, mandrels at 1,880 and 4,380 ft among others, the deepest at 6,050 ft.
 */
const ready = readyProgramme();
const well = ready.well as NonNullable<Programme["well"]>;
const programme: Programme = {
  ...ready,
  well: { ...well, path: { kind: "vertical" } },
  job: {
    ...ready.job,
    expected: {
      wellheadPressure: { value: 320, unit: "psig" },
      fluidLevelAlongHole: { value: 2900, unit: "ft" },
      packingFriction: { value: 30, unit: "lbf" },
      fluidDensity: { value: 0, unit: "lb/ft3" },
      friction: { value: 0.2, unit: "" },
    },
    unit: { indicator: "counter head" },
  },
};

const measured = (si: number) => ({ si, at: "2026-11-25T08:00:00.000Z", by: "test", event: "e" });
const psig = (gauge: number) => measured(fromPsig(gauge, STANDARD_ATMOSPHERE));

function known<T>(worked: Worked<T>): T {
  if (worked.state !== "known") throw new Error(JSON.stringify(worked));
  return worked;
}
const chartOf = (what: Measurements = {}, of: Programme = programme) =>
  known(lineChart(resultsOf(of, what), "gauge"));

/** lbf that a chart shows at a depth, ft. */
function at(chart: LineChart, feet: number, movement: Movement = "hanging"): number {
  const index = chart.depths.indexOf(fromFeetAlongHole(feet));
  return (chart[movement][index] as number) / N_PER_LBF;
}

describe("what the indicator should read over depth", () => {
  // Statics by hand: 0.108 in wire has 0.0091609 in2, so 320 psig push out 2.931 lbf.
  // In gas: 112 + 31.18 x 1.88 - 2.931. In liquid of 830.4 kg/m3 steel keeps 0.8942 of its weight:
  // 112 x 0.8942 + 31.18 x (2.9 + 1.48 x 0.8942) - 2.931. Tolerance: the fifth digit of the steel's share.
  it.each([
    { feet: 1880, hanging: 167.69 },
    { feet: 4380, hanging: 228.91 },
  ])("is string and line less push-out at $feet ft", ({ feet, hanging }) => {
    const chart = chartOf();
    expect(Math.abs(at(chart, feet) - hanging)).toBeLessThan(0.02);
    // Nothing rubs in a vertical hole but the packing.
    expect(at(chart, feet) - at(chart, feet, "runningIn")).toBeCloseTo(30, 6);
    expect(at(chart, feet, "pullingOut") - at(chart, feet)).toBeCloseTo(30, 6);
  });

  it("runs from surface to the deepest mandrel, with every mandrel's depth in it", () => {
    const feet = chartOf().depths.map((depth) => Math.round((depth / M_PER_FT) * 100) / 100);
    expect(feet[0]).toBe(0);
    expect(feet.at(-1)).toBe(6050);
    expect(feet).toEqual(expect.arrayContaining([1880, 3240, 4380, 5290]));
    expect(feet).toEqual([...feet].sort((a, b) => a - b));
  });

  it("goes on to where the gauge went", () => {
    const gauge = { "gauge depth reached": measured(6360 * M_PER_FT) };
    expect(chartOf(gauge).depths.at(-1)).toBeCloseTo(6360 * M_PER_FT, 9);
  });

  it("falls by what the string loses where it dips into the liquid, and there only", () => {
    const { depths, hanging } = chartOf();
    const falls = hanging.flatMap((si, index) => {
      const before = hanging[index - 1] ?? si;
      return si < before ? [{ depth: depths[index] as number, by: (before - si) / N_PER_LBF }] : [];
    });
    // 112 lbf x 830.4 / 7850.
    expect(falls).toHaveLength(1);
    expect(falls[0]?.depth).toBeCloseTo(2900 * M_PER_FT, 2);
    expect(falls[0]?.by).toBeCloseTo(11.85, 2);
  });

  it("moves with the wellhead pressure that was read", () => {
    // 580 psi more on 0.0091609 in2.
    const less = at(chartOf(), 4380) - at(chartOf({ "wellhead pressure": psig(900) }), 4380);
    expect(less).toBeCloseTo(5.313, 3);
  });

  it("moves with the angle that was read at the hay pulley, the limit too", () => {
    const unit = {
      indicator: "hay pulley",
      calibratedAngle: { value: 90, unit: "deg" },
    } as const;
    const pulley = { ...programme, job: { ...programme.job, unit } };
    const read = chartOf({ "line angle": measured(110 * RAD_PER_DEG) }, pulley);
    // cos 55 / cos 45 = 0.81116: set for 90 and run at 110 degrees it reads 19 % low (statics).
    expect(at(read, 4380) / at(chartOf(), 4380)).toBeCloseTo(0.81116, 5);
    expect((read.limit as number) / N_PER_LBF).toBeCloseTo(1055 * 0.81116, 2);
  });

  it("has half of the certified strength as its limit, and none where no policy says how much", () => {
    expect((chartOf().limit as number) / N_PER_LBF).toBeCloseTo(1055, 6);
    const { policy: _, ...without } = programme;
    const chart = chartOf({}, without);
    expect(chart.limit).toBeUndefined();
    expect(at(chart, 1880)).toBeCloseTo(at(chartOf(), 1880), 9);
  });

  it("says down to where the line would have to be pushed in", () => {
    // 10,000 psig push out 91.609 lbf: 112 - 91.609 - 30 = -9.609, made up by the line below 308 ft. Legs of
    // 151.25 ft: the last one short of that is 302.5 ft.
    const chart = chartOf({ "wellhead pressure": psig(10_000) });
    expect((chart.pushed as number) / M_PER_FT).toBeCloseTo(302.5, 6);
    expect(chartOf().pushed).toBeUndefined();
  });

  it("says so too where the line goes slack below while the indicator still shows a pull", () => {
    const station = (feet: number, degrees: number) => ({
      depthAlongHole: { value: feet, unit: "ft" as const },
      inclination: { value: degrees, unit: "deg" as const },
      azimuth: { value: 0, unit: "deg" as const },
    });
    const stations = [station(0, 0), station(3300, 0), station(4200, 84), station(4380, 84)];
    const path = { kind: "surveyed" as const, stations };
    const chart = chartOf({}, { ...programme, well: { ...well, path } });
    expect(at(chart, 4380, "runningIn")).toBeGreaterThan(20);
    // Held to the deepest mandrel: nowhere below the build does it slide.
    expect((chart.pushed as number) / M_PER_FT).toBeCloseTo(6050, 6);
  });

  it.each([
    {
      without: "line",
      of: (({ line: _, ...rest }) => rest)(programme),
      needs: ["Line diameter", "Mass per length of the line"],
    },
    {
      without: "gauge string",
      of: { ...programme, strings: {} },
      needs: ["Weight of the string in air"],
    },
    {
      without: "expected wellhead pressure",
      of: {
        ...programme,
        job: {
          ...programme.job,
          expected: (({ wellheadPressure: _, ...rest }) => rest)(programme.job.expected),
        },
      },
      needs: ["Wellhead pressure"],
    },
  ])("names what is missing without $without", ({ of, needs }) => {
    const chart = lineChart(resultsOf(of, {}), "gauge");
    expect(chart.state === "missing" && chart.needs).toEqual(expect.arrayContaining(needs));
  });
});

describe("weight against push-out", () => {
  const lbf = (balance: Balance) =>
    Object.fromEntries(
      Object.entries(balance).flatMap(([key, si]) =>
        typeof si === "number" ? [[key, Math.round((si / N_PER_LBF) * 100) / 100]] : [],
      ),
    );

  it("is a sum by hand under the closed valve and at the mandrel", () => {
    const { surface, mandrel } = balances(resultsOf(programme, {}), []);
    // 1.3 x (2.931 + 30) = 42.81; 112 - 42.81.
    expect(lbf(known(surface))).toEqual({
      pushOut: 2.93,
      packing: 30,
      drag: 0,
      string: 112,
      line: 0,
      wanted: 42.81,
      margin: 69.19,
    });
    // 112 x 0.8942; 31.18 x (2.9 + 1.48 x 0.8942).
    const below = lbf(known(mandrel));
    expect(below.string).toBeCloseTo(100.15, 1);
    expect(below.line).toBeCloseTo(131.69, 1);
    expect(below).toMatchObject({ pushOut: 2.93, packing: 30, drag: 0, wanted: 42.81 });
  });

  it("falls short where push-out is not beaten", () => {
    // 1.3 x (91.609 + 30) = 158.09.
    const { surface } = balances(resultsOf(programme, { "wellhead pressure": psig(10_000) }), []);
    expect(lbf(known(surface))).toMatchObject({ margin: -46.09 });
  });

  it("names what is missing, and asks for no margin that no policy states", () => {
    const { strings: _, ...rest } = programme;
    const none = balances(resultsOf({ ...rest, strings: {} }, {}), []);
    expect(none.surface).toMatchObject({ needs: ["Weight of the lightest string in air"] });
    expect(none.mandrel).toMatchObject({ needs: ["tool string"] });
    const { policy: __, ...unlimited } = programme;
    const { surface } = balances(resultsOf(unlimited, {}), []);
    expect(known(surface)).toMatchObject({ wanted: undefined, margin: undefined });
  });
});

describe("line pulls that were read", () => {
  const tablet = new Tablet().start().runTo("set-out");
  const { state } = tablet;
  const results = resultsAt(state) as Results;
  const readings = lineReadings(state, results);
  const of = (field: string) => readings.find((reading) => reading.field === field);

  it("have a place on the chart for every line pull that the run sheet takes", () => {
    const forces = stepsOf(changeOut)
      .flatMap(({ fields }) => fields)
      .filter((field) => field.kind === "quantity" && field.dimension === "force")
      .map(({ id }) => id);
    expect(linePulls.map(({ field }) => field).sort()).toEqual(forces.sort());
  });

  it.each([
    { field: "pull-in", purpose: "gauge", feet: 0, lbf: 72 },
    { field: "pull-out", purpose: "gauge", feet: 0, lbf: 124 },
    { field: "upper-hanging", purpose: "gauge", feet: 1200, lbf: 145 },
    { field: "lower-slack-off", purpose: "gauge", feet: 2400, lbf: 155 },
    { field: "hanging", purpose: "gauge", feet: 4380, lbf: 235 },
    { field: "pick-up", purpose: "gauge", feet: 4380, lbf: 270 },
    { field: "slack-off", purpose: "gauge", feet: 4380, lbf: 200 },
    { field: "key-pull", purpose: "pull", feet: 4383, lbf: 480 },
    { field: "latch-pull", purpose: "pull", feet: 4383, lbf: 330 },
    { field: "pull-largest", purpose: "pull", feet: 4383, lbf: 840 },
    { field: "set-pick-up", purpose: "set", feet: 4383, lbf: 300 },
    { field: "test-pull-force", purpose: "set", feet: 4383, lbf: 450 },
    { field: "shear-largest", purpose: "set", feet: 4383, lbf: 990 },
  ])("land where the string was: $field, $lbf lbf at $feet ft", ({ field, purpose, feet, lbf }) => {
    const reading = of(field);
    expect(reading?.purpose).toBe(purpose);
    expect(reading?.depth).toBeCloseTo(feet * M_PER_FT, 9);
    expect((reading?.si ?? 0) / N_PER_LBF).toBeCloseTo(lbf, 9);
    expect(reading?.overLimit).toBe(false);
  });

  it("come in the order they were taken", () => {
    expect(readings[0]?.field).toBe("pull-in");
    expect(readings.at(-1)?.field).toBe("shear-largest");
  });

  it("are held against the chart where the string moves or hangs, and against nothing where it pulls", () => {
    const chart = known(lineChart(results, "gauge"));
    const index = chart.depths.indexOf(fromFeetAlongHole(4380));
    expect(of("hanging")?.expected).toBeCloseTo(chart.hanging[index] as number, 6);
    expect(of("pick-up")?.expected).toBeCloseTo(chart.pullingOut[index] as number, 6);
    expect(of("slack-off")?.expected).toBeCloseTo(chart.runningIn[index] as number, 6);
    // The string hangs lighter on the way than at the mandrel: less line is out.
    expect(of("upper-hanging")?.expected).toBeLessThan(of("lower-hanging")?.expected ?? 0);
    expect(of("lower-hanging")?.expected).toBeLessThan(of("hanging")?.expected ?? 0);
    expect(of("latch-pull")?.expected).toBeUndefined();
  });

  it("give the weight of the string: half-way between in and out, push-out added", () => {
    const { surface, mandrel } = balances(results, readings);
    const pushOut = results.value("push-out") as number;
    // (72 + 124) / 2 and 235 lbf, read at the angle that the indicator is calibrated for.
    expect(known(surface).measured).toBeCloseTo(98 * N_PER_LBF + pushOut, 6);
    expect(known(mandrel).measured).toBeCloseTo(235 * N_PER_LBF + pushOut, 6);
  });

  it("are over the limit above the largest permitted pull only", () => {
    const over = new Tablet().start().runTo(
      "correlate",
      {
        "gauge-down": { "pick-up": { text: "1056", unit: "lbf" } },
      },
      "tight spot, looked at",
    );
    const found = lineReadings(over.state, resultsAt(over.state) as Results);
    expect(found.filter(({ overLimit }) => overLimit).map(({ field }) => field)).toEqual([
      "pick-up",
    ]);
  });

  it("are none before a programme is issued", () => {
    expect(lineReadings(new Tablet().state, resultsOf(programme, {}))).toEqual([]);
  });
});
