import { drawCase } from "../diagnosis/forward/cases.ts";
import {
  type Answered,
  brier,
  calibration,
  calibrationError,
  interval,
  ofFirst,
  type Scored,
  score,
} from "../diagnosis/scores.ts";
import { quantilesOf } from "./quantiles.ts";

/** Enough that a rate of all of them is known to 5 points, and one of a kind to 20; some five minutes. */
const CASES = 240;
/** From here on nobody looked at single wells while the ranking was written: a rate of the others would flatter it. */
const FIRST_SEED = 3001;

const percent = (share: number) => `${(100 * share).toFixed(0)} %`;
const rate = <T>(of: readonly T[], is: (one: T) => boolean) => {
  if (of.length === 0) return "";
  const right = of.filter(is).length;
  const [low, high] = interval(right, of.length);
  return `${percent(right / of.length)} (${(100 * low).toFixed(0)}-${(100 * high).toFixed(0)})`;
};

function row(what: string, of: readonly Scored[]) {
  return {
    what,
    cases: of.length,
    "first right": rate(of, ({ top1 }) => top1),
    "first or second": rate(of, ({ top2 }) => top2),
    "right mandrel": rate(
      of.filter(({ mandrelRight }) => mandrelRight !== undefined),
      ({ mandrelRight }) => mandrelRight === true,
    ),
    "mandrel in sum": rate(
      of.filter(({ mandrelRight, kind }) => mandrelRight !== undefined && kind !== "multi-point"),
      ({ inSum }) => inSum.right,
    ),
    "prior alone": rate(of, ({ byPrior }) => byPrior),
    "rule of thumb": rate(of, ({ byRule }) => byRule),
  };
}

const groups = <K extends string>(scored: readonly Scored[], by: (one: Scored) => K) =>
  [...new Set(scored.map(by))].sort().map((key) => ({
    key,
    of: scored.filter((one) => by(one) === key),
  }));

/** How good the ranking is on wells whose truth is known, by a model that is not its own. Rates with their 90 % interval. */
export function benchDiagnosis() {
  return reportOf(Array.from({ length: CASES }, (_, index) => score(drawCase(FIRST_SEED + index))));
}

export function reportOf(scored: readonly Scored[]) {
  return {
    rates: [
      row("all", scored),
      row(
        "records and gauges in order",
        scored.filter(({ wrong }) => wrong.length === 0),
      ),
      ...groups(scored, ({ amount }) => amount).map(({ key, of }) => row(`${key} evidence`, of)),
      ...groups(scored, ({ kind }) => kind).map(({ key, of }) => row(key, of)),
    ],
    verdicts: groups(scored, ({ verdict }) => verdict).map(({ key, of }) => ({
      verdict: key,
      cases: of.length,
      share: percent(of.length / scored.length),
      "first right": rate(of, ({ top1 }) => top1),
      "first or second": rate(of, ({ top2 }) => top2),
    })),
    calibration: calibrationOf(ofFirst(scored)),
    "mandrel in sum": calibrationOf(scored.map(({ inSum }) => inSum)),
    "said in sum": (["mandrel", "kind"] as const).map((of) => {
      const said = scored.flatMap(({ saidInSum }) => (saidInSum?.of === of ? [saidInSum] : []));
      return {
        of,
        cases: said.length,
        "mean stated": percent(said.reduce((sum, { stated }) => sum + stated, 0) / said.length),
        right: rate(said, ({ right }) => right),
      };
    }),
    confusions: confusions(scored),
    scores: {
      "Brier score of the first": Number(brier(ofFirst(scored)).toFixed(3)),
      "calibration error": Number(calibrationError(ofFirst(scored)).toFixed(3)),
      "Brier score of the mandrel in sum": Number(
        brier(scored.map(({ inSum }) => inSum)).toFixed(3),
      ),
      "calibration error of it": Number(
        calibrationError(scored.map(({ inSum }) => inSum)).toFixed(3),
      ),
    },
    times: [
      quantilesOf(
        "one ranking",
        scored.map(({ milliseconds }) => milliseconds),
      ),
    ],
  };
}

const calibrationOf = (answers: readonly Answered[]) =>
  calibration(answers).map((bin) => ({
    stated: `${percent(bin.from)} to ${percent(bin.upTo)}`,
    cases: bin.count,
    "mean stated": percent(bin.stated),
    right: percent(bin.right),
    "90 % interval": `${percent(bin.low)} to ${percent(bin.high)}`,
    fits: bin.stated >= bin.low && bin.stated <= bin.high ? "" : "no",
  }));

/** True kind down, kind of the first across. */
function confusions(scored: readonly Scored[]) {
  const kinds = [...new Set(scored.flatMap(({ kind, firstKind }) => [kind, firstKind]))].sort();
  return Object.fromEntries(
    groups(scored, ({ kind }) => kind).map(({ key, of }) => [
      key,
      Object.fromEntries(
        kinds.map((kind) => [
          kind.slice(0, 12),
          of.filter(({ firstKind }) => firstKind === kind).length || "",
        ]),
      ),
    ]),
  );
}
