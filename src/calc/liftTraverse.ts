import { InputError, requireNumber } from "./inputError.ts";
import {
  type Conduit,
  type LiftedStream,
  requireLifted,
  type StreamSection,
  streamSection,
} from "./liftedStream.ts";
import {
  distinctWarnings,
  type GasState,
  type Method,
  type Warning,
  warnOutside,
} from "./method.ts";
import { oilViscosityMethod, solutionGasMethod } from "./oilProperties.ts";
import type { WellPath } from "./path.ts";
import type { PressurePoint, PressureProfile } from "./pressureProfile.ts";
import { surfaceTensionMethod } from "./surfaceTension.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import {
  beggsBrill,
  beggsBrillMethod,
  type TwoPhaseGradient,
  type TwoPhaseStream,
} from "./twoPhaseFlow.ts";
import {
  type AbsolutePa,
  absolutePa,
  alongHoleM,
  M_PER_FT,
  type VerticalM,
  verticalM,
} from "./units.ts";
import { waterMethod } from "./waterProperties.ts";

const DEPTH = "true vertical depth";
/**
 * A step is shortened until the two orders of its formula agree within this share of the pressure. Fixed steps would have to be
 * 25 ft where gas is thin and fast under the wellhead, and could be 1,000 ft a mile below; and the patterns of flow do not join,
 * so that the step from one into the next has to be found. Against a hundredth of it no pressure in the tests moves by 0.5 percent.
 */
const STEP_ERROR = 3e-4;
const LONGEST_STEP = 1000 * M_PER_FT;
/** Across the step between two patterns no length of step agrees: there it ends. */
const SHORTEST_STEP = 10 * M_PER_FT;
const FIRST_STEP = 100 * M_PER_FT;
/** Of the path, where its inclination is read. */
const PATH_STEP = 100 * M_PER_FT;
/** Deeper than any hole drilled: it keeps the walk down a path that never gets there in bounds. */
const DEEPEST = 20_000;

/** A place where lift gas goes into the stream. */
export interface GasEntry {
  readonly depth: VerticalM;
  /** m3/s standard, 0 or more */
  readonly rate: number;
}

/** The well a stream rises in. */
export interface LiftedWell {
  readonly conduit: Conduit;
  /** wellhead down, its first station at the wellhead or below it */
  readonly path: WellPath;
  /** of the stream, against true vertical depth */
  readonly temperatures: TemperatureProfile;
  /** how deep the answer is wanted, m, above 0 */
  readonly bottom: VerticalM;
}

export interface LiftTraverse extends PressureProfile {
  /** the steps' ends, depths rising from the wellhead */
  readonly points: readonly PressurePoint[];
  /** how the stream flows just above a depth between wellhead and bottom */
  flowAt(depth: VerticalM): TwoPhaseGradient;
}

export const liftTraverseMethod: Method = {
  name: "Pressure of a lifted stream, integrated from the wellhead down",
  formula:
    "dp/dh = (dp/dL)/cos i by Beggs and Brill at the pressure, temperature and gas of each depth; gas above an entry is the formation's and all that enters there and below; oil takes of it what it holds; Bogacki-Shampine steps of 10 to 1,000 ft, an end at every entry",
  source: [
    beggsBrillMethod,
    solutionGasMethod,
    oilViscosityMethod,
    waterMethod,
    surfaceTensionMethod,
  ]
    .map((part) => part.source)
    .join("; "),
  validity: [],
};

export const traverseTableMethod: Method = {
  ...liftTraverseMethod,
  name: "Pressure of a lifted stream, its properties from a table",
  formula: `densities, volumes, viscosities and surface tension straight between tabulated ones over lift gas, logarithm of pressure, and depth; ${liftTraverseMethod.formula}`,
};

/** dp/dh with so much lift gas in the stream, Pa/m. */
type Slope = (lift: number, pressure: number, depth: number) => number;

const CORRELATED: Warning = {
  kind: "note",
  text: "pressure by the Beggs and Brill (1973) correlation, not measured; it was fitted to pipes of 1 and 1.5 in, and 10 to 20 percent off in a well is common (from memory)",
};
const IN_ANNULUS: Warning = {
  kind: "note",
  text: "production in the annulus is counted as in a pipe of the hydraulic diameter, casing less tubing, which is an approximation",
};

