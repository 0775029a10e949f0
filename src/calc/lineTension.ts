import { InputError, requireNumber } from "./inputError.ts";
import { type Line, largestPull, type WellFluids } from "./linePull.ts";
import { type Method, type Warning, warnOutside } from "./method.ts";
import type { WellPath } from "./path.ts";
import { buoyancyFactor, type StringWeight } from "./pushOut.ts";
import { circle } from "./seat.ts";
import { type AlongHoleM, alongHoleM, GRAVITY, type VerticalM } from "./units.ts";

export const lineTensionMethod: Method = {
  name: "Tension of the line along the hole (soft string)",
  formula:
    "−dT/ds = w cos i ± μ N, N = |T κ n + w sin i (low side)| = √((T κ)² + 2 T w d(cos i)/ds + (w sin i)²); at the tool T = W (1 − ρ/ρs)(cos i ± μ sin i) + overpull; + pulling out, − running in, μ = 0 hanging; above the packing T − F ± Fp",
  source:
    "Johancsik, Friesen and Dawson, SPE 11380 (1984), as a differential equation on the minimum-curvature path; equilibrium of a string without stiffness, Sheppard, Wick and Burgess, SPE 15463 (1987), from memory",
  validity: [
    {
      quantity: "friction coefficient",
      measure: "pure number",
      from: 0,
      to: 0.4,
      basis:
        "0.1 to 0.3 for wire in wet tubing is common practice; 0.25 to 0.40 was found for drill pipe in water-base mud (Johancsik et al.)",
    },
  ],
};

export const overpullAvailableMethod: Method = {
  name: "Overpull that the line can bring to the tool",
  formula:
    "the largest T at the tool with T ≤ fraction × breaking strength all along the line and T ≤ rope socket strength at the tool, less the tool's own W (1 − ρ/ρs)(cos i + μ sin i); the tension is followed from the packing down, pulling out",
  source: `${lineTensionMethod.source}; the fraction is policy: 50 to 60 percent is common practice`,
  validity: lineTensionMethod.validity,
};

/** One fluid from the wellhead down, kg/m3. */
export const oneFluid = (density: number): WellFluids => ({
  gasDensity: density,
  liquidDensity: density,
  level: 0 as VerticalM,
});

/** A line with a tool string in a hole. */
export interface LineInHole {
  readonly line: Line;
  /** weight in air and mean density; it counts as a point at the tool's depth */
  readonly string: StringWeight;
  readonly fluids: WellFluids;
  readonly path: WellPath;
  /** μ, of line and string alike, dimensionless */
  readonly friction: number;
  /** F, upward force of the well's pressure on the line at the packing, N (see pushOutForce) */
  readonly pushOut: number;
  /** Fp, against the movement, N */
  readonly packingFriction: number;
}

/** What the weight indicator sees: tensions above the packing, N. */
export interface LineWeights {
  /** negative: the line would have to be pushed in */
  readonly runningIn: number;
  readonly hanging: number;
  readonly pullingOut: number;
}

/** Tensions in the line at one depth, below the packing, N. */
export interface TensionPoint extends LineWeights {
  readonly depth: AlongHoleM;
}

export interface LineTension extends LineWeights {
  /** of the whole line pulling out, either side of the packing */
  readonly largest: { readonly tension: number; readonly depth: AlongHoleM };
  /** deepest place where running in would need a push: the string does not go there by its weight */
  readonly slack: AlongHoleM | undefined;
  /** [n], n >= 1, from surface (below the packing) to the tool; a depth stands twice where the tension jumps */
  readonly profile: readonly TensionPoint[];
  readonly warnings: readonly Warning[];
}

/** The weights, and the worst that going in comes to. */
export interface LineWeightsAt extends LineWeights {
  /** least tension of the line going in, anywhere from the tool to above the packing, N; negative: it goes slack */
  readonly least: number;
}

/** The worst of the whole way down. */
export interface LeastGoingIn {
  /** N; negative: a line that does not push leaves the string where it is */
  readonly tension: number;
  /** where the string is then */
  readonly tool: AlongHoleM;
}

/** What line and rope socket may carry. */
export interface TensionLimits {
  /** of the line as it is now, N */
  readonly breakingStrength: number;
  /** of it that policy allows, above 0 to 1 */
  readonly fraction: number;
  /** N, or undefined when not stated */
  readonly ropeSocketStrength?: number | undefined;
}

export interface OverpullAvailable {
  /** at the tool, N; negative: pulling out passes the limit without any overpull */
  readonly overpull: number;
  readonly limitedBy: "line" | "rope socket";
}

