import type { Writer } from "../display.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Observations, SurveyRun } from "./observations.ts";
import { pressuresOf } from "./surveyFit.ts";

/** Pa/m: gas alone weighs less than this, no stream with liquid on lift does (0.022 psi/ft; common practice: 0.05 at the least). */
const GAS_ALONE = 500;
/** m: over less, two readings of a gauge do not tell. Chosen by Latchline, no source. */
const TELLS = 100;

/**
 * Leaves out surveys that were run while nothing flowed, or between two heads: gas stands at the top of the tubing, and liquid below it.
 * Where it turns from one to the other looks like gas entering, and is only the level.
 */
export function withoutStanding(
  lifted: LiftedWell,
  seen: Observations,
  writer: Writer,
): Observations {
  const gasDownTo = new Map(
    seen.surveys.flatMap((run) => {
      const down = gasAlone(lifted, run);
      return down === undefined ? [] : [[run, down] as const];
    }),
  );
  return {
    ...seen,
    surveys: seen.surveys.filter((run) => !gasDownTo.has(run)),
    unused: [
      ...seen.unused,
      ...[...gasDownTo].map(([{ evidence }, down]) => ({
        evidence,
        why: `gas alone stands in the tubing down to ${writer.write("length", down)} at least: the well did not flow, or not steadily, while the survey was run, and where gas enters is not to be seen in it. Look first at why nothing flows`,
      })),
    ],
  };
}

/** Along hole, m: how far down from the top a survey reads gas alone; undefined where it does not. */
function gasAlone(lifted: LiftedWell, { stops }: SurveyRun): number | undefined {
  const read = pressuresOf(lifted, stops).sort((a, b) => a.depth - b.depth);
  const [top] = read;
  if (!top) return undefined;
  return read.findLast(
    ({ depth, pressure }) =>
      depth - top.depth >= TELLS && pressure - top.pressure < GAS_ALONE * (depth - top.depth),
  )?.alongHole;
}
