import type { Investigation } from "../records/investigation.ts";
import type { Programme } from "../records/programme.ts";
import type { JobState } from "../state/jobState.ts";
import { chanceInWords } from "./inWords.ts";
import { answerInWords } from "./nextAction.ts";
import type { NoRanking, Ranking } from "./ranking.ts";
import { asksForSameWork } from "./work.ts";

/**
 * What the evidence says now where that is something else than what was agreed on, in words; undefined where it reads as
 * it did then, or still sends a crew to the same place.
 */
export function saysOtherwise(
  { hypothesis: id, says }: Pick<NonNullable<Investigation["agreed"]>, "hypothesis" | "says">,
  ranking: Ranking | NoRanking,
): string | undefined {
  if ("needs" in ranking) return "What is on record and counts as evidence now names no answer.";
  const { ranked, verdict } = ranking;
  const of = ranked.find(({ hypothesis }) => hypothesis.id === id);
  if (!of) return `${ranking.says} What was agreed on is not among the answers any more.`;
  if (answerInWords(of, ranking) === says) return undefined;
  const isOpen = verdict === "nothing fits" || verdict === "not enough to tell";
  const [first = of] = ranked;
  if (!isOpen && asksForSameWork(first.hypothesis, of.hypothesis)) return undefined;
  return `${ranking.says} What was agreed on, ${of.hypothesis.title}: ${chanceInWords(of.probability)} now.`;
}

/**
 * The programme of the job that an investigation led to, once its run has begun: from then on it holds the well as it was
 * looked at, and the records follow the work.
 */
export const begunFrom = (
  { agreed }: Investigation,
  states: readonly JobState[],
): Programme | undefined =>
  agreed?.job === undefined
    ? undefined
    : states.find(({ started, programme }) => started && programme?.job.id === agreed.job)
        ?.programme;
