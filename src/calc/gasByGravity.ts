import { dranchukAbouKassem, dranchukAbouKassemMethod } from "./dranchukAbouKassem.ts";
import type { Gas } from "./gas.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { type Method, warnOutside } from "./method.ts";
import {
  type AbsolutePa,
  AIR_MOLAR_MASS,
  absolutePa,
  fromPsia,
  type Kelvin,
  kelvin,
} from "./units.ts";

/** What a gas of unknown analysis is described by. */
export interface GravityAndImpurities {
  /** of the whole gas, air = 1, dimensionless */
  readonly specificGravity: number;
  /** mole fractions, 0 to 1 */
  readonly co2: number;
  readonly h2s: number;
  readonly n2: number;
}

/**
 * Critical constants and molar masses of the impurities.
 * Sources: carbon dioxide, Span and Wagner (1996); hydrogen sulfide, Lemmon and Span (2006);
 * nitrogen, Span et al. (2000); molar masses, AGA Report No. 8.
 */
const IMPURITIES = [
  { name: "co2", molarMass: 0.0440095, temperature: 304.1282, pressure: 7.3773e6 },
  { name: "h2s", molarMass: 0.03408088, temperature: 373.1, pressure: 9.0e6 },
  { name: "n2", molarMass: 0.0280134, temperature: 126.192, pressure: 3.3958e6 },
] as const;

export const gasByGravityMethod: Method = {
  name: "Gas by gravity: Sutton (2005) associated-gas pseudocriticals, Wichert-Aziz, Dranchuk-Abou-Kassem",
  formula:
    "Tpc = 120.1 + 429 γ − 62.9 γ², ppc = 671.1 + 14 γ − 34.3 γ² (degR, psia; γ of the hydrocarbon part), mole-weighted with CO2, H2S and N2; ε = 120 (A^0.9 − A^1.6) + 15 (B^0.5 − B⁴), Tpc′ = Tpc − ε, ppc′ = ppc Tpc′ / (Tpc + B (1 − B) ε), A = yCO2 + yH2S, B = yH2S",
  source: `Sutton, SPE 97099 (2005); Wichert and Aziz, Hydrocarbon Processing 51 (May 1972) 119; ${dranchukAbouKassemMethod.source}`,
  validity: [
    ...dranchukAbouKassemMethod.validity,
    {
      quantity: "gravity of the hydrocarbon part",
      measure: "pure number",
      from: 0.554,
      to: 1.862,
      basis: "Sutton's associated-gas data, range from memory; 0.554 is pure methane",
    },
    {
      quantity: "carbon dioxide",
      measure: "mole fraction",
      from: 0,
      to: 0.544,
      basis: "Wichert and Aziz; checked to 0.1 here, 3 percent off AGA 8 at 0.3",
    },
    {
      quantity: "hydrogen sulfide",
      measure: "mole fraction",
      from: 0,
      to: 0.738,
      basis: "Wichert and Aziz; not checked here, 5 percent off AGA 8 at 0.1 was seen",
    },
    {
      quantity: "nitrogen",
      measure: "mole fraction",
      from: 0,
      to: 0.1,
      basis: "mole-weighted, no correction; checked to 0.015 here, 2.5 percent off AGA 8 at 0.5",
    },
  ],
};

export interface Pseudocriticals {
  readonly pressure: AbsolutePa;
  readonly temperature: Kelvin;
  /** gravity of the hydrocarbon part, dimensionless */
  readonly hydrocarbonGravity: number;
}

/**
 * Pseudocritical pressure and temperature of a natural gas after its impurities.
 *
 * The stated gravity is that of the whole gas; the impurities are taken out of it first, and the
 * correlation sees the hydrocarbon part alone.
 *
 * @throws InputError naming the fraction or the gravity that is impossible
 * Source: see gasByGravityMethod.
 */
export function pseudocriticals(gas: GravityAndImpurities): Pseudocriticals {
  for (const key of ["co2", "h2s", "n2"] as const) {
    requireNumber(key, gas[key], "a mole fraction between 0 and 1", (y) => y >= 0 && y <= 1);
  }
  const impurities = gas.co2 + gas.h2s + gas.n2;
  if (impurities > 0.9) {
    throw new InputError(
      "co2 + h2s + n2",
      impurities,
      "at most 0.9: the method describes a hydrocarbon gas with impurities",
    );
  }
  requireNumber("specific_gravity", gas.specificGravity, "above 0", (g) => g > 0);
  const carried = IMPURITIES.reduce((sum, part) => sum + gas[part.name] * part.molarMass, 0);
  const hydrocarbonFraction = 1 - impurities;
  const hydrocarbonGravity = (gas.specificGravity - carried / AIR_MOLAR_MASS) / hydrocarbonFraction;
  if (hydrocarbonGravity < 0.5 || hydrocarbonGravity > 3) {
    throw new InputError(
      "specific_gravity",
      gas.specificGravity,
      `one that leaves a hydrocarbon part of gravity 0.5 to 3 (methane is 0.554); with these impurities it is ${hydrocarbonGravity.toFixed(3)}`,
    );
  }
  const g = hydrocarbonGravity;
  let temperature = (hydrocarbonFraction * (120.1 + 429 * g - 62.9 * g * g)) / 1.8;
  let pressure = hydrocarbonFraction * fromPsia(671.1 + 14 * g - 34.3 * g * g);
  for (const part of IMPURITIES) {
    temperature += gas[part.name] * part.temperature;
    pressure += gas[part.name] * part.pressure;
  }
  const a = gas.co2 + gas.h2s;
  const b = gas.h2s;
  const shift = (120 * (a ** 0.9 - a ** 1.6) + 15 * (b ** 0.5 - b ** 4)) / 1.8;
  const corrected = temperature - shift;
  return {
    pressure: absolutePa((pressure * corrected) / (temperature + b * (1 - b) * shift)),
    temperature: kelvin(corrected),
    hydrocarbonGravity,
  };
}

/**
 * A gas known by its gravity and impurities.
 *
 * Against the AGA 8 DETAIL equation it stays, on the four lift gases of the tests, within 2.5 percent (rich, and
 * 10 percent CO2) and 1.5 percent (lean and typical), 400 to 2,200 psia and 80 to 200 degF. Gases with more
 * impurities have been seen to differ by up to 5 percent.
 *
 * @throws InputError as pseudocriticals
 */
export function gasByGravity(
  given: GravityAndImpurities,
): Gas & { readonly critical: Pseudocriticals } {
  const critical = pseudocriticals(given);
  return {
    critical,
    method: gasByGravityMethod,
    molarMass: given.specificGravity * AIR_MOLAR_MASS,
    z: ({ pressure, temperature }) =>
      dranchukAbouKassem(pressure / critical.pressure, temperature / critical.temperature),
    warningsAt: ({ pressure, temperature }) =>
      warnOutside(gasByGravityMethod, {
        "pseudo-reduced temperature": temperature / critical.temperature,
        "pseudo-reduced pressure": pressure / critical.pressure,
        "gravity of the hydrocarbon part": critical.hydrocarbonGravity,
        "carbon dioxide": given.co2,
        "hydrogen sulfide": given.h2s,
        nitrogen: given.n2,
      }),
  };
}
