import { requireNumber } from "./inputError.ts";
import type { LiftedStream } from "./liftedStream.ts";
import { distinctWarnings, type Method, type Warning, warnOutside } from "./method.ts";
import { oilViscosityMethod, solutionGasMethod } from "./oilProperties.ts";
import type { PressurePoint, PressureProfile } from "./pressureProfile.ts";
import { gradientsOf, type LiftedWell } from "./streamGradients.ts";
import { surfaceTensionMethod } from "./surfaceTension.ts";
import { beggsBrillMethod, type TwoPhaseGradient } from "./twoPhaseFlow.ts";
import { type AbsolutePa, absolutePa, M_PER_FT, type VerticalM, verticalM } from "./units.ts";
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
/** A place where lift gas goes into the stream. */
export interface GasEntry {
  readonly depth: VerticalM;
  /** m3/s standard, 0 or more */
  readonly rate: number;
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
  requireNumber("wellhead_pressure", wellhead, "above 0 absolute", (p) => p > 0);
  const stretches = stretchesOf(entries, well.bottom);
  const steps = stepsDown(slope, stretches, wellhead, stepError);
  const last = steps[steps.length - 1] as Step;
  const bounded: Method = {
    ...liftTraverseMethod,
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
