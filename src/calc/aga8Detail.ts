import {
  COMPONENT_NAMES,
  COMPONENTS,
  type ComponentConstants,
  type ComponentName,
  DENSITY_TERMS,
  type MixtureFactor,
  PAIRS,
  type PairFactor,
  VIRIAL_TERMS,
} from "./aga8Constants.ts";
import { bracketedNewton } from "./bracketedNewton.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { type AbsolutePa, absolutePa, type Kelvin, kelvin, toDegF, toPsia } from "./units.ts";

/**
 * The DETAIL equation of state of AGA Report No. 8 Part 1 (2017), also ISO 20765-1 and ISO 12213-2.
 *
 * Written here as residual Helmholtz energy, in the reduced density D = K³ρ of the mixture:
 *
 *   ar(D, T) = P0(D) + Σ Pk(D) exp(-D^k),  k = 1 to 4
 *   z        = 1 + D ∂ar/∂D,  p = ρ R T z
 *
 * The standard's 58 terms are gathered into the coefficients of five polynomials P. A coefficient is a sum over powers
 * of the temperature, and what multiplies a power hangs on the composition alone. So there are three stages, each
 * done as seldom as it can be: the composition's amounts, the isotherm's coefficients, the evaluation at a density.
 *
 * Terms 1 to 18 (b = 1) make the second virial coefficient B, which mixes pair by pair. Six of them have an
 * exponential as well: they stand in Pk with the mixture's own parameters, and their limit at low density is taken out
 * of P0 again so that B stays B.
 *
 * Source: AGA Report No. 8 Part 1 (2017), DETAIL equation; ISO 20765-1.
 */
const MOLAR_GAS_CONSTANT = 8.31451; // J/(mol K), the value the equation was fitted with

/** Limits of what is solved at all. */
const LOWEST_TEMPERATURE = 200;
const HIGHEST_TEMPERATURE = 450;
const HIGHEST_PRESSURE = 80e6;

/** Mole fractions of a gas, those of components that are absent left out. */
export type Composition = Readonly<Partial<Record<ComponentName, number>>>;

/** The powers of 1/T that occur. */
const EXPONENTS = [
  ...new Set([...VIRIAL_TERMS.map(([, u]) => u), ...DENSITY_TERMS.map(([, , , u]) => u)]),
];

/** Highest power of D in P0 to P4. */
const DEGREES = [0, 1, 2, 3, 4].map((k) =>
  Math.max(...DENSITY_TERMS.filter((term) => term[2] === k).map(([, b]) => b)),
);

/** amount × T^-u, the exponent by its place in EXPONENTS. */
interface Share {
  readonly place: number;
  readonly amount: number;
}

/** What the composition alone decides. */
interface Amounts {
  /** kg/mol */
  readonly molarMass: number;
  /** K³: what makes the reduced density out of mol/m3 */
  readonly size: number;
  /** U, K */
  readonly energy: number;
  /** P0 to P4, each the shares of its coefficients, highest power of D first */
  readonly polynomials: readonly (readonly (readonly Share[])[])[];
}

/** z and its slope with molar density at one temperature: the equation, ready to be evaluated. */
type Isotherm = (molarDensity: number) => readonly [z: number, slope: number];

interface Part extends ComponentConstants {
  readonly x: number;
}

/** Two parts of a mixture with the binary parameters between them. */
interface Pair {
  readonly one: Part;
  readonly other: Part;
  readonly E: number;
  readonly U: number;
  readonly K: number;
  readonly G: number;
}

const BINARY = new Map(PAIRS.map(([i, j, E, U, K, G]) => [`${i} ${j}`, { E, U, K, G }]));
const INDIFFERENT = { E: 1, U: 1, K: 1, G: 1 };

const PAIR_FACTORS: Readonly<Record<PairFactor, (pair: Pair) => number>> = {
  "1": () => 1,
  G: ({ one, other, G }) => (G * (one.G + other.G)) / 2,
  Q: ({ one, other }) => one.Q * other.Q,
  F: ({ one, other }) => Math.sqrt(one.F * other.F),
  S: ({ one, other }) => one.S * other.S,
  W: ({ one, other }) => one.W * other.W,
};

const sumOver = <T>(items: readonly T[], term: (item: T) => number): number =>
  items.reduce((sum, item) => sum + term(item), 0);

