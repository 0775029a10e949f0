import { M_PER_FT, PA_PER_PSI } from "../../calc/units.ts";
import { unitLabel, type Writer } from "../display.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Evidence } from "../records/investigation.ts";
import type { Well } from "../records/well.ts";

/** What looks wrong with a log although every cell of it could be read; it is kept all the same where somebody says so. */
export interface LogDoubt {
  readonly says: string;
  /** the two columns of pressure may stand for one another */
  readonly exchanged?: true;
}

type Trend = Extract<Evidence, { kind: "trend" }>;
type Survey = Extract<Evidence, { kind: "survey" }>;
type WellOf = Pick<Well, "injectionDown" | "lastFound" | "pressures">;

/** What one unit is of another: bar and kPa in psi. A figure so many times off is of the other unit. */
const TIMES = [14.5038, 6.89476, 100];
/** ln: how far a well may stand from its record and its unit still be told. Chosen by Latchline, no source. */
const NEAR = 0.25;
/** psi/ft: heavier than any brine that stands in a well. Chosen by Latchline, no source. */
const STEEPEST = 0.85;

const sides = (injectionDown: Well["injectionDown"]) =>
  injectionDown === "annulus" ? (["casing", "tubing"] as const) : (["tubing", "casing"] as const);

/** Of two gauges: gas that goes in stands higher than what comes out. SI. */
export function exchangedInWords(
  injection: number,
  wellhead: number,
  injectionDown: Well["injectionDown"],
): string | undefined {
  if (!(injection < wellhead)) return undefined;
  const [down, up] = sides(injectionDown);
  return `The ${down} stands below the ${up}. Gas goes down the ${down} of this well, and none goes in like that: are the two exchanged?`;
}

export function trendDoubts(points: Trend["points"], well: WellOf, writer: Writer): LogDoubt[] {
  const doubts: LogDoubt[] = [];
  const [down, up] = sides(well.injectionDown);
  const si = (of: Quantity<"pressure">) => toSI("pressure", of, writer.atmosphere);
  const both = points.flatMap(({ [down]: injection, [up]: wellhead }) =>
    injection && wellhead ? [si(injection) < si(wellhead)] : [],
  );
  const below = both.filter(Boolean).length;
  if (2 * below > both.length) {
    doubts.push({
      says: `The ${down} stands below the ${up} in ${below.toLocaleString("en-US")} of ${both.length.toLocaleString("en-US")} rows. Gas goes down the ${down} of this well, and none goes in like that: are the two columns exchanged?`,
      exchanged: true,
    });
  } else {
    const read = points.flatMap(({ [down]: injection }) => (injection ? [injection] : []));
    const doubt = unitDoubt(down, read, well, writer);
    if (doubt) doubts.push({ says: doubt });
  }
  const [first, last] = [points[0]?.at, points.at(-1)?.at];
  if (first !== undefined && first === last) {
    doubts.push({
      says: "All rows are of one moment: no course can be seen. Look at the column of the time.",
    });
  }
  return doubts;
}

/** Figures that are so many times off what is on record as a unit is of another. */
function unitDoubt(
  side: string,
  read: readonly Quantity<"pressure">[],
  { lastFound, pressures }: WellOf,
  writer: Writer,
): string | undefined {
  const known = lastFound?.injectionAtSurface ?? pressures.operatingInjectionAtSurface;
  const middle = [...read].sort((a, b) => a.value - b.value)[Math.floor(read.length / 2)];
  if (!known || !middle) return undefined;
  // Gauge figures, as they stand in the table.
  const gauge = (of: Quantity<"pressure">) =>
    toSI("pressure", of, writer.atmosphere) - writer.atmosphere;
  const [here, there] = [gauge(middle), gauge(known)];
  if (!(here > 0) || !(there > 0)) return undefined;
  const ratio = Math.abs(Math.log(here / there));
  const isOff = TIMES.some((times) => Math.abs(ratio - Math.log(times)) < NEAR);
  if (!isOff) return undefined;
  return `The ${side} stands at ${middle.value} ${unitLabel(middle.unit)}; on record this well has ${writer.write("pressure", toSI("pressure", known, writer.atmosphere))} there. That is off as bar, kPa and psi are: look at the unit of the column.`;
}

export function surveyDoubts(stops: Survey["stops"], writer: Writer): LogDoubt[] {
  const read = stops.flatMap(({ depthAlongHole, pressure }) =>
    pressure
      ? [
          {
            depth: toSI("length", depthAlongHole),
            pressure: toSI("pressure", pressure, writer.atmosphere),
          },
        ]
      : [],
  );
  const [first, last] = [read[0], read.at(-1)];
  if (!first || !last || last.depth <= first.depth) return [];
  const gradient = (last.pressure - first.pressure) / (last.depth - first.depth);
  if (gradient <= 0) {
    return [{ says: "The pressure does not rise with depth. Are the right columns chosen?" }];
  }
  return gradient > (STEEPEST * PA_PER_PSI) / M_PER_FT
    ? [
        {
          says: "The pressure rises faster with depth than under any liquid in a well. Are depth and pressure exchanged, or their units others?",
        },
      ]
    : [];
}
