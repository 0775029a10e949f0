import { bracketedNewton } from "./bracketedNewton.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { type Method, type Warning, warnOutside } from "./method.ts";
import {
  type AbsolutePa,
  absolutePa,
  fromDegF,
  fromPsia,
  GAS_CONSTANT,
  type Kelvin,
  M_PER_FT,
} from "./units.ts";

export const gasPassageMethod: Method = {
  name: "Isentropic flow of an ideal gas through a port (Thornhill-Craver form)",
  formula:
    "ṅ = Cd A p1 √(Φ(r) / (M R T1)), Φ(r) = 2k/(k − 1) [r^(2/k) − r^((k+1)/k)], r = p2/p1, not below rc = (2/(k + 1))^(k/(k − 1)); standard volume ṅ R Tb / pb at 14.7 psia and 60 degF",
  source:
    "isentropic ideal-gas flow: textbook gas dynamics; as a form for gas-lift ports Cook and Dotterweich (1946), from memory",
  validity: [
    {
      quantity: "heat capacity ratio",
      measure: "pure number",
      from: 1.1,
      to: 1.4,
      basis:
        "ideal-gas values of natural gases (about 1.2 to 1.32), nitrogen and air (1.40), from memory",
    },
  ],
};

export const seriesPassageMethod: Method = {
  name: "Choke and port in series (Thornhill-Craver form)",
  formula: `the pressure between them at which both pass the same rate, the upstream temperature kept between them; each: ${gasPassageMethod.formula}`,
  source: `${gasPassageMethod.source}; the jet of the choke comes to rest before the port, and an ideal gas that is throttled keeps its temperature`,
  validity: gasPassageMethod.validity,
};

/** What of a gas counts in a port. */
export interface PassageGas {
  /** M, kg/mol */
  readonly molarMass: number;
  /** k, ideal-gas ratio of heat capacities, dimensionless, above 1 */
  readonly heatCapacityRatio: number;
}

/** A hole that gas goes through. */
export interface Opening {
  /** A, flow area, m2: that of the bore, not of the seat */
  readonly area: number;
  /** Cd, dimensionless, above 0, at most 1 */
  readonly dischargeCoefficient: number;
}

/** The state that standard volumes refer to. */
export interface StandardBase {
  readonly pressure: AbsolutePa;
  readonly temperature: Kelvin;
}

/** 14.7 psia and 60 degF. The 155.5 of the classic field formula goes with 14.65 psia and counts 0.34 percent more. */
export const STANDARD_BASE: StandardBase = { pressure: fromPsia(14.7), temperature: fromDegF(60) };

/** One thousand standard cubic feet a day, m3/s. Exact. */
export const M3_S_PER_MSCF_DAY = (1000 * M_PER_FT ** 3) / 86400;

/**
 * Standard volume of a rate, the gas being ideal at the base.
 *
 *   Q = ṅ R Tb / pb
 *
 * @param rate ṅ, mol/s
 * @param base pb and Tb
 * @returns m3/s at the base
 * Source: ideal gas law.
 */
export function standardRate(rate: number, base: StandardBase = STANDARD_BASE): number {
  return (rate * GAS_CONSTANT * base.temperature) / base.pressure;
}

/**
 * Ratio of downstream to upstream pressure at and below which the rate no longer rises.
 *
 *   rc = (2 / (k + 1))^(k / (k - 1))
 *
 * @param heatCapacityRatio k, dimensionless
 * @returns dimensionless; 0.5457 for k = 1.3
 * @throws InputError when k is not above 1 and at most 1.67, the ideal gas of single atoms
 * Source: textbook gas dynamics.
 */
export function criticalPressureRatio(heatCapacityRatio: number): number {
  requireNumber(
    "heat_capacity_ratio",
    heatCapacityRatio,
    "above 1 and at most 1.67",
    (k) => k > 1 && k <= 1.67,
  );
  // The logarithm keeps its digits where k comes close to 1 and the power would lose them.
  const k = heatCapacityRatio;
  return Math.exp((-k / (k - 1)) * Math.log1p((k - 1) / 2));
}

/** Φ of gasPassageMethod and its derivative by r; below the critical ratio the constant it has there. */
function flowFunction(
  ratio: number,
  k: number,
  criticalRatio: number,
): readonly [phi: number, slope: number] {
  const r = Math.max(ratio, criticalRatio);
  const w = (k - 1) / k;
  // expm1 keeps the digits of a drop that is a small part of the pressure.
  const phi = (2 / w) * r ** ((k + 1) / k) * Math.expm1(w * Math.log(1 / r));
  return [phi, ratio > criticalRatio ? (2 / k) * (phi / r) - 2 * r ** (1 / k) : 0];
}

function moleRate(
  upstream: number,
  downstream: number,
  temperature: Kelvin,
  { area, dischargeCoefficient }: Opening,
  { molarMass, heatCapacityRatio: k }: PassageGas,
): number {
  const [phi] = flowFunction(downstream / upstream, k, criticalPressureRatio(k));
  return (
    dischargeCoefficient *
    area *
    upstream *
    Math.sqrt(phi / (molarMass * GAS_CONSTANT * temperature))
  );
}

function requireStates(
  upstream: AbsolutePa,
  downstream: AbsolutePa,
  temperature: Kelvin,
  gas: PassageGas,
): void {
  requireNumber("upstream_pressure", upstream, "above 0", (p) => p > 0);
  requireNumber("downstream_pressure", downstream, "above 0", (p) => p > 0);
  if (downstream > upstream) {
    throw new InputError(
      "downstream_pressure",
      downstream,
      "at most the upstream pressure: gas does not pass the other way",
    );
  }
  requireNumber("upstream_temperature", temperature, "above 0 K", (t) => t > 0);
  requireNumber("molar_mass", gas.molarMass, "above 0", (m) => m > 0);
}

