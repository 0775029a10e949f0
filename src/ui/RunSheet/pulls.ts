import type { ResultId } from "../../jobs/results/traced.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";

/** What the indicator should show with the string that hangs on the line in a step. */
interface ExpectedPulls {
  readonly goingIn: ResultId;
  readonly hanging: ResultId;
  readonly comingOut: ResultId;
}

export function pullsOf(step: Step | undefined): ExpectedPulls {
  const purpose = step?.string ?? "pull";
  return {
    goingIn: `in-${purpose}`,
    hanging: `hanging-${purpose}`,
    comingOut: `out-${purpose}`,
  };
}