/** A part of the hole of constant curvature, described at its upper end. */
interface Reach {
  readonly top: number;
  readonly bottom: number;
  /** true vertical depth, m */
  readonly vertical: number;
  /** of the inclination */
  readonly cosine: number;
  /** vertical component of the principal normal */
  readonly normal: number;
  /** κ, 1/m */
  readonly curvature: number;
  /** angle turned at its upper end in no length, rad */
  readonly kink: number;
}

/** What of the path counts for the tension at one place. */
interface Place {
  readonly vertical: number;
  readonly cosine: number;
  /** d(cos i)/ds, 1/m */
  readonly bend: number;
}

/** A part of a reach in one fluid, over which the tension is carried in one go. */
interface Step {
  readonly top: number;
  readonly bottom: number;
  /** w, of the line in the fluid, N/m */
  readonly weight: number;
  readonly curvature: number;
  readonly upper: Place;
  readonly middle: Place;
  readonly lower: Place;
  /** angle turned in no length, rad */
  readonly kink: number;
}

/**
 * Longest step on an arc. In smooth parts the fourth-order step leaves nothing that shows; where the line
 * passes from the low to the high side N has a corner, and there these hold the error below 0.01 N.
 */
const LARGEST_TURN = 0.01;
const LONGEST_STEP = 25;

/** Below this a turn is rounding, rad. */
const NO_TURN = 1e-9;

function reachesOf({ points }: WellPath): Reach[] {
  const straight = { normal: 0, curvature: 0 };
  const reaches = points.map((point, i): Reach => {
    const next = points[i + 1];
    const start = {
      top: point.depth,
      vertical: point.vertical,
      cosine: Math.cos(point.inclination),
      kink: 0,
    };
    if (!next || next.dogleg < NO_TURN) {
      return { ...start, ...straight, bottom: next?.depth ?? Number.POSITIVE_INFINITY };
    }
    return {
      ...start,
      bottom: next.depth,
      normal:
        (Math.cos(next.inclination) - Math.cos(next.dogleg) * start.cosine) / Math.sin(next.dogleg),
      curvature: next.dogleg / (next.depth - point.depth),
    };
  });
  const [first, ...others] = reaches;
  if (!first || first.top === 0) return reaches;
  const vertical = { ...straight, top: 0, bottom: first.top, vertical: 0, cosine: 1, kink: 0 };
  return [vertical, { ...first, kink: points[0]?.inclination ?? 0 }, ...others];
}

function placeOf(reach: Reach, depth: number): Place {
  const { vertical, cosine, normal, curvature } = reach;
  const length = depth - reach.top;
  if (curvature === 0) return { vertical: vertical + cosine * length, cosine, bend: 0 };
  const turned = curvature * length;
  const [sin, cos] = [Math.sin(turned), Math.cos(turned)];
  return {
    vertical: vertical + (cosine * sin + normal * (1 - cos)) / curvature,
    cosine: cosine * cos + normal * sin,
    bend: curvature * (normal * cos - cosine * sin),
  };
}

/** Depths along hole where a reach passes a true vertical depth: none, one, or two where it turns up again. */
function crossings(reach: Reach, level: number): number[] {
  const { top, cosine, normal, curvature } = reach;
  const down = level - reach.vertical;
  if (curvature === 0) return [top + down / cosine];
  // cosine sin x - normal cos x = curvature down - normal, x being the angle turned
  const phase = Math.atan2(normal, cosine);
  const angle = Math.asin((curvature * down - normal) / Math.hypot(cosine, normal));
  const falling = phase - angle;
  return [phase + angle, phase + angle + 2 * Math.PI, falling + Math.PI, falling - Math.PI].map(
    (turned) => top + turned / curvature,
  );
}

/** Checks that both fluids let the line sink, and gives its weight in each, N/m. */
function lineWeightsIn(line: Line, fluids: WellFluids): { gas: number; liquid: number } {
  requireNumber("wire_diameter", line.diameter, "above 0", (d) => d > 0);
  requireNumber("linear_mass", line.linearMass, "above 0", (m) => m > 0);
  const density = line.linearMass / circle(line.diameter);
  const weightIn = (fluid: number) => {
    if (fluid >= density) {
      throw new InputError(
        "fluid_density",
        fluid,
        `below the line's mean density (${density.toFixed(0)} kg/m3), or it would float`,
      );
    }
    return line.linearMass * GRAVITY * buoyancyFactor(fluid, density);
  };
  return { gas: weightIn(fluids.gasDensity), liquid: weightIn(fluids.liquidDensity) };
}

