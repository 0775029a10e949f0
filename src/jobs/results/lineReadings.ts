import { lineWeights } from "../../calc/lineTension.ts";
import { type AlongHoleM, alongHoleM } from "../../calc/units.ts";
import { atMost } from "../checks/compare.ts";
import { pocketsOf } from "../pockets.ts";
import { toSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import { pocketSuffix } from "../sheet/changeOut/pocket.ts";
import { fieldById, pocketOfField, stepById } from "../sheet/walk.ts";
import { type JobState, latestReading } from "../state/jobState.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { holeWith, type Movement, type Purpose } from "./lineChart.ts";
import type { Results } from "./results.ts";

/** Line pulls that were read on location, beside what the calculation says there. */

/** Where the string is when its line pull is read. */
type Stop = "surface" | "on the way" | "mandrel";

/** A field of the run sheet that takes a line pull, and where the string is when it is read. */
interface LinePull {
  readonly field: string;
  readonly at: Stop;
  /** the field that says the depth, or says it more closely */
  readonly depth?: string;
  /** the expected pull it is held against; none where the line pulls on what holds */
  readonly against?: Movement;
}

/** Every line pull that the run sheet takes. The first two are read in the first 100 ft. */
export const linePulls: readonly LinePull[] = [
  { field: "pull-in", at: "surface", against: "runningIn" },
  { field: "pull-out", at: "surface", against: "pullingOut" },
  ...onTheWay("upper"),
  ...onTheWay("lower"),
  { field: "hanging", at: "mandrel", against: "hanging" },
  { field: "pick-up", at: "mandrel", against: "pullingOut" },
  { field: "slack-off", at: "mandrel", against: "runningIn" },
  { field: "key-pull", at: "mandrel", depth: "pocket-depth" },
  { field: "latch-pull", at: "mandrel", depth: "pocket-depth" },
  { field: "pull-largest", at: "mandrel", depth: "pocket-depth" },
  { field: "set-pick-up", at: "mandrel", depth: "set-depth", against: "pullingOut" },
  { field: "test-pull-force", at: "mandrel", depth: "set-depth" },
  { field: "shear-largest", at: "mandrel", depth: "set-depth" },
];

function onTheWay(stop: "upper" | "lower"): LinePull[] {
  const at = { at: "on the way", depth: `${stop}-stop` } as const;
  return [
    { field: `${stop}-hanging`, ...at, against: "hanging" },
    { field: `${stop}-pick-up`, ...at, against: "pullingOut" },
    { field: `${stop}-slack-off`, ...at, against: "runningIn" },
  ];
}

/** A line pull that was read on location, as the indicator showed it. */
export interface LineReading {
  readonly field: string;
  readonly label: string;
  /** of the string that hung on the line */
  readonly purpose: Purpose;
  readonly at: Stop;
  readonly depth: AlongHoleM;
  /** N */
  readonly si: number;
  readonly against: Movement | undefined;
  /** what the calculation says there, N; undefined where it says nothing */
  readonly expected: number | undefined;
  /** above the largest permitted pull */
  readonly overLimit: boolean;
  readonly takenAt: string;
  readonly by: string;
}

/** Readings that every pocket has of its own, by where their depth is read. */
const ofPocket: readonly (string | undefined)[] = ["pocket-depth", "set-depth"];

/** Where a field is read when it is read at a mandrel, m: the gauge goes to the lowest of several. */
function mandrelOf({ sheet, well }: Programme, field: string): number | undefined {
  const pocket = pocketOfField(sheet, field);
  const mandrel = well?.mandrels.find(({ id }) => id === pocket);
  return mandrel && toSI("length", mandrel.depthAlongHole);
}

/**
 * The latest reading of every line pull of the sheet, in the order they were taken.
 *
 * @param results of the pocket whose readings are meant, where the job has several
 * @param of      fields whose readings are asked for; undefined: all
 */
export function lineReadings(
  state: JobState,
  results: Results,
  of?: readonly string[],
): LineReading[] {
  const { programme } = state;
  if (!programme) return [];
  const { atmosphere } = results.context;
  const limit = results.value("largest-pull");
  const place = pocketsOf(programme.job).indexOf(results.context.programme.job.mandrel);
  const suffix = pocketSuffix(Math.max(0, place));
  return linePulls
    .map((pull) =>
      ofPocket.includes(pull.depth)
        ? { ...pull, field: `${pull.field}${suffix}`, depth: `${pull.depth}${suffix}` }
        : pull,
    )
    .flatMap(({ field, at, depth: depthField, against }) => {
      if (of && !of.includes(field)) return [];
      const reading = latestReading(state, field);
      const si = quantitySI(reading, atmosphere);
      const purpose = reading && stepById(programme.sheet, reading.step)?.string;
      if (!reading || si === undefined || !purpose) return [];
      const closer =
        depthField === undefined
          ? undefined
          : quantitySI(latestReading(state, depthField), atmosphere);
      const planned =
        at === "mandrel"
          ? (mandrelOf(programme, field) ?? results.value("target-depth"))
          : undefined;
      const depth = at === "surface" ? 0 : (closer ?? planned);
      if (depth === undefined) return [];
      const read: LineReading = {
        field,
        label: fieldById(programme.sheet, field)?.label ?? field,
        purpose,
        at,
        depth: alongHoleM(depth),
        si,
        against,
        expected: against && expectedAt(results, purpose, alongHoleM(depth), against),
        overLimit: limit !== undefined && !atMost(si, limit),
        takenAt: reading.takenAt,
        by: reading.event.actor.name,
      };
      return [{ read, place: state.readings.indexOf(reading) }];
    })
    .sort((one, other) => one.place - other.place)
    .map(({ read }) => read);
}

function expectedAt(
  results: Results,
  purpose: Purpose,
  depth: AlongHoleM,
  movement: Movement,
): number | undefined {
  const found = holeWith(results, purpose);
  if (found.state !== "known") return undefined;
  const [weights] = lineWeights(found.hole, [depth]);
  return weights && weights[movement] * found.indicator;
}
