import { Bench } from "tinybench";
import { gasByAnalysis } from "../../src/calc/gasByAnalysis.ts";
import { gasByGravity } from "../../src/calc/gasByGravity.ts";
import { gasColumn } from "../../src/calc/gasColumn.ts";
import { gasPassage, M3_S_PER_MSCF_DAY } from "../../src/calc/gasPassage.ts";
import type { LiftedStream } from "../../src/calc/liftedStream.ts";
import { liftTraverse } from "../../src/calc/liftTraverse.ts";
import { lineTension, oneFluid } from "../../src/calc/lineTension.ts";
import { domePressure, nitrogenPressure, nitrogenState } from "../../src/calc/nitrogen.ts";
import { M3_M3_PER_SCF_BARREL, M3_S_PER_BARREL_DAY } from "../../src/calc/oilProperties.ts";
import { openingBand, type Setting, sampledOpeningBand } from "../../src/calc/openingBand.ts";
import { verticalPath, wellPath } from "../../src/calc/path.ts";
import { pseudoRandom } from "../../src/calc/pseudoRandom.ts";
import { circle } from "../../src/calc/seat.ts";
import type { LiftedWell } from "../../src/calc/streamGradients.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  alongHoleM,
  fromDegF,
  fromFeetVertical,
  fromInches,
  fromPsia,
  KG_PER_LB,
  M_PER_FT,
  PA_PER_PSI,
  STANDARD_ATMOSPHERE,
  verticalM,
} from "../../src/calc/units.ts";
import { type FittedMandrel, type UnloadingPlan, unloading } from "../../src/calc/unloading.ts";
import type { ValveBody } from "../../src/calc/valve.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import { mandrelResultId } from "../../src/jobs/results/atMandrel.ts";
import { asPlanned } from "../../src/jobs/results/context.ts";
import { depthLines } from "../../src/jobs/results/depthLines.ts";
import { wholeWellOf } from "../../src/jobs/results/mandrelResults.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import { mandrelFigures } from "../../src/jobs/results/traced.ts";
import { unloadingOf } from "../../src/jobs/results/unloadingResult.ts";
import { mandrelStates } from "../../src/jobs/results/wholeWell.ts";
import { foldInOrder } from "../../src/jobs/state/jobState.ts";
import { progressOf } from "../../src/jobs/state/progress.ts";
import { Tablet } from "../jobs/demo.ts";
import { benchDiagnosis } from "./diagnosisBench.ts";
import { benchLibrary } from "./libraryBench.ts";
import { benchLongLog } from "./longLogBench.ts";
import { benchReport } from "./reportBench.ts";
import { benchTables } from "./tablesBench.ts";

/**
 * Performance, printed and never asserted: operations a second here, and the cost of each as a multiple of
 * one bare evaluation of the nitrogen equation in the same run, which another machine can compare.
 */
const temperature = fromDegF(150);
const gas = gasByGravity({ specificGravity: 0.66, co2: 0.011, h2s: 0, n2: 0.008 });
const temperatures = temperatureProfile([
  { depth: verticalM(0), temperature: fromDegF(85) },
  { depth: fromFeetVertical(6000), temperature: fromDegF(160) },
]);
const analysed = gasByAnalysis({
  methane: 0.87,
  ethane: 0.07,
  propane: 0.03,
  n_butane: 0.01,
  nitrogen: 0.01,
  carbon_dioxide: 0.01,
});
// The analysis keeps its last isotherm: two temperatures by turns show what one costs.
let elsewhere = temperature;
const port = { area: circle(fromInches(0.25)), dischargeCoefficient: 0.865 };
const passing = { molarMass: gas.molarMass, heatCapacityRatio: 1.27 };
const body: ValveBody = {
  kind: "injection-operated",
  areaRatio: 0.0291 / 0.31,
  springPressure: 0,
};
const setting: Setting = {
  body,
  testRack: fromPsia(1000),
  shopAtmosphere: STANDARD_ATMOSPHERE,
  setTolerance: 5 * PA_PER_PSI,
  temperature,
  temperatureUncertainty: 5,
  other: fromPsia(500),
};
const mandrels: FittedMandrel[] = Array.from({ length: 12 }, (_, i) => ({
  depth: fromFeetVertical(1500 + 400 * i),
  fitted:
    i === 11 ? { kind: "orifice" } : { kind: "bellows", body, dome60: fromPsia(800 - 10 * i) },
}));
const plan: UnloadingPlan = {
  kickOff: fromPsia(1100),
  operating: fromPsia(800),
  wellhead: fromPsia(120),
  loadGradient: (0.45 * PA_PER_PSI) / M_PER_FT,
  liftedGradient: (0.1 * PA_PER_PSI) / M_PER_FT,
  gas,
  temperatures,
};
/** A hole of 250 stations that builds to 60 degrees and turns and wavers on the way. */
const surveyed = wellPath(
  Array.from({ length: 250 }, (_, i) => ({
    depth: alongHoleM(15 * i),
    inclination: Math.min(1.05, 0.0045 * i) + 0.01 * Math.sin(i) ** 2,
    azimuth: 0.5 + 0.4 * Math.sin(i / 40),
  })),
);
const wire = {
  line: { diameter: fromInches(0.108), linearMass: (31.18 * KG_PER_LB) / (1000 * M_PER_FT) },
  string: { inAir: 700, meanDensity: 7850 },
  fluids: oneFluid(800),
  path: surveyed,
  friction: 0.2,
  pushOut: 60,
  packingFriction: 130,
};
const lifted: LiftedStream = {
  liquidRate: 600 * M3_S_PER_BARREL_DAY,
  waterCut: 0.5,
  apiGravity: 35,
  waterGravity: 1.07,
  formationGasRatio: 200 * M3_M3_PER_SCF_BARREL,
  formationGas: { specificGravity: 0.7, co2: 0.01, h2s: 0, n2: 0.01 },
  liftGas: { specificGravity: 0.65, co2: 0.01, h2s: 0, n2: 0.01 },
};
const deep: LiftedWell = {
  conduit: { outer: fromInches(2.441), inner: 0, roughness: fromInches(0.0018) },
  path: verticalPath(),
  temperatures,
  bottom: fromFeetVertical(10000),
};
const entries = [{ depth: fromFeetVertical(6000), rate: 600 * M3_S_PER_MSCF_DAY }];
const DRAWS = 1000;
const tablet = new Tablet().start().runTo(undefined);
const { programme } = tablet.state;
if (!programme) throw new Error("no programme");
const measured = {
  "casing pressure": { si: 5.3e6, at: tablet.clock, by: "bench", event: "bench" },
};

