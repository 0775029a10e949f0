import { InputError } from "../../calc/inputError.ts";
import { distinctWarnings, type Method, type Warning } from "../../calc/method.ts";
import type { Dimension } from "../quantity.ts";
import type { Context } from "./context.ts";

/** Where a figure that went into a result came from. */
export type Origin =
  | { readonly kind: "record"; readonly where: string }
  | { readonly kind: "measured"; readonly at: string; readonly by: string }
  /** somebody asks what would be if; nothing of it is on record */
  | { readonly kind: "asked" }
  | { readonly kind: "policy"; readonly basis: string }
  | { readonly kind: "calculated"; readonly result: AnyResultId }
  | { readonly kind: "assumed"; readonly why: string };

/** One figure that a result needs. */
export interface Given {
  readonly symbol: string;
  readonly name: string;
  readonly dimension: Dimension;
  /** SI; undefined when nobody has said it. */
  readonly si: number | undefined;
  readonly origin: Origin;
  /** Written in place of the figure where one number does not say it, e.g. a temperature profile. */
  readonly shown?: string;
  /** What is missing, when this figure is itself a result that could not be worked out. */
  readonly needs?: readonly string[];
  /** What a reader of this figure has to know, when it is itself a result; it travels on. */
  readonly warnings?: readonly Warning[];
}

/** The same figure by another method, so that somebody used to that one sees the difference. */
export interface Beside {
  readonly label: string;
  readonly si: number;
  readonly formula: string;
  readonly source: string;
}

export type Outcome =
  | { readonly state: "known"; readonly si: number }
  | { readonly state: "missing"; readonly needs: readonly string[] }
  | { readonly state: "no answer"; readonly why: string };

/** A number that shows its working. */
export interface Traced {
  readonly id: AnyResultId;
  readonly label: string;
  readonly dimension: Dimension;
  readonly outcome: Outcome;
  readonly givens: readonly Given[];
  readonly method: Method;
  readonly warnings: readonly Warning[];
  /** Worked out when it is looked at: sampling costs more than the rest together. */
  readonly beside: () => readonly Beside[];
}

export const resultIds = [
  "target-depth",
  "mandrel-above",
  "mandrel-below",
  "depth-reference",
  "mandrel-tvd",
  "mandrel-inclination",
  "mandrel-dogleg",
  "temperature-shut-in",
  "temperature-flowing",
  "injection-at-mandrel",
  "injection-friction",
  "area-ratio",
  "dome-at-temperature",
  "dome-60",
  "test-rack-needed",
  "card-difference",
  "replacement-opening",
  "replacement-closing",
  "replacement-spread",
  "effect-factor",
  "bench-mean",
  "bench-spread",
  "bench-difference",
  "fluid-level-tvd",
  "tubing-at-mandrel",
  "annulus-at-mandrel",
  "difference-at-mandrel",
  "casing-level",
  "casing-lowest",
  "casing-highest",
  "wellhead-level",
  "wellhead-lowest",
  "wellhead-highest",
  "force-seated",
  "force-clear",
  "hydrate-wellhead",
  "hydrate-casing",
  "indicator-factor",
  "packing-friction",
  "push-out",
  "push-out-ratio",
  "weight-needed",
  "least-in-gauge",
  "in-gauge",
  "hanging-gauge",
  "out-gauge",
  "least-in-pull",
  "in-pull",
  "hanging-pull",
  "out-pull",
  "least-in-set",
  "in-set",
  "hanging-set",
  "out-set",
  "overpull-pull",
  "overpull-set",
  "fraction-of-breaking",
  "sheave-ratio",
  "release-pull",
  "test-pull",
  "test-pull-most",
  "stretch-hanging",
  "stretch-thermal",
  "stretch-at-limit",
  "counter-correction",
  "counter-at-mandrel",
  "counter-above",
  "counter-below",
  "pin-shear",
  "pin-shear-most",
  "pulling-pins",
  "running-pins",
  "pin-over-line",
  "pin-over-blow",
  "pin-over-latch",
  "rush-least",
  "rush-most",
  "rush-over-weight",
  "gas-at-mandrel-most",
  "sour-partial-pressure",
  "largest-pull",
  "lubricator-spare",
  "lowest-rating",
  "expected-maximum",
  "test-pressure",
  "drift-clearance",
  "low-test",
  "low-test-hold",
  "high-test-hold",
  "watch",
  "proof-difference",
] as const;
export type ResultId = (typeof resultIds)[number];

