import { frictionFactor, frictionFactorMethod } from "./annulusFlow.ts";
import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { type AbsolutePa, GRAVITY } from "./units.ts";

/** Gas and liquid that pass one place of a pipe. */
export interface TwoPhaseStream {
  /** vsL, liquid rate in place / area, m/s, 0 or more */
  readonly liquidVelocity: number;
  /** vsG, gas rate in place / area, m/s, 0 or more */
  readonly gasVelocity: number;
  /** kg/m3 */
  readonly liquidDensity: number;
  readonly gasDensity: number;
  /** Pa s */
  readonly liquidViscosity: number;
  readonly gasViscosity: number;
  /** of the liquid against the gas, N/m */
  readonly surfaceTension: number;
}

/** The pipe they pass. */
export interface FlowPipe {
  /** D, inside; hydraulic for an annulus, m */
  readonly diameter: number;
  /** absolute, of the wall, m */
  readonly roughness: number;
  /** θ, of the direction of flow above level, rad, −π/2 to π/2: π/2 straight up */
  readonly rise: number;
}

export type FlowPattern =
  | "liquid"
  | "gas"
  | "segregated"
  | "transition"
  | "intermittent"
  | "distributed";

/** The paper's own holdup, or the one that Payne et al. measured to lie lower. */
export type HoldupForm = "original" | "Payne";

export interface TwoPhaseGradient {
  readonly pattern: FlowPattern;
  /** HL, share of the pipe that liquid fills, 0 to 1 */
  readonly holdup: number;
  /** λL, share of liquid in what flows, 0 to 1 */
  readonly noSlip: number;
  /** pressure lost per metre in the direction of flow, Pa/m; negative where flow down gains more than it rubs off */
  readonly gradient: number;
  /** of it, to lift the weight, Pa/m */
  readonly elevation: number;
  /** of it, to rub along the wall, Pa/m */
  readonly friction: number;
  /** Ek = ρs vm vsG / p; the sum of both is divided by 1 − Ek for the gas that gains speed */
  readonly kinetic: number;
}

export const beggsBrillMethod: Method = {
  name: "Two-phase flow in pipes, Beggs and Brill (1973)",
  formula:
    "λ = vsL/vm, Fr = vm²/(g D), Lv = vsL (ρL/(g σ))^¼; pattern by L1 = 316 λ^0.302, L2 = 0.0009252 λ^−2.4684, L3 = 0.1 λ^−1.4516, L4 = 0.5 λ^−6.738; HL0 = a λ^b / Fr^c ≥ λ; HL = HL0 [1 + C (sin 1.8θ − ⅓ sin³ 1.8θ)], C = (1 − λ) ln(d λ^e Lv^f Fr^g) ≥ 0; × 0.924 upward, 0.685 downward (Payne), λ ≤ HL ≤ 1 upward; f = fn e^S, S = ln y / (−0.0523 + 3.182 ln y − 0.8725 ln² y + 0.01853 ln⁴ y), y = λ/HL², ln(2.2 y − 1.2) for 1 < y < 1.2; dp/dL = [ρs g sin θ + f ρn vm²/(2 D)] / (1 − ρs vm vsG / p)",
  source: `Beggs and Brill, J. Pet. Tech. (May 1973) 607, pattern map as revised in Brill and Beggs, Two-Phase Flow in Pipes; Payne, Palmer, Brill and Beggs, J. Pet. Tech. (September 1979) 1198; held against two public implementations, CalebBell/fluids and jnoynaert/PressureDrop.jl; ${frictionFactorMethod.source}`,
  validity: [
    {
      quantity: "inner diameter, mm",
      measure: "pure number",
      from: 25.4,
      to: 38.1,
      basis:
        "the pipes of its 584 measurements, 1 and 1.5 in, air and water; used for tubing everywhere all the same (common practice)",
    },
  ],
};

/** a, b, c of level flow and d, e, f, g of flow upward; distributed flow stays as it is level. */
const SEGREGATED = { level: [0.98, 0.4846, 0.0868], up: [0.011, -3.768, 3.539, -1.614] } as const;
const INTERMITTENT = {
  level: [0.845, 0.5351, 0.0173],
  up: [2.96, 0.305, -0.4473, 0.0978],
} as const;
const DISTRIBUTED = { level: [1.065, 0.5824, 0.0609], up: undefined } as const;
const DOWN = [4.7, -0.3692, 0.1244, -0.5056] as const;
type Pattern = typeof SEGREGATED | typeof INTERMITTENT | typeof DISTRIBUTED;

