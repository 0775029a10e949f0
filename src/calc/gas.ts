import type { GasState, Method, Warning } from "./method.ts";

/**
 * A gas mixture as the column, the valves and the passage need it: who made the model does not
 * matter to them.
 */
export interface Gas {
  readonly method: Method;
  /** kg/mol */
  readonly molarMass: number;
  /**
   * Compressibility factor p/(ρ R T), dimensionless.
   * @throws InputError where the model has no answer
   */
  z(state: GasState): number;
  /** What lies outside the model's validity at this state; empty when inside. */
  warningsAt(state: GasState): readonly Warning[];
}