/**
 * Pressure against depth in the space that produces, with gas entering at one or more depths.
 *
 * @param stream   what flows
 * @param well     conduit, path, temperatures, and how deep
 * @param entries  [n], n >= 0, in any order: lift gas, depth 0 to bottom; more than one where a valve leaks or passes
 * @param wellhead absolute, flowing, at depth 0, Pa
 * @param stepError what it is and why is said at STEP_ERROR
 * @returns a profile; below the bottom its end slope is carried on, with a warning
 * @throws InputError for anything that cannot be, for a path that runs level or upward above the bottom, and where the gas
 *         would have to move faster than its pressure can drive it
 * Holds for steady flow. Production up the annulus is counted with the hydraulic diameter; the friction of couplings,
 * mandrels and valves is left out.
 * @example liftTraverse(stream, well, [{ depth: 6,000 ft, rate: 600 Mscf/D }], fromPsia(135)).at(6,000 ft)
 *          // 600 bbl/D, half of it water, 200 scf/bbl, 2.441 in: 917 psia
 * Source: see liftTraverseMethod.
 */
export function liftTraverse(
  stream: LiftedStream,
  well: LiftedWell,
  entries: readonly GasEntry[],
  wellhead: AbsolutePa,
  stepError: number = STEP_ERROR,
): LiftTraverse {
  const gradients = gradientsOf(stream, well);
  const slope: Slope = (lift, p, h) => gradients.slope(gradients.section(lift), p, h);
  return traversed(liftTraverseMethod, slope, gradients, well, entries, wellhead, stepError);
}

/** What a table spans: beyond it everything is worked out in full. */
export interface TableSpan {
  readonly lowestPressure: AbsolutePa;
  readonly highestPressure: AbsolutePa;
  /** lift gas, all entries together, m3/s standard, above 0 */
  readonly mostLiftGas: number;
}

export interface TraverseTable {
  /** as liftTraverse, over the table */
  traverse(entries: readonly GasEntry[], wellhead: AbsolutePa): LiftTraverse;
}

const GAS_NODES = 12;
const PRESSURE_NODES = 32;
const DEPTH_STEP = 1000 * M_PER_FT;

/**
 * The properties of one stream in one well, tabulated, for thousands of traverses that differ in where and how much gas goes in
 * and in the wellhead's pressure.
 *
 * Densities, volumes, viscosities and surface tension are smooth and are nine tenths of the work; the gradient itself is worked
 * out from them, since between two patterns of flow it has steps that no table holds. 12 amounts of gas by 32 pressures by a
 * depth every 1,000 ft; a node is filled when a traverse first comes near it.
 *
 * @param stream, well as liftTraverse; corners of the temperatures between its depths are cut straight
 * @param span what the traverses will need
 * @returns traverses within 0.8 percent of the full ones (tested)
 * @throws InputError as liftTraverse, or for a span that spans nothing
 * Source: see traverseTableMethod.
 */
export function traverseTable(
  stream: LiftedStream,
  well: LiftedWell,
  span: TableSpan,
): TraverseTable {
  const gradients = gradientsOf(stream, well);
  const slope = tabulated(gradients, well, span);
  return {
    traverse: (entries, wellhead) =>
      traversed(traverseTableMethod, slope, gradients, well, entries, wellhead, STEP_ERROR),
  };
}

/** Measured pressures against a profile. */
export interface Misfit {
  /** [n] profile less measured, Pa, in the order of the stops */
  readonly differences: readonly number[];
  /** their mean: what a wrong wellhead pressure shows as, Pa */
  readonly mean: number;
  /** root of the mean of their squares, Pa */
  readonly rootMeanSquare: number;
  /** the one farthest from 0, with its sign, Pa */
  readonly largest: number;
}

/**
 * How far a profile is off what was measured.
 *
 * @param stops [n], n >= 1: the stops of a pressure survey
 * @throws InputError for no stop, or as the profile
 * Source: plain differences.
 */
export function misfit(profile: PressureProfile, stops: readonly PressurePoint[]): Misfit {
  if (stops.length === 0) throw new InputError("stops", 0, "at least 1 measured pressure");
  const differences = stops.map(({ depth, pressure }, index) => {
    requireNumber(`stops[${index}].pressure`, pressure, "above 0 absolute", (p) => p > 0);
    return profile.at(depth).pressure - pressure;
  });
  const sum = differences.reduce((total, d) => total + d, 0);
  const squares = differences.reduce((total, d) => total + d * d, 0);
  return {
    differences,
    mean: sum / stops.length,
    rootMeanSquare: Math.sqrt(squares / stops.length),
    largest: differences.reduce((far, d) => (Math.abs(d) > Math.abs(far) ? d : far), 0),
  };
}

