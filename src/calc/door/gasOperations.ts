import { type EqualisingBand, equaliseMethod, equalisingBand } from "../equalise.ts";
import { gasColumn, gasColumnMethod } from "../gasColumn.ts";
import type { Warning } from "../method.ts";
import { nitrogenMethod, nitrogenState } from "../nitrogen.ts";
import {
  fromFeetVertical,
  M_PER_FT,
  PA_PER_PSI,
  toDegR,
  toPsia,
  toPsig,
  verticalM,
} from "../units.ts";
import { readGas, readTemperatures } from "./gasInput.ts";
import type { Operation } from "./operation.ts";
import { rules } from "./reader.ts";
import { answer, readAtmosphere, readDegF, readPsia, readPsig } from "./units.ts";

const depth = {
  allowed: "0 or more and at most 60000",
  accepts: (d: number) => d >= 0 && d <= 60_000,
};

/** Complaints about the gas, as every operation that takes one names them. */
const GAS_KEYS = {
  co2: "gas.co2",
  h2s: "gas.h2s",
  n2: "gas.n2",
  "co2 + h2s + n2": "gas",
  specific_gravity: "gas.specific_gravity",
};

export const nitrogenStateOperation: Operation = {
  name: "nitrogen-state",
  keys: { pressure: "pressure_psia", temperature: "temperature_degF" },
  run(input) {
    const temperature = readDegF(input, "temperature_degF");
    const pressure = readPsia(input, "pressure_psia");
    const { density, z, warnings } = nitrogenState(pressure, temperature);
    return answer({ density_kg_m3: density, z }, nitrogenMethod, warnings);
  },
};

export const gasZOperation: Operation = {
  name: "gas-z",
  keys: {
    ...GAS_KEYS,
    pressure: "pressure_psia",
    temperature: "temperature_degF",
    "pseudo-reduced pressure": "pressure_psia",
    "pseudo-reduced temperature": "temperature_degF",
  },
  run(input) {
    const state = {
      pressure: readPsia(input, "pressure_psia"),
      temperature: readDegF(input, "temperature_degF"),
    };
    const gas = readGas(input);
    return answer(
      {
        z: gas.z(state),
        ...("critical" in gas
          ? {
              pseudocritical_pressure_psia: toPsia(gas.critical.pressure),
              pseudocritical_temperature_degR: toDegR(gas.critical.temperature),
            }
          : { specific_gravity: gas.specificGravity }),
      },
      gas.method,
      gas.warningsAt(state),
    );
  },
};

export const gasColumnOperation: Operation = {
  name: "gas-column",
  keys: {
    ...GAS_KEYS,
    "[].depth": "tvd_ft",
    "[].temperature": "temperature_degF",
    pressure: "surface_pressure_psig",
    temperature: "temperatures",
    "pseudo-reduced pressure": "surface_pressure_psig",
    "pseudo-reduced temperature": "temperatures",
  },
  run(input) {
    const atmosphere = readAtmosphere(input);
    const surface = readPsig(input, "surface_pressure_psig", atmosphere);
    const gas = readGas(input);
    const temperatures = readTemperatures(input);
    const depths = input.numbers("at_tvd_ft", 1, depth).map(fromFeetVertical);
    const { pressures, warnings } = gasColumn(surface, verticalM(0), depths, gas, temperatures);
    return answer(
      { pressures_psig: pressures.map((pressure) => toPsig(pressure, atmosphere)) },
      { ...gasColumnMethod, source: `${gasColumnMethod.source}; ${gas.method.source}` },
      warnings,
    );
  },
};

export const equaliseOperation: Operation = {
  name: "equalise",
  keys: {
    ...GAS_KEYS,
    "[].depth": "tvd_ft",
    "[].temperature": "temperature_degF",
    depth: "valve_tvd_ft",
    liquid: "annulus_liquid",
    pressure: "tubing_pressure_at_valve_psig",
    temperature: "temperatures",
    "pseudo-reduced pressure": "tubing_pressure_at_valve_psig",
    "pseudo-reduced temperature": "temperatures",
  },
  run(input) {
    const atmosphere = readAtmosphere(input);
    const gas = readGas(input);
    const temperatures = readTemperatures(input);
    const valve = fromFeetVertical(
      input.number("valve_tvd_ft", {
        allowed: "above 0 and at most 60000",
        accepts: (d) => d > 0 && d <= 60_000,
      }),
    );
    const tubing = readPsig(input, "tubing_pressure_at_valve_psig", atmosphere);
    const liquid = input.optionalObject("annulus_liquid");
    const band = input.optionalNumber("band_psi", rules.notNegative);
    const pascal = (band ?? 0) * PA_PER_PSI;
    const found: EqualisingBand = equalisingBand(
      tubing,
      valve,
      gas,
      temperatures,
      { below: pascal, above: pascal },
      liquid && {
        top: fromFeetVertical(liquid.number("top_tvd_ft", depth)),
        gradient: (liquid.number("gradient_psi_per_ft", rules.notNegative) * PA_PER_PSI) / M_PER_FT,
      },
    );
    const warnings: Warning[] = [...found.warnings];
    if (!liquid) {
      warnings.push({
        kind: "note",
        text: "annulus_liquid not given: gas taken all the way to the valve; liquid above the valve would lower the casing pressure",
      });
    }
    if (found.level < atmosphere) {
      warnings.push({
        kind: "note",
        text: "a casing surface pressure below atmosphere is needed: bleeding cannot reach it",
      });
    }
    return answer(
      {
        casing_surface_pressure_psig: toPsig(found.level, atmosphere),
        ...(band !== undefined && {
          lowest_casing_surface_pressure_psig: toPsig(found.lowest, atmosphere),
          highest_casing_surface_pressure_psig: toPsig(found.highest, atmosphere),
        }),
      },
      { ...equaliseMethod, source: `${equaliseMethod.source}; ${gas.method.source}` },
      warnings,
    );
  },
};
