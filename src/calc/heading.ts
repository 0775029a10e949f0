import type { Opening } from "./gasPassage.ts";
import { InputError, requireNumber } from "./inputError.ts";
import type { Method, Warning } from "./method.ts";
import { type AbsolutePa, GRAVITY } from "./units.ts";

export const headingMethod: Method = {
  name: "Steadiness of a well on gas lift through an orifice, Asheim (1988)",
  formula:
    "F1 = w² J / (ρg qL (E A)²), steady above 1; below 1 F2 = (Vt/Vc) p (qf + qg) / [g D (ρf − ρg) qf (1 − F1)], steady above 1",
  source:
    "Asheim, J. Pet. Tech. (November 1988) 1452, Criteria for Gas-Lift Stability; both criteria from memory: the paper could be read only to its introduction; derived again in the tests and held there against the stability of a published dynamic model (Jahanshahi, Skogestad and Hansen, 2012), whose wells are steady from F2 of 0.6 to 0.7 on",
  validity: [],
};

/** A well at the place where its gas enters. */
export interface HeadingWell {
  /** w, of the lift gas, kg/s */
  readonly gasMassRate: number;
  /** ρg, of the gas where it enters, kg/m3 */
  readonly gasDensity: number;
  /** qL, at surface, m3/s */
  readonly liquidRate: number;
  /** J, at surface, (m3/s)/Pa */
  readonly productivityIndex: number;
  /** A and E; E is the discharge coefficient */
  readonly orifice: Opening;
  /** qf, all that comes from below, in place at the entry, m3/s; with its free gas */
  readonly inflow: number;
  /** ρf, of it, in place, kg/m3 */
  readonly inflowDensity: number;
  /** p, tubing at the entry, absolute, Pa */
  readonly tubingPressure: AbsolutePa;
  /** D, true vertical, wellhead to entry, m */
  readonly depth: number;
  /** Vt, of the tubing above the entry, m3 */
  readonly tubingVolume: number;
  /** Vc, that holds the lift gas, surface to entry, m3; with the line up to what holds its rate */
  readonly casingVolume: number;
}

export interface Heading {
  readonly method: Method;
  /** F1: how much more the inflow answers to the tubing's pressure than the gas does */
  readonly inflowResponse: number;
  /** F2: how much faster the casing loses pressure than the tubing; undefined where F1 decides alone */
  readonly depletionResponse: number | undefined;
  readonly isSteady: boolean;
  readonly warnings: readonly Warning[];
}

/**
 * Whether a well on gas lift through an orifice or an open valve runs steadily or heads.
 *
 * When the tubing's pressure falls by chance, more liquid comes in and more gas. If the liquid gains the larger share, the
 * column grows heavier and the pressure comes back: F1 above 1. If not, more gas lightens the column further, until the casing
 * has lost its pressure: that ends it in time where the casing loses pressure faster than the tubing, F2 above 1.
 *
 * @param well see HeadingWell
 * @returns both criteria
 * @throws InputError for a quantity that is not positive, or gas that is not lighter than the inflow
 * Holds for an orifice below its critical rate and a gas rate that is held at surface. At and above the critical rate the gas
 * does not answer to the tubing at all; a valve that closes as its tubing's pressure falls is steadier than an orifice.
 * @example heading({ w 0.4 kg/s, ρg 60, qL 0.0011, J 2e-9, 1/4 in with E 0.9, … }).inflowResponse  // 5.97
 * Source: see headingMethod.
 */
export function heading(well: HeadingWell): Heading {
  const positive: readonly [string, number][] = [
    ["gas_mass_rate", well.gasMassRate],
    ["gas_density", well.gasDensity],
    ["liquid_rate", well.liquidRate],
    ["productivity_index", well.productivityIndex],
    ["orifice_area", well.orifice.area],
    ["inflow", well.inflow],
    ["inflow_density", well.inflowDensity],
    ["tubing_pressure", well.tubingPressure],
    ["depth", well.depth],
    ["tubing_volume", well.tubingVolume],
    ["casing_volume", well.casingVolume],
  ];
  for (const [key, value] of positive) requireNumber(key, value, "above 0", (x) => x > 0);
  requireNumber(
    "discharge_coefficient",
    well.orifice.dischargeCoefficient,
    "above 0 and at most 1",
    (c) => c > 0 && c <= 1,
  );
  if (well.gasDensity >= well.inflowDensity) {
    throw new InputError(
      "gas_density",
      well.gasDensity,
      `less than that of the inflow (${well.inflowDensity}): gas that is not lighter lifts nothing`,
    );
  }
  const inflowResponse =
    (well.gasMassRate ** 2 * well.productivityIndex) /
    (well.gasDensity *
      well.liquidRate *
      (well.orifice.area * well.orifice.dischargeCoefficient) ** 2);
  const warnings: Warning[] = [
    {
      kind: "note",
      text: "steadiness by Asheim's criteria for an orifice below its critical rate; at its critical rate the gas does not answer to the tubing, and a criterion below 1 says nothing",
    },
  ];
  if (inflowResponse >= 1) {
    return {
      method: headingMethod,
      inflowResponse,
      depletionResponse: undefined,
      isSteady: inflowResponse > 1,
      warnings,
    };
  }
  const gas = well.gasMassRate / well.gasDensity;
  const depletionResponse =
    ((well.tubingVolume / well.casingVolume) * well.tubingPressure * (well.inflow + gas)) /
    (GRAVITY *
      well.depth *
      (well.inflowDensity - well.gasDensity) *
      well.inflow *
      (1 - inflowResponse));
  return {
    method: headingMethod,
    inflowResponse,
    depletionResponse,
    isSteady: depletionResponse > 1,
    warnings,
  };
}