function requireHole({ fluids, string, friction, pushOut, packingFriction }: LineInHole): void {
  if (Number.isNaN(fluids.level)) throw new InputError("level", fluids.level, "a depth");
  requireNumber("string_weight_in_air", string.inAir, "0 or more", (w) => w >= 0);
  requireNumber(
    "friction_coefficient",
    friction,
    "0 or more and at most 1",
    (mu) => mu >= 0 && mu <= 1,
  );
  requireNumber("push_out", pushOut, "a finite force");
  requireNumber("packing_friction", packingFriction, "0 or more", (f) => f >= 0);
}

/** Hole, line and fluids cut into steps from surface to the deepest tool depth; every tool depth ends a step. */
interface Track {
  readonly reaches: readonly Reach[];
  readonly steps: readonly Step[];
}

function trackOf(hole: LineInHole, tools: readonly number[]): Track {
  requireHole(hole);
  for (const tool of tools) requireNumber("tool_depth", tool, "0 or more", (d) => d >= 0);
  const deepest = Math.max(0, ...tools);
  const { level } = hole.fluids;
  const weights = lineWeightsIn(hole.line, hole.fluids);
  const reaches = reachesOf(hole.path);
  const steps: Step[] = [];
  for (const reach of reaches) {
    if (reach.top > deepest) break;
    const { top, curvature, kink } = reach;
    if (kink > 0) {
      const at = placeOf(reach, top);
      const here = { top, bottom: top, upper: at, middle: at, lower: at };
      steps.push({ ...here, weight: 0, curvature: 0, kink });
    }
    const end = Math.min(reach.bottom, deepest);
    const inside = [...tools, ...crossings(reach, level)].filter((d) => d > top && d < end);
    let upper = placeOf(reach, top);
    let from = top;
    for (const to of new Set([...inside.sort((a, b) => a - b), end])) {
      const count = stepCount(curvature, to - from);
      for (let i = 0; i < count; i += 1) {
        const length = (to - from) / count;
        const bottom = i === count - 1 ? to : from + length * (i + 1);
        const middle = placeOf(reach, from + length * (i + 0.5));
        const lower = placeOf(reach, bottom);
        const weight = middle.vertical > level ? weights.liquid : weights.gas;
        steps.push({
          top: from + length * i,
          bottom,
          weight,
          curvature,
          upper,
          middle,
          lower,
          kink: 0,
        });
        upper = lower;
      }
      from = to;
    }
  }
  return { reaches, steps };
}

/** A straight reach needs one step whatever its length: its tension is linear. */
function stepCount(curvature: number, length: number): number {
  if (length <= 0) return 0;
  if (curvature === 0) return 1;
  return Math.ceil(Math.max(1, (curvature * length) / LARGEST_TURN, length / LONGEST_STEP));
}

/** Rise of the tension a metre up the hole, N/m. `friction` carries the sign: positive pulling out. */
function rise(tension: number, step: Step, { cosine, bend }: Place, friction: number): number {
  const { weight, curvature } = step;
  const pull = tension * curvature;
  const sideSquared =
    pull * pull + 2 * tension * weight * bend + weight * weight * (1 - cosine * cosine);
  return weight * cosine + friction * Math.sqrt(Math.max(0, sideSquared));
}

/** Carries a tension from one end of a step to the other, by the classical fourth-order step of Runge and Kutta. */
function carry(tension: number, step: Step, friction: number, direction: "up" | "down"): number {
  const length = direction === "up" ? step.bottom - step.top : step.top - step.bottom;
  if (step.kink > 0) {
    const grip = friction * step.kink * Math.sign(tension);
    return tension * Math.exp(direction === "up" ? grip : -grip);
  }
  const [from, to] = direction === "up" ? [step.lower, step.upper] : [step.upper, step.lower];
  const first = rise(tension, step, from, friction);
  const second = rise(tension + (length / 2) * first, step, step.middle, friction);
  const third = rise(tension + (length / 2) * second, step, step.middle, friction);
  const fourth = rise(tension + length * third, step, to, friction);
  return tension + (length / 6) * (first + 2 * second + 2 * third + fourth);
}

/** Tension just above the string, without overpull, N. */
function toolTension(
  { string, fluids }: LineInHole,
  { reaches }: Track,
  depth: number,
  friction: number,
): number {
  const reach = reaches.findLast(({ top }) => top <= depth) as Reach;
  const { cosine, vertical } = placeOf(reach, depth);
  const density = vertical > fluids.level ? fluids.liquidDensity : fluids.gasDensity;
  const weight = string.inAir * buoyancyFactor(density, string.meanDensity);
  return weight * (cosine + friction * Math.sqrt(Math.max(0, 1 - cosine * cosine)));
}

