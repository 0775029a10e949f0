import type { Part } from "../document.ts";
import type { Reported } from "../reported.ts";
import { linePullBlocks } from "./linePulls.ts";
import { onLiftBlocks } from "./onLift.ts";
import { pressureBlocks } from "./pressures.ts";

/** What was read as pictures, beside what was expected. */
export function chartsPart(of: Reported): Part | undefined {
  const blocks = [...pressureBlocks(of), ...linePullBlocks(of), ...onLiftBlocks(of)];
  return blocks.length === 0 ? undefined : { id: "charts", title: "Charts", newPage: true, blocks };
}
