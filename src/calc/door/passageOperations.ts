import { gasPassage, gasPassageMethod, M3_S_PER_MSCF_DAY, standardRate } from "../gasPassage.ts";
import { hydrateMethod, hydrateTemperature } from "../hydrate.ts";
import { AIR_MOLAR_MASS, fromInches, toDegF } from "../units.ts";
import type { Operation } from "./operation.ts";
import { rules } from "./reader.ts";
import { answer, readDegF, readPsia } from "./units.ts";

export const gasPassageOperation: Operation = {
  name: "gas-passage",
  keys: {
    upstream_pressure: "upstream_pressure_psia",
    downstream_pressure: "downstream_pressure_psia",
    upstream_temperature: "upstream_temperature_degF",
    port_area: "port_diameter_in",
    port_discharge_coefficient: "discharge_coefficient",
    molar_mass: "specific_gravity",
    heat_capacity_ratio: "heat_capacity_ratio",
  },
  run(input) {
    const upstream = readPsia(input, "upstream_pressure_psia");
    const downstream = readPsia(input, "downstream_pressure_psia");
    const temperature = readDegF(input, "upstream_temperature_degF");
    const diameter = fromInches(input.number("port_diameter_in", rules.positive));
    const gravity = input.number("specific_gravity", {
      allowed: "between 0.06 and 10 (hydrogen is 0.07)",
      accepts: (g) => g >= 0.06 && g <= 10,
    });
    const passage = gasPassage(
      upstream,
      downstream,
      temperature,
      {
        area: (Math.PI * diameter ** 2) / 4,
        dischargeCoefficient: input.number("discharge_coefficient"),
      },
      {
        molarMass: gravity * AIR_MOLAR_MASS,
        heatCapacityRatio: input.number("heat_capacity_ratio"),
      },
    );
    return answer(
      {
        rate_Mscf_per_day: standardRate(passage.rate) / M3_S_PER_MSCF_DAY,
        critical: passage.critical,
      },
      gasPassageMethod,
      passage.warnings,
    );
  },
};

export const hydrateOperation: Operation = {
  name: "hydrate",
  keys: { pressure: "pressure_psia", specific_gravity: "specific_gravity", h2s: "h2s" },
  run(input) {
    const hydrate = hydrateTemperature(
      readPsia(input, "pressure_psia"),
      input.number("specific_gravity"),
      input.number("h2s", { fallback: 0 }),
    );
    return answer(
      { hydrate_temperature_degF: toDegF(hydrate.temperature) },
      hydrateMethod,
      hydrate.warnings,
    );
  },
};
