import { bracketedNewton } from "./bracketedNewton.ts";
import { requireNumber } from "./inputError.ts";
import { type Method, type Warning, warnOutside } from "./method.ts";
import { type AbsolutePa, absolutePa, fromDegF, fromPsia, type Kelvin } from "./units.ts";

/**
 * Nitrogen by the reference equation of state.
 *
 * Reduced residual Helmholtz energy, delta = rho/rho_c, tau = T_c/T:
 *
 *   ar = sum n delta^d tau^t exp(-delta^l)                                  32 terms, no exponential where l = 0
 *      + sum n delta^d tau^t exp(-eta (delta - 1)^2 - beta (tau - gamma)^2)  4 terms
 *   p  = rho R T (1 + delta dar/ddelta)
 *
 * Source: Span, Lemmon, Jacobsen, Wagner and Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361-1433.
 */
const MOLAR_GAS_CONSTANT = 8.31451; // J/(mol K), the value the equation was fitted with
const MOLAR_MASS = 0.02801348; // kg/mol
const CRITICAL_TEMPERATURE = 126.192; // K
const CRITICAL_DENSITY = 11183.9; // mol/m3

/** n, t, d, l of the paper's equation; values as CoolProp's fluid file keeps them, which cites the paper. */
const POWER_TERMS: readonly (readonly [n: number, t: number, d: number, l: number])[] = [
  [0.924803575275, 0.25, 1, 0],
  [-0.492448489428, 0.875, 1, 0],
  [0.661883336938, 0.5, 2, 0],
  [-1.92902649201, 0.875, 2, 0],
  [-0.0622469309629, 0.375, 3, 0],
  [0.349943957581, 0.75, 3, 0],
  [0.564857472498, 0.5, 1, 1],
  [-1.61720005987, 0.75, 1, 1],
  [-0.481395031883, 2, 1, 1],
  [0.421150636384, 1.25, 3, 1],
  [-0.0161962230825, 3.5, 3, 1],
  [0.172100994165, 1, 4, 1],
  [0.00735448924933, 0.5, 6, 1],
  [0.0168077305479, 3, 6, 1],
  [-0.00107626664179, 0, 7, 1],
  [-0.0137318088513, 2.75, 7, 1],
  [0.000635466899859, 0.75, 8, 1],
  [0.00304432279419, 2.5, 8, 1],
  [-0.0435762336045, 4, 1, 2],
  [-0.0723174889316, 6, 2, 2],
  [0.0389644315272, 6, 3, 2],
  [-0.021220136391, 3, 4, 2],
  [0.00408822981509, 3, 5, 2],
  [-5.51990017984e-5, 6, 8, 2],
  [-0.0462016716479, 16, 4, 3],
  [-0.00300311716011, 11, 5, 3],
  [0.0368825891208, 15, 5, 3],
  [-0.0025585684622, 12, 8, 3],
  [0.00896915264558, 12, 3, 4],
  [-0.0044151337035, 7, 5, 4],
  [0.00133722924858, 4, 6, 4],
  [0.000264832491957, 16, 9, 4],
];

/** n, t, d, eta, beta, gamma; epsilon is 1 in all four. */
const GAUSSIAN_TERMS: readonly (readonly [
  n: number,
  t: number,
  d: number,
  eta: number,
  beta: number,
  gamma: number,
])[] = [
  [19.6688194015, 0, 1, 20, 325, 1.16],
  [-20.911560073, 1, 1, 20, 325, 1.16],
  [0.0167788306989, 2, 3, 15, 300, 1.13],
  [2627.67566274, 3, 2, 25, 275, 1.25],
];

export const nitrogenMethod: Method = {
  name: "Nitrogen, Span et al. (2000) reference equation of state",
  formula: "p = ρ R T (1 + δ ∂αʳ/∂δ), δ = ρ/ρc, τ = Tc/T",
  source:
    "Span, Lemmon, Jacobsen, Wagner and Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361-1433",
  validity: [
    {
      quantity: "temperature",
      measure: "temperature",
      from: fromDegF(20),
      to: fromDegF(400),
      basis:
        "range asked of this calculation; reference values cover 20 to 350 degF, the equation itself 63 to 1000 K",
    },
    {
      quantity: "pressure",
      measure: "absolute pressure",
      from: 0,
      to: fromPsia(5000),
      basis: "range asked of this calculation; the equation itself holds to 2200 MPa",
    },
  ],
};

/** Limits of what is solved at all: one phase, well above the critical temperature. */
const LOWEST_TEMPERATURE = 200;
const HIGHEST_TEMPERATURE = 1000;
const HIGHEST_PRESSURE = 200e6;

/** Compressibility factor and its slope with density at one temperature: the equation, ready to be evaluated. */
function isotherm(temperature: Kelvin): (density: number) => readonly [z: number, slope: number] {
  const tau = CRITICAL_TEMPERATURE / temperature;
  const power = POWER_TERMS.map(([n, t, d, l]) => ({ a: n * tau ** t, d, l }));
  const gaussian = GAUSSIAN_TERMS.map(([n, t, d, eta, beta, gamma]) => ({
    a: n * tau ** t * Math.exp(-beta * (tau - gamma) ** 2),
    d,
    eta,
  }));
  return (density) => {
    const delta = density / CRITICAL_DENSITY;
    let first = 0; // delta dar/ddelta
    let second = 0; // delta^2 d2ar/ddelta2
    for (const { a, d, l } of power) {
      const dl = l === 0 ? 0 : delta ** l;
      const term = l === 0 ? a * delta ** d : a * delta ** d * Math.exp(-dl);
      const u = d - l * dl;
      first += term * u;
      second += term * (u * (u - 1) - l * l * dl);
    }
    for (const { a, d, eta } of gaussian) {
      const off = delta - 1;
      const term = a * delta ** d * Math.exp(-eta * off * off);
      const u = d - 2 * eta * delta * off;
      first += term * u;
      second += term * (u * u - d - 2 * eta * delta * delta);
    }
    return [1 + first, (first + second) / density];
  };
}

