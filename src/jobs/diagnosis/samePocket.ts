import type { InSum, Ranking } from "./ranking.ts";
import { pocketsOf } from "./work.ts";

/** Chosen by Latchline, no source: from here on a pocket stands above the others. */
const WELL_ABOVE = 0.8;

/**
 * Where the likeliest answers all ask for work in one pocket, that pocket is known though the answer is not.
 *
 * @returns undefined unless the first two answers are both at the pocket and nearly all that is likely is there
 */
export function samePocketOf({
  ranked,
  inSum,
}: Pick<Ranking, "ranked" | "inSum">): InSum["mandrels"][number] | undefined {
  const [first, second] = ranked;
  if (!first || !second) return undefined;
  const isAtBoth = (mandrel: number) =>
    [first, second].every(({ hypothesis }) => pocketsOf(hypothesis.fault).includes(mandrel));
  return inSum.mandrels.find(
    ({ mandrel, probability }) => probability >= WELL_ABOVE && isAtBoth(mandrel),
  );
}
