import type { AbsolutePa, Kelvin } from "./units.ts";

/** What a number measures, so that whoever shows it can choose the unit. */
export type Measure =
  | "absolute pressure"
  | "temperature"
  | "mole fraction"
  | "pure number"
  | "true vertical depth";

/** A span inside which a method was fitted or checked, SI, ends included. */
export interface Validity {
  readonly quantity: string;
  readonly measure: Measure;
  readonly from: number;
  readonly to: number;
  /** Who says so. */
  readonly basis: string;
}

/** How a result is reached: shown behind every number. */
export interface Method {
  readonly name: string;
  readonly formula: string;
  readonly source: string;
  readonly validity: readonly Validity[];
}

/** Something the reader of a result has to know. Rare, and never a substitute for an error. */
export type Warning =
  | {
      readonly kind: "outside";
      readonly method: string;
      readonly validity: Validity;
      readonly value: number;
    }
  | { readonly kind: "note"; readonly text: string };

/** One warning for each named quantity that lies outside the method's validity; empty when inside. */
export function warnOutside(method: Method, values: Readonly<Record<string, number>>): Warning[] {
  return method.validity.flatMap((validity) => {
    const value = values[validity.quantity];
    if (value === undefined || (value >= validity.from && value <= validity.to)) return [];
    return [{ kind: "outside" as const, method: method.name, validity, value }];
  });
}

/** The same fact once, in the order first met. */
export function distinctWarnings(warnings: readonly Warning[]): Warning[] {
  const seen = new Set<string>();
  return warnings.filter((warning) => {
    const key =
      warning.kind === "note" ? warning.text : `${warning.method}/${warning.validity.quantity}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** A state of gas. */
export interface GasState {
  readonly pressure: AbsolutePa;
  readonly temperature: Kelvin;
}
