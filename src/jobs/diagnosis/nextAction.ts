import type { Investigation } from "../records/investigation.ts";
import type { Mandrel, Well } from "../records/well.ts";
import { chanceInWords } from "./inWords.ts";
import type { Fault, Ranked, Ranking } from "./ranking.ts";

/** What follows from an answer: a job by wireline in one pocket, or something else that says what. */
export type NextAction =
  | { readonly is: "job"; readonly mandrel: Mandrel; readonly also?: string }
  | { readonly is: "other"; readonly says: string };

export function nextActionFor(fault: Fault, { mandrels }: Pick<Well, "mandrels">): NextAction {
  switch (fault.kind) {
    case "nothing downhole":
      return {
        is: "other",
        says: "Nothing to go into the hole for. Watch it on two pens for a day and read both gauges again.",
      };
    case "supply":
      return {
        is: "other",
        says: "The next action is at surface, not by wireline: supply line, meter and injection choke. Mend it, let the well settle, read both gauges again.",
      };
    case "back-pressure at surface":
      return {
        is: "other",
        says: "The next action is at surface, not by wireline: flowline, choke and separator. Mend it, let the well settle, read both gauges again.",
      };
    case "tubing leak":
      return {
        is: "other",
        says: "A valve changed out does not mend a hole in the tubing. The engineer decides what comes next; no change-out is planned for it here.",
      };
    case "multi-point":
      return {
        is: "other",
        says: "The valves that pass gas work as they are set; lift has not transferred below them. Look at injection pressure, rate and design before a valve is pulled.",
      };
    case "wrong depth": {
      const also = `The valve of mandrel ${fault.other} is thought to sit here and this one's there: both pockets are worked.`;
      return jobIn(fault.mandrel, mandrels, also);
    }
    default:
      return jobIn(fault.mandrel, mandrels);
  }
}

function jobIn(number: number, mandrels: readonly Mandrel[], also?: string): NextAction {
  const mandrel = mandrels.find((each) => each.number === number);
  if (!mandrel) {
    return {
      is: "other",
      says: `Mandrel ${number} is not on the well's record: look there first.`,
    };
  }
  return { is: "job", mandrel, ...(also !== undefined && { also }) };
}

/** The answer about one hypothesis as it goes into the record: the words shown, with how likely it was then. */
export const answerInWords = (
  { hypothesis, probability }: Ranked,
  { says, saysInSum }: Ranking,
): string =>
  [`${hypothesis.title}: ${chanceInWords(probability)}.`, says, saysInSum]
    .filter((each) => each !== undefined)
    .join(" ")
    .slice(0, 4000);

/** Its first sentence: the hypothesis and how likely it was. */
export const agreedAnswer = ({
  says,
}: Pick<NonNullable<Investigation["agreed"]>, "says">): string => says.split(". ")[0] ?? says;

const MOST_REASON = 400;

/** The reason of the job that an investigation leads to: it names the answer, then why the engineer agreed. */
export function jobReason(agreed: NonNullable<Investigation["agreed"]>): string {
  const whole = `${agreedAnswer(agreed)}. ${agreed.reason.trim()} (${agreed.by})`;
  return whole.length <= MOST_REASON ? whole : `${whole.slice(0, MOST_REASON - 1)}…`;
}