/** What is known of each mandrel of the well on lift. */
export const mandrelFigures = [
  "tvd",
  "temperature",
  "injection",
  "production",
  "dome",
  "opening",
  "closing",
  "opening-band",
  "closing-at-surface",
  "closing-band",
  "most-gas",
  "throttled-gas",
] as const;
export type MandrelFigure = (typeof mandrelFigures)[number];
/** A figure of the mandrel with that number, e.g. `opening of mandrel 3`. */
export type MandrelResultId = `${MandrelFigure} of mandrel ${number}`;
/** What the verdict on the whole well works out of those of its mandrels, with how well they are known. */
export type VerdictFigure =
  | "over-production"
  | "over-opening"
  | "passes-from-at-surface"
  | "opens-at-surface"
  | "gas-least"
  | "gas-most";
/** A figure of the verdict, of one mandrel or of all together, e.g. `gas-least by the verdict of mandrel 3`. */
export type VerdictResultId =
  | `${VerdictFigure} by the verdict`
  | `${VerdictFigure} by the verdict of mandrel ${number}`;
export type AnyResultId = ResultId | MandrelResultId | VerdictResultId;

interface Spec<K extends string> {
  readonly id: AnyResultId;
  readonly label: string;
  readonly dimension: Dimension;
  readonly method: Method;
  readonly givens: Readonly<Record<K, Given>>;
  /** Called only when every given is known. */
  readonly work: (values: Readonly<Record<K, number>>) => {
    readonly si: number;
    readonly warnings?: readonly Warning[];
    readonly beside?: () => readonly Beside[];
  };
}

/**
 * Works a result out and keeps how: a missing given makes the result missing by name, and input that
 * the core refuses makes it "no answer" with the core's reason. Never a silent default.
 */
export function trace<K extends string>(spec: Spec<K>): Traced {
  const { id, label, dimension, method } = spec;
  const givens = Object.values<Given>(spec.givens);
  const result = (
    outcome: Outcome,
    warnings: readonly Warning[] = [],
    beside: () => readonly Beside[] = () => [],
  ): Traced => ({ id, label, dimension, outcome, givens, method, warnings, beside });
  const needs = givens
    .filter((given) => given.si === undefined)
    .flatMap((given) => given.needs ?? [given.name]);
  if (needs.length > 0) return result({ state: "missing", needs: [...new Set(needs)] });
  const values = Object.fromEntries(
    Object.entries<Given>(spec.givens).map(([key, given]) => [key, given.si]),
  ) as Record<K, number>;
  try {
    const { si, warnings, beside } = spec.work(values);
    const passedOn = givens.flatMap((given) => given.warnings ?? []);
    return result(
      { state: "known", si },
      distinctWarnings([...(warnings ?? []), ...passedOn]),
      beside,
    );
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return result({
      state: "no answer",
      why: `${error.key.replaceAll("_", " ")} must be ${error.allowed}`,
    });
  }
}

/** A result as an ingredient of the next one. */
export function from(symbol: string, traced: Traced): Given {
  const { outcome } = traced;
  return {
    symbol,
    name: traced.label,
    dimension: traced.dimension,
    si: outcome.state === "known" ? outcome.si : undefined,
    origin: { kind: "calculated", result: traced.id },
    warnings: traced.warnings,
    ...(outcome.state === "missing" && { needs: outcome.needs }),
    ...(outcome.state === "no answer" && { needs: [`${traced.label} (${outcome.why})`] }),
  };
}

/** How results are got at: each is worked out when it is first asked for. */
export type Get = (id: AnyResultId) => Traced;

/** Results of one subject, by id. */
export type Definitions = { readonly [Id in ResultId]?: (context: Context, get: Get) => Traced };
