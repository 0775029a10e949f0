import type { Evidence } from "../../../src/jobs/records/investigation.ts";
import type { Chance } from "./chance.ts";
import type { Moment, Simulation } from "./simulation.ts";
import type { DrawnFault, Seen } from "./truth.ts";
import { FT, HOUR, PSI, STANDARD_AIR } from "./units.ts";
import type { Write } from "./written.ts";

type Kind = Evidence["kind"];

/** How much somebody took the trouble to find out. */
export type Amount = "little" | "some" | "much";

const BEGAN = Date.parse("2026-03-10T06:00:00.000Z");
const instant = (hours: number) => new Date(BEGAN + hours * HOUR * 1000).toISOString();

const dear: readonly (readonly [Kind, number])[] = [
  ["separator test", 7],
  ["trend", 6],
  ["casing bleed", 5],
  ["fluid level", 4],
  ["survey", 5],
  ["tracer", 3],
];

/** Which kinds were looked at. */
export function drawKinds(amount: Amount, chance: Chance): Kind[] {
  if (amount === "little") {
    return chance.pick<Kind[]>([["pressures"], ["pressures", "supply"], ["trend"]]);
  }
  const kinds: Kind[] = ["pressures", ...(chance.yes(0.8) ? (["supply"] as const) : [])];
  const left = [...dear];
  const more = amount === "some" ? 2 : chance.whole(4, 6);
  for (let i = 0; i < more && left.length > 0; i += 1) {
    const kind = chance.weighed(left);
    kinds.push(kind);
    left.splice(
      left.findIndex(([one]) => one === kind),
      1,
    );
  }
  return kinds;
}

/**
 * What gauges, meters and tools say of a well in some state, each with its own error.
 *
 * Spread of a good reading: pressures 0.5 % of a 1,000 psi dial; gas rate 4 %, liquid 5 %; survey 4 psi and 1 degF; fluid
 * level 1.5 % of depth (the speed of sound is guessed); tracer 6 % (mixing on the way). Fair 1.6, doubtful 2.5 times as far.
 */