/** The mixing rules: everything that can be worked out before a temperature is known. */
function amountsOf(composition: Composition): Amounts {
  const present = COMPONENT_NAMES.filter((name) => (composition[name] ?? 0) > 0);
  const parts = present.map((name): Part => ({ ...COMPONENTS[name], x: composition[name] ?? 0 }));
  const unlike = parts.flatMap((one, i) =>
    parts.slice(i + 1).map((other, ahead): Pair => {
      const binary = BINARY.get(`${present[i]} ${present[i + 1 + ahead]}`) ?? INDIFFERENT;
      return { one, other, ...binary };
    }),
  );

  const conformal = (property: "K" | "E", binary: "K" | "U"): number => {
    const alike = sumOver(parts, (part) => part.x * part[property] ** 2.5) ** 2;
    const deviation = sumOver(
      unlike,
      (pair) =>
        2 *
        pair.one.x *
        pair.other.x *
        (pair[binary] ** 5 - 1) *
        (pair.one[property] * pair.other[property]) ** 2.5,
    );
    return (alike + deviation) ** 0.2;
  };
  const size = conformal("K", "K") ** 3;
  const energy = conformal("E", "U");
  const orientation =
    sumOver(parts, ({ x, G }) => x * G) +
    sumOver(unlike, ({ one, other, G }) => one.x * other.x * (G - 1) * (one.G + other.G));
  const mixtureFactors: Readonly<Record<MixtureFactor, number>> = {
    "1": 1,
    G: orientation,
    Q: sumOver(parts, ({ x, Q }) => x * Q) ** 2,
    F: sumOver(parts, ({ x, F }) => x * x * F),
  };

  // Every part with itself once, every two unlike parts twice.
  const couples = [
    ...parts.map((part) => ({ weight: 1, pair: { one: part, other: part, ...INDIFFERENT } })),
    ...unlike.map((pair) => ({ weight: 2, pair })),
  ].map(({ weight, pair }) => {
    const { one, other, E } = pair;
    return {
      pair,
      share: weight * one.x * other.x * (one.K * other.K) ** 1.5,
      energy: E * Math.sqrt(one.E * other.E),
    };
  });
  /** A term of B without its T^-u: the double sum over the parts, m3/kmol. */
  const virial = (a: number, u: number, factor: PairFactor): number =>
    a *
    sumOver(couples, ({ pair, share, energy }) => {
      const strength = PAIR_FACTORS[factor](pair);
      return strength === 0 ? 0 : share * strength * energy ** u;
    });

  const polynomials = DEGREES.map((degree) =>
    Array.from({ length: degree + 1 }, (): Share[] => []),
  );
  const add = (k: number, b: number, u: number, amount: number): void => {
    const ofPolynomial = polynomials[k];
    ofPolynomial?.[ofPolynomial.length - 1 - b]?.push({ place: EXPONENTS.indexOf(u), amount });
  };
  for (const [a, u, factor] of VIRIAL_TERMS) add(0, 1, u, virial(a, u, factor) / size);
  for (const [a, b, k, u, factor] of DENSITY_TERMS) {
    const amount = a * mixtureFactors[factor] * energy ** u;
    add(k, b, u, amount);
    if (b === 1) add(0, 1, u, virial(a, u, factor) / size - amount);
  }
  return {
    molarMass: sumOver(parts, ({ x, molarMass }) => x * molarMass),
    size: size / 1000,
    energy,
    polynomials,
  };
}

/** The equation at one temperature. */
function isothermOf({ size, polynomials }: Amounts, temperature: Kelvin): Isotherm {
  // exp(-u ln T) is T^-u at half the cost.
  const logT = Math.log(temperature);
  const powers = EXPONENTS.map((u) => Math.exp(-u * logT));
  // Typed arrays: evaluated twice as fast as plain ones once several gases have been through here.
  const coefficients = polynomials.map(
    (polynomial) =>
      new Float64Array(
        polynomial.map((shares) =>
          sumOver(shares, ({ place, amount }) => amount * (powers[place] as number)),
        ),
      ),
  );
  return (density) => {
    const D = density * size;
    let first = 0; // D dar/dD
    let second = 0; // D^2 d2ar/dD2
    let k = 0;
    let power = 1; // D^k
    for (const polynomial of coefficients) {
      // Horner's rule for P, P' and P''/2 together.
      let value = 0;
      let slope = 0;
      let bend = 0;
      for (const coefficient of polynomial) {
        bend = bend * D + slope;
        slope = slope * D + value;
        value = value * D + coefficient;
      }
      const damping = k === 0 ? 1 : Math.exp(-power);
      const q = k * power;
      const rise = slope * D;
      first += damping * (rise - q * value);
      second += damping * (2 * bend * D * D - 2 * q * rise + q * (q - k + 1) * value);
      k += 1;
      power *= D;
    }
    return [1 + first, (first + second) / density];
  };
}

