import { useMemo } from "react";
import type { Writer } from "../../jobs/display.ts";
import { measuredInputs } from "../../jobs/review/measuredInputs.ts";
import type { Comparison } from "../../jobs/review/planActual.ts";
import { weightsRead } from "../../jobs/review/weights.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import { LinePulls } from "../LineScreen/LinePulls.tsx";

interface WeightsProps {
  readonly state: JobState;
  readonly comparisons: readonly Comparison[];
  readonly writer: Writer;
  /** mandrel, by its id */
  readonly pocket: string;
}

/** Line pulls as they were read on the depth chart, beside the calculated curves and the limit. */
export default function Weights({ state, comparisons, writer, pocket }: WeightsProps) {
  const results = useMemo(
    () => measuredInputs(state, writer, pocket)?.results,
    [state, writer, pocket],
  );
  const readings = useMemo(
    () => (results ? weightsRead(state, comparisons, results) : []),
    [state, comparisons, results],
  );
  if (!results) return null;
  return (
    <LinePulls
      results={results}
      readings={readings}
      writer={writer}
      stands="Curves at the pressures at which the pocket was last found level; each reading is held against what was expected when it was read."
    />
  );
}
