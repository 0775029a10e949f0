import type { Writer } from "../display.ts";
import { inSumOf, sayInSum } from "./inSum.ts";
import { type Judged, logOf } from "./judged.ts";
import type { LiftedWell } from "./liftedWell.ts";
import { eitherWay, nextMeasurements } from "./nextMeasurement.ts";
import type { Observations } from "./observations.ts";
import { expectedOf, predictedOf } from "./predicted.ts";
import type { Ranked, Ranking, Weighed } from "./ranking.ts";
import type { Term } from "./term.ts";

/**
 * Of "none of these", where the first, though it stands above the others, does not give what was read: being the
 * best of what was thought of is then no reason to believe it. Chosen by Latchline, no source.
 */
const MISFIT = 0.5;

/** A weight nearer to 0 speaks neither way. */
const SPEAKS = 0.02;

/** The ranking from everything that was worked out: in order, in words, and with what to do next. */
export function answerOf(
  lifted: LiftedWell,
  seen: Observations,
  unused: Ranking["unused"],
  judged: readonly Judged[],
  terms: readonly Term[],
  writer: Writer,
): Ranking {
  const priorOfNone = 1 - judged.reduce((sum, { candidate }) => sum + candidate.prior, 0);
  const logNone = Math.log(priorOfNone);
  const logs = judged.map(logOf);
  const most = Math.max(logNone, ...logs);
  const all = logs.reduce((sum, log) => sum + Math.exp(log - most), Math.exp(logNone - most));
  const shares = logs.map((log) => Math.exp(log - most) / all);
  const shareOfNone = Math.exp(logNone - most) / all;
  const order = judged
    .map((each, i) => ({ each, probability: shares[i] as number }))
    .sort(
      (a, b) => b.probability - a.probability || b.each.candidate.prior - a.each.candidate.prior,
    );
  const first = order[0];
  const fits = first !== undefined && isFit(first.each, terms);
  const noneOfThese = fits ? shareOfNone : Math.max(shareOfNone, MISFIT);
  // What the others lose to "none of these" they lose in proportion.
  const left = shareOfNone < 1 ? (1 - noneOfThese) / (1 - shareOfNone) : 1;
  const ranked = order.map(({ each, probability: share }, place): Ranked => {
    const probability = share * left;
    const rival = order[place === 0 ? 1 : 0]?.each ?? each;
    const weighed = weighedOf(each, rival, terms, writer);
    return {
      hypothesis: placed(lifted, each),
      probability,
      prior: each.candidate.prior,
      speaksFor: weighed
        .filter(({ weight }) => weight > SPEAKS)
        .sort((a, b) => b.weight - a.weight),
      speaksAgainst: weighed
        .filter(({ weight }) => weight <= 0)
        .sort((a, b) => a.weight - b.weight),
      predicted: predictedOf(lifted, each),
    };
  });
  const verdict = verdictOf(ranked, noneOfThese, fits, terms.length);
  const inSum = inSumOf(ranked);
  return {
    ranked,
    noneOfThese,
    verdict,
    says: sayVerdict(verdict, ranked, noneOfThese, fits),
    inSum,
    saysInSum: sayInSum({ ranked, inSum, verdict }),
    next: nextMeasurements(lifted, seen, order[0]?.each, order[1]?.each, writer),
    unused,
    assumed: lifted.assumed,
  };
}

/** A leak in the tubing is placed where the draws that go best with the evidence have it. */
function placed(lifted: LiftedWell, { candidate, conditions, after }: Judged) {
  const { hypothesis } = candidate;
  if (hypothesis.fault.kind !== "tubing leak") return hypothesis;
  const found = expectedOf(
    conditions.map(({ leak }) => leak?.depth ?? Number.NaN),
    after,
  );
  const depth = found?.mean ?? hypothesis.fault.depthM;
  return { ...hypothesis, fault: { ...hypothesis.fault, depthM: lifted.alongHoleAt(depth) } };
}

function weighedOf(each: Judged, rival: Judged, terms: readonly Term[], writer: Writer): Weighed[] {
  const lines = terms.map(
    (term, i): Weighed => ({
      evidence: term.evidence,
      kind: term.kind,
      says: sayTerm(term, each, writer),
      weight: (each.logOfTerm[i] as number) - (rival.logOfTerm[i] as number),
    }),
  );
  const { history } = each.candidate;
  return history ? [...lines, { evidence: "history", kind: "history", ...history }] : lines;
}

function sayTerm({ figure, says }: Term, { conditions, before }: Judged, writer: Writer): string {
  if (!figure) return says ?? "";
  const write = (si: number) => writer.write(figure.dimension, si);
  const expected = expectedOf(conditions.map(figure.of), before);
  if (!expected) return `${figure.label} ${write(figure.read)}; what to expect is not known`;
  const { mean, spread } = expected;
  const either = eitherWay(figure.dimension, spread, writer);
  return `${figure.label} ${write(figure.read)}; ${write(mean)} ± ${either} expected`;
}

/** Whether the evidence is what the hypothesis gives, once its draws are those that go best with it. */
function isFit({ conditions, after }: Judged, terms: readonly Term[]): boolean {
  return terms.every(({ figure }) => {
    if (!figure) return true;
    const expected = expectedOf(conditions.map(figure.nearest ?? figure.of), after);
    if (!expected) return false;
    const { mean, spread } = expected;
    return Math.abs(figure.read - mean) <= 3 * Math.hypot(figure.spread, spread);
  });
}

/** Chosen by Latchline, no source: what "well above the others" and "hardly moved" mean. */
const WELL_ABOVE = { probability: 0.8, times: 3 } as const;
const MOVED = 0.35;

function verdictOf(
  ranked: readonly Ranked[],
  noneOfThese: number,
  fits: boolean,
  terms: number,
): Ranking["verdict"] {
  const [first, second] = ranked;
  if (!first || terms === 0) return "not enough to tell";
  if (noneOfThese > first.probability || !fits) return "nothing fits";
  // How far the evidence has moved what was thought before, in natural units of information.
  const moved = ranked.reduce(
    (sum, { probability, prior }) =>
      probability > 0 ? sum + probability * Math.log(probability / prior) : sum,
    0,
  );
  if (moved < MOVED) return "not enough to tell";
  const isAbove =
    first.probability >= WELL_ABOVE.probability &&
    first.probability >= WELL_ABOVE.times * (second?.probability ?? 0);
  return isAbove ? "one answer" : "two or more";
}

const percent = (probability: number) => `${Math.round(100 * probability)} %`;

function sayVerdict(
  verdict: Ranking["verdict"],
  ranked: readonly Ranked[],
  none: number,
  fits: boolean,
): string {
  const [first, second] = ranked;
  if (!first) return "Nothing can be ranked.";
  const name = ({ hypothesis, probability }: Ranked) =>
    `${hypothesis.title} (${percent(probability)})`;
  switch (verdict) {
    case "one answer":
      return `${name(first)} stands well above the rest${second ? `; next is ${name(second)}` : ""}. What was read is what it would give.`;
    case "two or more":
      return `${ranked.slice(0, 3).map(name).join("; ")} stand close together. Take the measurement that tells them apart before rigging up.`;
    case "not enough to tell":
      return "What was read hardly changes what was likely before. More evidence is needed before a valve is named.";
    case "nothing fits":
      return fits
        ? `No hypothesis explains what was read (none of these: ${percent(none)}). Check the readings first: gauge, unit, time; two faults at once are not ranked.`
        : `${name(first)} comes nearest and still does not give what was read. Check the readings first: gauge, unit, time; two faults at once are not ranked.`;
  }
}