/** Reduced densities between which a turn of an isotherm is looked for: liquids have 2 to 3. */
const THINNEST = 1e-3;
const DENSEST = 4;
const SCAN_STEP = 1.05;

/**
 * Density at which the pressure of an isotherm stops rising, mol/m3: what is denser is not gas.
 *
 * @returns undefined when it rises all the way to the highest pressure that is solved
 */
function turningDensity(at: Isotherm, size: number, temperature: Kelvin): number | undefined {
  const highest = HIGHEST_PRESSURE / (MOLAR_GAS_CONSTANT * temperature);
  let below = 0;
  for (let density = THINNEST / size; density < DENSEST / size; density *= SCAN_STEP) {
    const [z, slope] = at(density);
    if (z + density * slope <= 0) return endOfRise(at, below, density);
    if (density * z >= highest) return undefined;
    below = density;
  }
  return undefined;
}

/** The last density between two at which pressure still rises, by halving. */
function endOfRise(at: Isotherm, rising: number, falling: number): number {
  let below = rising;
  let above = falling;
  for (let halvings = 0; halvings < 40; halvings += 1) {
    const middle = (below + above) / 2;
    const [z, slope] = at(middle);
    if (z + middle * slope > 0) below = middle;
    else above = middle;
  }
  return below;
}

/**
 * No isotherm turns above this multiple of U: 1.26 is usual for one component, 1.54 was the most in thousands of random
 * mixtures (carbon monoxide with carbon dioxide).
 */
const NO_TURN_ABOVE = 1.6;
const COOLING_STEP = 10;
/**
 * Below this multiple of U the high powers of 1/T outweigh the rest at any density, and the equation no longer shows
 * that it has left the gas. Such a mixture is far below its critical temperature, about 1.26 U.
 */
const COLDEST = 0.6;

/** A temperature, to 10 K, above which the pressure of this composition rises with density throughout. */
function risesThroughoutAbove(amounts: Amounts): number {
  let temperature = Math.min(NO_TURN_ABOVE * amounts.energy, HIGHEST_TEMPERATURE + COOLING_STEP);
  while (temperature > LOWEST_TEMPERATURE) {
    const next = kelvin(temperature - COOLING_STEP);
    const at = isothermOf(amounts, next);
    if (turningDensity(at, amounts.size, next) !== undefined) break;
    temperature = next;
  }
  return temperature;
}

const inWords = (temperature: Kelvin): string =>
  `${temperature.toFixed(1)} K (${toDegF(temperature).toFixed(0)} degF)`;

// The words of both limits are made only when they are needed: an integration asks thousands of times.
function requireTemperature(temperature: Kelvin, energy: number): void {
  const lowest = kelvin(Math.max(LOWEST_TEMPERATURE, COLDEST * energy));
  if (temperature >= lowest && temperature <= HIGHEST_TEMPERATURE) return;
  throw new InputError(
    "temperature",
    temperature,
    `between ${inWords(lowest)} and ${inWords(kelvin(HIGHEST_TEMPERATURE))} for a gas of this composition; here it is ${inWords(temperature)}`,
  );
}

function requirePressure(pressure: AbsolutePa): void {
  if (pressure > 0 && pressure <= HIGHEST_PRESSURE) return;
  throw new InputError(
    "pressure",
    pressure,
    `above 0 and at most ${HIGHEST_PRESSURE / 1e6} MPa absolute (11,600 psia) for a gas given by its analysis (here ${toPsia(pressure).toFixed(0)} psia)`,
  );
}

/** So thin that z is 1 to the last digit that is solved for, and the slope with density may not be representable. */
const IDEAL_BELOW = 1e-12;

