import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { MandrelState } from "../../jobs/results/wholeWell.ts";

/** The well on lift as it is looked at. */
export interface Looked {
  readonly results: Results;
  readonly states: readonly MandrelState[];
  readonly writer: Writer;
  /** the mandrel at work, by its id */
  readonly target: string | undefined;
}