/** Friction as it counts in each of the three cases. */
const signs = { runningIn: -1, hanging: 0, pullingOut: 1 };

/** [n + 1] tensions from the tool up to surface, below the packing, n being the steps above the tool. */
function upward(hole: LineInHole, track: Track, tool: number, sign: number, overpull = 0) {
  const friction = sign * hole.friction;
  const tensions = [toolTension(hole, track, tool, friction) + overpull];
  let tension = tensions[0] as number;
  for (let i = track.steps.length - 1; i >= 0; i -= 1) {
    const step = track.steps[i] as Step;
    if (step.bottom > tool) continue;
    tension = carry(tension, step, friction, "up");
    tensions.push(tension);
  }
  return tensions;
}

/** What stands above the packing for a tension below it, N. */
const abovePacking = ({ pushOut, packingFriction }: LineInHole, below: number, sign: number) =>
  below - pushOut + sign * packingFriction;

const warningsOf = ({ friction, path }: LineInHole): Warning[] => {
  const [first] = path.points;
  const note =
    "the first station is inclined: the hole above it counts as vertical, the turn between them as one sharp bend";
  return [
    ...warnOutside(lineTensionMethod, { "friction coefficient": friction }),
    ...(first && first.depth > 0 && first.inclination > NO_TURN
      ? [{ kind: "note" as const, text: note }]
      : []),
  ];
};

/**
 * Tension of the line from the tool up to surface: running in, hanging without friction, pulling out.
 *
 *   -dT/ds = w cos i ± μ N,  N = |T κ n + w (z - (z·t) t)|
 *
 * with s along hole, t the direction of the hole, n its principal normal, κ its curvature, z straight down. In a
 * plane N is |w sin i - T di/ds|: with a strong pull the line leaves the low side of a build and rides the high
 * side; in a drop weight and pull press the same way.
 *
 * @param hole     line, string, fluids, path and what acts at the packing
 * @param tool     depth along hole of the string, m, 0 or more; below the last station the hole goes straight on
 * @param overpull at the tool, N, 0 or more; counts in pulling out only
 * @returns tensions above the packing, N, the largest one, and the profile below the packing
 * @throws InputError for an impossible value; a line or string that floats
 * Holds for a line without stiffness that slides all along, one friction coefficient, no viscous drag. A negative
 * tension running in is what would have to be pushed; a line does not push (see `slack`). Above an inclined first
 * station the hole is vertical, the turn into it a bend without length: T exp(± μ angle).
 * @example lineTension(hole, 7200 ft, 700 lbf)  // 163.3, 308.4 and 1449.6 lbf: build to 55°, μ 0.3
 * Source: see lineTensionMethod.
 */
export function lineTension(hole: LineInHole, tool: AlongHoleM, overpull = 0): LineTension {
  requireNumber("overpull_at_tool", overpull, "0 or more", (f) => f >= 0);
  const track = trackOf(hole, [tool]);
  const runningIn = upward(hole, track, tool, signs.runningIn);
  const hanging = upward(hole, track, tool, signs.hanging);
  const pullingOut = upward(hole, track, tool, signs.pullingOut, overpull);
  const depths = [tool, ...track.steps.map(({ top }) => alongHoleM(top)).reverse()];
  const profile = depths
    .map((depth, i) => ({
      depth,
      runningIn: runningIn[i] as number,
      hanging: hanging[i] as number,
      pullingOut: pullingOut[i] as number,
    }))
    .reverse();
  const top = profile[0] as TensionPoint;
  const atSurface = abovePacking(hole, top.pullingOut, signs.pullingOut);
  const largest = profile.reduce(
    (most, { depth, pullingOut: tension }) => (tension > most.tension ? { tension, depth } : most),
    { tension: atSurface, depth: alongHoleM(0) },
  );
  return {
    runningIn: abovePacking(hole, top.runningIn, signs.runningIn),
    hanging: abovePacking(hole, top.hanging, signs.hanging),
    pullingOut: atSurface,
    largest,
    slack: profile.findLast((point) => point.runningIn < 0)?.depth,
    profile,
    warnings: warningsOf(hole),
  };
}