function requireTemperature(key: string, temperature: Kelvin): void {
  requireNumber(
    key,
    temperature,
    `between ${LOWEST_TEMPERATURE} K (-100 degF) and ${HIGHEST_TEMPERATURE} K (1340 degF)`,
    (t) => t >= LOWEST_TEMPERATURE && t <= HIGHEST_TEMPERATURE,
  );
}

export interface NitrogenState {
  /** mol/m3 */
  readonly molarDensity: number;
  /** kg/m3 */
  readonly density: number;
  /** compressibility factor p/(ρ R T), dimensionless */
  readonly z: number;
  readonly warnings: readonly Warning[];
  /** evaluations of the equation that the solve took */
  readonly evaluations: number;
}

/**
 * Density and compressibility factor of nitrogen.
 *
 * The equation gives pressure from density; density is found by a Newton solve inside a bracket.
 * Above 200 K pressure rises with density throughout, so the solve has one answer and reaches it.
 *
 * @param pressure    absolute, Pa, above 0 to 200 MPa
 * @param temperature K, 200 to 1000
 * @throws InputError outside these limits
 * @example nitrogenState(fromPsia(1500), fromDegF(60)).density  // 120.87 kg/m3
 * Source: Span et al. (2000), see nitrogenMethod.
 */
export function nitrogenState(pressure: AbsolutePa, temperature: Kelvin): NitrogenState {
  requireTemperature("temperature", temperature);
  requireNumber(
    "pressure",
    pressure,
    `above 0 and at most ${HIGHEST_PRESSURE / 1e6} MPa absolute (29,000 psia)`,
    (p) => p > 0 && p <= HIGHEST_PRESSURE,
  );
  const at = isotherm(temperature);
  const rt = MOLAR_GAS_CONSTANT * temperature;
  const ideal = pressure / rt;
  // Within these limits nitrogen has z above 0.5: twice the ideal density lies beyond the answer.
  const root = bracketedNewton(
    (rho) => {
      const [z, slope] = at(rho);
      return [rho * rt * z - pressure, rt * (z + rho * slope)];
    },
    0,
    ideal * 2,
    firstGuess(ideal, temperature),
  );
  if (!root) throw new Error("nitrogen density: the solve did not end; this is a defect");
  return {
    molarDensity: root.x,
    density: root.x * MOLAR_MASS,
    z: pressure / (root.x * rt),
    warnings: warnOutside(nitrogenMethod, { temperature, pressure }),
    evaluations: root.evaluations,
  };
}

/**
 * Where the solve begins: van der Waals' equation taken once, which is near enough for Newton to end
 * in a few steps. Constants from the critical point (a = 27 R2 Tc2 / 64 pc, b = R Tc / 8 pc).
 */
function firstGuess(ideal: number, temperature: Kelvin): number {
  const covolume = 3.86e-5; // m3/mol
  const attraction = 0.137; // J m3/mol2
  const second = covolume - attraction / (MOLAR_GAS_CONSTANT * temperature);
  const z = 1 + (second + covolume ** 2 * ideal) * (ideal / (1 + covolume * ideal));
  return ideal / Math.max(z, 0.5);
}

/**
 * Pressure of nitrogen of a known density.
 *
 * @param molarDensity mol/m3, 0 or more
 * @param temperature  K, 200 to 1000
 * @throws InputError outside these limits
 */
export function nitrogenPressure(molarDensity: number, temperature: Kelvin): AbsolutePa {
  requireTemperature("temperature", temperature);
  requireNumber("density", molarDensity, "0 or more", (rho) => rho >= 0);
  if (molarDensity === 0) return absolutePa(0);
  const [z] = isotherm(temperature)(molarDensity);
  return absolutePa(molarDensity * MOLAR_GAS_CONSTANT * temperature * z);
}

export const domeMethod: Method = {
  name: "Nitrogen dome at constant volume",
  formula: "ρ(p₁, T₁) = ρ(p₂, T₂)",
  source: `${nitrogenMethod.source}; rigid dome (bellows travel and steel expansion neglected, as in the trade's tables)`,
  validity: nitrogenMethod.validity,
};

/**
 * Pressure of a sealed nitrogen charge brought to another temperature: the density stays.
 *
 * @param pressure absolute, at `from`, Pa
 * @param from     K
 * @param to       K
 * @returns absolute pressure at `to`, Pa, with warnings for either end outside the checked range
 * @throws InputError as nitrogenState
 * @example domePressure(fromPsig(800, ATM), fromDegF(150), fromDegF(60))  // 668.17 psig
 */
export function domePressure(
  pressure: AbsolutePa,
  from: Kelvin,
  to: Kelvin,
): { readonly pressure: AbsolutePa; readonly warnings: readonly Warning[] } {
  requireTemperature("to temperature", to);
  const charge = nitrogenState(pressure, from);
  const answer = from === to ? pressure : nitrogenPressure(charge.molarDensity, to);
  const there = warnOutside(nitrogenMethod, { temperature: to, pressure: answer });
  return { pressure: answer, warnings: [...charge.warnings, ...there.map(atTheOtherEnd)] };
}

/** The same warning, told apart from the one about where the charge came from. */
function atTheOtherEnd(warning: Warning): Warning {
  if (warning.kind === "note") return warning;
  const validity = { ...warning.validity, quantity: `${warning.validity.quantity} brought to` };
  return { ...warning, validity };
}
