import type { EvidenceKind } from "../records/investigation.ts";

/** What may be wrong, and where. One at a time: two faults at once are named as what does not fit. */
export type Fault =
  | { readonly kind: "nothing downhole" }
  | {
      readonly kind: "supply";
      readonly what: "supply pressure fell" | "choke smaller" | "choke larger";
    }
  | { readonly kind: "back-pressure at surface" }
  /** along hole, m: the middle of the draws that go best with the evidence */
  | { readonly kind: "tubing leak"; readonly depthM: number }
  | {
      readonly kind:
        | "stuck open"
        | "leaking"
        | "plugged"
        | "set too low"
        | "set too high"
        | "latch or packing leaks";
      readonly mandrel: number;
    }
  /** the valve sits in another pocket than the record says: the two named are exchanged */
  | { readonly kind: "wrong depth"; readonly mandrel: number; readonly other: number }
  /** several valves pass gas as set: lift has not transferred */
  | { readonly kind: "multi-point"; readonly mandrels: readonly number[] };

export interface Hypothesis {
  /** names it for good, also in a record: "stuck open 3" */
  readonly id: string;
  readonly fault: Fault;
  /** in the trade's words: "Valve in mandrel 3 stuck open" */
  readonly title: string;
}

/** One line of evidence beside what a hypothesis predicts of it. */
export interface Weighed {
  /** of the piece of evidence */
  readonly evidence: string;
  readonly kind: EvidenceKind | "history";
  /** "Casing pressure 812 psig; 780 to 830 psig expected" in the writer's units */
  readonly says: string;
  /** natural logarithm of its likelihood here over that under the best other hypothesis; above 0 speaks for it */
  readonly weight: number;
}

/** What a well would show if a hypothesis were true: the middle of its draws and how far they spread. SI, absolute. */
export interface Expected {
  readonly mean: number;
  /** standard deviation */
  readonly spread: number;
}

export interface Predicted {
  readonly injectionAtSurface: Expected | undefined;
  readonly injectionRate: Expected | undefined;
  /** true vertical depth, m; pressure on the side that produces, Pa; temperature, K */
  readonly profile: readonly {
    readonly depth: number;
    readonly pressure: Expected;
    readonly temperature: Expected | undefined;
  }[];
  /** share of the injected gas by mandrel number, middle of the draws; a leak in the tubing has the key "leak" */
  readonly entry: Readonly<Record<string, number>>;
  /** s after injection, by the same keys, where gas enters there */
  readonly tracer: Readonly<Record<string, Expected>>;
  readonly heading: "steady" | "heading" | "not known";
}

export interface Ranked {
  readonly hypothesis: Hypothesis;
  /** of all hypotheses and "none of these" together 1 */
  readonly probability: number;
  readonly prior: number;
  /** what makes it likelier than the answer it is held against by a quarter or more, less likely, or neither */
  readonly speaksFor: readonly Weighed[];
  readonly speaksAgainst: readonly Weighed[];
  readonly speaksNeither: readonly Weighed[];
  readonly predicted: Predicted;
}

/** A measurement that would tell the first from what asks for other work, and how well. */
export interface NextMeasurement {
  readonly kind: EvidenceKind;
  /** what to do, in one sentence */
  readonly what: string;
  /** titles of the first and of the likeliest answer elsewhere that it tells from it */
  readonly between: readonly [first: string, second: string];
  /** what each of the two would show, in words with figures */
  readonly ifFirst: string;
  readonly ifSecond: string;
  /** difference of the two over how far such a measurement and the predictions spread; above 2 tells them apart */
  readonly separation: number;
  /** of what is open about where to go, the share that it is expected to settle */
  readonly settles: number;
}

/** What the hypotheses of one mandrel, and those of one kind, come to together; most probable first. */
export interface InSum {
  /** that something is wrong in its pocket; of two valves that are exchanged each counts at both, so these may sum to more than 1 */
  readonly mandrels: readonly { readonly mandrel: number; readonly probability: number }[];
  readonly kinds: readonly { readonly kind: Fault["kind"]; readonly probability: number }[];
}

export interface Ranking {
  /** most probable first, all of them */
  readonly ranked: readonly Ranked[];
  /** that none of them explains the evidence */
  readonly noneOfThese: number;
  /**
   * "one answer": the first stands well above the others and fits. "two or more": some stand close together. "not
   * enough to tell": the evidence hardly moves what was thought before. "nothing fits": the evidence is not what any
   * hypothesis gives, or contradicts itself.
   */
  readonly verdict: "one answer" | "two or more" | "not enough to tell" | "nothing fits";
  /** the verdict in two or three plain sentences */
  readonly says: string;
  readonly inSum: InSum;
  /** what several hypotheses together say that none says alone, in one line; undefined where that is nothing */
  readonly saysInSum: string | undefined;
  /** best first */
  readonly next: readonly NextMeasurement[];
  /** evidence that was not used, and why: "fluid level of 12 Nov: the well was shut in" */
  readonly unused: readonly { readonly evidence: string; readonly why: string }[];
  /** what the well's records do not say, and what was assumed in its place */
  readonly assumed: readonly string[];
}

/** Why nothing can be ranked at all, each line naming what is missing and where it is entered. */
export interface NoRanking {
  readonly needs: readonly { readonly says: string; readonly at: string | undefined }[];
}
