import { M_PER_FT } from "../../calc/units.ts";
import { asEntered } from "../display.ts";
import { toSI } from "../quantity.ts";
import type { Well } from "../records/well.ts";
import type { Context } from "./context.ts";
import { takesTools } from "./stringInStack.ts";

/** Every bore that a tool passes on its way to the mandrel at work, and which of them nobody has stated. */

export interface Bore {
  readonly restriction: string;
  /** along hole, m; undefined above the tree */
  readonly depth: number | undefined;
  /** m */
  readonly bore: number;
  /** whether the bore is what the gauge proved, less than what is on record */
  readonly byGauge: boolean;
}

export interface Bores {
  readonly bores: readonly Bore[];
  /** what is missing, by name */
  readonly needs: readonly string[];
}

/** All of them as they are on record. */
export function boresOnRecord(context: Context): Bores {
  const parts = [stackBores(context), wellBores(context, undefined)];
  return {
    bores: parts.flatMap(({ bores }) => bores),
    needs: parts.flatMap(({ needs }) => needs),
  };
}

/** What stands above the tree, as far as tools go through it. */
export function stackBores({ programme: { stack } }: Context): Bores {
  if (!stack) return { bores: [], needs: ["pressure equipment"] };
  const passed = stack.items.filter(takesTools);
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

export function gaugeRun({ measured }: Context): GaugeRun | undefined {
  const diameter = measured["gauge diameter"]?.si;
  const reached = measured["gauge depth reached"]?.si;
  return diameter === undefined || reached === undefined ? undefined : { diameter, reached };
}

/** The string runs this far below the target to come up into the sleeve: 10 to 30 ft (common practice). */
export const BELOW_TARGET = 30 * M_PER_FT;

/** Tubing by its drift, and everything narrower, down to where the string works. */
export function wellBores(
  { programme: { well }, mandrel }: Context,
  gauge: GaugeRun | undefined,
): Bores {
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
    needs: tubingMissing(well, foot),
  };
}

/** Lengths are typed in feet or metres: a hand's breadth between two joints is none. */
const MEETS = 0.1;

/** Where between surface and a depth no tubing is on record. */
function tubingMissing({ tubing }: Well, foot: number): string[] {
  const joints = tubing
    .map(({ from, to }) => ({ from, to, top: toSI("length", from), end: toSI("length", to) }))
    .sort((a, b) => a.top - b.top);
  if (joints.length === 0) return ["drift of the tubing"];
  const needs: string[] = [];
  let covered: { end: number; to: (typeof joints)[number]["to"] | undefined } = {
    end: 0,
    to: undefined,
  };
  for (const { from, to, top, end } of joints) {
    if (top > foot) break;
    if (top > covered.end + MEETS) {
      const upper = covered.to;
      needs.push(
        upper
          ? `drift of the tubing from ${asEntered(upper)} to ${asEntered(from)}`
          : `drift of the tubing above ${asEntered(from)}`,
      );
    }
    if (end > covered.end) covered = { end, to };
  }
  if (covered.to && covered.end + MEETS < foot) {
    needs.push(`drift of the tubing below ${asEntered(covered.to)}`);
  }
  return needs;
}