const PAYNE_UP = 0.924;
const PAYNE_DOWN = 0.685;
/** The denominator of S comes to 0 near ln y = −8.3, where nothing was measured: S stays what it is here. */
const LEAST_LN_Y = -6;

/**
 * Flow pattern of level flow by the revised map of Beggs and Brill.
 *
 * @param noSlip λ, above 0, below 1
 * @param froude Fr = vm²/(g D), above 0
 * Source: see beggsBrillMethod.
 */
export function beggsBrillPattern(
  noSlip: number,
  froude: number,
): "segregated" | "transition" | "intermittent" | "distributed" {
  const l1 = 316 * noSlip ** 0.302;
  if (noSlip < 0.01) return froude < l1 ? "segregated" : "distributed";
  if (froude < transitionFrom(noSlip)) return "segregated";
  if (froude <= transitionTo(noSlip)) return "transition";
  if (noSlip < 0.4) return froude <= l1 ? "intermittent" : "distributed";
  return froude <= 0.5 * noSlip ** -6.738 ? "intermittent" : "distributed";
}

const transitionFrom = (noSlip: number) => 0.0009252 * noSlip ** -2.4684;
const transitionTo = (noSlip: number) => 0.1 * noSlip ** -1.4516;

/**
 * Pressure gradient of gas and liquid that flow together, at one place of a pipe.
 *
 * @param stream   what passes; one of the two velocities may be 0, not both
 * @param pipe     inside diameter, roughness and rise of the direction of flow
 * @param pressure absolute, Pa; it counts only for the gas that gains speed
 * @param form     "Payne" unless said otherwise: without it the holdup of rough pipes was found too high (Payne et al.)
 * @returns see TwoPhaseGradient; where only liquid or only gas flows it is that of the one
 * @throws InputError for a quantity that cannot be, or where the gas would have to gain more speed than pressure gives
 * Upward the holdup is kept between no slip and a full pipe: the paper's form goes beyond a full pipe where flow is slow.
 * The patterns do not join: where one goes over into the next the gradient has a step, of up to some 30 percent in tubing.
 * @example beggsBrill({ 0.79 ft/s, 1.93 ft/s, 49.9 and 1.79 lb/ft3, 3 and 0.02 cP, 8 dyn/cm },
 *          { 2.441 in, 0.0006 in, straight up }, fromPsia(346.6), "original")  // 0.170 psi/ft
 * Source: see beggsBrillMethod.
 */
export function beggsBrill(
  stream: TwoPhaseStream,
  pipe: FlowPipe,
  pressure: AbsolutePa,
  form: HoldupForm = "Payne",
): TwoPhaseGradient {
  requireStream(stream);
  requirePipe(pipe);
  requireNumber("pressure", pressure, "above 0 absolute", (p) => p > 0);
  const velocity = stream.liquidVelocity + stream.gasVelocity;
  const noSlip = stream.liquidVelocity / velocity;
  const froude = velocity ** 2 / (GRAVITY * pipe.diameter);
  let pattern: FlowPattern;
  let holdup: number;
  // A share too small for its powers is none.
  if (noSlip < 1e-9) [pattern, holdup] = ["gas", noSlip];
  else if (noSlip === 1) [pattern, holdup] = ["liquid", 1];
  else {
    pattern = beggsBrillPattern(noSlip, froude);
    holdup = holdupOf(pattern, noSlip, froude, stream, pipe.rise, form);
  }
  const slipDensity = stream.liquidDensity * holdup + stream.gasDensity * (1 - holdup);
  const density = stream.liquidDensity * noSlip + stream.gasDensity * (1 - noSlip);
  const viscosity = stream.liquidViscosity * noSlip + stream.gasViscosity * (1 - noSlip);
  const reynolds = (density * velocity * pipe.diameter) / viscosity;
  const wall = frictionFactor(reynolds, pipe.roughness / pipe.diameter);
  const raised = pattern === "gas" ? 1 : Math.exp(frictionExponent(noSlip / holdup ** 2));
  const elevation = slipDensity * GRAVITY * Math.sin(pipe.rise);
  const friction = (wall * raised * density * velocity ** 2) / (2 * pipe.diameter);
  const kinetic = (slipDensity * velocity * stream.gasVelocity) / pressure;
  if (!(kinetic < 1)) {
    throw new InputError(
      "gas_velocity",
      stream.gasVelocity,
      "smaller: at this pressure the mixture would pass faster than its pressure can drive it",
    );
  }
  return {
    pattern,
    holdup,
    noSlip,
    gradient: (elevation + friction) / (1 - kinetic),
    elevation,
    friction,
    kinetic,
  };
}

