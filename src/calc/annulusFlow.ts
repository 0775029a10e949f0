import type { Gas } from "./gas.ts";
import {
  gasColumn,
  gasColumnMethod,
  gasPressures,
  type LogPressureSlope,
  slopeAtRest,
} from "./gasColumn.ts";
import { STANDARD_BASE } from "./gasPassage.ts";
import { InputError, requireNumber } from "./inputError.ts";
import {
  distinctWarnings,
  type GasState,
  type Method,
  type Warning,
  warnOutside,
} from "./method.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import {
  type AbsolutePa,
  fromDegF,
  GAS_CONSTANT,
  GRAVITY,
  type Kelvin,
  M_PER_FT,
  toDegR,
  type VerticalM,
} from "./units.ts";

const REYNOLDS = "Reynolds number";
const ROUGHNESS = "roughness / hydraulic diameter";
const KINETIC = "ρ v² / p";
/** Below it flow is laminar, above TURBULENT Colebrook's equation holds (White, Fluid Mechanics, from memory). */
const LAMINAR = 2100;
const TURBULENT = 4000;
const PA_S_PER_CP = 1e-3;
const KG_M3_PER_G_CM3 = 1000;

/** The passage the gas moves in. */
export interface Annulus {
  /** inner diameter of the casing, or of a pipe with nothing in it, m */
  readonly casingInner: number;
  /** outer diameter of the tubing, m; 0 for a pipe with nothing in it */
  readonly tubingOuter: number;
  /** absolute, of the walls, m */
  readonly roughness: number;
  /** metres along hole for a metre of true vertical depth, 1 in a vertical well */
  readonly lengthPerDepth: number;
}

export const gasViscosityMethod: Method = {
  name: "Gas viscosity, Lee, Gonzalez and Eakin (1966)",
  formula:
    "μ = 10⁻⁴ K exp(X ρ^Y), K = (9.4 + 0.02 M) T^1.5 / (209 + 19 M + T), X = 3.5 + 986/T + 0.01 M, Y = 2.4 − 0.2 X (cP; degR, g/mol, g/cm³)",
  source: "Lee, Gonzalez and Eakin, J. Pet. Tech. (August 1966) 997",
  validity: [
    {
      quantity: "pressure",
      measure: "absolute pressure",
      from: 689_476,
      to: 55_158_058,
      basis: "100 to 8,000 psia, from memory",
    },
    {
      quantity: "temperature",
      measure: "temperature",
      from: fromDegF(100),
      to: fromDegF(340),
      basis: "100 to 340 degF, from memory",
    },
  ],
};

export const frictionFactorMethod: Method = {
  name: "Friction factor, Serghides (1984)",
  formula:
    "f = [A − (B − A)² / (C − 2B + A)]⁻², A = −2 lg(k/3.7 + 12/Re), B = −2 lg(k/3.7 + 2.51 A/Re), C = −2 lg(k/3.7 + 2.51 B/Re), k = roughness / hydraulic diameter; 64/Re below Re 2,100, straight from there to Re 4,000",
  source:
    "Serghides, Chem. Eng. 91 (5 March 1984) 63, an explicit answer of Colebrook's equation; Colebrook, J. Inst. Civ. Eng. 11 (1939) 133",
  validity: [
    {
      quantity: REYNOLDS,
      measure: "pure number",
      from: 0,
      to: 1e8,
      basis: "the Moody chart ends there",
    },
    {
      quantity: ROUGHNESS,
      measure: "pure number",
      from: 0,
      to: 0.05,
      basis: "the Moody chart ends there",
    },
  ],
};

export const annulusFlowMethod: Method = {
  name: "Gas moving in an annulus, integrated",
  formula:
    "dp/dh = ρ g − f ρ v |v| (dL/dh) / (2 Dh), v positive downward, Dh = casing inner − tubing outer diameter; acceleration neglected",
  source: `momentum balance of steady flow; ${gasColumnMethod.source}; ${frictionFactorMethod.source}; ${gasViscosityMethod.source}`,
  validity: [
    ...frictionFactorMethod.validity,
    {
      quantity: KINETIC,
      measure: "pure number",
      from: 0,
      to: 0.01,
      basis:
        "the neglected acceleration changes the slope by the factor 1 / (1 − ρ v² / p), so by 1 percent there (isothermal, from the momentum balance)",
    },
  ],
};

/** ρ = p M / (z R T), kg/m3. */
export function gasDensity(gas: Gas, state: GasState): number {
  return (state.pressure * gas.molarMass) / (gas.z(state) * GAS_CONSTANT * state.temperature);
}

