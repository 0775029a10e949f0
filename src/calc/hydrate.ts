import { InputError, requireNumber } from "./inputError.ts";
import { type Method, type Warning, warnOutside } from "./method.ts";
import { type AbsolutePa, fromDegF, fromPsia, type Kelvin, toPsia } from "./units.ts";

export const hydrateMethod: Method = {
  name: "Hydrate temperature of a sweet gas (Towler and Mokhatab)",
  formula:
    "T = 13.47 ln P + 34.27 ln γ − 1.675 ln P ln γ − 20.35 (degF, psia, natural logarithms); second opinion, without gravity, T = 8.9 P^0.285 (Hammerschmidt)",
  source:
    "Towler and Mokhatab, Hydrocarbon Processing 84 (2005), constants from memory and met again in other people's code; Hammerschmidt (1934), from memory",
  validity: [
    {
      quantity: "gas gravity",
      measure: "pure number",
      from: 0.55,
      to: 0.9,
      basis: "range of the gas-gravity chart that the correlation follows, from memory",
    },
    {
      quantity: "pressure",
      measure: "absolute pressure",
      from: fromPsia(60),
      to: fromPsia(4000),
      basis: "range of the gas-gravity chart that the correlation follows, from memory",
    },
  ],
};

const FREEZING = fromDegF(32);

export interface HydrateTemperature {
  /** below which hydrates can form where there is water, K */
  readonly temperature: Kelvin;
  /** the same by Hammerschmidt, which knows no gravity, K */
  readonly secondOpinion: Kelvin;
  readonly warnings: readonly Warning[];
}

/**
 * Temperature below which a sweet natural gas can form hydrates with liquid water.
 *
 *   T = 13.47 ln P + 34.27 ln γ - 1.675 ln P ln γ - 20.35   degF, P in psia
 *
 * Both logarithms are natural, and it is ln γ in both places: with γ itself, as it is also met, 1,000 psia
 * and 0.6 give 86 degF in place of 61.
 *
 * @param pressure        P, absolute, Pa
 * @param specificGravity γ, air = 1, dimensionless, 0.5 to 3 (methane is 0.554)
 * @param h2s             hydrogen sulfide, mole fraction; the correlation leaves it out, and the answer says so
 * @throws InputError for a gravity or a fraction that cannot be; for a pressure so low that the correlation ends below
 *         absolute zero
 * A caution, not a forecast: on a point of the gas-gravity chart (320 psia, 0.693) it reads 48.3 for 50 degF, and
 * for pure methane at 100 bar 18 for 14 degC.
 * @example hydrateTemperature(fromPsia(1000), 0.6)  // 61.1 degF
 * Source: see hydrateMethod.
 */
export function hydrateTemperature(
  pressure: AbsolutePa,
  specificGravity: number,
  h2s = 0,
): HydrateTemperature {
  requireNumber("pressure", pressure, "above 0", (p) => p > 0);
  requireNumber(
    "specific_gravity",
    specificGravity,
    "between 0.5 and 3 (methane is 0.554)",
    (g) => g >= 0.5 && g <= 3,
  );
  requireNumber("h2s", h2s, "a mole fraction between 0 and 1", (y) => y >= 0 && y <= 1);
  const psia = toPsia(pressure);
  const lnP = Math.log(psia);
  const lnG = Math.log(specificGravity);
  const temperature = fromDegF(13.47 * lnP + 34.27 * lnG - 1.675 * lnP * lnG - 20.35);
  if (temperature <= 0) {
    throw new InputError(
      "pressure",
      pressure,
      "high enough: the correlation gives less than absolute zero",
    );
  }
  const warnings: Warning[] = warnOutside(hydrateMethod, {
    "gas gravity": specificGravity,
    pressure,
  });
  if (temperature < FREEZING) {
    warnings.push({
      kind: "note",
      text: "below 32 degF water freezes first: the correlation speaks of hydrates with liquid water",
    });
  }
  if (h2s > 0) {
    warnings.push({
      kind: "note",
      text: "hydrogen sulfide raises the hydrate temperature and is left out here: the sweet figure is not conservative",
    });
  }
  return { temperature, secondOpinion: fromDegF(8.9 * psia ** 0.285), warnings };
}
