import { useMemo } from "react";
import type { Writer } from "../../jobs/display.ts";
import { lookedAt } from "../../jobs/lookedAt.ts";
import type { Well } from "../../jobs/records/well.ts";
import { resultsOf } from "../../jobs/results/results.ts";
import type { Library } from "../../jobs/store/library.ts";
import { WellDrawing } from "../WellDrawing/WellDrawing.tsx";

interface PlanDrawingProps {
  readonly well: Well;
  readonly library: Library;
  readonly writer: Writer;
  readonly target: string | undefined;
  readonly onPick: (mandrel: string) => void;
}

/** The well to tap on. The same mandrels stand in the list beside it, for keyboard and reader. */
export function PlanDrawing({ well, library, writer, target, onPick }: PlanDrawingProps) {
  const results = useMemo(() => resultsOf(lookedAt(well, library), {}), [well, library]);
  return (
    <figure className="plan-drawing">
      <WellDrawing
        well={well}
        valves={library.valves}
        results={results}
        writer={writer}
        target={target}
        onPick={onPick}
      />
    </figure>
  );
}
