import type { Outcome } from "../../jobs/results/traced.ts";

/** Why a figure is not there: what is missing, by name, or why there is no answer. */
export function unknownInWords(outcome: Exclude<Outcome, { readonly state: "known" }>): string {
  return outcome.state === "missing"
    ? `not known: needs ${outcome.needs.join("; ")}.`
    : `no answer: ${outcome.why}.`;
}
