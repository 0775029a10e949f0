import { type RankOptions, rankFaults } from "../../src/jobs/diagnosis/rank.ts";
import type { Fault, Ranking } from "../../src/jobs/diagnosis/ranking.ts";
import { writer } from "../../src/jobs/display.ts";
import { toSI } from "../../src/jobs/quantity.ts";
import type { Case } from "./forward/cases.ts";
import { ruleOfThumb } from "./ruleOfThumb.ts";

/** What was stated of an answer, and whether it was right. */
export interface Answered {
  readonly stated: number;
  readonly right: boolean;
}

/** How one case was answered. */
export interface Scored {
  readonly seed: number;
  readonly kind: Fault["kind"];
  readonly amount: Case["amount"];
  readonly wrong: readonly string[];
  readonly firstKind: Fault["kind"];
  readonly first: string;
  readonly verdict: Ranking["verdict"];
  /** stated for the first, for "none of these", and for what was true */
  readonly stated: number;
  readonly noneOfThese: number;
  readonly statedForTruth: number;
  readonly top1: boolean;
  readonly top2: boolean;
  readonly kindRight: boolean;
  /** undefined where the truth is at no mandrel */
  readonly mandrelRight: boolean | undefined;
  /** stated in sum for the most probable mandrel, and whether something is wrong there */
  readonly inSum: Answered;
  /** what is said in sum where anything is: of a mandrel or of a kind */
  readonly saidInSum: (Answered & { readonly of: "mandrel" | "kind" }) | undefined;
  /** the same for what would be said without evidence, and by a rule of thumb */
  readonly byPrior: boolean;
  readonly byRule: boolean;
  readonly milliseconds: number;
}

export const mandrelsOf = (fault: Fault): readonly number[] => {
  if (fault.kind === "wrong depth") return [fault.mandrel, fault.other];
  if (fault.kind === "multi-point") return fault.mandrels;
  return "mandrel" in fault ? [fault.mandrel] : [];
};

/** Whether an answer says what is true: the same kind at the same place, a leak between the same two mandrels. */
export function isRight(answer: Fault, truth: Fault, depths: readonly number[]): boolean {
  if (answer.kind !== truth.kind) return false;
  if (answer.kind === "supply" && truth.kind === "supply") return answer.what === truth.what;
  if (answer.kind === "tubing leak" && truth.kind === "tubing leak") {
    const above = (depth: number) => depths.filter((one) => one < depth).length;
    return above(answer.depthM) === above(truth.depthM);
  }
  const [said, is] = [new Set(mandrelsOf(answer)), new Set(mandrelsOf(truth))];
  if (answer.kind === "multi-point") {
    // Where three pass gas and two of them are named, the answer is taken as right.
    const both = [...said].filter((one) => is.has(one)).length;
    return both / (said.size + is.size - both) >= 0.5;
  }
  return said.size === is.size && [...said].every((one) => is.has(one));
}

/** @param options fewer draws for a quick look */
export function score(given: Case, options: RankOptions = {}): Scored {
  const { well, valves, investigation, truth } = given;
  const begun = performance.now();
  const ranking = rankFaults(
    { well, valves, policy: undefined, history: [] },
    investigation,
    writer("field"),
    options,
  );
  const milliseconds = performance.now() - begun;
  if ("needs" in ranking) {
    throw new Error(`seed ${given.seed}: ${ranking.needs.map(({ says }) => says).join("; ")}`);
  }
  const depths = well.mandrels.map(({ depthAlongHole }) => toSI("length", depthAlongHole));
  const { ranked } = ranking;
  const right = ranked.map(({ hypothesis }) => isRight(hypothesis.fault, truth, depths));
  const [first] = ranked;
  if (!first) throw new Error(`seed ${given.seed}: nothing is ranked`);
  const places = mandrelsOf(truth);
  const worked = truth.kind === "multi-point" ? [] : places;
  const [mandrel] = ranking.inSum.mandrels;
  const [kind] = ranking.inSum.kinds;
  if (!mandrel || !kind) throw new Error(`seed ${given.seed}: nothing is summed`);
  const inSum = { stated: mandrel.probability, right: worked.includes(mandrel.mandrel) };
  const saidInSum =
    ranking.saysInSum === undefined
      ? undefined
      : ranking.saysInSum.startsWith("Something")
        ? ({ of: "mandrel", ...inSum } as const)
        : ({ of: "kind", stated: kind.probability, right: kind.kind === truth.kind } as const);
  const byPrior = ranked.reduce((best, one) => (one.prior > best.prior ? one : best));
  return {
    seed: given.seed,
    kind: truth.kind,
    amount: given.amount,
    wrong: given.wrong,
    firstKind: first.hypothesis.fault.kind,
    first: first.hypothesis.id,
    verdict: ranking.verdict,
    stated: first.probability,
    noneOfThese: ranking.noneOfThese,
    statedForTruth: ranked.reduce((sum, one, i) => sum + (right[i] ? one.probability : 0), 0),
    top1: right[0] === true,
    top2: right.slice(0, 2).includes(true),
    kindRight: first.hypothesis.fault.kind === truth.kind,
    mandrelRight:
      places.length === 0
        ? undefined
        : mandrelsOf(first.hypothesis.fault).some((one) => places.includes(one)),
    inSum,
    saidInSum,
    byPrior: isRight(byPrior.hypothesis.fault, truth, depths),
    byRule: isRight(ruleOfThumb(given), truth, depths),
    milliseconds,
  };
}

/** Lowest and highest rate that k of n leaves open at 90 %, by Wilson's interval (J. Am. Stat. Assoc. 22, 1927). */
export function interval(k: number, n: number): readonly [number, number] {
  if (n === 0) return [0, 1];
  const z = 1.645;
  const rate = k / n;
  const middle = (rate + z ** 2 / (2 * n)) / (1 + z ** 2 / n);
  const half = (z / (1 + z ** 2 / n)) * Math.sqrt((rate * (1 - rate)) / n + z ** 2 / (4 * n ** 2));
  // Of none or all, rounding would put an end a hair beyond.
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

const EDGES = [0, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 0.97, 1.0001];

export const ofFirst = (scored: readonly Scored[]): Answered[] =>
  scored.map(({ stated, top1 }) => ({ stated, right: top1 }));

/** What was stated of answers against how often they were right. */
export function calibration(answers: readonly Answered[]) {
  return EDGES.slice(1).flatMap((upTo, i) => {
    const from = EDGES[i] as number;
    const bin = answers.filter(({ stated }) => stated >= from && stated < upTo);
    if (bin.length === 0) return [];
    const right = bin.filter((one) => one.right).length;
    const [low, high] = interval(right, bin.length);
    return [
      {
        from,
        upTo: Math.min(1, upTo),
        count: bin.length,
        stated: bin.reduce((sum, { stated }) => sum + stated, 0) / bin.length,
        right: right / bin.length,
        low,
        high,
      },
    ];
  });
}

/** Mean distance of what was stated from how often it was right, over the bins. */
export function calibrationError(answers: readonly Answered[]): number {
  return calibration(answers).reduce(
    (sum, bin) => sum + (bin.count / answers.length) * Math.abs(bin.stated - bin.right),
    0,
  );
}

/** Mean squared distance of what was stated from 1 where it was right and 0 where not (Brier, 1950). */
export function brier(answers: readonly Answered[]): number {
  return (
    answers.reduce((sum, { stated, right }) => sum + (stated - Number(right)) ** 2, 0) /
    answers.length
  );
}
