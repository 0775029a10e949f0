import { format, parseISO } from "date-fns";
import type { Writer } from "../display.ts";
import type { Befell } from "../library/history.ts";
import { toSI } from "../quantity.ts";
import type { Investigation } from "../records/investigation.ts";
import type { Policy } from "../records/policy.ts";
import type { Valve } from "../records/valve.ts";
import type { Well } from "../records/well.ts";
import { siteAtmosphere } from "../results/context.ts";
import { answerOf } from "./answer.ts";
import { type Condition, conditionOf, soundPaths } from "./conditions.ts";
import { type Draw, type SurfaceCase, surfacesOf } from "./draws.ts";
import { type Candidate, candidatesOf } from "./hypotheses.ts";
import { type Judged, logOf } from "./judged.ts";
import { type LiftedWell, liftedWellOf } from "./liftedWell.ts";
import { stopped } from "./notLifted.ts";
import { middleOf, type Observations, observationsOf } from "./observations.ts";
import type { Fault, NoRanking, Ranking } from "./ranking.ts";
import { soundDraws } from "./soundDraws.ts";
import { withoutStanding } from "./standingWell.ts";
import { logMean, surveyedAt, surveyPressures } from "./surveyFit.ts";
import type { Term } from "./term.ts";
import { termsOf } from "./terms.ts";
import { uncertain } from "./uncertain.ts";
import { isDownhole } from "./work.ts";

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
  const read = observationsOf(investigation, atmosphere, given.well.injectionDown);
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
  const lifted = liftedWellOf(given, read, investigation.opened);
  if ("needs" in lifted) return lifted;
  const seen = withoutStanding(
    lifted,
    withoutLevelsBelow(endOfTubing(given.well), read, writer),
    writer,
  );
  const candidates = candidatesOf(
    lifted,
    given.well.name,
    historyBefore(investigation, given.history),
    investigation.opened,
  );
  const terms = termsOf(lifted, seen, writer);
  const draws = soundDraws(lifted, Math.max(20, Math.round(options.draws ?? DRAWS)));
  const sound = draws.map((draw) => soundPaths(lifted, draw));
  const [run] = seen.surveys;
  const around = {
    survey: run && surveyedAt(surveyPressures(lifted, run), lifted),
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
      each.isShut
        ? stopped(lifted, soundly[i] as Condition, each)
        : conditionOf(lifted, candidate, draws[i] as Draw, sound[i] ?? [], each, around),
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

/** What befell the pockets before somebody looked: the job that came of it proves nothing of what it was made from. */
function historyBefore(
  { opened, agreed }: Investigation,
  history: readonly Befell[],
): readonly Befell[] {
  const day = format(parseISO(opened), "yyyy-MM-dd");
  return history.filter((each) => each.day <= day && (!each.job || each.job !== agreed?.job));
}

/** Along hole, m: a shot is good to some percent, so that little below the end is at the end. Chosen by Latchline, no source. */
const PAST_THE_END = { share: 1.03, more: 20 } as const;

const endOfTubing = ({ tubing }: Well): number | undefined =>
  tubing.length > 0 ? Math.max(...tubing.map(({ to }) => toSI("length", to))) : undefined;

/** No liquid stands below the end of the tubing while gas goes in above it: such a level was shot or written wrongly. */
function withoutLevelsBelow(
  end: number | undefined,
  seen: Observations,
  writer: Writer,
): Observations {
  if (end === undefined) return seen;
  const deepest = end * PAST_THE_END.share + PAST_THE_END.more;
  return {
    ...seen,
    levels: seen.levels.filter(({ alongHole }) => alongHole <= deepest),
    unused: [
      ...seen.unused,
      ...seen.levels
        .filter(({ alongHole }) => alongHole > deepest)
        .map(({ evidence }) => ({
          evidence,
          why: `it lies below the end of the tubing at ${writer.write("length", end)}: look at the depth; if it is right, gas goes round that end, which is not ranked`,
        })),
    ],
  };
}

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
