import { atLeast, atMost } from "../checks/compare.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import { type Bore, gaugeRun, stackBores, wellBores } from "./boresOnTheWay.ts";
import type { Results } from "./results.ts";

/** One tool against one bore that it has to pass. */
export interface DriftRow extends Bore {
  /** names of string and tool */
  readonly string: string;
  readonly tool: string;
  /** m */
  readonly outsideDiameter: number;
  /** bore less outside diameter, m */
  readonly clearance: number;
  readonly passes: boolean;
}

export interface DriftTable {
  /** least clearance first */
  readonly rows: readonly DriftRow[];
  /** what is missing, by name; its rows are missing too */
  readonly needs: readonly string[];
}

/**
 * Every tool of every string against every bore on its way to the mandrel at work.
 *
 *   clearance = bore - outside diameter
 *
 * For the strings that follow the gauge, a bore below the tree counts as no wider than the gauge that passed it:
 * wax, scale and collapse are not on record. What the gauge did not reach stands as recorded.
 *
 * Equal diameters do not pass by the record; a tool of the gauge's own diameter passes where the gauge did.
 * Source: arithmetic; a gauge at least as large as the tools passes first (common practice).
 */
export function driftTable({ context }: Results): DriftTable {
  const { strings } = context.programme;
  const stack = stackBores(context);
  const recorded = wellBores(context, undefined);
  const gauged = wellBores(context, gaugeRun(context));
  const rows = purposes.flatMap((purpose) => {
    const well = purpose === "gauge" ? recorded : gauged;
    return rowsOf(strings[purpose], [...stack.bores, ...well.bores]);
  });
  const missing = purposes.flatMap((purpose) => (strings[purpose] ? [] : [`${purpose} string`]));
  return {
    rows: rows.sort(
      (one, other) => Number(one.passes) - Number(other.passes) || one.clearance - other.clearance,
    ),
    needs: [...missing, ...stack.needs, ...recorded.needs],
  };
}

const purposes = ["gauge", "pull", "set"] as const;

function rowsOf(string: ToolString | undefined, bores: readonly Bore[]): DriftRow[] {
  if (!string) return [];
  return string.tools.flatMap((tool) => {
    const outsideDiameter = toSI("diameter", tool.outsideDiameter);
    return bores.map((bore) => ({
      ...bore,
      string: string.name,
      tool: tool.name,
      outsideDiameter,
      clearance: bore.bore - outsideDiameter,
      passes: bore.byGauge
        ? atLeast(bore.bore, outsideDiameter)
        : !atMost(bore.bore, outsideDiameter),
    }));
  });
}
