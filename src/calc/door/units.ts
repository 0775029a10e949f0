import { describeWarning } from "../describeWarning.ts";
import { distinctWarnings, type Method, type Warning } from "../method.ts";
import { type AbsolutePa, fromDegF, fromPsia, fromPsig, type Kelvin } from "../units.ts";
import type { Reader } from "./reader.ts";

/** Standard atmosphere to the digits the trade writes, psia; used when `atmosphere_psia` is not given. */
const DEFAULT_ATMOSPHERE_PSIA = 14.696;

/** Far above any well, and far below where numbers overflow. */
const MOST_PSI = 100_000;

/** An absolute pressure by its key. */
export function readPsia(input: Reader, key: string): AbsolutePa {
  return fromPsia(
    input.number(key, {
      allowed: `above 0 and at most ${MOST_PSI} psia`,
      accepts: (p) => p > 0 && p <= MOST_PSI,
    }),
  );
}

/** Absolute pressure of the air that the gauges of this input stand in. */
export function readAtmosphere(input: Reader): AbsolutePa {
  return fromPsia(
    input.number("atmosphere_psia", {
      fallback: DEFAULT_ATMOSPHERE_PSIA,
      allowed: "above 0 and at most 20",
      accepts: (p) => p > 0 && p <= 20,
    }),
  );
}

/** A gauge pressure by its key. */
export function readPsig(input: Reader, key: string, atmosphere: AbsolutePa): AbsolutePa {
  const floor = -atmosphere / fromPsia(1);
  return fromPsig(
    input.number(key, {
      allowed: `above ${floor.toFixed(3)} psig, which is a vacuum, and at most ${MOST_PSI} psig`,
      accepts: (p) => p > floor && p <= MOST_PSI,
    }),
    atmosphere,
  );
}

/** A temperature by its key. */
export function readDegF(input: Reader, key: string): Kelvin {
  return fromDegF(
    input.number(key, {
      allowed: "between -99 and 1340 degF",
      accepts: (t) => t >= -99 && t <= 1340,
    }),
  );
}

/** The shape of every answer: results, then how they were reached. */
export function answer(
  results: Readonly<Record<string, unknown>>,
  method: Method,
  warnings: readonly Warning[] = [],
): Record<string, unknown> {
  return {
    ...results,
    method: method.name,
    source: method.source,
    warnings: distinctWarnings(warnings).map((warning) => describeWarning(warning)),
  };
}
