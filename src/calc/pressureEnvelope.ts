import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { type AbsolutePa, absolutePa } from "./units.ts";

export const testPressureMethod: Method = {
  name: "Pressure to test the stack to",
  formula:
    "ptest = factor × larger of (maximum shut-in wellhead, full injection at surface), gauge",
  source:
    "common practice, 1.0 to 1.25 times the expected maximum; 30 CFR 250.601 asks for the highest predicted surface pressure, reservoir and applied. With the valve out the pocket is open to the annulus, so injection pressure counts",
  validity: [],
};

/**
 * Highest pressure the stack may see: with the valve out the tubing is open to the annulus.
 *
 * @returns absolute, Pa
 */
export function expectedMaximum(maximumShutIn: AbsolutePa, fullInjection: AbsolutePa): AbsolutePa {
  return absolutePa(Math.max(maximumShutIn, fullInjection));
}

/**
 * Pressure of the high test.
 *
 * @param expected   expected maximum, absolute, Pa
 * @param atmosphere absolute, Pa: the factor counts on gauge pressure
 * @param factor     policy, 1 or more
 * @returns absolute, Pa. Whether the stack may see it (lowest rating) is a separate check
 * @throws InputError for a factor below 1
 */
export function testPressure(
  expected: AbsolutePa,
  atmosphere: AbsolutePa,
  factor: number,
): AbsolutePa {
  requireNumber("test_pressure_factor", factor, "1 or more", (f) => f >= 1);
  return absolutePa(atmosphere + factor * (expected - atmosphere));
}
