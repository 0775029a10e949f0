import type { Simulation, WellTruth } from "./simulation.ts";

/** Mean gradients above and below the lowest pocket, Pa/m, as a survey of the well in order would give them. */
export function steadyGradients(
  simulation: Simulation,
  truth: WellTruth,
): { above: number; below: number } {
  const depth = truth.pockets.at(-1)?.depth ?? truth.perforations / 2;
  const at = simulation.tubing.pressureAt(depth);
  return {
    above: (at - simulation.wellhead) / depth,
    below: (simulation.tubing.bottomPressure - at) / (truth.perforations - depth),
  };
}
