import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { PA_S_PER_CP, WATER_DENSITY } from "./oilProperties.ts";
import { type AbsolutePa, fromDegF, fromPsia, type Kelvin, toDegF, toPsia } from "./units.ts";

const TEMPERATURE = "temperature";
const PRESSURE = "pressure";
const GRAVITY = "gravity of the water";

export const waterMethod: Method = {
  name: "Volume and viscosity of produced water, McCain (1990)",
  formula:
    "Bw = (1 + Vp)(1 + VT), VT = −0.0100001 + 1.33391·10⁻⁴ T + 5.50654·10⁻⁷ T², Vp = −(1.95301·10⁻⁹ T + 3.58922·10⁻⁷) p − (1.72834·10⁻¹³ T + 2.25341·10⁻¹⁰) p²; μ = A T^B (0.9994 + 4.0295·10⁻⁵ p + 3.1062·10⁻⁹ p²), A and B by the salt (psia, degF, cP); ρ = 62.368 + 0.438603 S + 0.00160074 S² at standard conditions (lb/ft³, S percent by weight)",
  source:
    "McCain, Properties of Petroleum Fluids, 2nd ed. (1990); SPE Reservoir Eng. (May 1991) 266; from memory, held against water of IAPWS-95 in the tests",
  validity: [
    {
      quantity: TEMPERATURE,
      measure: "temperature",
      from: fromDegF(100),
      to: fromDegF(400),
      basis: "of the viscosity, from memory",
    },
    {
      quantity: PRESSURE,
      measure: "absolute pressure",
      from: 0,
      to: fromPsia(10000),
      basis: "from memory",
    },
    {
      quantity: GRAVITY,
      measure: "pure number",
      from: 1,
      to: 1.2,
      basis: "up to 26 percent of salt by weight, from memory",
    },
  ],
};

/** What of the water counts in a stream at one pressure and temperature. */
export interface WaterState {
  /** Bw, m3 in place a m3 at surface */
  readonly formationVolume: number;
  /** kg/m3 */
  readonly density: number;
  /** Pa s */
  readonly viscosity: number;
}

/**
 * Salt in a water of known gravity.
 *
 *   62.368 + 0.438603 S + 0.00160074 S² = 62.368 γw, solved for S
 *
 * @param gravity γw at surface, fresh water = 1, 1 to 1.3
 * @returns S, percent by weight
 * @throws InputError outside this span
 * Source: see waterMethod.
 */
export function saltOf(gravity: number): number {
  if (!(gravity >= 1 && gravity <= 1.3)) {
    throw new InputError("water_gravity", gravity, "between 1 (fresh) and 1.3");
  }
  const a = 0.00160074;
  const b = 0.438603;
  return (-b + Math.sqrt(b * b + 4 * a * 62.368 * (gravity - 1))) / (2 * a);
}

/**
 * Produced water at a pressure and temperature; the gas dissolved in it is left out, being some percent of what oil takes.
 *
 * @param pressure absolute, Pa
 * @param gravity  γw at surface, fresh water = 1
 * @throws InputError for a gravity outside 1 to 1.3, a pressure that is not positive, or a temperature at or below 32 degF
 * @example waterState(fromPsia(2000), fromDegF(200), 1)  // 964 kg/m3, 0.314 cP
 * Source: see waterMethod.
 */
export function waterState(pressure: AbsolutePa, temperature: Kelvin, gravity: number): WaterState {
  const s = saltOf(gravity);
  requireNumber("pressure", pressure, "above 0 absolute", (p) => p > 0);
  requireNumber(
    "temperature",
    temperature,
    "above 32 degF: water freezes",
    (t) => toDegF(t as Kelvin) > 32,
  );
  const t = toDegF(temperature);
  const p = toPsia(pressure);
  const byTemperature = -0.0100001 + 1.33391e-4 * t + 5.50654e-7 * t * t;
  const byPressure = -(1.95301e-9 * t + 3.58922e-7) * p - (1.72834e-13 * t + 2.25341e-10) * p * p;
  const formationVolume = (1 + byPressure) * (1 + byTemperature);
  const a = 109.574 + s * (-8.40564 + s * (0.313314 + s * 0.00872213));
  const b = -1.12166 + s * (0.0263951 + s * (-6.79461e-4 + s * (-5.47119e-5 + s * 1.55586e-6)));
  return {
    formationVolume,
    density: (WATER_DENSITY * gravity) / formationVolume,
    viscosity: PA_S_PER_CP * a * t ** b * (0.9994 + 4.0295e-5 * p + 3.1062e-9 * p * p),
  };
}
