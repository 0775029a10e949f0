import type { Dimension, Quantity } from "../../../src/jobs/quantity.ts";
import type { Evidence, Investigation } from "../../../src/jobs/records/investigation.ts";
import type { Valve } from "../../../src/jobs/records/valve.ts";
import type { Well } from "../../../src/jobs/records/well.ts";

/** A made-up well with round figures, for reasoning by hand: vertical, an orifice below three valves. */

const q = <D extends Dimension>(value: number, unit: Quantity<D>["unit"]): Quantity<D> =>
  ({ value, unit }) as Quantity<D>;
export const psig = (value: number) => q<"pressure">(value, "psig");
export const feet = (value: number) => q<"length">(value, "ft");
export const mscf = (value: number) => q<"gas rate">(value, "Mscf/d");
export const degF = (value: number) => q<"temperature">(value, "degF");
export const minutes = (value: number) => q<"duration">(value, "min");

export function bellowsValve(serial: string, rack: number): Valve {
  return {
    id: serial,
    revision: 1,
    serial,
    kind: "injection-operated",
    size: "1 in",
    bellowsArea: q<"area">(0.31, "in2"),
    port: q<"diameter">(0.1875, "in"),
    seat: "sharp-edged",
    card: { testRackOpening60F: psig(rack), day: "2026-01-10" },
  };
}

export const orifice = (serial: string): Valve => ({
  id: serial,
  revision: 1,
  serial,
  kind: "orifice",
  size: "1 in",
  port: q<"diameter">(0.1875, "in"),
});

export const dummy = (serial: string): Valve => ({
  id: serial,
  revision: 1,
  serial,
  kind: "dummy",
  size: "1 in",
});

export const DEPTHS = [1800, 3000, 4100, 5200] as const;

export function wellWith(valves: readonly Valve[], depths: readonly number[] = DEPTHS): Well {
  return {
    id: "well",
    revision: 1,
    name: "W-1",
    field: "Test",
    depthReference: { name: "ground", aboveWellheadZero: feet(0) },
    injectionDown: "annulus",
    path: { kind: "vertical" },
    tubing: [
      { name: "2-7/8 in", from: feet(0), to: feet(5600), drift: q<"diameter">(2.347, "in") },
    ],
    restrictions: [],
    mandrels: depths.map((depth, i) => ({
      id: `m${i + 1}`,
      number: i + 1,
      depthAlongHole: feet(depth),
      construction: "side pocket" as const,
      pocket: "1 in" as const,
      orientingSleeve: "yes" as const,
      pocketState: "holds a valve" as const,
      valve: valves[i]?.id,
    })),
    temperatures: {
      flowing: [
        { trueVerticalDepth: feet(0), temperature: degF(105) },
        { trueVerticalDepth: feet(5600), temperature: degF(161) },
      ],
    },
    injectionGas: {
      specificGravity: q<"ratio">(0.65, ""),
      co2: q<"fraction">(1, "mol %"),
      h2s: q<"fraction">(0, "mol %"),
      n2: q<"fraction">(1, "mol %"),
    },
    annulus: {
      casingInside: q<"diameter">(6.184, "in"),
      tubingOutside: q<"diameter">(2.875, "in"),
    },
    annulusLiquid: { state: "none" },
    onLift: {
      wellhead: psig(120),
      liftedGradient: q<"pressure gradient">(0.1, "psi/ft"),
      gradientBelow: q<"pressure gradient">(0.36, "psi/ft"),
      injectionRate: mscf(680),
    },
    pressures: {
      fullInjectionAtSurface: psig(1100),
      operatingInjectionAtSurface: psig(890),
    },
    stream: undefined,
  };
}

export const soundValves = [
  bellowsValve("A-1", 1000),
  bellowsValve("A-2", 975),
  bellowsValve("A-3", 945),
  orifice("A-4"),
] as const;

const piece = { at: "2026-11-20T08:00:00.000Z", source: "gauge 12", confidence: "good" } as const;

export const pressures = (injection: number, wellhead: number, id = "pressures"): Evidence => ({
  ...piece,
  id,
  kind: "pressures",
  injectionAtSurface: psig(injection),
  wellhead: psig(wellhead),
});
export const supply = (rate: number, pressure: number): Evidence => ({
  ...piece,
  id: "supply",
  kind: "supply",
  injectionRate: mscf(rate),
  supplyPressure: psig(pressure),
});
export const survey = (
  stops: readonly (readonly [depth: number, pressure: number, temperature: number])[],
): Evidence => ({
  ...piece,
  id: "survey",
  kind: "survey",
  stops: stops.map(([depth, pressure, temperature]) => ({
    depthAlongHole: feet(depth),
    pressure: psig(pressure),
    temperature: degF(temperature),
  })),
});
export const level = (depth: number): Evidence => ({
  ...piece,
  id: "level",
  kind: "fluid level",
  space: "annulus",
  well: "on lift",
  depthAlongHole: feet(depth),
});
export const tracer = (...after: readonly number[]): Evidence => ({
  ...piece,
  id: "tracer",
  kind: "tracer",
  returns: after.map((each) => ({ after: minutes(each) })),
});
export const bleed = (from: number, to: number, took: number): Evidence => ({
  ...piece,
  id: "bleed",
  kind: "casing bleed",
  from: psig(from),
  to: psig(to),
  took: minutes(took),
  end: "at rest",
});

export const investigationOf = (...evidence: readonly Evidence[]): Investigation => ({
  id: "investigation",
  revision: 1,
  well: "well",
  opened: "2026-11-20T08:00:00.000Z",
  openedBy: "an engineer",
  evidence: [...evidence],
});