/**
 * Viscosity of a natural gas.
 *
 *   μ = 1e-4 K exp(X ρ^Y) cP, see gasViscosityMethod
 *
 * @param molarMass   M, kg/mol, above 0
 * @param density     ρ at the state, kg/m3, 0 or more
 * @param temperature K, above 0
 * @returns Pa s
 * @throws InputError outside these limits
 * Within some 3 percent of its own data (from memory); pressure and temperature of that data are in gasViscosityMethod.
 * @example gasViscosity(0.02085, 133, 333.3)  // 1.73e-5 Pa s, 0.0173 cP
 * Source: see gasViscosityMethod.
 */
export function gasViscosity(molarMass: number, density: number, temperature: Kelvin): number {
  requireNumber("molar_mass", molarMass, "above 0", (m) => m > 0);
  requireNumber("density", density, "0 or more", (d) => d >= 0);
  requireNumber("temperature", temperature, "above absolute zero", (t) => t > 0);
  const m = molarMass * 1000;
  const t = toDegR(temperature);
  const k = ((9.4 + 0.02 * m) * t ** 1.5) / (209 + 19 * m + t);
  const x = 3.5 + 986 / t + 0.01 * m;
  const y = 2.4 - 0.2 * x;
  return PA_S_PER_CP * 1e-4 * k * Math.exp(x * (density / KG_M3_PER_G_CM3) ** y);
}

/**
 * Darcy (Moody) friction factor, four times Fanning's.
 *
 * @param reynolds          Re = ρ v Dh / μ, above 0
 * @param relativeRoughness k = roughness / Dh, 0 or more
 * @returns f, dimensionless
 * @throws InputError outside these limits
 * From Re 4,000 on within 0.004 percent of Colebrook's equation (tested), which itself carries some 10 percent
 * (Moody, from memory). Below Re 2,100 it is that of a round pipe; a narrow annulus has up to half as much again, of a
 * friction that is then too small to matter.
 * @example frictionFactor(1e5, 1e-4)  // 0.018514
 * Source: see frictionFactorMethod.
 */
export function frictionFactor(reynolds: number, relativeRoughness: number): number {
  requireNumber("reynolds", reynolds, "above 0", (re) => re > 0);
  requireNumber("relative_roughness", relativeRoughness, "0 or more", (k) => k >= 0);
  if (reynolds <= LAMINAR) return 64 / reynolds;
  if (reynolds >= TURBULENT) return serghides(reynolds, relativeRoughness);
  const share = (reynolds - LAMINAR) / (TURBULENT - LAMINAR);
  return (1 - share) * (64 / LAMINAR) + share * serghides(TURBULENT, relativeRoughness);
}

function serghides(reynolds: number, relativeRoughness: number): number {
  const rough = relativeRoughness / 3.7;
  const a = -2 * Math.log10(rough + 12 / reynolds);
  const b = -2 * Math.log10(rough + (2.51 * a) / reynolds);
  const c = -2 * Math.log10(rough + (2.51 * b) / reynolds);
  const bend = c - 2 * b + a;
  // On a fully rough wall a, b and c agree to the last digits: the extrapolation would divide rounding by rounding.
  return (Math.abs(bend) < 1e-10 ? c : a - (b - a) ** 2 / bend) ** -2;
}

/**
 * Mass rate of a gas rate at standard conditions.
 *
 *   w = q pb M / (R Tb), at STANDARD_BASE, gas ideal there as the trade counts it (common practice)
 *
 * @param standardRate q, m3/s
 * @returns kg/s, sign of the rate kept
 */
export function gasMassRate(standardRate: number, gas: Gas): number {
  return (
    (standardRate * STANDARD_BASE.pressure * gas.molarMass) /
    (GAS_CONSTANT * STANDARD_BASE.temperature)
  );
}

export interface FlowingGas {
  /** [n] absolute, Pa, in the order of the depths asked */
  readonly pressures: readonly AbsolutePa[];
  /** [n] of the same gas at rest, absolute, Pa */
  readonly atRest: readonly AbsolutePa[];
  /** [n] at rest less flowing, Pa; positive below a known surface pressure when the gas moves down */
  readonly friction: readonly number[];
  /** the largest of them without its sign, Pa: what has to be small for friction to be negligible */
  readonly largestFriction: number;
  readonly warnings: readonly Warning[];
}

