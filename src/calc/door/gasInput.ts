import { type GasByAnalysis, gasByAnalysis } from "../gasByAnalysis.ts";
import { gasByGravity } from "../gasByGravity.ts";
import { InputError } from "../inputError.ts";
import { type TemperatureProfile, temperatureProfile } from "../temperatureProfile.ts";
import { fromFeetVertical } from "../units.ts";
import { type Reader, rules } from "./reader.ts";
import { readDegF } from "./units.ts";

const fraction = {
  fallback: 0,
  allowed: "a mole fraction between 0 and 1",
  accepts: (y: number) => y >= 0 && y <= 1,
};

/** A gas by gravity and impurities, with its pseudocriticals. */
type GasByGravity = ReturnType<typeof gasByGravity>;

/** The key `gas`: gravity and impurities, or `composition` in their place. */
export function readGas(input: Reader): GasByGravity | GasByAnalysis {
  const gas = input.object("gas");
  if (gas.eitherOf("specific_gravity", "composition") === "composition") return readAnalysis(gas);
  return gasByGravity({
    specificGravity: gas.number("specific_gravity", rules.positive),
    co2: gas.number("co2", fraction),
    h2s: gas.number("h2s", fraction),
    n2: gas.number("n2", fraction),
  });
}

function readAnalysis(gas: Reader): GasByAnalysis {
  for (const impurity of ["co2", "h2s", "n2"]) {
    if (!gas.has(impurity)) continue;
    throw new InputError(
      gas.name(impurity),
      gas.given(impurity),
      "left out: composition says what it is",
    );
  }
  const composition = gas.object("composition");
  const names = Object.keys(gas.given("composition") as object);
  const fractions = Object.fromEntries(names.map((name) => [name, composition.number(name)]));
  try {
    return gasByAnalysis(fractions);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    // The core names a component as the door does, but for the key it stands under.
    throw new InputError(gas.name(error.key), error.given, error.allowed);
  }
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
