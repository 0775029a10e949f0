import type { ResultId } from "../../jobs/results/traced.ts";
import type { Step } from "../../jobs/sheet/sheet.ts";

/** The line pull to expect with the string that hangs on the line in a step. */
export function hangingOf(step: Step | undefined): ResultId {
  switch (step?.string) {
    case "gauge":
      return "hanging-gauge";
    case "set":
      return "hanging-set";
    default:
      return "hanging-pull";
  }
}