export interface DetailState {
  /** mol/m3 */
  readonly molarDensity: number;
  /** compressibility factor p/(ρ R T), dimensionless */
  readonly z: number;
  /** evaluations of the equation that the solve took */
  readonly evaluations: number;
}

/** A mixture whose composition has been worked into the equation. */
export interface DetailMixture {
  /** kg/mol */
  readonly molarMass: number;
  /**
   * Density and compressibility factor of the gas.
   *
   * The equation gives pressure from density; density is found by a Newton solve inside a bracket, from the ideal
   * gas's density. Where the isotherm turns back, as it does below a temperature that hangs on the composition, the
   * bracket ends at the turn, so that the root is the gas's and not the liquid's. A gas of several components begins
   * to condense before the turn: its dew point is not looked for.
   *
   * @param pressure    absolute, Pa, above 0 to 80 MPa
   * @param temperature K, 200 to 450, and at least 0.6 U (heavy mixtures only: pure decane 294 K)
   * @throws InputError outside these limits, and where no gas of this composition has the pressure at this temperature
   */
  state(pressure: AbsolutePa, temperature: Kelvin): DetailState;
  /**
   * Pressure at a density.
   *
   * @param molarDensity mol/m3, 0 or more
   * @param temperature  K, as for state
   * @throws InputError outside these limits
   */
  pressure(molarDensity: number, temperature: Kelvin): AbsolutePa;
}

/**
 * The equation for one composition.
 *
 * Holds for gas. Mixtures of little but hydrogen and helium have been seen to turn back above 400 K, where it is not
 * looked for.
 *
 * @param composition mole fractions that sum to 1, each 0 to 1 (gasByAnalysis checks and normalises)
 * @example detailMixture({ methane: 1 }).state(fromPsia(1000), fromDegF(60)).z  // 0.87397
 * Source: AGA Report No. 8 Part 1 (2017), DETAIL equation; ISO 20765-1.
 */
export function detailMixture(composition: Composition): DetailMixture {
  const amounts = amountsOf(composition);
  const { molarMass, size, energy } = amounts;
  const mayTurnBelow = risesThroughoutAbove(amounts);
  const isotherm = (temperature: Kelvin) => {
    const at = isothermOf(amounts, temperature);
    const turn = temperature < mayTurnBelow ? turningDensity(at, size, temperature) : undefined;
    return { temperature, at, turn };
  };
  // An integration down a well asks two or three times in a row at the same temperature.
  let last: ReturnType<typeof isotherm> | undefined;
  const along = (temperature: Kelvin) => {
    requireTemperature(temperature, energy);
    if (last?.temperature !== temperature) last = isotherm(temperature);
    return last;
  };
  return {
    molarMass,
    state(pressure, temperature) {
      requirePressure(pressure);
      const { at, turn } = along(temperature);
      const rt = MOLAR_GAS_CONSTANT * temperature;
      const ideal = pressure / rt;
      if (ideal * size < IDEAL_BELOW) return { molarDensity: ideal, z: 1, evaluations: 0 };
      const most = turn === undefined ? undefined : absolutePa(turn * rt * at(turn)[0]);
      if (most !== undefined && pressure > most) {
        throw new InputError(
          "pressure",
          pressure,
          `at most ${toPsia(most).toFixed(0)} psia at ${inWords(temperature)}: compressed further, a gas of this composition condenses, and the equation is for gas alone (here ${toPsia(pressure).toFixed(0)} psia)`,
        );
      }
      const root = bracketedNewton(
        (density) => {
          const [z, slope] = at(density);
          return [density * z - ideal, z + density * slope];
        },
        0,
        turn ?? DENSEST / size,
        ideal,
      );
      if (!root) {
        throw new InputError(
          "pressure",
          pressure,
          `one for which the DETAIL equation has an answer at ${inWords(temperature)}`,
        );
      }
      return { molarDensity: root.x, z: ideal / root.x, evaluations: root.evaluations };
    },
    pressure(molarDensity, temperature) {
      requireNumber("density", molarDensity, "0 or more", (rho) => rho >= 0);
      const { at } = along(temperature);
      if (molarDensity === 0) return absolutePa(0);
      return absolutePa(molarDensity * MOLAR_GAS_CONSTANT * temperature * at(molarDensity)[0]);
    },
  };
}
