import { COMPONENT_NAMES, COMPONENTS, type ComponentName } from "./aga8Constants.ts";
import { type Composition, detailMixture } from "./aga8Detail.ts";
import type { Gas } from "./gas.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { type Method, type Validity, warnOutside } from "./method.ts";
import { AIR_MOLAR_MASS, kelvin } from "./units.ts";

/** How far the fractions of an analysis may sum beside 1. */
const SUM_TOLERANCE = 0.001;
/** What adding decimal fractions in binary may put beside the sum that was meant. */
const ROUNDING = 1e-12;

/** What the standard limits together, and its two ranges as mole fractions. */
interface ComponentRange {
  readonly quantity: string;
  readonly components: readonly ComponentName[];
  readonly normal: readonly [from: number, to: number];
  /** undefined where the standard names the dew point instead of a fraction */
  readonly expanded?: readonly [from: number, to: number];
}

/** Source: AGA Report No. 8, table of normal and expanded ranges, from memory. */
const COMPONENT_RANGES: readonly ComponentRange[] = [
  { quantity: "methane", components: ["methane"], normal: [0.45, 1], expanded: [0, 1] },
  { quantity: "nitrogen", components: ["nitrogen"], normal: [0, 0.5], expanded: [0, 1] },
  {
    quantity: "carbon dioxide",
    components: ["carbon_dioxide"],
    normal: [0, 0.3],
    expanded: [0, 1],
  },
  { quantity: "ethane", components: ["ethane"], normal: [0, 0.1], expanded: [0, 1] },
  { quantity: "propane", components: ["propane"], normal: [0, 0.04], expanded: [0, 0.12] },
  {
    quantity: "butanes",
    components: ["isobutane", "n_butane"],
    normal: [0, 0.01],
    expanded: [0, 0.06],
  },
  {
    quantity: "pentanes",
    components: ["isopentane", "n_pentane"],
    normal: [0, 0.003],
    expanded: [0, 0.04],
  },
  {
    quantity: "hexane and heavier",
    components: ["hexane", "heptane", "octane", "nonane", "decane"],
    normal: [0, 0.002],
  },
  { quantity: "hydrogen", components: ["hydrogen"], normal: [0, 0.1], expanded: [0, 1] },
  { quantity: "oxygen", components: ["oxygen"], normal: [0, 0], expanded: [0, 0.21] },
  {
    quantity: "carbon monoxide",
    components: ["carbon_monoxide"],
    normal: [0, 0.03],
    expanded: [0, 0.03],
  },
  { quantity: "water", components: ["water"], normal: [0, 0.0005] },
  {
    quantity: "hydrogen sulfide",
    components: ["hydrogen_sulfide"],
    normal: [0, 0.0002],
    expanded: [0, 1],
  },
  { quantity: "helium", components: ["helium"], normal: [0, 0.002], expanded: [0, 0.03] },
  { quantity: "argon", components: ["argon"], normal: [0, 0], expanded: [0, 0.01] },
];

function validityOf({ quantity, normal, expanded }: ComponentRange): Validity {
  const [from, to] = expanded ?? normal;
  const basis = expanded
    ? `expanded range; the normal one is ${normal[0]} to ${normal[1]}`
    : "normal range; beyond it the standard goes to the dew point, which is not worked out here";
  return {
    quantity,
    measure: "mole fraction",
    from,
    to,
    basis: `${basis} (AGA 8, from memory)`,
  };
}

export const gasByAnalysisMethod: Method = {
  name: "Gas by analysis: AGA 8 DETAIL equation",
  formula:
    "z = 1 + D ∂αʳ/∂D, αʳ = Bρ − D Σ₁₃₋₁₈ Cn + Σ₁₃₋₅₈ Cn D^bn exp(−cn D^kn), D = K³ρ; B, K and Cn mixed from 21 components and their pairs",
  source: "AGA Report No. 8 Part 1 (2017), DETAIL equation; ISO 20765-1",
  validity: [
    {
      quantity: "temperature",
      measure: "temperature",
      from: kelvin(225),
      to: kelvin(450),
      basis:
        "within 0.1 percent from 263 to 338 K (ISO 12213-1); 225 K is the low end of the wider range of ISO 12213-2, and AGA 8 goes to 477 K within 0.5 percent, both from memory; 450 K is the end of what is solved",
    },
    {
      quantity: "pressure",
      measure: "absolute pressure",
      from: 0,
      to: 65e6,
      basis:
        "within 0.1 percent to 12 MPa (ISO 12213-1); 65 MPa ends the wider range of ISO 12213-2, from memory",
    },
    ...COMPONENT_RANGES.map(validityOf),
  ],
};

/** A gas known by its analysis. */
export interface GasByAnalysis extends Gas {
  /** mole fractions, normalised to a sum of 1 */
  readonly composition: Composition;
  /** ideal: molar mass / 28.9625 g/mol, air = 1, dimensionless */
  readonly specificGravity: number;
}

/**
 * A gas known by its analysis.
 *
 *   γ = M / Mair,  M = Σ xi Mi
 *
 * @param fractions mole fractions by component name (the 21 of AGA 8: methane, nitrogen, ..., argon), each 0 to 1, that
 *                  sum to 1 within 0.001; they are then normalised. A component that is left out is absent.
 * @returns the gas; its z throws InputError below 200 K, above 450 K, above 80 MPa, and where the gas would condense
 *          for certain (its dew point, which comes earlier, is not looked for)
 * @throws InputError naming the component that is unknown or the fraction that is impossible
 * @example gasByAnalysis({ methane: 0.87, ethane: 0.09, propane: 0.04 }).specificGravity  // 0.63626
 * Source: see gasByAnalysisMethod.
 */
export function gasByAnalysis(fractions: Readonly<Record<string, number>>): GasByAnalysis {
  const composition = normalised(fractions);
  const { molarMass, state } = detailMixture(composition);
  const amounts = Object.fromEntries(
    COMPONENT_RANGES.map(({ quantity, components }) => [
      quantity,
      components.reduce((sum, name) => sum + (composition[name] ?? 0), 0),
    ]),
  );
  return {
    method: gasByAnalysisMethod,
    composition,
    molarMass,
    specificGravity: molarMass / AIR_MOLAR_MASS,
    z: ({ pressure, temperature }) => state(pressure, temperature).z,
    warningsAt: ({ pressure, temperature }) =>
      warnOutside(gasByAnalysisMethod, { temperature, pressure, ...amounts }),
  };
}

function normalised(fractions: Readonly<Record<string, number>>): Composition {
  const given = Object.entries(fractions);
  for (const [name, fraction] of given) {
    const key = `composition.${name}`;
    if (!Object.hasOwn(COMPONENTS, name)) {
      throw new InputError(key, fraction, `one of ${COMPONENT_NAMES.join(", ")}`);
    }
    requireNumber(key, fraction, "a mole fraction between 0 and 1", (x) => x >= 0 && x <= 1);
  }
  const sum = given.reduce((total, [, fraction]) => total + fraction, 0);
  if (Math.abs(sum - 1) > SUM_TOLERANCE + ROUNDING) {
    throw new InputError(
      "composition",
      fractions,
      `mole fractions that sum to 1 within ${SUM_TOLERANCE} (here ${sum.toFixed(4)})`,
    );
  }
  return Object.fromEntries(given.map(([name, fraction]) => [name, fraction / sum]));
}
