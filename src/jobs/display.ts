import type { Measure } from "../calc/method.ts";
import { STANDARD_ATMOSPHERE } from "../calc/units.ts";
import { type Dimension, fromSI } from "./quantity.ts";

/** The two sets of units that a person can choose between. */
export type UnitSystem = "field" | "metric";

interface Style {
  readonly unit: string;
  /** digits after the point, as the gauge or tape has them */
  readonly digits: number;
}

const styles: Readonly<Record<UnitSystem, Readonly<Record<Dimension, Style>>>> = {
  field: {
    pressure: { unit: "psig", digits: 0 },
    "absolute pressure": { unit: "psia", digits: 1 },
    "partial pressure": { unit: "psia", digits: 3 },
    "pressure difference": { unit: "psi", digits: 0 },
    temperature: { unit: "degF", digits: 0 },
    "temperature difference": { unit: "degF", digits: 1 },
    length: { unit: "ft", digits: 1 },
    diameter: { unit: "in", digits: 3 },
    area: { unit: "in2", digits: 4 },
    force: { unit: "lbf", digits: 0 },
    weight: { unit: "lb", digits: 0 },
    "mass per length": { unit: "lb/1000 ft", digits: 2 },
    density: { unit: "lb/ft3", digits: 1 },
    "pressure gradient": { unit: "psi/ft", digits: 3 },
    modulus: { unit: "Mpsi", digits: 1 },
    "load rate": { unit: "psi/in", digits: 0 },
    "gas rate": { unit: "Mscf/d", digits: 0 },
    "liquid rate": { unit: "bbl/d", digits: 0 },
    "productivity index": { unit: "bbl/d/psi", digits: 2 },
    fraction: { unit: "%", digits: 1 },
    "area ratio": { unit: "", digits: 4 },
    "friction coefficient": { unit: "", digits: 2 },
    ratio: { unit: "", digits: 2 },
    angle: { unit: "deg", digits: 1 },
    "line angle": { unit: "deg", digits: 0 },
    "dogleg severity": { unit: "deg/100 ft", digits: 2 },
    duration: { unit: "min", digits: 0 },
  },
  metric: {
    pressure: { unit: "barg", digits: 1 },
    "absolute pressure": { unit: "bara", digits: 3 },
    "partial pressure": { unit: "kPaa", digits: 2 },
    "pressure difference": { unit: "bar", digits: 1 },
    temperature: { unit: "degC", digits: 0 },
    "temperature difference": { unit: "degC", digits: 1 },
    length: { unit: "m", digits: 1 },
    diameter: { unit: "mm", digits: 1 },
    area: { unit: "mm2", digits: 1 },
    force: { unit: "daN", digits: 0 },
    weight: { unit: "kg", digits: 1 },
    "mass per length": { unit: "kg/1000 m", digits: 2 },
    density: { unit: "kg/m3", digits: 0 },
    "pressure gradient": { unit: "kPa/m", digits: 2 },
    modulus: { unit: "GPa", digits: 0 },
    "load rate": { unit: "kPa/mm", digits: 0 },
    "gas rate": { unit: "1000 Sm3/d", digits: 1 },
    "liquid rate": { unit: "m3/d", digits: 0 },
    "productivity index": { unit: "m3/d/bar", digits: 1 },
    fraction: { unit: "%", digits: 1 },
    "area ratio": { unit: "", digits: 4 },
    "friction coefficient": { unit: "", digits: 2 },
    ratio: { unit: "", digits: 2 },
    angle: { unit: "deg", digits: 1 },
    "line angle": { unit: "deg", digits: 0 },
    "dogleg severity": { unit: "deg/30 m", digits: 2 },
    duration: { unit: "min", digits: 0 },
  },
};

/** The unit in which a dimension is shown and asked for. */
export function displayUnit(system: UnitSystem, dimension: Dimension): string {
  return styles[system][dimension].unit;
}

