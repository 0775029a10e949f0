import { useMemo } from "react";
import { assemble } from "../../jobs/assemble.ts";
import type { Writer } from "../../jobs/display.ts";
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
  const results = useMemo(() => {
    const looked = {
      id: "none",
      revision: 1,
      day: "2000-01-01",
      well: well.id,
      mandrel: "none",
      reason: "looked at",
      design: {},
      expected: {},
      strings: {},
      crew: {},
      sheet: "change-out" as const,
    };
    return resultsOf(assemble(looked, library), {});
  }, [well, library]);
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