interface Gradients {
  /** made once for every amount of lift gas */
  section(lift: number): StreamSection;
  flow(section: StreamSection, pressure: number, depth: number): TwoPhaseGradient;
  slope(section: StreamSection, pressure: number, depth: number): number;
  slopeOf(flowing: TwoPhaseStream, pressure: number, depth: number): number;
  stateAt(pressure: number, depth: number): GasState;
}

function gradientsOf(stream: LiftedStream, well: LiftedWell): Gradients {
  const { conduit, path, temperatures, bottom } = well;
  requireLifted(stream, conduit);
  requireNumber("bottom", bottom, `above 0 and at most ${DEEPEST} m`, (h) => h > 0 && h <= DEEPEST);
  const inclination = inclinationByDepth(path, bottom);
  const sections = new Map<number, StreamSection>();
  const diameter = conduit.outer - conduit.inner;
  const stateAt = (pressure: number, depth: number): GasState => ({
    pressure: absolutePa(pressure),
    temperature: temperatures.at(verticalM(depth)),
  });
  const flowOf = (flowing: TwoPhaseStream, pressure: number, depth: number) => {
    const pipe = {
      diameter,
      roughness: conduit.roughness,
      rise: Math.PI / 2 - inclination(depth),
    };
    return beggsBrill(flowing, pipe, absolutePa(pressure));
  };
  const flow = (section: StreamSection, pressure: number, depth: number) =>
    flowOf(section.at(stateAt(pressure, depth)), pressure, depth);
  const slopeOf = (flowing: TwoPhaseStream, pressure: number, depth: number) =>
    flowOf(flowing, pressure, depth).gradient / Math.cos(inclination(depth));
  return {
    section(lift) {
      const known = sections.get(lift);
      if (known) return known;
      const made = streamSection(stream, conduit, lift);
      sections.set(lift, made);
      return made;
    },
    flow,
    slopeOf,
    slope: (section, pressure, depth) =>
      slopeOf(section.at(stateAt(pressure, depth)), pressure, depth),
    stateAt,
  };
}

/** Inclination against true vertical depth, rad, straight between readings a hundred feet apart along hole. */
function inclinationByDepth(path: WellPath, bottom: VerticalM): (depth: number) => number {
  if (path.points.every((point) => point.inclination === 0)) return () => 0;
  const first = path.points[0] as WellPath["points"][number];
  const depths: number[] = [first.vertical];
  const inclinations: number[] = [first.inclination];
  for (let along = first.depth + PATH_STEP; ; along += PATH_STEP) {
    const { vertical, inclination } = path.at(alongHoleM(along));
    const above = depths[depths.length - 1] as number;
    if (vertical <= above || along > DEEPEST) {
      throw new InputError(
        "bottom",
        bottom,
        "above the part of the hole that runs level or upward: one true vertical depth has no single pressure there",
      );
    }
    depths.push(vertical);
    inclinations.push(inclination);
    if (vertical >= bottom) break;
  }
  return (depth) => {
    // Above the first station the well is vertical, as the path has it.
    if (depth < first.vertical) return 0;
    let low = 0;
    let high = depths.length - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((depths[middle] as number) <= depth) low = middle;
      else high = middle;
    }
    const from = depths[low] as number;
    const share = Math.min(1, (depth - from) / ((depths[high] as number) - from));
    const start = inclinations[low] as number;
    return start + share * ((inclinations[high] as number) - start);
  };
}

/** A step that was taken: its ends with the slope on their inner sides. */
interface Step {
  readonly lift: number;
  readonly from: number;
  readonly to: number;
  readonly pressure: number;
  readonly slope: number;
  readonly endPressure: number;
  readonly endSlope: number;
}

