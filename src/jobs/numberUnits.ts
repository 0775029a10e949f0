import * as mathjs from "mathjs";

/**
 * The units of mathjs over plain numbers.
 *
 * mathjs builds its units on arithmetic that also knows matrices, big numbers and fractions, 67 kB of it,
 * gzipped. Quantities here are plain numbers, so the units get plain arithmetic instead: 28 kB, on the path
 * of every tablet's first load. A test holds each conversion against the full library.
 */
/** Exported by mathjs like all its factories, but left out of its type declarations. */
type Undeclared = Record<"createUnitClass" | "createFractionClass" | "createComplexClass", object>;

const plain = (name: string, of: unknown) => mathjs.factory(name, [], () => of);

/** mathjs asks for the class and makes one only when it is configured for big numbers, which it is not. */
class Unused {}

// Each is named by itself, so that the bundler can leave out what is not named.
const parts = {
  createUnitClass: (mathjs as unknown as Undeclared).createUnitClass,
  // Some of its unit definitions are fractions (5/9 of a degree) and one is complex; both become numbers.
  createFractionClass: (mathjs as unknown as Undeclared).createFractionClass,
  createComplexClass: (mathjs as unknown as Undeclared).createComplexClass,
  bigNumber: plain("BigNumber", Unused),
  addScalar: plain("addScalar", (a: number, b: number) => a + b),
  subtractScalar: plain("subtractScalar", (a: number, b: number) => a - b),
  multiplyScalar: plain("multiplyScalar", (a: number, b: number) => a * b),
  divideScalar: plain("divideScalar", (a: number, b: number) => a / b),
  pow: plain("pow", (a: number, b: number) => a ** b),
  abs: plain("abs", Math.abs),
  fix: plain("fix", Math.trunc),
  round: plain("round", Math.round),
  equal: plain("equal", (a: number, b: number) => a === b),
  isNumeric: plain("isNumeric", (a: unknown) => typeof a === "number"),
  format: plain("format", String),
  number: plain("number", Number),
};

interface UnitClass {
  new (value: number, unit: string): { toNumber(unit: string): number };
}

const { Unit } = mathjs.create(parts as never) as unknown as { readonly Unit: UnitClass };

/** A value in one unit, in another, both as mathjs writes them, e.g. `psi/ft` and `Pa/m`. */
export function convert(value: number, from: string, to: string): number {
  return new Unit(value, from).toNumber(to);
}
