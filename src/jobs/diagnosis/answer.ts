import { unitLabel, type Writer } from "../display.ts";
import { sayExchanged } from "./exchangedGauges.ts";
import { inSumOf, sayInSum } from "./inSum.ts";
import { percent } from "./inWords.ts";
import { type Judged, logOf } from "./judged.ts";
import type { LiftedWell } from "./liftedWell.ts";
import { mostGasAt, nextMeasurements } from "./nextMeasurement.ts";
import type { Observations } from "./observations.ts";
import { expectedOf, predictedOf, reachOf } from "./predicted.ts";
import type { Ranked, Ranking, Weighed } from "./ranking.ts";
import { numberLike } from "./sameDigits.ts";
import type { Term } from "./term.ts";

/**
 * Of "none of these", where the first, though it stands above the others, does not give what was read: being the
 * best of what was thought of is then no reason to believe it. Chosen by Latchline, no source.
 */
const MISFIT = 0.5;

/** ln: a line that makes an answer less than a quarter more or less likely than the other speaks neither way. */
const SPEAKS = Math.log(1.25);

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
    const weighed = weighedOf(lifted, each, rival, terms, writer);
    return {
      hypothesis: placed(lifted, each),
      probability,
      prior: each.candidate.prior,
      speaksFor: weighed
        .filter(({ weight }) => weight > SPEAKS)
        .sort((a, b) => b.weight - a.weight),
      speaksAgainst: weighed
        .filter(({ weight }) => weight < -SPEAKS)
        .sort((a, b) => a.weight - b.weight),
      speaksNeither: weighed.filter(({ weight }) => Math.abs(weight) <= SPEAKS),
      predicted: predictedOf(lifted, each),
    };
  });
  const verdict = verdictOf(ranked, noneOfThese, fits, terms.length);
  const inSum = inSumOf(ranked);
  return {
    ranked,
    noneOfThese,
    verdict,
    says: sayVerdict(verdict, ranked, noneOfThese, fits, () =>
      sayExchanged(lifted, seen, judged, writer),
    ),
    inSum,
    saysInSum: sayInSum({ ranked, inSum, verdict }),
    next: nextMeasurements(lifted, seen, order, writer),
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

function weighedOf(
  lifted: LiftedWell,
  each: Judged,
  rival: Judged,
  terms: readonly Term[],
  writer: Writer,
): Weighed[] {
  const lines = terms.map(
    (term, i): Weighed => ({
      evidence: term.evidence,
      kind: term.kind,
      says: sayTerm(lifted, term, each, writer),
      weight: (each.logOfTerm[i] as number) - (rival.logOfTerm[i] as number),
    }),
  );
  const { history } = each.candidate;
  return history ? [...lines, { evidence: "history", kind: "history", ...history }] : lines;
}

function sayTerm(lifted: LiftedWell, term: Term, judged: Judged, writer: Writer): string {
  const { figure, says = "", shows } = term;
  if (figure) return sayFigure(figure, judged, writer);
  if (shows !== "where gas enters") return says;
  const { conditions, after } = judged;
  const at = expectedOf(
    conditions.map((condition) => mostGasAt(lifted)(condition) ?? Number.NaN),
    after,
  );
  return at
    ? `${says}; this answer has most of the gas enter by ${writer.write("length", at.mean)}`
    : `${says}; this answer has no gas enter`;
}

/** Half of the width that holds nine in ten of a normal, in standard deviations. */
const NINE_IN_TEN = 1.645;

/**
 * A reading beside what nine in ten such wells would show; where it lies outside, also what the draws give that go best with
 * all that was read.
 */
function sayFigure(
  { label, dimension, read, spread, of, nearest = of }: NonNullable<Term["figure"]>,
  { conditions, before, after }: Judged,
  writer: Writer,
): string {
  const write = (si: number) => writer.write(dimension, si);
  const reach = reachOf(conditions.map(of), before);
  if (!reach) return `${label} ${write(read)}; what to expect is not known`;
  // What is read is off by the reading and the model as well.
  const off = NINE_IN_TEN * spread;
  const least = dimension === "pressure" ? writer.atmosphere : 0;
  const low = Math.max(least, reach.middle - Math.hypot(reach.middle - reach.low, off));
  const high = reach.middle + Math.hypot(reach.high - reach.middle, off);
  const [from, to] = [low, high].map((end) => numberLike(dimension, end, read, writer));
  const { unit } = writer.parts(dimension, read);
  const says = `${label} ${write(read)}; ${from} to ${to} ${unitLabel(unit)} expected`;
  if (read >= low && read <= high) return says;
  const best = expectedOf(conditions.map(nearest), after);
  return best ? `${says}, ${write(best.mean)} where it comes nearest` : says;
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

/** Of the first: from here on another is near it. Chosen by Latchline, no source. */
const NEAR = 0.5;
/** A first answer less probable than this is none. Chosen by Latchline, no source. */
const WORTH_NAMING = 0.05;

function sayVerdict(
  verdict: Ranking["verdict"],
  ranked: readonly Ranked[],
  none: number,
  fits: boolean,
  exchanged: () => string | undefined,
): string {
  const [first, second] = ranked;
  if (!first) return "Nothing can be ranked.";
  const name = ({ hypothesis, probability }: Ranked) =>
    `${hypothesis.title} (${percent(probability)})`;
  switch (verdict) {
    case "one answer":
      return `${name(first)} stands well above the rest${second ? `; next is ${name(second)}` : ""}. What was read is what it would give.`;
    case "two or more": {
      const near = ranked
        .slice(1)
        .filter(({ probability }) => probability >= NEAR * first.probability)
        .map((each) => ` ${name(each)} stands near it.`);
      return near.length > 0
        ? `${name(first)} comes first.${near.join("")}`
        : `${name(first)} comes first. No other is near it, yet all the others together leave it open.`;
    }
    case "not enough to tell":
      return "What was read hardly changes what was likely before. More evidence is needed before a valve is named.";
    case "nothing fits": {
      const check =
        exchanged() ??
        "Check the readings first: gauge, unit, time; two faults at once are not ranked.";
      if (first.probability < WORTH_NAMING) {
        return `What was read fits nothing that was thought of (none of these: ${percent(none)}). ${check}`;
      }
      return fits
        ? `No answer gives all that was read (none of these: ${percent(none)}). ${check}`
        : `${name(first)} comes nearest and still does not give what was read. ${check}`;
    }
  }
}
