import type { Writer } from "../display.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { targetMandrel } from "../programme.ts";
import { pocketSuffix } from "../sheet/changeOut/pocket.ts";
import type { JobState } from "../state/jobState.ts";
import { otherwise, times } from "./course.ts";
import { left, line } from "./leaving.ts";
import type { CloseOutSection, Of, Pocket } from "./line.ts";
import { depths, pressures, tests, weights } from "./measured.ts";
import { pulled, set } from "./valves.ts";

/**
 * What the record says at the end: what came out and went in, what was read, how long it took, how the well was left. A
 * line that nothing in the log answers is a gap. Empty before a programme is issued.
 *
 * @param now instant at which the question is asked: a run that is not closed goes on
 */
export function closeOutOf(state: JobState, now: string, writer: Writer): CloseOutSection[] {
  const { programme } = state;
  if (!programme) return [];
  const of: Of = { state, programme, now, writer };
  const ids = pocketsOf(programme.job);
  const pockets = ids.map((id, place): Pocket => {
    const focused = focus(programme, id);
    return {
      id,
      programme: focused,
      suffix: pocketSuffix(place),
      title: ids.length > 1 ? `, mandrel ${targetMandrel(focused)?.number ?? "?"}` : "",
    };
  });
  return [
    ...pockets.flatMap((pocket) => [pulled(of, pocket), set(of, pocket)]),
    depths(of, pockets),
    pressures(of, pockets),
    weights(of, pockets),
    tests(of, pockets),
    times(of, pockets),
    otherwise(of),
    line(of),
    left(of),
  ];
}