/**
 * What the weight indicator sees with the tool at many depths, for a chart of weight against depth.
 *
 * @param tools [n] depths along hole, m, each 0 or more, in any order
 * @returns     [n], same order: tensions above the packing, N, without overpull
 * @throws InputError as lineTension
 * Source: see lineTensionMethod.
 */
export function lineWeights(hole: LineInHole, tools: readonly AlongHoleM[]): LineWeightsAt[] {
  const track = trackOf(hole, tools);
  return tools.map((tool) => {
    const surface = (sign: number) =>
      abovePacking(hole, upward(hole, track, tool, sign).at(-1) as number, sign);
    return {
      ...goingIn(hole, track, tool),
      hanging: surface(signs.hanging),
      pullingOut: surface(signs.pullingOut),
    };
  });
}

function goingIn(hole: LineInHole, track: Track, tool: number) {
  const below = upward(hole, track, tool, signs.runningIn);
  const runningIn = abovePacking(hole, below.at(-1) as number, signs.runningIn);
  return { runningIn, least: Math.min(runningIn, ...below) };
}

/** The string loses weight at once where it dips into liquid: it is looked at a hair below, m. */
const DIPPED = 0.001;

/**
 * The least tension of the line going in, with the string anywhere from the closed valve down to a depth.
 *
 * What stands above the packing at one depth says too little: the line's own weight can pull there while the string
 * lies on a part of the hole that is too flat and rough for it, at that depth or on its way.
 *
 * @param tool depth along hole that the string goes to, m, 0 or more
 * @returns N, and the depth of the string at which it is least; arcs are looked at every 0.01 rad or 25 m
 * @throws InputError as lineTension
 * @example leastGoingIn(slant of 84° with μ 0.2, 1500 m)  // (W + w L)(cos 84° − 0.2 sin 84°), below zero
 * Source: see lineTensionMethod.
 */
export function leastGoingIn(hole: LineInHole, tool: AlongHoleM): LeastGoingIn {
  const ends = trackOf(hole, [tool]).steps;
  // The first one too: with liquid up to surface the string dips as it leaves there.
  const dips = ends.filter(({ weight }, i) => weight !== ends[i - 1]?.weight);
  const depths = [0, ...ends.map(({ bottom }) => bottom), ...dips.map(({ top }) => top + DIPPED)]
    .filter((depth) => depth <= tool)
    .map(alongHoleM);
  const track = trackOf(hole, depths);
  return depths
    .map((depth) => ({ tension: goingIn(hole, track, depth).least, tool: depth }))
    .reduce((worst, each) => (each.tension < worst.tension ? each : worst));
}

/**
 * Share of its breaking strength that a tension takes of a line, dimensionless.
 *
 * @throws InputError when the strength is not positive
 */
export function fractionOfBreaking(tension: number, breakingStrength: number): number {
  requireNumber("breaking_strength", breakingStrength, "above 0", (f) => f > 0);
  return tension / breakingStrength;
}

/**
 * Overpull that the line can bring to the tool: lineTension turned round.
 *
 * Where the hole bends out of its vertical plane N is a root, so the tension at surface is not linear in the
 * overpull and there is no closed form. Nothing need be sought either: the same equation is followed from the
 * packing down, from what the line may carry there, and capped at that on the way, since in a hole that turns
 * upward the largest tension can lie below surface. A larger tension at the tool is larger everywhere, so what
 * arrives is the most the tool can have.
 *
 * @param limits what line and rope socket may carry; the fraction is of the line's strength, not of the socket's
 * @returns the overpull besides the tool's own buoyed weight and friction, N, and what sets it
 * @throws InputError as lineTension; for a fraction outside 0 to 1, a strength that is not positive
 * Source: see overpullAvailableMethod.
 */
export function overpullAvailable(
  hole: LineInHole,
  tool: AlongHoleM,
  limits: TensionLimits,
): OverpullAvailable {
  const { breakingStrength, fraction, ropeSocketStrength: socket } = limits;
  const allowed = largestPull(breakingStrength, fraction);
  if (socket !== undefined) {
    requireNumber("rope_socket_strength", socket, "above 0", (f) => f > 0);
  }
  const track = trackOf(hole, [tool]);
  let tension = allowed + Math.min(0, hole.pushOut - hole.packingFriction);
  for (const step of track.steps) {
    tension = Math.min(allowed, carry(tension, step, hole.friction, "down"));
  }
  const own = toolTension(hole, track, tool, hole.friction);
  return socket !== undefined && socket < tension
    ? { overpull: socket - own, limitedBy: "rope socket" }
    : { overpull: tension - own, limitedBy: "line" };
}
