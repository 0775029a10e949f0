import { InputError, requireNumber } from "./inputError.ts";
import {
  type Conduit,
  type LiftedStream,
  requireLifted,
  type StreamSection,
  streamSection,
} from "./liftedStream.ts";
import type { GasState } from "./method.ts";
import type { WellPath } from "./path.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import { beggsBrill, type TwoPhaseGradient, type TwoPhaseStream } from "./twoPhaseFlow.ts";
import { absolutePa, alongHoleM, M_PER_FT, type VerticalM, verticalM } from "./units.ts";

/** Of the path, where its inclination is read. */
const PATH_STEP = 100 * M_PER_FT;
/** Deeper than any hole drilled: it keeps the walk down a path that never gets there in bounds. */
const DEEPEST = 20_000;

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

/** Gradients of a stream at any depth of a well, for any amount of lift gas in it. */
interface Gradients {
  /** made once for every amount of lift gas */
  section(lift: number): StreamSection;
  flow(section: StreamSection, pressure: number, depth: number): TwoPhaseGradient;
  slope(section: StreamSection, pressure: number, depth: number): number;
  slopeOf(flowing: TwoPhaseStream, pressure: number, depth: number): number;
  stateAt(pressure: number, depth: number): GasState;
}

/**
 * @param stream, well as of liftTraverse
 * @throws InputError for a stream, a conduit or a bottom that cannot be, and for a path that runs level or upward above the bottom
 * Source: see beggsBrillMethod; dp/dh is dp/dL over the cosine of the inclination.
 */
export function gradientsOf(stream: LiftedStream, well: LiftedWell): Gradients {
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
