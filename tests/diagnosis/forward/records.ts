import type { Valve } from "../../../src/jobs/records/valve.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import type { Chance } from "./chance.ts";
import type { DrawnWell } from "./design.ts";
import { steadyGradients } from "./gradients.ts";
import type { Simulation } from "./simulation.ts";
import type { Seen } from "./truth.ts";
import { FT, INCH, PSI, STANDARD_AIR } from "./units.ts";
import type { Write } from "./written.ts";

const DAY_OF_LAST_LOOK = "2026-01-15";

/** What an office has of a well and its valves: true in the main, rounded, in places old, and now and then wrong. */
export function records(
  drawn: DrawnWell,
  healthy: Simulation,
  now: Seen,
  chance: Chance,
  write: Write,
): { well: Well; valves: Valve[]; wrongRecord: string | undefined } {
  const { truth, design } = drawn;
  const wrong = chance.yes(0.08)
    ? chance.pick(["port", "test rack", "mandrel depth"] as const)
    : undefined;
  const wrongAt = chance.whole(0, Math.max(0, design.pockets.length - 2));
  const gradients = steadyGradients(healthy, truth);
  const flowing = chance.yes(0.7);
  const stream = !flowing || chance.yes(0.85);
  const standard = (mass: number) => mass / (STANDARD_AIR * truth.gravity);
  const tempStops = [0, 0.2, 0.4, 0.6, 0.8, 1].map((share) => share * truth.perforations);
  const length = truth.perforations + 60;

  const valves: Valve[] = design.pockets.map(({ valve }, i) => {
    const at = i === wrongAt ? wrong : undefined;
    const port = (valve.port + (at === "port" ? 0.0625 : 0)) * INCH;
    const seat =
      at === "port" && valve.kind !== "orifice"
        ? { seatArea: write("area", (Math.PI / 4) * (port + 0.005 * INCH) ** 2) }
        : valve.ratio > 0
          ? { seatArea: write("area", valve.ratio * valve.bellows * INCH ** 2) }
          : {};
    return {
      id: `v${i + 1}`,
      revision: 1,
      serial: `V-${i + 1}`,
      kind: valve.kind,
      size: valve.size,
      port: write("diameter", port),
      ...(chance.yes(0.6) ? { dischargeCoefficient: { value: 0.84, unit: "" } } : {}),
      ...(valve.testRack === undefined
        ? {}
        : {
            bellowsArea: write("area", valve.bellows * INCH ** 2),
            ...seat,
            ...(chance.yes(0.5)
              ? { loadRate: write("load rate", (valve.loadRate * PSI) / INCH) }
              : {}),
            card: {
              testRackOpening60F: write(
                "pressure",
                valve.testRack + (at === "test rack" ? chance.pick([-60, 60]) * PSI : 0),
              ),
              day: "2025-05-02",
            },
          }),
    };
  });

  const well: Well = {
    id: "well",
    revision: 1,
    name: "Forward 1",
    field: "Forward",
    depthReference: { name: "wellhead", aboveWellheadZero: write("length", 0) },
    injectionDown: "annulus",
    path: { kind: "vertical" },
    tubing: [
      {
        name: "tubing",
        from: write("length", 0),
        to: write("length", length),
        drift: write("diameter", truth.tubingInside - 0.094 * INCH),
      },
    ],
    restrictions: [],
    mandrels: design.pockets.map(({ depth, valve }, i) => ({
      id: `m${i + 1}`,
      number: i + 1,
      depthAlongHole: write(
        "length",
        depth + (wrong === "mandrel depth" && i === wrongAt ? chance.pick([-62, 62]) * FT : 0),
      ),
      construction: "side pocket",
      pocket: valve.size,
      orientingSleeve: "yes",
      valve: `v${i + 1}`,
      pocketState: "holds a valve",
    })),
    temperatures: {
      shutIn: [0, 1].map((share) => ({
        trueVerticalDepth: write("length", share * truth.perforations),
        temperature: write(
          "temperature",
          healthy.rockAt(share * truth.perforations) + chance.normal(0, 1.7),
        ),
      })),
      ...(flowing
        ? {
            flowing: tempStops.map((depth) => ({
              trueVerticalDepth: write("length", depth),
              temperature: write("temperature", healthy.streamAt(depth) + chance.normal(0, 1.7)),
            })),
          }
        : {}),
    },
    ...(stream
      ? {
          stream: {
            liquidRate: write("liquid rate", now.liquidOut * chance.normal(1, 0.07)),
            liquidDensity: write("density", truth.liquidDensity * chance.normal(1, 0.01)),
            oilApiGravity: { value: Number(truth.api.toFixed(1)), unit: "" },
            gasRate: write("gas rate", standard(now.gasOut) * chance.normal(1, 0.07)),
            gasGravity: { value: Number(truth.gravity.toFixed(2)), unit: "" },
            tubingInside: write("diameter", truth.tubingInside),
            entersAlongHole: write("length", truth.perforations),
          },
        }
      : {}),
    injectionGas: {
      specificGravity: {
        value: Number((truth.gravity + chance.normal(0, 0.012)).toFixed(2)),
        unit: "",
      },
      co2: write("fraction", 0),
      h2s: write("fraction", 0),
      n2: write("fraction", 0),
    },
    ...(chance.yes(0.85)
      ? {
          annulus: {
            casingInside: write("diameter", truth.casingInside),
            tubingOutside: write("diameter", truth.tubingOutside),
          },
        }
      : {}),
    annulusLiquid: { state: "not known" },
    pressures: {
      fullInjectionAtSurface: write("pressure", truth.supply.pressure + chance.normal(0, 10 * PSI)),
      operatingInjectionAtSurface: write(
        "pressure",
        chance.yes(0.7) ? now.casing : design.operating,
      ),
    },
    onLift: {
      wellhead: write("pressure", now.wellhead + chance.normal(0, 5 * PSI)),
      liftedGradient: write("pressure gradient", gradients.above * chance.normal(1, 0.06)),
      gradientBelow: write("pressure gradient", gradients.below * chance.normal(1, 0.04)),
      loadGradient: write("pressure gradient", (truth.liquidDensity + 20) * 9.80665),
      injectionRate: write("gas rate", standard(now.gasIn) * chance.normal(1, 0.04)),
    },
    ...(chance.yes(0.55)
      ? {
          lastFound: {
            day: DAY_OF_LAST_LOOK,
            injectionAtSurface: write("pressure", now.casing + chance.normal(0, 6 * PSI)),
            wellhead: write("pressure", now.wellhead + chance.normal(0, 4 * PSI)),
            injectionRate: write("gas rate", standard(now.gasIn) * chance.normal(1, 0.05)),
          },
        }
      : {}),
  };
  return {
    well,
    valves,
    wrongRecord: wrong && `${wrong} of mandrel ${wrongAt + 1}`,
  };
}