export function measure(
  kinds: readonly Kind[],
  simulation: Simulation,
  moments: readonly Moment[],
  now: Seen,
  fault: DrawnFault["fault"],
  chance: Chance,
  write: Write,
): { evidence: Evidence[]; wrongReading: boolean } {
  const { truth } = simulation;
  const standard = (mass: number) => mass / (STANDARD_AIR * truth.gravity);
  const evidence: Evidence[] = [];
  // A gauge that sticks, or a figure read off the wrong line.
  const wrongReading = chance.yes(0.04);
  // A bleed shuts the supply in: what is read of the well on lift is read before it.
  const order = [...kinds].sort(
    (a, b) => Number(a === "casing bleed") - Number(b === "casing bleed"),
  );
  for (const [index, kind] of order.entries()) {
    const confidence = chance.weighed([
      ["good", 6],
      ["fair", 3],
      ["doubtful", 1],
    ] as const);
    const wide = { good: 1, fair: 1.6, doubtful: 2.5 }[confidence];
    const off = (spread: number) => chance.normal(0, spread * wide);
    const base = {
      id: `e${index + 1}`,
      at: instant(2 * index),
      source: "gauge",
      confidence,
    };
    const one = moments.at(-1 - chance.whole(0, Math.min(20, moments.length - 1))) as Moment;
    switch (kind) {
      case "pressures":
        evidence.push({
          ...base,
          kind,
          injectionAtSurface: write(
            "pressure",
            (one.casing + off(5 * PSI)) * (wrongReading ? 1 + chance.pick([-0.07, 0.07]) : 1),
          ),
          wellhead: write("pressure", one.wellhead + off(4 * PSI)),
        });
        break;
      case "supply": {
        const { supply } = truth;
        const found =
          fault.kind === "supply" && chance.yes(0.35)
            ? fault.what === "supply pressure fell"
              ? ("supply fell" as const)
              : ("choke changed" as const)
            : chance.yes(0.5)
              ? ("not looked at" as const)
              : fault.kind === "supply"
                ? undefined
                : ("in order" as const);
        evidence.push({
          ...base,
          kind,
          injectionRate: write("gas rate", Math.max(0, standard(now.gasIn) * (1 + off(0.04)))),
          ...(chance.yes(0.7)
            ? { supplyPressure: write("pressure", supply.pressure + off(8 * PSI)) }
            : {}),
          ...(supply.kind === "choke" && chance.yes(0.7)
            ? { choke: write("diameter", supply.diameter) }
            : {}),
          ...(found ? { found } : {}),
        });
        break;
      }
      case "separator test":
        evidence.push({
          ...base,
          kind,
          liquidRate: write("liquid rate", Math.max(0, now.liquidOut * (1 + off(0.05)))),
          waterCut: write("fraction", truth.waterCut),
          gasRate: write("gas rate", Math.max(0, standard(now.gasOut) * (1 + off(0.05)))),
          ...(chance.yes(0.6)
            ? { separatorPressure: write("pressure", truth.separator + off(3 * PSI)) }
            : {}),
        });
        break;
      case "trend": {
        const drift = off(4 * PSI);
        const rates = chance.yes(0.5);
        evidence.push({
          ...base,
          kind,
          points: moments.map((moment, i) => ({
            at: new Date(BEGAN + (i - moments.length) * 300_000).toISOString(),
            casing: write("pressure", moment.casing + drift + chance.normal(0, 2 * PSI)),
            tubing: write("pressure", moment.wellhead + drift / 2 + chance.normal(0, 2 * PSI)),
            ...(rates
              ? {
                  injectionRate: write(
                    "gas rate",
                    Math.max(0, standard(moment.gasIn) * chance.normal(1, 0.03)),
                  ),
                }
              : {}),
          })),
        });
        break;
      }
      case "fluid level":
        evidence.push({
          ...base,
          kind,
          space: "annulus",
          well: "on lift",
          depthAlongHole: write("length", now.level * (1 + off(0.015))),
        });
        break;
      case "survey": {
        const temperatures = chance.yes(0.8);
        const stops = new Set([0, 500 * FT, truth.perforations * 0.97]);
        for (const { depth } of truth.pockets) {
          stops.add(depth - 60 * FT);
          stops.add(depth + 60 * FT);
        }
        evidence.push({
          ...base,
          kind,
          stops: [...stops]
            .sort((a, b) => a - b)
            .map((depth) => ({
              depthAlongHole: write("length", depth),
              pressure: write(
                "pressure",
                (depth < 1 ? now.wellhead : simulation.tubing.pressureAt(depth)) + off(4 * PSI),
              ),
              ...(temperatures
                ? { temperature: write("temperature", simulation.streamAt(depth) + off(0.6)) }
                : {}),
            })),
        });
        break;
      }
      case "tracer": {
        const depths = [...truth.pockets.map(({ depth }) => depth), truth.leak?.depth ?? 0];
        const returns = now.shares.flatMap((share, i) => {
          // A peak of less than a twentieth is not seen.
          if (share < 0.05) return [];
          const depth = depths[i] as number;
          const down = simulation.casing.travelTime(depth, (at) =>
            now.shares.reduce(
              (rate, part, k) => ((depths[k] as number) < at ? rate - part * now.gasIn : rate),
              now.gasIn,
            ),
          );
          const up = simulation.tubing.gasUpFrom(depth);
          return [{ after: (down + up) * (1 + off(0.06)), share: share * (1 + off(0.15)) }];
        });
        if (returns.length === 0) break;
        const all = returns.reduce((sum, { share }) => sum + share, 0);
        evidence.push({
          ...base,
          kind,
          injectionAtSurface: write("pressure", one.casing + off(5 * PSI)),
          wellhead: write("pressure", one.wellhead + off(4 * PSI)),
          injectionRate: write("gas rate", Math.max(0, standard(now.gasIn) * (1 + off(0.04)))),
          returns: returns
            .sort((a, b) => a.after - b.after)
            .map(({ after, share }) => ({
              after: write("duration", after),
              share: write("fraction", share / all),
            })),
        });
        break;
      }
      case "casing bleed": {
        const hours = chance.between(1, 6);
        const from = simulation.casing.pressure;
        simulation.supplyOpen = false;
        const fall = simulation.run(hours * HOUR, 300);
        const end = fall.at(-1) as Moment;
        const before = fall.at(-4) ?? end;
        simulation.supplyOpen = true;
        evidence.push({
          ...base,
          kind,
          from: write("pressure", from + off(5 * PSI)),
          to: write("pressure", end.casing + off(5 * PSI)),
          took: write("duration", hours * HOUR),
          end: before.casing - end.casing < 2 * PSI ? "at rest" : "still falling",
          ...(chance.yes(0.7) ? { wellhead: write("pressure", end.wellhead + off(4 * PSI)) } : {}),
        });
        break;
      }
    }
  }
  return { evidence, wrongReading };
}
