import type { Writer } from "../display.ts";
import type { Programme } from "../records/programme.ts";
import type { Results } from "../results/results.ts";
import type { ResultId } from "../results/traced.ts";
import type { JobState, Reading } from "../state/jobState.ts";

/** What a check looks at. */
export interface CheckContext {
  readonly programme: Programme;
  readonly state: JobState;
  readonly results: Results;
  /** instant at which the question is asked: arrives from outside, the rules have no clock */
  readonly now: string;
  readonly writer: Writer;
  /** The sheet's field for a part the check asks for, e.g. `start` of a pressure test. */
  reading(part: string): Reading | undefined;
  /** Whether the sheet has a field for a part; one issued before a part was asked for has none. */
  asks(part: string): boolean;
}

/** What a check found, in the trade's words, and the readings it stands on. */
export interface Finding {
  readonly state: "passes" | "fails" | "not known";
  readonly says: string;
  /** hashes of the events whose readings were looked at */
  readonly basis: readonly string[];
  /** results behind it, so that the screen can open their working */
  readonly results: readonly ResultId[];
}

export type Check = (context: CheckContext) => Finding;

export function finding(
  state: Finding["state"],
  says: string,
  readings: readonly (Reading | undefined)[] = [],
  results: readonly ResultId[] = [],
): Finding {
  const basis = readings.flatMap((reading) => (reading ? [reading.standsOn] : []));
  return { state, says, basis: [...new Set(basis)], results };
}

/**
 * Answers "not known: needs ..." for results that are missing.
 *
 * @returns the values in the order asked, or the finding that says what is missing
 */
export function valuesOf(
  { results }: CheckContext,
  ids: readonly ResultId[],
): { readonly values: number[] } | { readonly missing: string } {
  const values: number[] = [];
  const needs: string[] = [];
  for (const id of ids) {
    const traced = results.get(id);
    if (!traced) needs.push(id);
    else if (traced.outcome.state === "known") values.push(traced.outcome.si);
    else if (traced.outcome.state === "missing") needs.push(...traced.outcome.needs);
    else needs.push(`${traced.label}, which has no answer: ${traced.outcome.why}`);
  }
  return needs.length > 0 ? { missing: [...new Set(needs)].join("; ") } : { values };
}
