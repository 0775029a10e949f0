import type { Fault, Ranking } from "./ranking.ts";

/** Where the likeliest answers all ask for work in one pocket, that pocket is known though the answer is not. */
export interface SamePocket {
  readonly mandrel: number;
  /** of all answers that ask for work there */
  readonly probability: number;
}

/** Chosen by Latchline, no source: from here on a pocket stands above the others. */
const WELL_ABOVE = 0.8;

const pocketsOf = (fault: Fault): readonly number[] => {
  if (fault.kind === "wrong depth") return [fault.mandrel, fault.other];
  return "mandrel" in fault ? [fault.mandrel] : [];
};

/** @returns undefined unless the first two answers are both at the pocket and nearly all that is likely is there */
export function samePocketOf({ ranked }: Pick<Ranking, "ranked">): SamePocket | undefined {
  const [first, second] = ranked;
  if (!first || !second) return undefined;
  const shared = pocketsOf(first.hypothesis.fault).filter((number) =>
    pocketsOf(second.hypothesis.fault).includes(number),
  );
  return shared
    .map((mandrel) => ({
      mandrel,
      probability: ranked
        .filter(({ hypothesis }) => pocketsOf(hypothesis.fault).includes(mandrel))
        .reduce((sum, { probability }) => sum + probability, 0),
    }))
    .filter(({ probability }) => probability >= WELL_ABOVE)
    .sort((a, b) => b.probability - a.probability)[0];
}
