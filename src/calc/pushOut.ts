import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import type { AbsolutePa } from "./units.ts";

export const pushOutMethod: Method = {
  name: "Push-out at the packing against the string's weight",
  formula:
    "F = (p − patm) π d² / 4; net = W (1 − ρf/ρs) cos θ − F − Fp; ratio = W (1 − ρf/ρs) cos θ / (F + Fp)",
  source:
    "statics: the string is wholly inside the pressure, only the wire leaves through the packing",
  validity: [],
};

/**
 * Upward force of well pressure on the line where it leaves through the packing.
 *
 *   F = (p - p_atm) · π d² / 4
 *
 * @param pressure   absolute, below the packing, Pa
 * @param atmosphere absolute, outside, Pa
 * @param diameter   of the line, m (braided line: over the outer wires)
 * @returns force along the line, out of the well, N; negative below atmosphere
 * @throws InputError when the diameter is not positive or a pressure is not finite
 * Holds for a static line; packing friction is separate.
 * @example pushOutForce(fromPsig(1850, ATM), ATM, fromInches(0.108))  // 75.4 N, 16.9 lbf
 * Source: statics.
 */
export function pushOutForce(
  pressure: AbsolutePa,
  atmosphere: AbsolutePa,
  diameter: number,
): number {
  requireNumber("wire_diameter", diameter, "above 0", (d) => d > 0);
  requireNumber("pressure", pressure, "a finite pressure");
  return ((pressure - atmosphere) * Math.PI * diameter ** 2) / 4;
}

export interface StringWeight {
  /** weight in air, N */
  readonly inAir: number;
  /** mean density of the string, kg/m3 */
  readonly meanDensity: number;
}

/** Share of its weight that a body keeps in a fluid, dimensionless: 1 - ρf/ρs. @throws InputError when it would float */
export function buoyancyFactor(fluidDensity: number, bodyDensity: number): number {
  requireNumber("string_mean_density", bodyDensity, "above 0", (rho) => rho > 0);
  requireNumber("fluid_density", fluidDensity, "0 or more", (rho) => rho >= 0);
  if (fluidDensity >= bodyDensity) {
    throw new InputError(
      "fluid_density",
      fluidDensity,
      `below the string's mean density (${bodyDensity.toFixed(0)} kg/m3), or it would float`,
    );
  }
  return 1 - fluidDensity / bodyDensity;
}

export interface PushOutBalance {
  /** F, N */
  readonly pushOut: number;
  /** what is left to go down with, N; negative: the string does not go */
  readonly netDownward: number;
  /** weight in air that would just balance, N */
  readonly weightNeeded: number;
  /** effective weight over push-out and packing friction; undefined when nothing opposes */
  readonly ratio: number | undefined;
}

/**
 * Whether a string goes down against well pressure: string and wire below the packing, moving down.
 *
 * The least of the job is just under the closed valve, where no wire weight helps yet.
 *
 * @param pushOut         upward force at the packing, N (see pushOutForce)
 * @param packingFriction against the movement, N, 0 or more
 * @param string          weight in air and mean density
 * @param fluidDensity    of the fluid round the string, kg/m3
 * @param inclination     of the hole at the tool, rad, 0 to below π/2
 * @throws InputError for an impossible value; a string that floats
 * Source: statics.
 */
export function pushOutBalance(
  pushOut: number,
  packingFriction: number,
  string: StringWeight,
  fluidDensity: number,
  inclination = 0,
): PushOutBalance {
  requireNumber("packing_friction", packingFriction, "0 or more", (f) => f >= 0);
  requireNumber("string_weight_in_air", string.inAir, "above 0", (w) => w > 0);
  requireNumber(
    "inclination",
    inclination,
    "0 or more and below 90 degrees",
    (angle) => angle >= 0 && angle < Math.PI / 2,
  );
  const share = buoyancyFactor(fluidDensity, string.meanDensity) * Math.cos(inclination);
  const against = pushOut + packingFriction;
  const effective = string.inAir * share;
  return {
    pushOut,
    netDownward: effective - against,
    weightNeeded: Math.max(0, against / share),
    ratio: against > 0 ? effective / against : undefined,
  };
}
