import type { Writer } from "../display.ts";
import { focus } from "../pockets.ts";
import { type Dimension, toSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import { lineReadings } from "../results/lineReadings.ts";
import type { Channel, Measurements } from "../results/measurements.ts";
import { type Results, resultsFor } from "../results/results.ts";
import type { ResultId } from "../results/traced.ts";
import { holdPointsOf } from "../sheet/walk.ts";
import { type JobState, latestReading } from "../state/jobState.ts";
import { measurementsOf } from "../state/measurementsOf.ts";
import { atEachEvent } from "./moments.ts";
import { differenceOf, onPaper } from "./planActual.ts";

/** What the programme took as its inputs, what was measured of them, and how far that moved what the crew worked to. */

type Measurement = Channel | "packing friction" | "hanging weight";

/** A result that a measured input moved. SI. */
export interface Moved {
  readonly id: ResultId;
  readonly label: string;
  readonly dimension: Dimension;
  /** undefined where it was not known */
  readonly planned: number | undefined;
  readonly measured: number | undefined;
}

export interface MeasuredInput {
  readonly measurement: Measurement;
  readonly label: string;
  readonly dimension: Dimension;
  /** as the programme has it; undefined: it says nothing */
  readonly planned: number | undefined;
  readonly measured: number;
  /** instant, and who read it */
  readonly at: string;
  readonly by: string;
  /** event that it stands on: the reading, its correction, or what settled it */
  readonly event: string;
  /** what it alone moves, in digits as written */
  readonly moved: readonly Moved[];
}

export interface MeasuredInputs {
  /** in the order of the list below */
  readonly inputs: readonly MeasuredInput[];
  /** what all of them together moved */
  readonly together: readonly Moved[];
  /** when the pocket was last found level, whose pressures these are; undefined: the last readings of the run */
  readonly levelledAt: string | undefined;
  /** the numbers with all of them, and with none: for the working */
  readonly results: Results;
  readonly planned: Results;
}

interface Input {
  /** what has to be measured with it to say anything */
  readonly channels: readonly (keyof Measurements)[];
  readonly label: string;
  readonly dimension: Dimension;
  readonly planned: (programme: Programme, planned: Results) => number | undefined;
  /** as a reading shows it; of what is worked out from readings the result */
  readonly measured?: ResultId;
}

const inputs: readonly Input[] = [
  {
    channels: ["wellhead pressure"],
    label: "Wellhead pressure",
    dimension: "pressure",
    planned: ({ job }, { context }) => {
      const said = job.expected.wellheadPressure;
      return said && toSI("pressure", said, context.atmosphere);
    },
  },
  {
    channels: ["fluid level"],
    label: "Fluid level, along hole",
    dimension: "length",
    planned: ({ job }) => {
      const said = job.expected.fluidLevelAlongHole;
      return said && toSI("length", said);
    },
  },
  {
    channels: ["packing friction", "pull going in", "pull coming out"],
    label: "Packing friction, on the line",
    dimension: "force",
    planned: (_, planned) => planned.value("packing-friction"),
    measured: "packing-friction",
  },
  {
    channels: ["line angle"],
    label: "Angle between the lines at the hay pulley",
    dimension: "line angle",
    planned: ({ job }) => job.unit?.lineAngle && toSI("line angle", job.unit.lineAngle),
  },
  {
    channels: ["known counter", "known depth"],
    label: "Counter less schematic",
    dimension: "length",
    planned: () => 0,
    measured: "counter-correction",
  },
  {
    channels: ["card set pressure"],
    label: "Test-rack opening on the card",
    dimension: "pressure",
    planned: ({ replacement }, { context }) => {
      const said = replacement?.card?.testRackOpening60F;
      return said && toSI("pressure", said, context.atmosphere);
    },
  },
  {
    channels: ["casing pressure"],
    label: "Casing pressure, the pocket level",
    dimension: "pressure",
    // To bring the casing to is what the programme asks; what was read is held against it.
    planned: (_, planned) => planned.value("casing-level"),
  },
];

/** What the crew works to, and an engineer asks for first. */
const thatMatter: readonly ResultId[] = [
  "replacement-opening",
  "largest-pull",
  "hanging-pull",
  "out-pull",
  "push-out-ratio",
  "casing-level",
  "difference-at-mandrel",
  "counter-at-mandrel",
];

/**
 * @param pocket mandrel, by its id, that the results are for; undefined: the job's first
 * @returns undefined before a programme was issued
 */
export function measuredInputs(
  state: JobState,
  writer: Writer,
  pocket?: string,
): MeasuredInputs | undefined {
  const { issued } = state;
  const programme = state.programme && focus(state.programme, pocket);
  if (!issued || !programme) return undefined;
  const resultsWith = (measured: Measurements) => resultsFor(issued.hash, programme, measured);
  const planned = resultsWith({});
  const { measured, at } = whenLevelled(state, planned.context.atmosphere, pocket);
  const results = resultsWith(measured);
  const found = inputs.flatMap((input): MeasuredInput[] => {
    const of = input.channels.flatMap((channel) => measured[channel] ?? []);
    const [first] = of;
    const si = input.measured ? results.value(input.measured) : first?.si;
    if (!first || of.length < input.channels.length || si === undefined) return [];
    const alone = resultsWith(pick(measured, input.channels));
    return [
      {
        measurement: input.channels[0] as keyof Measurements,
        label: input.label,
        dimension: input.dimension,
        planned: input.planned(programme, planned),
        measured: si,
        at: first.at,
        by: first.by,
        event: first.event,
        moved: movedBetween(planned, alone, writer),
      },
    ];
  });
  return {
    inputs: [...found, ...hangingWeight(state, planned)],
    together: movedBetween(planned, results, writer),
    levelledAt: at,
    results,
    planned,
  };
}

/** The string as weighed at the mandrel: it goes into no calculation, and is what they are held against. */
function hangingWeight(state: JobState, planned: Results): MeasuredInput[] {
  return lineReadings(state, planned, ["hanging"]).flatMap((read): MeasuredInput[] => {
    const event = latestReading(state, read.field)?.standsOn;
    if (event === undefined) return [];
    return [
      {
        measurement: "hanging weight",
        label: read.label,
        dimension: "force",
        planned: read.expected,
        measured: read.si,
        at: read.takenAt,
        by: read.by,
        event,
        moved: [],
      },
    ];
  });
}

const pick = (measured: Measurements, channels: readonly (keyof Measurements)[]): Measurements =>
  Object.fromEntries(
    Object.entries(measured).filter(([channel]) =>
      channels.includes(channel as keyof Measurements),
    ),
  );

type Change = Pick<Moved, "dimension" | "planned" | "measured">;

/** What reads the same in the digits as written was not moved. */
export function isSame({ dimension, planned, measured }: Change, writer: Writer): boolean {
  const written = (si: number | undefined) => si !== undefined && writer.write(dimension, si);
  return written(planned) === written(measured);
}

function movedBetween(planned: Results, measured: Results, writer: Writer): Moved[] {
  return thatMatter.flatMap((id): Moved[] => {
    const traced = measured.get(id) ?? planned.get(id);
    const [was, is] = [planned.value(onPaper[id] ?? id), measured.value(id)];
    if (!traced) return [];
    const { label, dimension } = traced;
    const moved = { id, label, dimension, planned: was, measured: is };
    return is === undefined || isSame(moved, writer) ? [] : [moved];
  });
}

/**
 * What had been measured when the pocket was last found level: after that pressures are brought to something else on
 * purpose, to prove the seat. Without such a release, all that was measured.
 */
function whenLevelled(
  state: JobState,
  atmosphere: number,
  pocket: string | undefined,
): { readonly measured: Measurements; readonly at: string | undefined } {
  const sheet = state.programme?.sheet;
  const levels = new Set(
    (sheet ? holdPointsOf(sheet) : [])
      .filter(
        ({ conditions, pocket: of }) =>
          of === (pocket === state.programme?.job.mandrel ? undefined : pocket) &&
          conditions.some((each) => each.kind === "check" && each.check === "levelled"),
      )
      .map(({ id }) => id),
  );
  let found: { measured: Measurements; at: string } | undefined;
  atEachEvent(state, (event, then) => {
    if (event.body.type !== "hold released" || !levels.has(event.body.hold)) return;
    found = { measured: measurementsOf(then(), atmosphere, pocket), at: event.at };
  });
  return found ?? { measured: measurementsOf(state, atmosphere, pocket), at: undefined };
}

/** How far a figure was moved, in words: "+21 psi". */
export function movedInWords(change: Change, writer: Writer): string {
  const { dimension, planned, measured } = change;
  if (planned === undefined || measured === undefined) return "not in the programme";
  if (isSame(change, writer)) return "as planned";
  const by = measured - planned;
  const words = writer.write(differenceOf(dimension), Math.abs(by));
  return `${by < 0 ? "\u2212" : "+"}${words}`;
}

/** From what to what a figure was moved: "704 psig to 713 psig". */
export function fromToInWords({ dimension, planned, measured }: Moved, { write }: Writer): string {
  if (measured === undefined) return "not known any more";
  const is = write(dimension, measured);
  return planned === undefined
    ? `${is}, not in the programme`
    : `${write(dimension, planned)} to ${is}`;
}
