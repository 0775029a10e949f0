import { atLeast, atMost } from "../checks/compare.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import type { Context } from "./context.ts";
import { BELOW_TARGET } from "./envelopeResults.ts";
import type { Results } from "./results.ts";

/** One tool against one bore that it has to pass. */
export interface DriftRow {
  /** names of string and tool */
  readonly string: string;
  readonly tool: string;
  /** m */
  readonly outsideDiameter: number;
  readonly restriction: string;
  /** along hole, m; undefined above the tree */
  readonly depth: number | undefined;
  /** m */
  readonly bore: number;
  /** whether the bore is what the gauge proved, less than what is on record */
  readonly byGauge: boolean;
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

type Bore = Pick<DriftRow, "restriction" | "depth" | "bore" | "byGauge">;

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

interface Bores {
  readonly bores: readonly Bore[];
  readonly needs: readonly string[];
}

/** What stands above the tree. Through packing, hose and gauge no tool goes. */
function stackBores({ programme: { stack } }: Context): Bores {
  if (!stack) return { bores: [], needs: ["pressure equipment"] };
  const passed = stack.items.filter(({ kind }) => kind !== "packing" && kind !== "hose or gauge");
  return {
    bores: passed.flatMap(({ name, bore }) =>
      bore
        ? [{ restriction: name, depth: undefined, bore: toSI("diameter", bore), byGauge: false }]
        : [],
    ),
    needs: passed.flatMap(({ name, bore }) => (bore ? [] : [`bore of ${name}`])),
  };
}

/** How wide a gauge went how deep, m. */
interface GaugeRun {
  readonly diameter: number;
  readonly reached: number;
}

function gaugeRun({ measured }: Context): GaugeRun | undefined {
  const diameter = measured["gauge diameter"]?.si;
  const reached = measured["gauge depth reached"]?.si;
  return diameter === undefined || reached === undefined ? undefined : { diameter, reached };
}

/** Tubing by its drift, and everything narrower, down to where the string works. */
function wellBores({ programme: { well }, mandrel }: Context, gauge: GaugeRun | undefined): Bores {
  if (!well || !mandrel) return { bores: [], needs: [well ? "mandrel at work" : "well"] };
  const foot = toSI("length", mandrel.depthAlongHole) + BELOW_TARGET;
  const at = (restriction: string, depth: number, recorded: number): Bore =>
    gauge && depth <= gauge.reached && gauge.diameter < recorded
      ? { restriction, depth, bore: gauge.diameter, byGauge: true }
      : { restriction, depth, bore: recorded, byGauge: false };
  const tubing = well.tubing.flatMap(({ name, from, to, drift }) => {
    const [top, recorded] = [toSI("length", from), toSI("diameter", drift)];
    const end = Math.min(toSI("length", to), foot);
    if (top > end) return [];
    const upper = at(`${name}, drift`, top, recorded);
    if (!upper.byGauge || !gauge || gauge.reached >= end) return [upper];
    // Where the gauge stopped on its way, what lies below it is as recorded.
    const restriction = `${name}, drift below the gauge`;
    return [upper, { restriction, depth: gauge.reached, bore: recorded, byGauge: false }];
  });
  const narrow = well.restrictions.flatMap(({ name, depthAlongHole, bore }) => {
    const depth = toSI("length", depthAlongHole);
    return depth <= foot ? [at(name, depth, toSI("diameter", bore))] : [];
  });
  return {
    bores: [...tubing, ...narrow],
    needs: well.tubing.length > 0 ? [] : ["drift of the tubing"],
  };
}
