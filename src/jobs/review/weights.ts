import { type LineReading, lineReadings } from "../results/lineReadings.ts";
import type { Results } from "../results/results.ts";
import type { JobState } from "../state/jobState.ts";
import type { Comparison } from "./planActual.ts";

/**
 * Line pulls as they were read, each beside what was expected with what had been measured by then.
 *
 * @param results of the pocket whose readings are meant, where the job has several
 */
export function weightsRead(
  state: JobState,
  comparisons: readonly Comparison[],
  results: Results,
): LineReading[] {
  return lineReadings(state, results).map((read) => {
    const row = comparisons.findLast(
      ({ reading }) => reading.field === read.field && !reading.setAside,
    );
    return row && read.against ? { ...read, expected: row.expected } : read;
  });
}
