import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { circle } from "./seat.ts";

export const lineStretchMethod: Method = {
  name: "Elastic and thermal stretch of a line",
  formula: "ΔL = L T / (A E); thermal ΔL = α L Δt; A = π d² / 4",
  source:
    "Hooke's law and linear expansion; below the yield of a solid line. A braided line has less metal than its outside diameter says, and settles when new",
  validity: [],
};

export const hangingStretchMethod: Method = {
  name: "Elastic stretch of the line in the hole",
  formula:
    "ΔL = ∫ T ds / (A E) over the tension profile; vertical, in air: (W + w L / 2) L / (A E)",
  source:
    "Hooke's law; Singer and Pytel, Strength of Materials, for the line's own weight. What the pressure round the line does to its length is left out",
  validity: [],
};

/** A round solid line that stretches. */
export interface ElasticLine {
  /** m */
  readonly diameter: number;
  /** E, Pa */
  readonly modulus: number;
}

/** Force that would double the line's length if Hooke's law held so far: A E, N. */
function stiffness({ diameter, modulus }: ElasticLine): number {
  requireNumber("wire_diameter", diameter, "above 0", (d) => d > 0);
  requireNumber("modulus", modulus, "above 0", (e) => e > 0);
  return circle(diameter) * modulus;
}

/**
 * Stretch of a line under a tension that is the same all along.
 *
 *   ΔL = L T / (A E)
 *
 * @param line    diameter and modulus
 * @param length  L, m, 0 or more
 * @param tension T, N; what is added to it when the stretch wanted is the added one; negative: released
 * @returns m
 * @throws InputError for an impossible value
 * @example elasticStretch({ 0.092 in, 29e6 psi }, 6000 ft, 200 lbf)  // 6.225 ft
 * Source: Hooke's law.
 */
export function elasticStretch(line: ElasticLine, length: number, tension: number): number {
  requireNumber("length", length, "0 or more", (l) => l >= 0);
  requireNumber("tension", tension, "a finite force");
  return (length * tension) / stiffness(line);
}

/**
 * Stretch of a line that is warmed.
 *
 *   ΔL = α L Δt
 *
 * @param length    L, m, 0 or more
 * @param rise      Δt, the mean over the length and not the rise at its end, K; negative: cooled
 * @param expansion α, 1/K, 0 or more
 * @returns m
 * @throws InputError for an impossible value
 * Source: linear expansion.
 */
export function thermalStretch(length: number, rise: number, expansion: number): number {
  requireNumber("length", length, "0 or more", (l) => l >= 0);
  requireNumber("temperature_rise", rise, "a finite difference");
  requireNumber("expansion", expansion, "0 or more", (a) => a >= 0);
  return expansion * length * rise;
}

/** Tension at a depth along hole: N, m. */
export interface TensionAt {
  readonly depth: number;
  readonly tension: number;
}

/**
 * Stretch of a line in the hole from its tension profile: its own weight, the tool's pull and friction.
 *
 *   ΔL = ∫ T ds / (A E), by trapezia
 *
 * The tension is linear between the points of a profile where the hole is straight, and the trapezium exact; on
 * arcs the points of lineTension stand close enough for a ten-thousandth.
 *
 * @param line    diameter and modulus
 * @param profile [n], n >= 1, depth not falling: { depth: m, tension: N }
 * @returns m, longer than without tension
 * @throws InputError for a depth that falls; an impossible line
 * @example profileStretch({ 0.108 in, 29e6 psi }, 0 to 10,000 ft of 31.18 lb per 1,000 ft in air)  // 5.87 ft
 * Source: see hangingStretchMethod.
 */
export function profileStretch(line: ElasticLine, profile: readonly TensionAt[]): number {
  const perNewtonMetre = 1 / stiffness(line);
  return profile.reduce((sum, { depth, tension }, i) => {
    requireNumber(`profile[${i}].depth`, depth, "a finite depth");
    requireNumber(`profile[${i}].tension`, tension, "a finite force");
    const above = profile[i - 1];
    if (!above) return sum;
    if (depth < above.depth) {
      throw new InputError(`profile[${i}].depth`, depth, "not above the point before it");
    }
    return sum + ((above.tension + tension) / 2) * (depth - above.depth) * perNewtonMetre;
  }, 0);
}