function holdupOf(
  pattern: ReturnType<typeof beggsBrillPattern>,
  noSlip: number,
  froude: number,
  stream: TwoPhaseStream,
  rise: number,
  form: HoldupForm,
): number {
  const velocityNumber =
    stream.liquidVelocity * (stream.liquidDensity / (GRAVITY * stream.surfaceTension)) ** 0.25;
  const of = (which: Pattern) => inclined(which, noSlip, froude, velocityNumber, rise);
  let holdup: number;
  if (pattern === "transition") {
    const from = transitionFrom(noSlip);
    const to = transitionTo(noSlip);
    const share = (to - froude) / (to - from);
    holdup = share * of(SEGREGATED) + (1 - share) * of(INTERMITTENT);
  } else if (pattern === "segregated") holdup = of(SEGREGATED);
  else if (pattern === "intermittent") holdup = of(INTERMITTENT);
  else holdup = of(DISTRIBUTED);
  if (form === "Payne" && rise !== 0) holdup *= rise > 0 ? PAYNE_UP : PAYNE_DOWN;
  return Math.min(1, rise > 0 ? Math.max(holdup, noSlip) : holdup);
}

function inclined(
  { level: [a, b, c], up }: Pattern,
  noSlip: number,
  froude: number,
  velocityNumber: number,
  rise: number,
): number {
  const level = Math.max(noSlip, (a * noSlip ** b) / froude ** c);
  const factors = rise > 0 ? up : DOWN;
  if (rise === 0 || factors === undefined) return level;
  const [d, e, f, g] = factors;
  const bent = (1 - noSlip) * Math.log(d * noSlip ** e * velocityNumber ** f * froude ** g);
  const s = Math.sin(1.8 * rise);
  return level * (1 + Math.max(0, bent) * (s - s ** 3 / 3));
}

/** S of beggsBrillMethod. */
function frictionExponent(y: number): number {
  if (y > 1 && y < 1.2) return Math.log(2.2 * y - 1.2);
  const x = Math.max(Math.log(y), LEAST_LN_Y);
  return x / (-0.0523 + 3.182 * x - 0.8725 * x ** 2 + 0.01853 * x ** 4);
}

function requireStream(stream: TwoPhaseStream): void {
  requireNumber("liquid_velocity", stream.liquidVelocity, "0 or more", (v) => v >= 0);
  requireNumber("gas_velocity", stream.gasVelocity, "0 or more", (v) => v >= 0);
  if (!(stream.liquidVelocity + stream.gasVelocity > 0)) {
    throw new InputError("liquid_velocity", 0, "above 0 when no gas flows: something has to flow");
  }
  requireNumber("liquid_density", stream.liquidDensity, "above 0", (d) => d > 0);
  requireNumber("gas_density", stream.gasDensity, "above 0", (d) => d > 0);
  requireNumber("liquid_viscosity", stream.liquidViscosity, "above 0", (m) => m > 0);
  requireNumber("gas_viscosity", stream.gasViscosity, "above 0", (m) => m > 0);
  requireNumber("surface_tension", stream.surfaceTension, "above 0", (s) => s > 0);
}

function requirePipe(pipe: FlowPipe): void {
  requireNumber("diameter", pipe.diameter, "above 0", (d) => d > 0);
  requireNumber("roughness", pipe.roughness, "0 or more", (r) => r >= 0);
  requireNumber(
    "rise",
    pipe.rise,
    "between straight down and straight up",
    (r) => Math.abs(r) <= Math.PI / 2 + 1e-9,
  );
}
