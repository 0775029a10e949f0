import type { Writer } from "../display.ts";
import type { Befell } from "../library/history.ts";
import type { Investigation } from "../records/investigation.ts";
import type { Policy } from "../records/policy.ts";
import type { Valve } from "../records/valve.ts";
import type { Well } from "../records/well.ts";
import { siteAtmosphere } from "../results/context.ts";
import { type Condition, conditionOf, soundPaths } from "./conditions.ts";
import { type Draw, type SurfaceCase, surfacesOf } from "./draws.ts";
import { type Candidate, candidatesOf } from "./hypotheses.ts";
import { inSumOf, sayInSum } from "./inSum.ts";
import { type LiftedWell, liftedWellOf } from "./liftedWell.ts";
import { eitherWay, nextMeasurements } from "./nextMeasurement.ts";
import { middleOf, type Observations, observationsOf } from "./observations.ts";
import { expectedOf, predictedOf } from "./predicted.ts";
import type { Fault, NoRanking, Ranked, Ranking, Weighed } from "./ranking.ts";
import { soundDraws } from "./soundDraws.ts";
import { logMean, surveyedAt, surveyFit } from "./surveyFit.ts";
import type { Term } from "./term.ts";
import { termsOf } from "./terms.ts";
import { uncertain } from "./uncertain.ts";

/** What a ranking is made from. */
export interface AboutWell {
  readonly well: Well;
  readonly valves: readonly Valve[];
  readonly policy: Policy | undefined;
  readonly history: readonly Befell[];
}

export interface RankOptions {
  /** of everything that is not known; more take longer and are less rough */
  readonly draws?: number;
  /** of the work done, 0 to 1 */
  readonly onProgress?: (share: number) => void;
}

const DRAWS = 400;

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

/**
 * Which valve is at fault, by how likely each hypothesis makes the evidence.
 *
 * Every hypothesis is worked out for the same draws of everything that is not known (uncertain.ts): the well in balance
 * (liftNetwork.ts), and how likely each piece of evidence is in that condition. The likelihoods are averaged over the
 * draws and multiplied with what was thought before. Deterministic: the draws come from a fixed seed.
 */
export function rankFaults(
  given: AboutWell,
  investigation: Investigation,
  writer: Writer,
  options: RankOptions = {},
): Ranking | NoRanking {
  const atmosphere = siteAtmosphere(given);
  const seen = observationsOf(investigation, atmosphere, given.well.injectionDown);
  if (!investigation.evidence.some(({ setAside }) => !setAside)) {
    return {
      needs: [
        {
          says: "Evidence: at least casing and tubing pressure, read at one moment",
          at: undefined,
        },
      ],
    };
  }
  const lifted = liftedWellOf(given, seen, investigation.opened);
  if ("needs" in lifted) return lifted;
  const candidates = candidatesOf(lifted, given.well.name, given.history, investigation.opened);
  const terms = termsOf(lifted, seen, writer);
  const draws = soundDraws(lifted, Math.max(20, Math.round(options.draws ?? DRAWS)));
  const sound = draws.map((draw) => soundPaths(lifted, draw));
  const [run] = seen.surveys;
  const around = {
    survey: run && surveyedAt(surveyFit(lifted, run).pressures, lifted),
    injection: middleOf(seen.injection),
  };
  const cases = new Map<SurfaceCase, ReturnType<typeof surfacesOf>>();
  const surfaces = (which: SurfaceCase) => {
    const known = cases.get(which) ?? surfacesOf(lifted, seen, draws, which);
    cases.set(which, known);
    return known;
  };
  const soundly = surfaces("sound").map((each, i) =>
    conditionOf(lifted, undefined, draws[i] as Draw, sound[i] ?? [], each, around),
  );
  const judge = (candidate: Candidate, count: number): Judged => {
    const { fault } = candidate.hypothesis;
    const surface = surfaces(caseOf(fault)).slice(0, count);
    const conditions = surface.map((each, i) =>
      conditionOf(lifted, candidate, draws[i] as Draw, sound[i] ?? [], each, around),
    );
    const logSurface = logMean(
      surface.map(({ weight }, i) => weight + (conditions[i] as Condition).weight),
    );
    const before = surface.map(({ weight }, i) => {
      const condition = conditions[i] as Condition;
      return (
        weight + condition.weight + logAsked(lifted, fault, condition, soundly[i] as Condition)
      );
    });
    const logBefore = logMean(before);
    const logs = terms.map((term) =>
      conditions.map((condition) => overNone(term, condition, fault)),
    );
    const after = before.map((weight, i) =>
      logs.reduce((sum, each) => sum + (each[i] as number), weight),
    );
    return {
      candidate,
      conditions,
      before,
      after,
      asked: Math.exp(logBefore - logSurface),
      logLikelihood: logMean(after) - logBefore,
      logOfTerm: logs.map(
        (each) => logMean(each.map((log, i) => log + (before[i] as number))) - logBefore,
      ),
    };
  };
  // A look at all of them with a part of the draws; then all draws for those that may come near the first.
  const few = Math.ceil(draws.length / FIRST_LOOK);
  const looked = candidates.map((candidate, index) => {
    options.onProgress?.((0.5 * index) / candidates.length);
    return judge(candidate, few);
  });
  const best = Math.max(...looked.map(logOf));
  const judged = withAsked(
    looked.map((each, index) => {
      options.onProgress?.(0.5 + (0.5 * (index + 1)) / looked.length);
      return logOf(each) > best - WORTH_ALL_DRAWS ? judge(each.candidate, draws.length) : each;
    }),
  );
  const unused = [
    ...seen.unused,
    ...(lifted.spaces
      ? []
      : seen.tracers.map(({ evidence }) => ({
          evidence,
          why: "casing and tubing diameters are not on the well's record: no time can be predicted",
        }))),
    ...(lifted.stream
      ? []
      : [...seen.liquid, ...seen.producedGas].map(({ evidence }) => ({
          evidence,
          why: "what flows up on lift is not on the well's record: there is nothing to compare it with",
        }))),
    ...seen.surveys
      .filter(({ stops }) => stops.length < 3)
      .map(({ evidence }) => ({ evidence, why: "a break shows in three stops or more" })),
  ].filter(({ evidence }, i, all) => all.findIndex((each) => each.evidence === evidence) === i);
  return answerOf(lifted, seen, unused, judged, terms, writer);
}

