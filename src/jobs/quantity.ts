import { STANDARD_BASE } from "../calc/gasPassage.ts";
import { GRAVITY, STANDARD_ATMOSPHERE } from "../calc/units.ts";
import { convert } from "./numberUnits.ts";

/**
 * Quantities as people write them, and the one place where they become SI.
 *
 * A quantity is kept as it was entered. Gauge and absolute pressure are different units here, told
 * apart by their names; a gauge pressure needs the atmosphere it was read in.
 */
interface UnitOf {
  /** How mathjs writes the unit; a gauge pressure is written as the difference it shows. */
  readonly mathjs: string;
  readonly gauge?: true;
  /** Multiplies after the conversion; a weight is a mass read on a scale, and acts as a force. */
  readonly factor?: number;
}

interface DimensionOf {
  /** SI unit the core counts in, as mathjs writes it. */
  readonly si: string;
  /** Limits beyond which a value is impossible, SI (absolute for a pressure). */
  readonly possible: readonly [least: number, most: number];
  readonly units: Readonly<Record<string, UnitOf>>;
}

const GIGA = 1e9;

/** One m3 at 1.01325 bar and 15 degC, counted at 14.7 psia and 60 degF: the same amount of ideal gas. */
const SM3_AT_BASE =
  (STANDARD_ATMOSPHERE / STANDARD_BASE.pressure) * (STANDARD_BASE.temperature / 288.15);

export const dimensions = {
  pressure: {
    si: "Pa",
    possible: [0, 345e6],
    units: {
      psig: { mathjs: "psi", gauge: true },
      barg: { mathjs: "bar", gauge: true },
      kPag: { mathjs: "kPa", gauge: true },
      psia: { mathjs: "psi" },
      bara: { mathjs: "bar" },
      kPaa: { mathjs: "kPa" },
    },
  },
  "absolute pressure": {
    si: "Pa",
    possible: [0, 345e6],
    units: { psia: { mathjs: "psi" }, bara: { mathjs: "bar" }, kPaa: { mathjs: "kPa" } },
  },
  "partial pressure": {
    si: "Pa",
    possible: [0, 345e6],
    units: { psia: { mathjs: "psi" }, kPaa: { mathjs: "kPa" } },
  },
  "pressure difference": {
    si: "Pa",
    possible: [-345e6, 345e6],
    units: { psi: { mathjs: "psi" }, bar: { mathjs: "bar" }, kPa: { mathjs: "kPa" } },
  },
  temperature: {
    si: "K",
    possible: [173.15, 700],
    units: { degF: { mathjs: "degF" }, degC: { mathjs: "degC" } },
  },
  "temperature difference": {
    si: "K",
    possible: [0, 300],
    units: { degF: { mathjs: "degR" }, degC: { mathjs: "K" } },
  },
  length: {
    si: "m",
    possible: [-15_000, 15_000],
    units: { ft: { mathjs: "ft" }, m: { mathjs: "m" } },
  },
  diameter: {
    si: "m",
    possible: [0, 2],
    units: { in: { mathjs: "in" }, mm: { mathjs: "mm" } },
  },
  area: {
    si: "m^2",
    possible: [0, 1],
    units: { in2: { mathjs: "in^2" }, mm2: { mathjs: "mm^2" } },
  },
  force: {
    si: "N",
    possible: [-GIGA, GIGA],
    units: { lbf: { mathjs: "lbf" }, N: { mathjs: "N" }, daN: { mathjs: "N", factor: 10 } },
  },
  weight: {
    si: "kg",
    possible: [0, GIGA],
    units: {
      lb: { mathjs: "lbm", factor: GRAVITY },
      kg: { mathjs: "kg", factor: GRAVITY },
    },
  },
  "mass per length": {
    si: "kg/m",
    possible: [0, 100],
    units: {
      "lb/1000 ft": { mathjs: "lbm/ft", factor: 1e-3 },
      "kg/1000 m": { mathjs: "kg/m", factor: 1e-3 },
    },
  },
  density: {
    si: "kg/m^3",
    possible: [0, 25_000],
    units: { "lb/ft3": { mathjs: "lbm/ft^3" }, "kg/m3": { mathjs: "kg/m^3" } },
  },
  "pressure gradient": {
    si: "Pa/m",
    possible: [0, 50_000],
    units: { "psi/ft": { mathjs: "psi/ft" }, "kPa/m": { mathjs: "kPa/m" } },
  },
  modulus: {
    si: "Pa",
    possible: [0, 1e12],
    units: { Mpsi: { mathjs: "psi", factor: 1e6 }, GPa: { mathjs: "GPa" } },
  },
  "load rate": {
    si: "Pa/m",
    possible: [0, 1e12],
    units: { "psi/in": { mathjs: "psi/in" }, "kPa/mm": { mathjs: "kPa/mm" } },
  },
  "gas rate": {
    // Volume at 14.7 psia and 60 degF; the metric trade counts at 1.01325 bar and 15 degC.
    si: "m^3/s",
    possible: [0, 10_000],
    units: {
      "Mscf/d": { mathjs: "ft^3/day", factor: 1000 },
      "1000 Sm3/d": { mathjs: "m^3/day", factor: 1000 * SM3_AT_BASE },
    },
  },
  "liquid rate": {
    si: "m^3/s",
    possible: [0, 10],
    units: { "bbl/d": { mathjs: "oilbarrel/day" }, "m3/d": { mathjs: "m^3/day" } },
  },
  "productivity index": {
    si: "m^3/s/Pa",
    possible: [0, 1],
    units: {
      "bbl/d/psi": { mathjs: "oilbarrel/day/psi" },
      "m3/d/bar": { mathjs: "m^3/day/bar" },
    },
  },
  fraction: {
    si: "",
    possible: [0, 1],
    units: { "mol %": { mathjs: "", factor: 0.01 }, "%": { mathjs: "", factor: 0.01 } },
  },
  "area ratio": { si: "", possible: [0, 1], units: { "": { mathjs: "" } } },
  "friction coefficient": { si: "", possible: [0, 1], units: { "": { mathjs: "" } } },
  ratio: { si: "", possible: [0, 1000], units: { "": { mathjs: "" } } },
  angle: { si: "rad", possible: [-7, 7], units: { deg: { mathjs: "deg" } } },
  // Between the two lines at a pulley: from side by side to straight on.
  "line angle": { si: "rad", possible: [0, Math.PI], units: { deg: { mathjs: "deg" } } },
  "dogleg severity": {
    si: "rad/m",
    possible: [0, 10],
    units: {
      "deg/100 ft": { mathjs: "deg/ft", factor: 0.01 },
      "deg/30 m": { mathjs: "deg/m", factor: 1 / 30 },
    },
  },
  duration: {
    si: "s",
    possible: [0, 60 * 60 * 24 * 60],
    units: { min: { mathjs: "minute" }, h: { mathjs: "hour" } },
  },
} as const satisfies Record<string, DimensionOf>;

