import type { Fault, Ranked } from "../../../src/jobs/diagnosis/ranking.ts";

/** A hypothesis in a ranking, of which nothing was predicted and for which nothing speaks unless it is said. */
export const oneRanked = (
  title: string,
  probability: number,
  fault: Fault,
  of: Partial<Ranked> = {},
): Ranked => ({
  hypothesis: { id: title, title, fault },
  probability,
  prior: 0.1,
  speaksFor: [],
  speaksAgainst: [],
  speaksNeither: [],
  predicted: {
    injectionAtSurface: undefined,
    injectionRate: undefined,
    profile: [],
    entry: {},
    tracer: {},
    heading: "not known",
  },
  ...of,
});