/** The programme's well with twelve bellows valves, each in a mandrel of its own. */
function twelve(of: Programme): Programme {
  const { well } = of;
  const [mandrel] = well?.mandrels ?? [];
  const valve = of.installed.find((each) => each.id === mandrel?.valve);
  if (!well || !mandrel || !valve) throw new Error("no well to make a long one from");
  const twelfths = Array.from({ length: 12 }, (_, i) => i + 1);
  return {
    ...of,
    well: {
      ...well,
      mandrels: twelfths.map((number) => ({
        ...mandrel,
        id: `bench-${number}`,
        number,
        depthAlongHole: { value: 1500 + 400 * number, unit: "ft" },
        valve: `bench-valve-${number}`,
      })),
    },
    installed: twelfths.map((number) => ({ ...valve, id: `bench-valve-${number}` })),
  };
}
const long = twelve(programme);

/** Everything that the well's screen shows, worked out anew. */
function wholeWell() {
  const results = wholeWellOf(long, asPlanned);
  mandrelStates(results);
  unloadingOf(results);
  depthLines(results);
  return (long.well?.mandrels ?? []).flatMap(({ number }) =>
    mandrelFigures.map((figure) => results.get(mandrelResultId(figure, number))),
  );
}

const BARE = "one evaluation of the nitrogen equation";
const bench = new Bench({ time: 500, warmupTime: 100 })
  .add(BARE, () => {
    nitrogenPressure(4000, temperature);
  })
  .add("nitrogen density solved from pressure", () => {
    nitrogenState(fromPsia(1500), temperature);
  })
  .add("dome brought to 60 degF", () => {
    domePressure(fromPsia(1100), temperature, fromDegF(60));
  })
  .add("gas z by gravity", () => {
    gas.z({ pressure: fromPsia(1000), temperature });
  })
  .add("gas column of 6,000 ft", () => {
    gasColumn(fromPsia(1000), verticalM(0), [fromFeetVertical(6000)], gas, temperatures);
  })
  .add("gas passage", () => {
    gasPassage(fromPsia(1000), fromPsia(700), temperature, port, passing);
  })
  .add("z by DETAIL analysis", () => {
    elsewhere = elsewhere === temperature ? fromDegF(100) : temperature;
    analysed.z({ pressure: fromPsia(1000), temperature: elsewhere });
  })
  .add(`unloading of ${mandrels.length} mandrels`, () => {
    unloading(mandrels, plan);
  })
  .add("tubing traverse of 10,000 ft", () => {
    liftTraverse(lifted, deep, entries, fromPsia(135));
  })
  .add(`tension profile in and out, ${surveyed.points.length} stations`, () => {
    lineTension(wire, alongHoleM(3700), 500);
  })
  .add("opening band first order", () => {
    openingBand(setting);
  })
  .add("opening band, 1,000 draws", () => {
    sampledOpeningBand(setting, DRAWS, pseudoRandom(1));
  })
  .add("whole well, 12 mandrels", () => {
    wholeWell();
  })
  .add("whole well, 12 mandrels, 1,000 draws each", () => {
    for (const figure of wholeWell()) figure?.beside();
  })
  .add("every number of a job", () => {
    resultsOf(programme, measured).all();
  })
  .add(`fold of a whole run, ${tablet.events.length} events`, () => {
    foldInOrder(tablet.events);
  })
  .add("every hold point of a whole run", () => {
    progressOf(foldInOrder(tablet.events), tablet.clock, tablet.writer);
  })
  .add("verify the whole log", () => {
    brokenLinks(tablet.events);
  });
await bench.run();

const mean = (name: string) => bench.getTask(name)?.result?.mean ?? Number.NaN;
const rows = bench.tasks.map(({ name, result }) => ({
  what: name,
  "a second": Math.round(result?.hz ?? Number.NaN),
  "ms each": Number((result?.mean ?? Number.NaN).toPrecision(3)),
  "times one bare evaluation": Number((mean(name) / mean(BARE)).toPrecision(3)),
}));
console.table(rows);

console.table(await benchLongLog());

console.table(await benchTables());
const library = await benchLibrary();
console.table(library.times);
console.log(library.memory);

console.table(await benchReport());
const diagnosis = benchDiagnosis();
console.table(diagnosis.rates);
console.table(diagnosis.verdicts);
console.table(diagnosis.calibration);
console.table(diagnosis["mandrel in sum"]);
console.table(diagnosis["said in sum"]);
console.table(diagnosis.confusions);
console.table(diagnosis.scores);
console.table(diagnosis.times);
