import type { Condition } from "./conditions.ts";
import type { Candidate } from "./hypotheses.ts";

/** One hypothesis with everything that was worked out for it. */
export interface Judged {
  readonly candidate: Candidate;
  readonly conditions: readonly Condition[];
  /** ln of how much each draw counts before the evidence, and after it */
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** share of it that can be so, and that somebody would ask about */
  readonly asked: number;
  /** ln of the likelihood of all the evidence, averaged over the draws */
  readonly logLikelihood: number;
  /** the same of each term alone */
  readonly logOfTerm: readonly number[];
}

/** ln of how probable it is, but for what all hypotheses share. */
export const logOf = ({ candidate, logLikelihood }: Judged) =>
  Math.log(candidate.prior) + logLikelihood;
