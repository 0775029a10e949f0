import type { Gas } from "../gas.ts";
import { type GravityAndImpurities, gasByGravity } from "../gasByGravity.ts";
import { type TemperatureProfile, temperatureProfile } from "../temperatureProfile.ts";
import { fromFeetVertical } from "../units.ts";
import { type Reader, rules } from "./reader.ts";
import { readDegF } from "./units.ts";

const fraction = {
  fallback: 0,
  allowed: "a mole fraction between 0 and 1",
  accepts: (y: number) => y >= 0 && y <= 1,
};

/** Gravity and impurities of the key `gas`. */
export function readGravity(input: Reader): GravityAndImpurities {
  const gas = input.object("gas");
  return {
    specificGravity: gas.number("specific_gravity", rules.positive),
    co2: gas.number("co2", fraction),
    h2s: gas.number("h2s", fraction),
    n2: gas.number("n2", fraction),
  };
}

export function readGas(input: Reader): Gas {
  return gasByGravity(readGravity(input));
}

/** The key `temperatures`: points of true vertical depth and temperature. */
export function readTemperatures(input: Reader): TemperatureProfile {
  return temperatureProfile(
    input.objects("temperatures", 2).map((point) => ({
      depth: fromFeetVertical(point.number("tvd_ft")),
      temperature: readDegF(point, "temperature_degF"),
    })),
  );
}
