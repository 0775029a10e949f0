import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";

export const weightIndicatorMethod: Method = {
  name: "Line tension from the load on the pulley",
  formula:
    "pulley load = 2 T cos(a/2); the gauge shows T at the angle it is calibrated for, so T = reading × cos(c/2) / cos(a/2), a and c between the two lines at the pulley",
  source:
    "statics; rigging tables of block makers print the same factor 2 cos(a/2). Friction of the pulley is not in it",
  validity: [],
};

function requireAngle(key: string, angle: number): void {
  requireNumber(key, angle, "0 or more and below 180 degrees", (a) => a >= 0 && a < Math.PI - 1e-9);
}

/**
 * Load on a pulley that a line is led round.
 *
 *   L = 2 T cos(a/2)
 *
 * @param tension T, of the line, N, 0 or more
 * @param angle   a, between the two lines, rad, 0 (side by side) to below π (straight)
 * @returns N
 * @throws InputError for a negative tension; an angle outside 0 to below π
 * Source: statics.
 */
export function pulleyLoad(tension: number, angle: number): number {
  requireNumber("tension", tension, "0 or more", (t) => t >= 0);
  requireAngle("line_angle", angle);
  return 2 * tension * Math.cos(angle / 2);
}

/**
 * Tension of the line from what the gauge shows.
 *
 *   T = R cos(c/2) / cos(a/2)
 *
 * With the lines more open than the gauge is calibrated for (a above c) it reads low: the line carries more.
 *
 * @param reading    R, N, 0 or more
 * @param angle      a, between the two lines at the pulley, rad, 0 to below π
 * @param calibrated c, the angle at which the gauge shows the tension, rad, 0 to below π
 * @returns N
 * @throws InputError for a negative reading; an angle outside 0 to below π
 * @example tensionFromReading(600 lbf, 110°, 90°)  // 739.7 lbf
 * Source: see weightIndicatorMethod.
 */
export function tensionFromReading(reading: number, angle: number, calibrated: number): number {
  requireNumber("reading", reading, "0 or more", (r) => r >= 0);
  requireAngle("line_angle", angle);
  requireAngle("calibrated_angle", calibrated);
  return (reading * Math.cos(calibrated / 2)) / Math.cos(angle / 2);
}

/**
 * What the gauge shows for a tension of the line: tensionFromReading turned round.
 *
 * @param tension T, N, 0 or more
 * @returns N
 * @throws InputError for a negative tension; an angle outside 0 to below π
 * Source: see weightIndicatorMethod.
 */
export function readingFromTension(tension: number, angle: number, calibrated: number): number {
  requireNumber("tension", tension, "0 or more", (t) => t >= 0);
  requireAngle("line_angle", angle);
  requireAngle("calibrated_angle", calibrated);
  return (tension * Math.cos(angle / 2)) / Math.cos(calibrated / 2);
}