const THIN_SPACE = "\u2009";

/** A number with a fixed count of digits, thin spaces between thousands, and a true minus. */
export function formatNumber(value: number, digits: number): string {
  const rounded = Math.abs(value).toFixed(digits);
  const [whole = "", part] = rounded.split(".");
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE) : whole;
  const negative = value < 0 && Number(rounded) !== 0;
  return `${negative ? "\u2212" : ""}${grouped}${part === undefined ? "" : `.${part}`}`;
}

/** Writes SI values for a person: number and unit, or the two apart. */
export interface Writer {
  readonly system: UnitSystem;
  /** absolute, Pa, that gauge pressures are counted from */
  readonly atmosphere: number;
  /** e.g. `1 152 psig` */
  write(dimension: Dimension, si: number): string;
  parts(dimension: Dimension, si: number): { readonly number: string; readonly unit: string };
  /** The same for a calculation core's measure; absolute pressures stay absolute. */
  measure(measure: Measure, si: number): string;
}

/** Where a figure's size asks for other digits than are usual. */
function digitsFor(system: UnitSystem, dimension: Dimension, value: number): number | undefined {
  const size = Math.abs(value);
  // A depth is read to the foot or metre, the length of a tool to a tenth.
  if (dimension === "length" && size >= 100) return 0;
  // A coefficient of 0.865 is not one of 0.86: what has three digits keeps them.
  if (dimension === "ratio") return hasThreeDigits(size) ? 3 : undefined;
  // Pins, ports and wires: a 3/16 has four digits, and what it bears goes with its square.
  if (dimension !== "diameter") return undefined;
  if (system === "metric") return size < 25 ? 2 : undefined;
  return size < 1 && Math.round(size * 1e4) % 10 !== 0 ? 4 : undefined;
}

const hasThreeDigits = (size: number) =>
  Number(size.toFixed(3)) !== Number(size.toFixed(2)) &&
  Math.abs(size - Number(size.toFixed(3))) < 1e-9;

export function writer(system: UnitSystem, atmosphere: number = STANDARD_ATMOSPHERE): Writer {
  const parts = (dimension: Dimension, si: number) => {
    const { unit, digits } = styles[system][dimension];
    const value = fromSI(dimension, si, unit, atmosphere);
    return { number: formatNumber(value, digitsFor(system, dimension, value) ?? digits), unit };
  };
  const write = (dimension: Dimension, si: number) => {
    const { number, unit } = parts(dimension, si);
    return unit === "" ? number : `${number} ${unitLabel(unit)}`;
  };
  return {
    system,
    atmosphere,
    parts,
    write,
    measure(measure, si) {
      switch (measure) {
        case "absolute pressure":
          return write("absolute pressure", si);
        case "temperature":
          return write("temperature", si);
        case "true vertical depth":
          return write("length", si);
        case "mole fraction":
          return write("fraction", si);
        case "pure number":
          return String(Number(si.toPrecision(3)));
      }
    },
  };
}

/** Units as print writes them; records and keys keep the plain letters. */
const labels: Readonly<Record<string, string>> = {
  degF: "°F",
  degC: "°C",
  deg: "°",
  in2: "in²",
  mm2: "mm²",
  "lb/ft3": "lb/ft³",
  "kg/m3": "kg/m³",
  "m3/d": "m³/d",
  // "11.6 1000 Sm³/d" is not read as one number.
  "1000 Sm3/d": "kSm³/d",
};

/** A unit as print writes it, e.g. `°F`. */
export function unitLabel(unit: string): string {
  return labels[unit] ?? unit;
}

/** A quantity as it was entered, e.g. `1150 psig`: the value untouched, the unit as print writes it. */
export function asEntered(quantity: { readonly value: number; readonly unit: string }): string {
  return quantity.unit === ""
    ? String(quantity.value)
    : `${quantity.value} ${unitLabel(quantity.unit)}`;
}