function traversed(
  method: Method,
  slope: Slope,
  gradients: Gradients,
  well: LiftedWell,
  entries: readonly GasEntry[],
  wellhead: AbsolutePa,
  stepError: number,
): LiftTraverse {
  requireNumber("wellhead_pressure", wellhead, "above 0 absolute", (p) => p > 0);
  const stretches = stretchesOf(entries, well.bottom);
  const steps = stepsDown(slope, stretches, wellhead, stepError);
  const last = steps[steps.length - 1] as Step;
  const bounded: Method = {
    ...method,
    validity: [
      {
        quantity: DEPTH,
        measure: DEPTH,
        from: 0,
        to: well.bottom,
        basis: "wellhead to the depth it was worked out to; beyond it the end slope is carried on",
      },
    ],
  };
  const points = [
    { depth: verticalM(0), pressure: wellhead },
    ...steps.map((step) => ({
      depth: verticalM(step.to),
      pressure: absolutePa(step.endPressure),
    })),
  ];
  const stepAt = (depth: number): Step => {
    let low = 0;
    let high = steps.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((steps[middle] as Step).to >= depth) high = middle;
      else low = middle + 1;
    }
    return steps[low] as Step;
  };
  let everywhere: readonly Warning[] | undefined;
  const warnings = (): readonly Warning[] => {
    everywhere ??= distinctWarnings([
      CORRELATED,
      ...(well.conduit.inner > 0 ? [IN_ANNULUS] : []),
      ...stretches.flatMap(({ lift, from, to }) =>
        [from, to].flatMap((depth) =>
          gradients
            .section(lift)
            .warningsAt(gradients.stateAt(pressureIn(stepAt(depth), depth), depth)),
        ),
      ),
      ...well.temperatures.warningsAt(verticalM(0)),
      ...well.temperatures.warningsAt(well.bottom),
    ]);
    return everywhere;
  };
  return {
    method: bounded,
    points,
    at(depth) {
      const pressure =
        depth > last.to
          ? last.endPressure + last.endSlope * (depth - last.to)
          : pressureIn(stepAt(depth), depth);
      requireNumber(
        "depth",
        depth,
        "nearer to the well: carried on to there its pressure is gone",
        () => pressure > 0,
      );
      return {
        pressure: absolutePa(pressure),
        warnings: [...warnings(), ...warnOutside(bounded, { [DEPTH]: depth })],
      };
    },
    flowAt(depth) {
      requireNumber(
        "depth",
        depth,
        "between the wellhead and the depth it was worked out to",
        (h) => h >= 0 && h <= last.to,
      );
      const step = stepAt(depth);
      return gradients.flow(gradients.section(step.lift), pressureIn(step, depth), depth);
    },
  };
}

/** Pressure inside a step by the cubic that has the pressures and the slopes of its ends; above the wellhead straight on. */
function pressureIn(step: Step, depth: number): number {
  const height = step.to - step.from;
  const s = (depth - step.from) / height;
  if (s < 0) return step.pressure + step.slope * (depth - step.from);
  const rest = 1 - s;
  return (
    step.pressure * rest * rest * (1 + 2 * s) +
    step.endPressure * s * s * (3 - 2 * s) +
    height * s * rest * (step.slope * rest - step.endSlope * s)
  );
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  /** lift gas in it, m3/s */
  readonly lift: number;
}

/** Stretches from the wellhead down, each with the gas that enters at its foot and below. */
function stretchesOf(entries: readonly GasEntry[], bottom: VerticalM): Stretch[] {
  entries.forEach(({ depth, rate }, index) => {
    requireNumber(`entries[${index}].rate`, rate, "0 or more", (q) => q >= 0);
    requireNumber(
      `entries[${index}].depth`,
      depth,
      `between 0 and the depth the traverse goes to (${bottom} m)`,
      (h) => h >= 0 && h <= bottom,
    );
  });
  const feet = [...new Set<number>([...entries.map((entry): number => entry.depth), bottom])]
    .filter((depth) => depth > 0)
    .sort((a, b) => a - b);
  return feet.map((to, index) => ({
    from: index === 0 ? 0 : (feet[index - 1] as number),
    to,
    lift: entries.reduce((sum, { depth, rate }) => (depth >= to ? sum + rate : sum), 0),
  }));
}

/** Bogacki and Shampine's pair of second and third order; its last slope is the next step's first. */
function stepsDown(
  slope: Slope,
  stretches: readonly Stretch[],
  wellhead: AbsolutePa,
  stepError: number,
): Step[] {
  const steps: Step[] = [];
  let pressure: number = wellhead;
  let wanted = FIRST_STEP;
  for (const { from, to, lift } of stretches) {
    let depth = from;
    let k1 = slope(lift, pressure, depth);
    while (depth < to) {
      const left = to - depth;
      const h = wanted < left ? Math.min(wanted, Math.max(left / 2, SHORTEST_STEP)) : left;
      const end = h >= left ? to : depth + h;
      const k2 = slope(lift, pressure + (h / 2) * k1, depth + h / 2);
      const k3 = slope(lift, pressure + ((3 * h) / 4) * k2, depth + (3 * h) / 4);
      const endPressure = pressure + (h / 9) * (2 * k1 + 3 * k2 + 4 * k3);
      const endSlope = slope(lift, endPressure, end);
      const error = (h / 72) * Math.abs(-5 * k1 + 6 * k2 + 8 * k3 - 9 * endSlope);
      const allowed = stepError * pressure;
      wanted = Math.min(
        LONGEST_STEP,
        Math.max(SHORTEST_STEP, h * Math.min(3, Math.max(0.2, 0.9 * Math.cbrt(allowed / error)))),
      );
      if (error > allowed && h > SHORTEST_STEP) continue;
      steps.push({ lift, from: depth, to: end, pressure, slope: k1, endPressure, endSlope });
      pressure = endPressure;
      k1 = endSlope;
      depth = end;
    }
  }
  return steps;
}