/**
 * Pressure of gas that moves in an annulus or a pipe, from one depth to others, and what friction takes.
 *
 *   dp/dh = ρ g - f ρ v |v| (dL/dh) / (2 Dh)
 *
 * @param standardRate gas, m3/s at STANDARD_BASE; positive down the well, negative up it,
 *                     0 gives gasColumn exactly
 * @param annulus      the passage, tubing taken as centred: off centre the friction is less
 * @param pressure     absolute at `from`, Pa
 * @param from         true vertical depth where it is known, m
 * @param to           [n] true vertical depths wanted, m, in any order
 * @param temperatures of the moving gas, against true vertical depth
 * @returns pressures with the static column beside them. Viscosity outside its own range is not warned about: 20 percent
 *          of viscosity is less than 10 percent of friction (tested).
 * @throws InputError as gasColumn, for an impossible passage, or for a rate at which friction uses up the pressure
 *         before a depth is reached: at ρ v² = p the gas has its isothermal speed of sound, and no steady flow passes
 * Holds for steady flow of dry gas; couplings and mandrels add to it. Source: see annulusFlowMethod.
 */
export function annulusFlow(
  standardRate: number,
  annulus: Annulus,
  pressure: AbsolutePa,
  from: VerticalM,
  to: readonly VerticalM[],
  gas: Gas,
  temperatures: TemperatureProfile,
): FlowingGas {
  requireNumber("rate", standardRate, "a number, positive down the well");
  requireAnnulus(annulus);
  const still = gasColumn(pressure, from, to, gas, temperatures);
  const flow = flowIn(annulus, standardRate, gas);
  const moving = gasPressures(pressure, from, to, gas, temperatures, flow.slope);
  const friction = to.map(
    (_, i) => (still.pressures[i] as AbsolutePa) - (moving.pressures[i] as AbsolutePa),
  );
  const ends = [
    { depth: from, pressure },
    ...to.map((depth, i) => ({ depth, pressure: moving.pressures[i] as AbsolutePa })),
  ];
  return {
    pressures: moving.pressures,
    atRest: still.pressures,
    friction,
    largestFriction: friction.reduce((largest, f) => Math.max(largest, Math.abs(f)), 0),
    warnings: distinctWarnings([
      ...still.warnings,
      ...moving.warnings,
      ...ends.flatMap((end) =>
        flow.warningsAt({ pressure: end.pressure, temperature: temperatures.at(end.depth) }),
      ),
    ]),
  };
}

function requireAnnulus({ casingInner, tubingOuter, roughness, lengthPerDepth }: Annulus): void {
  requireNumber("casing_inner", casingInner, "above 0", (d) => d > 0);
  requireNumber("tubing_outer", tubingOuter, "0 or more", (d) => d >= 0);
  if (tubingOuter >= casingInner) {
    throw new InputError(
      "tubing_outer",
      tubingOuter,
      `smaller than the inner diameter of the casing (${casingInner})`,
    );
  }
  requireNumber("roughness", roughness, "0 or more", (r) => r >= 0);
  requireNumber(
    "length_per_depth",
    lengthPerDepth,
    "1 or more: the hole is never shorter than its vertical depth",
    (l) => l >= 1,
  );
}

/** The slope of the moving gas, and what lies outside the method at a state. */
function flowIn(
  annulus: Annulus,
  standardRate: number,
  gas: Gas,
): { readonly slope: LogPressureSlope; warningsAt(state: GasState): Warning[] } {
  const hydraulic = annulus.casingInner - annulus.tubingOuter;
  const area = (Math.PI / 4) * (annulus.casingInner ** 2 - annulus.tubingOuter ** 2);
  const massRate = gasMassRate(standardRate, gas);
  const flux = Math.abs(massRate) / area;
  // Not only 0: a flux whose square is below the smallest number would make friction 0 times infinity.
  if (flux ** 2 === 0) return { slope: slopeAtRest(gas), warningsAt: () => [] };
  const relativeRoughness = annulus.roughness / hydraulic;
  const down = Math.sign(massRate);
  const reynoldsAt = (state: GasState, density: number) =>
    (flux * hydraulic) / gasViscosity(gas.molarMass, density, state.temperature);
  return {
    slope(state, depth) {
      const density = gasDensity(gas, state);
      const kinetic = flux ** 2 / (density * state.pressure);
      if (!(kinetic < 1)) {
        throw new InputError(
          "rate",
          standardRate,
          `smaller: by ${(depth / M_PER_FT).toFixed(0)} ft true vertical friction would have used up the pressure`,
        );
      }
      const f = frictionFactor(reynoldsAt(state, density), relativeRoughness);
      return (
        (density * GRAVITY) / state.pressure -
        (down * f * kinetic * annulus.lengthPerDepth) / (2 * hydraulic)
      );
    },
    warningsAt(state) {
      const density = gasDensity(gas, state);
      return warnOutside(annulusFlowMethod, {
        [REYNOLDS]: reynoldsAt(state, density),
        [ROUGHNESS]: relativeRoughness,
        [KINETIC]: flux ** 2 / (density * state.pressure),
      });
    },
  };
}