function requireOpening(name: "port" | "choke", opening: Opening): void {
  requireNumber(`${name}_area`, opening.area, "above 0", (a) => a > 0);
  requireNumber(
    `${name}_discharge_coefficient`,
    opening.dischargeCoefficient,
    "above 0 and at most 1",
    (c) => c > 0 && c <= 1,
  );
}

const warningsOf = (gas: PassageGas): Warning[] =>
  warnOutside(gasPassageMethod, { "heat capacity ratio": gas.heatCapacityRatio });

export interface Passage {
  /** mol/s, 0 or more */
  readonly rate: number;
  /** whether a lower downstream pressure would leave the rate as it is */
  readonly critical: boolean;
  readonly warnings: readonly Warning[];
}

/**
 * Gas that passes a port.
 *
 *   ṅ = Cd A p1 √(Φ(r) / (M R T1)),  Φ(r) = 2k/(k - 1) [r^(2/k) - r^((k+1)/k)],  r = max(p2/p1, rc)
 *
 * @param upstream    p1, absolute, Pa
 * @param downstream  p2, absolute, Pa, at most p1
 * @param temperature T1, upstream, K
 * @param port        A and Cd
 * @param gas         M and k
 * @returns mol/s (times M: kg/s; see standardRate), 0 without a drop
 * @throws InputError for a pressure, a temperature, an opening or a gas that cannot be; for a downstream pressure
 *         above the upstream one
 * Holds for an ideal gas with constant k, the velocity upstream neglected. There is no compressibility factor in the
 * form: a gas with z below 1 passes more, by about 1/√z.
 * @example gasPassage(fromPsia(1000), fromPsia(700), fromDegF(100), port, gas)
 *          // 1110.5 Mscf/day for 1/4 in, Cd 0.75, gravity 0.6, k 1.3
 * Source: see gasPassageMethod.
 */
export function gasPassage(
  upstream: AbsolutePa,
  downstream: AbsolutePa,
  temperature: Kelvin,
  port: Opening,
  gas: PassageGas,
): Passage {
  requireStates(upstream, downstream, temperature, gas);
  requireOpening("port", port);
  return {
    rate: moleRate(upstream, downstream, temperature, port, gas),
    critical: downstream <= upstream * criticalPressureRatio(gas.heatCapacityRatio),
    warnings: warningsOf(gas),
  };
}

export interface SeriesPassage {
  /** mol/s, 0 or more */
  readonly rate: number;
  /** pressure between choke and port, absolute, Pa */
  readonly between: AbsolutePa;
  readonly chokeCritical: boolean;
  readonly portCritical: boolean;
  readonly warnings: readonly Warning[];
}

/**
 * Gas that passes a choke and then a port.
 *
 *   ṅ(choke, p1 to pm) = ṅ(port, pm to p2), solved for pm between p2 and p1
 *
 * The squares of both rates are smooth where the rates themselves have an upright tangent (no drop), so they
 * are what is solved: their difference, port less choke, rises with pm from at most 0 at p2 to at least 0 at p1.
 *
 * @param upstream    p1, of the choke, absolute, Pa
 * @param downstream  p2, of the port, absolute, Pa, at most p1
 * @param temperature upstream of the choke, kept between choke and port, K
 * @returns the common rate, which is that of the element with the larger drop: there it hangs least on the last
 *          digits of pm. Without a drop 0, and pm = p1
 * @throws InputError as gasPassage, naming the choke or the port
 * Source: see seriesPassageMethod.
 */
export function passageInSeries(
  upstream: AbsolutePa,
  downstream: AbsolutePa,
  temperature: Kelvin,
  choke: Opening,
  port: Opening,
  gas: PassageGas,
): SeriesPassage {
  requireStates(upstream, downstream, temperature, gas);
  requireOpening("choke", choke);
  requireOpening("port", port);
  const k = gas.heatCapacityRatio;
  const criticalRatio = criticalPressureRatio(k);
  const warnings = warningsOf(gas);
  if (downstream === upstream) {
    return {
      rate: 0,
      between: upstream,
      chokeCritical: false,
      portCritical: false,
      warnings,
    };
  }
  const chokeSize = (choke.area * choke.dischargeCoefficient) ** 2;
  const portSize = (port.area * port.dischargeCoefficient) ** 2;
  const chokeShare = chokeSize / (chokeSize + portSize);
  const portShare = portSize / (chokeSize + portSize);
  const overall = downstream / upstream;
  const root = bracketedNewton(
    (x) => {
      const [chokePhi, chokeSlope] = flowFunction(x, k, criticalRatio);
      const [portPhi, portSlope] = flowFunction(overall / x, k, criticalRatio);
      return [
        portShare * x * x * portPhi - chokeShare * chokePhi,
        portShare * (2 * x * portPhi - overall * portSlope) - chokeShare * chokeSlope,
      ];
    },
    overall,
    1,
    1 - (1 - overall) * portShare,
    1e-12,
  );
  if (!root) throw new Error("passage in series: the solve did not end; this is a defect");
  const between = absolutePa(Math.min(Math.max(root.x * upstream, downstream), upstream));
  const chokeDropsMore = upstream - between > between - downstream;
  return {
    rate: chokeDropsMore
      ? moleRate(upstream, between, temperature, choke, gas)
      : moleRate(between, downstream, temperature, port, gas),
    between,
    chokeCritical: between <= upstream * criticalRatio,
    portCritical: downstream <= between * criticalRatio,
    warnings,
  };
}