export type Dimension = keyof typeof dimensions;
export type UnitName<D extends Dimension = Dimension> = D extends Dimension
  ? keyof (typeof dimensions)[D]["units"] & string
  : never;

/** A value with its unit, as somebody entered it. */
export interface Quantity<D extends Dimension = Dimension> {
  readonly value: number;
  readonly unit: UnitName<D>;
}

/** si = offset + slope × value, read off mathjs once for each unit. */
interface Line {
  readonly offset: number;
  readonly slope: number;
  readonly gauge: boolean;
}
const lines = new Map<string, Line>();

function lineOf(dimension: Dimension, unit: string): Line {
  const key = `${dimension} ${unit}`;
  const known = lines.get(key);
  if (known) return known;
  const { si, units } = dimensions[dimension] as DimensionOf;
  const of = units[unit];
  if (!of) throw new RangeError(`${dimension} is not measured in ${unit}`);
  const at = (value: number) => (of.mathjs === "" ? value : convert(value, of.mathjs, si));
  // Taken over a span of 1000 so that the offset of a temperature does not eat the slope's digits.
  const offset = at(0);
  const slope = (at(1000) - offset) / 1000;
  const factor = of.factor ?? 1;
  const line = { offset: offset * factor, slope: slope * factor, gauge: of.gauge ?? false };
  lines.set(key, line);
  return line;
}

/**
 * A quantity in SI: Pa absolute, Pa of difference, K, m, m2, N, kg/m, kg/m3, Pa/m, m3/s, 1, rad, s.
 *
 * @param atmosphere absolute, Pa, that gauge pressures are counted from
 */
export function toSI<D extends Dimension>(
  dimension: D,
  quantity: Quantity<D>,
  atmosphere: number = STANDARD_ATMOSPHERE,
): number {
  const { offset, slope, gauge } = lineOf(dimension, quantity.unit);
  return offset + slope * quantity.value + (gauge ? atmosphere : 0);
}

/** The value in a unit, from SI: toSI turned round. */
export function fromSI(
  dimension: Dimension,
  si: number,
  unit: string,
  atmosphere: number = STANDARD_ATMOSPHERE,
): number {
  const { offset, slope, gauge } = lineOf(dimension, unit);
  return (si - offset - (gauge ? atmosphere : 0)) / slope;
}

/** The units of a dimension, the first being the one the trade reaches for. */
export function unitsOf(dimension: Dimension): string[] {
  return Object.keys(dimensions[dimension].units);
}

/**
 * Why a value cannot be, in words, or undefined when it can.
 *
 * @returns e.g. `a pressure lies between -14.7 and 50,000 psig`
 */
export function impossible(
  dimension: Dimension,
  quantity: { readonly value: number; readonly unit: string },
  atmosphere: number = STANDARD_ATMOSPHERE,
): string | undefined {
  const [least, most] = dimensions[dimension].possible;
  const si = toSI(dimension, quantity as Quantity, atmosphere);
  if (si >= least && si <= most) return undefined;
  const bound = (limit: number) =>
    fromSI(dimension, limit, quantity.unit, atmosphere).toLocaleString("en-US", {
      maximumSignificantDigits: 3,
    });
  const unit = quantity.unit === "" ? "" : ` ${quantity.unit}`;
  return `a ${dimension} lies between ${bound(least)} and ${bound(most)}${unit}`;
}
