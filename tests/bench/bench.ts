import { Bench } from "tinybench";
import { gasByGravity } from "../../src/calc/gasByGravity.ts";
import { gasColumn } from "../../src/calc/gasColumn.ts";
import { domePressure, nitrogenPressure, nitrogenState } from "../../src/calc/nitrogen.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import { fromDegF, fromFeetVertical, fromPsia, verticalM } from "../../src/calc/units.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import { foldInOrder } from "../../src/jobs/state/jobState.ts";
import { progressOf } from "../../src/jobs/state/progress.ts";
import { Tablet } from "../jobs/demo.ts";

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
const tablet = new Tablet().start().runTo(undefined);
const { programme } = tablet.state;
if (!programme) throw new Error("no programme");
const measured = {
  "casing pressure": { si: 5.3e6, at: tablet.clock, by: "bench", event: "bench" },
};

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
