import type { Fault } from "../../src/jobs/diagnosis/ranking.ts";
import { type Dimension, type Quantity, toSI } from "../../src/jobs/quantity.ts";
import type { Case } from "./forward/cases.ts";
import { PSI } from "./forward/units.ts";

/**
 * What somebody would say who looks at the gauges and the plan and works nothing out: the yardstick that a ranking has to
 * beat. Rules as they are taught, common practice; limits in round numbers.
 */
export function ruleOfThumb({ well, investigation }: Case): Fault {
  const si = <D extends Dimension>(dimension: D, given: Quantity<D> | undefined) =>
    given && toSI(dimension, given);
  const last = well.mandrels.length;
  const of = <K extends (typeof investigation.evidence)[number]["kind"]>(kind: K) =>
    investigation.evidence.find((one): one is typeof one & { kind: K } => one.kind === kind);
  const gauges = of("pressures");
  const [point] = of("trend")?.points.slice(-1) ?? [];
  const casing = si("pressure", gauges?.injectionAtSurface ?? point?.casing);
  const wellhead = si("pressure", gauges?.wellhead ?? point?.tubing);
  const supply = of("supply");
  const rate = si("gas rate", supply?.injectionRate ?? point?.injectionRate);
  const { onLift, pressures } = well;
  const normal = si("pressure", pressures.operatingInjectionAtSurface);
  const back = si("pressure", onLift?.wellhead);
  const planned = si("gas rate", onLift?.injectionRate);
  const full = si("pressure", pressures.fullInjectionAtSurface);
  const over = casing !== undefined && normal !== undefined ? casing - normal : 0;

  if (wellhead !== undefined && back !== undefined && wellhead > back + 50 * PSI) {
    return { kind: "back-pressure at surface" };
  }
  const supplied = si("pressure", supply?.supplyPressure);
  if (supply?.found === "supply fell" || (supplied && full && supplied < full - 60 * PSI)) {
    return { kind: "supply", what: "supply pressure fell" };
  }
  if (rate !== undefined && planned !== undefined) {
    if (rate > 1.3 * planned && over > 0) return { kind: "supply", what: "choke larger" };
    if (rate < 0.75 * planned && over < 25 * PSI) return { kind: "supply", what: "choke smaller" };
  }
  const level = si("length", of("fluid level")?.depthAlongHole);
  const depths = well.mandrels.map(({ depthAlongHole }) => toSI("length", depthAlongHole));
  if (level !== undefined && level < (depths.at(-1) as number) - 100) {
    const above = Math.max(1, depths.filter((depth) => depth < level + 30).length);
    return { kind: "multi-point", mandrels: [above, Math.min(last, above + 1)] };
  }
  if (over < -25 * PSI) return { kind: "stuck open", mandrel: lightestAbove(well, of("survey")) };
  if (over > 25 * PSI) return { kind: "plugged", mandrel: last };
  return { kind: "nothing downhole" };
}

/** The mandrel where a survey's gradient changes most; without one the one above the lowest. */
function lightestAbove(
  well: Case["well"],
  survey: Extract<Case["investigation"]["evidence"][number], { kind: "survey" }> | undefined,
): number {
  const stops = (survey?.stops ?? []).flatMap(({ depthAlongHole, pressure }) =>
    pressure
      ? [{ depth: toSI("length", depthAlongHole), pressure: toSI("pressure", pressure) }]
      : [],
  );
  let most = 0;
  let answer = Math.max(1, well.mandrels.length - 1);
  for (const { number, depthAlongHole } of well.mandrels.slice(0, -1)) {
    const depth = toSI("length", depthAlongHole);
    const above = stops.filter((stop) => stop.depth < depth).slice(-2);
    const below = stops.filter((stop) => stop.depth > depth).slice(0, 2);
    const gradient = (two: typeof stops) =>
      two[0] && two[1] ? (two[1].pressure - two[0].pressure) / (two[1].depth - two[0].depth) : 0;
    const change = gradient(below) - gradient(above);
    if (above.length === 2 && below.length === 2 && change > most) {
      most = change;
      answer = number;
    }
  }
  return answer;
}
