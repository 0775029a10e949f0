import { requireNumber } from "./inputError.ts";
import type { LiftedStream } from "./liftedStream.ts";
import {
  type GasEntry,
  type LiftTraverse,
  liftTraverseMethod,
  type Slope,
  traversed,
} from "./liftTraverse.ts";
import type { Method } from "./method.ts";
import { type Gradients, gradientsOf, type LiftedWell } from "./streamGradients.ts";
import { type AbsolutePa, M_PER_FT } from "./units.ts";

export const traverseTableMethod: Method = {
  ...liftTraverseMethod,
  name: "Pressure of a lifted stream, its properties from a table",
  formula: `densities, volumes, viscosities and surface tension straight between tabulated ones over lift gas, logarithm of pressure, and depth; ${liftTraverseMethod.formula}`,
};

/** What a table spans: beyond it everything is worked out in full. */
export interface TableSpan {
  readonly lowestPressure: AbsolutePa;
  readonly highestPressure: AbsolutePa;
  /** lift gas, all entries together, m3/s standard, above 0 */
  readonly mostLiftGas: number;
}

export interface TraverseTable {
  /** as liftTraverse, over the table */
  traverse(entries: readonly GasEntry[], wellhead: AbsolutePa): LiftTraverse;
}

const GAS_NODES = 12;
const PRESSURE_NODES = 32;
const DEPTH_STEP = 1000 * M_PER_FT;

/**
 * The properties of one stream in one well, tabulated, for thousands of traverses that differ in where and how much gas goes in
 * and in the wellhead's pressure.
 *
 * Densities, volumes, viscosities and surface tension are smooth and are nine tenths of the work; the gradient itself is worked
 * out from them, since between two patterns of flow it has steps that no table holds. 12 amounts of gas by 32 pressures by a
 * depth every 1,000 ft; a node is filled when a traverse first comes near it.
 *
 * @param stream, well as liftTraverse; corners of the temperatures between its depths are cut straight
 * @param span what the traverses will need
 * @returns traverses within 0.8 percent of the full ones (tested)
 * @throws InputError as liftTraverse, or for a span that spans nothing
 * Source: see traverseTableMethod.
 */
export function traverseTable(
  stream: LiftedStream,
  well: LiftedWell,
  span: TableSpan,
): TraverseTable {
  const gradients = gradientsOf(stream, well);
  const slope = tabulated(gradients, well, span);
  return {
    traverse: (entries, wellhead) =>
      traversed(traverseTableMethod, slope, gradients, well, entries, wellhead),
  };
}

/** What of a stream a table holds: with the pressure taken out where it makes it straight. */
const FIELDS = 7;

/** The stream by interpolation; every node is worked out when a traverse first needs it. */
function tabulated(gradients: Gradients, well: LiftedWell, span: TableSpan): Slope {
  const { lowestPressure, highestPressure, mostLiftGas } = span;
  requireNumber("lowest_pressure", lowestPressure, "above 0 absolute", (p) => p > 0);
  requireNumber(
    "highest_pressure",
    highestPressure,
    "above the lowest pressure",
    (p) => p > lowestPressure,
  );
  requireNumber("most_lift_gas", mostLiftGas, "above 0", (q) => q > 0);
  const depthNodes = Math.max(2, Math.ceil(well.bottom / DEPTH_STEP) + 1);
  const depthStep = well.bottom / (depthNodes - 1);
  const lowest = Math.log(lowestPressure);
  const pressureStep = (Math.log(highestPressure) - lowest) / (PRESSURE_NODES - 1);
  // Squared, so that the nodes stand closer where little gas flows and each bit of it changes the mixture most.
  const liftAt = (node: number) => mostLiftGas * (node / (GAS_NODES - 1)) ** 2;
  const known = new Float64Array(GAS_NODES * PRESSURE_NODES * depthNodes * FIELDS).fill(Number.NaN);
  const placeOf = (g: number, p: number, d: number): number => {
    const place = ((g * PRESSURE_NODES + p) * depthNodes + d) * FIELDS;
    if (!Number.isNaN(known[place])) return place;
    const pressure = Math.exp(lowest + p * pressureStep);
    const made = gradients.section(liftAt(g)).at(gradients.stateAt(pressure, d * depthStep));
    known.set(
      [
        made.liquidVelocity,
        made.gasVelocity * pressure,
        made.liquidDensity,
        made.gasDensity / pressure,
        made.liquidViscosity,
        made.gasViscosity,
        made.surfaceTension,
      ],
      place,
    );
    return place;
  };
  return (lift, pressure, depth) => {
    const x = Math.sqrt(lift / mostLiftGas) * (GAS_NODES - 1);
    const y = (Math.log(pressure) - lowest) / pressureStep;
    if (!(x <= GAS_NODES - 1 && y >= 0 && y <= PRESSURE_NODES - 1)) {
      return gradients.slope(gradients.section(lift), pressure, depth);
    }
    const z = depth / depthStep;
    const g = Math.min(Math.floor(x), GAS_NODES - 2);
    const p = Math.min(Math.floor(y), PRESSURE_NODES - 2);
    const d = Math.min(Math.floor(z), depthNodes - 2);
    const dx = (lift - liftAt(g)) / (liftAt(g + 1) - liftAt(g));
    const dy = y - p;
    const dz = z - d;
    const field = [0, 0, 0, 0, 0, 0, 0] as [number, number, number, number, number, number, number];
    for (let corner = 0; corner < 8; corner += 1) {
      const [right, lower, deeper] = [corner & 1, (corner >> 1) & 1, (corner >> 2) & 1];
      const weight = (right ? dx : 1 - dx) * (lower ? dy : 1 - dy) * (deeper ? dz : 1 - dz);
      if (weight === 0) continue;
      const place = placeOf(g + right, p + lower, d + deeper);
      for (let i = 0; i < FIELDS; i += 1) {
        field[i] = (field[i] as number) + weight * (known[place + i] as number);
      }
    }
    return gradients.slopeOf(
      {
        liquidVelocity: field[0],
        gasVelocity: field[1] / pressure,
        liquidDensity: field[2],
        gasDensity: field[3] * pressure,
        liquidViscosity: field[4],
        gasViscosity: field[5],
        surfaceTension: field[6],
      },
      pressure,
      depth,
    );
  };
}
