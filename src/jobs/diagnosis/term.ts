import type { Dimension } from "../quantity.ts";
import type { EvidenceKind } from "../records/investigation.ts";
import type { Condition } from "./conditions.ts";
import type { Fault } from "./ranking.ts";

/** One line of evidence as the ranking weighs it. */
export interface Term {
  readonly evidence: string;
  readonly kind: EvidenceKind;
  /** ln of its likelihood where a hypothesis puts the well in this condition */
  readonly logOf: (condition: Condition, fault: Fault) => number;
  /** the same where none of the hypotheses is true: a broad spread */
  readonly logOfNone: number;
  /** a term that is one figure, beside what the condition makes of it */
  readonly figure?: {
    readonly label: string;
    readonly dimension: Dimension;
    readonly read: number;
    /** of reading and model together */
    readonly spread: number;
    readonly of: (condition: Condition) => number;
    /** of what the condition leaves open, what comes nearest to the reading; `of` where it leaves nothing open */
    readonly nearest?: (condition: Condition) => number;
  };
  /** a term that is none, in words */
  readonly says?: string;
  /** what such a measurement is made to show: each answer then says where it has it */
  readonly shows?: "where gas enters";
}

const LOG_HEAVY = -0.9684;

/**
 * ln density of a reading's error by Student's t with 5 degrees of freedom: near a normal in the middle, with
 * tails that one wild reading does not break.
 */
export const logHeavy = (deviation: number, spread: number) =>
  LOG_HEAVY - Math.log(spread) - 3 * Math.log1p((deviation / spread) ** 2 / 5);