/** What of a stream a table holds: with the pressure taken out where it makes it straight. */
const FIELDS = 7;

/** The stream by interpolation; every node is worked out when a traverse first needs it. */
function tabulated(gradients: Gradients, well: LiftedWell, span: TableSpan): Slope {
  const { lowestPressure, highestPressure, mostLiftGas } = span;
  requireNumber("lowest_pressure", lowestPressure, "above 0 absolute", (p) => p > 0);
  requireNumber(
    "highest_pressure",
    highestPressure,
    "above the lowest pressure",
    (p) => p > lowestPressure,
  );
  requireNumber("most_lift_gas", mostLiftGas, "above 0", (q) => q > 0);
  const depthNodes = Math.max(2, Math.ceil(well.bottom / DEPTH_STEP) + 1);
  const depthStep = well.bottom / (depthNodes - 1);
  const lowest = Math.log(lowestPressure);
  const pressureStep = (Math.log(highestPressure) - lowest) / (PRESSURE_NODES - 1);
  // Squared, so that the nodes stand closer where little gas flows and each bit of it changes the mixture most.
  const liftAt = (node: number) => mostLiftGas * (node / (GAS_NODES - 1)) ** 2;
  const known = new Float64Array(GAS_NODES * PRESSURE_NODES * depthNodes * FIELDS).fill(Number.NaN);
  const placeOf = (g: number, p: number, d: number): number => {
    const place = ((g * PRESSURE_NODES + p) * depthNodes + d) * FIELDS;
    if (!Number.isNaN(known[place])) return place;
    const pressure = Math.exp(lowest + p * pressureStep);
    const made = gradients.section(liftAt(g)).at(gradients.stateAt(pressure, d * depthStep));
    known.set(
      [
        made.liquidVelocity,
        made.gasVelocity * pressure,
        made.liquidDensity,
        made.gasDensity / pressure,
        made.liquidViscosity,
        made.gasViscosity,
        made.surfaceTension,
      ],
      place,
    );
    return place;
  };
  return (lift, pressure, depth) => {
    const x = Math.sqrt(lift / mostLiftGas) * (GAS_NODES - 1);
    const y = (Math.log(pressure) - lowest) / pressureStep;
    if (!(x <= GAS_NODES - 1 && y >= 0 && y <= PRESSURE_NODES - 1)) {
      return gradients.slope(gradients.section(lift), pressure, depth);
    }
    const z = depth / depthStep;
    const g = Math.min(Math.floor(x), GAS_NODES - 2);
    const p = Math.min(Math.floor(y), PRESSURE_NODES - 2);
    const d = Math.min(Math.floor(z), depthNodes - 2);
    const dx = (lift - liftAt(g)) / (liftAt(g + 1) - liftAt(g));
    const dy = y - p;
    const dz = z - d;
    const field = [0, 0, 0, 0, 0, 0, 0] as [number, number, number, number, number, number, number];
    for (let corner = 0; corner < 8; corner += 1) {
      const [right, lower, deeper] = [corner & 1, (corner >> 1) & 1, (corner >> 2) & 1];
      const weight = (right ? dx : 1 - dx) * (lower ? dy : 1 - dy) * (deeper ? dz : 1 - dz);
      if (weight === 0) continue;
      const place = placeOf(g + right, p + lower, d + deeper);
      for (let i = 0; i < FIELDS; i += 1) {
        field[i] = (field[i] as number) + weight * (known[place + i] as number);
      }
    }
    return gradients.slopeOf(
      {
        liquidVelocity: field[0],
        gasVelocity: field[1] / pressure,
        liquidDensity: field[2],
        gasDensity: field[3] * pressure,
        liquidViscosity: field[4],
        gasViscosity: field[5],
        surfaceTension: field[6],
      },
      pressure,
      depth,
    );
  };
}