const logOf = ({ candidate, logLikelihood }: Judged) => Math.log(candidate.prior) + logLikelihood;

/**
 * ln of how likely a condition can last and makes somebody ask, beside the sound well in the same draw: a fault that
 * moves neither gauge nor gas is seldom looked for.
 */
function logAsked(
  lifted: LiftedWell,
  fault: Fault,
  condition: Condition,
  soundly: Condition,
): number {
  if (!isDownhole(fault)) return 0;
  const { state, stalled, entries } = condition;
  if (fault.kind === "multi-point") {
    const upper = lifted.pockets.findIndex(({ number }) => number === fault.mandrels[0]);
    // Gas at the lower one alone is a well that has come down.
    if (!((entries[upper] ?? 0) > 0.05 * state.rate))
      return Math.log(uncertain.notNoticed.spread / 10);
  }
  const total = Math.max(state.rate, soundly.state.rate);
  const isNoticed =
    Math.abs(state.surface - soundly.state.surface) > NOTICED * soundly.state.surface ||
    Math.abs(state.rate - soundly.state.rate) > NOTICED_GAS * total ||
    entries.some((rate, i) => Math.abs(rate - (soundly.entries[i] ?? 0)) > NOTICED_GAS * total) ||
    stalled !== undefined;
  return (stalled?.logStays ?? 0) + (isNoticed ? 0 : Math.log(uncertain.notNoticed.spread));
}

/** Of the injection pressure, and of the gas: what a gauge or a test shows. Chosen by Latchline, no source. */
const NOTICED = 0.015;
const NOTICED_GAS = 0.08;

/**
 * Of the faults downhole those get more of what was thought before that can last in this well and would be asked about; all
 * of them together have as much as before.
 */
function withAsked(judged: readonly Judged[]): Judged[] {
  const downhole = judged.filter(({ candidate }) => isDownhole(candidate.hypothesis.fault));
  const prior = downhole.reduce((sum, { candidate }) => sum + candidate.prior, 0);
  const all = downhole.reduce((sum, { candidate, asked }) => sum + candidate.prior * asked, 0);
  if (!(all > 0)) return [...judged];
  return judged.map((each) => {
    const { candidate, asked } = each;
    if (!isDownhole(candidate.hypothesis.fault)) return each;
    return { ...each, candidate: { ...candidate, prior: (candidate.prior * asked * prior) / all } };
  });
}

const isDownhole = ({ kind }: Fault) =>
  kind !== "nothing downhole" && kind !== "supply" && kind !== "back-pressure at surface";

const FIRST_LOOK = 4;
/** A hypothesis e⁶ times less probable than the first after the first look does not come back. */
const WORTH_ALL_DRAWS = 6;

/**
 * ln of the likelihood of a piece of evidence over that under "none of these".
 *
 * One piece in so many is of something else: a wrong unit, another well, a gauge that stuck. It is then as likely under every
 * hypothesis as under none, so that no piece, however far off, is more certain than that.
 */
function overNone(term: Term, condition: Condition, fault: Fault): number {
  const log = term.logOf(condition, fault) - term.logOfNone;
  const astray = uncertain.astray.spread;
  return Math.log((1 - astray) * (Number.isNaN(log) ? 0 : Math.exp(Math.min(log, 600))) + astray);
}

function caseOf(fault: Fault): SurfaceCase {
  if (fault.kind === "supply") return fault.what;
  return fault.kind === "back-pressure at surface" ? "back-pressure" : "sound";
}

/**
 * Of "none of these", where the first, though it stands above the others, does not give what was read: being the
 * best of what was thought of is then no reason to believe it. Chosen by Latchline, no source.
 */
const MISFIT = 0.5;

/** A weight nearer to 0 speaks neither way. */
const SPEAKS = 0.02;

function answerOf(
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
