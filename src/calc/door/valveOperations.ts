import { InputError } from "../inputError.ts";
import { domeMethod, domePressure } from "../nitrogen.ts";
import { PA_PER_PSI, toPsig } from "../units.ts";
import {
  actingPressures,
  areaRatio,
  domeFromTestRack,
  type PressuresAtValve,
  type ValveBody,
  valveMethod,
  valveSet,
  valveSetMethod,
  valveState,
} from "../valve.ts";
import type { Operation } from "./operation.ts";
import { type Reader, rules } from "./reader.ts";
import { answer, readAtmosphere, readDegF, readPsig } from "./units.ts";

export const domePressureOperation: Operation = {
  name: "dome-pressure",
  keys: {
    pressure: "pressure_psig",
    temperature: "temperature_degF",
    "to temperature": "to_temperature_degF",
  },
  run(input) {
    const atmosphere = readAtmosphere(input);
    const from = readPsig(input, "pressure_psig", atmosphere);
    const there = domePressure(
      from,
      readDegF(input, "temperature_degF"),
      readDegF(input, "to_temperature_degF"),
    );
    const gauge = toPsig(from, atmosphere);
    if (gauge === 0) {
      throw new InputError("pressure_psig", 0, "other than 0: the gauge ratio has no value there");
    }
    const answerGauge = toPsig(there.pressure, atmosphere);
    return answer(
      { pressure_psig: answerGauge, factor: answerGauge / gauge },
      domeMethod,
      there.warnings,
    );
  },
};

const VALVE_KEYS = {
  bellows_area: "bellows_area_in2",
  port_area: "port_area_in2",
  area_ratio: "area_ratio",
  spring_pressure: "spring_pressure_psi",
  temperature: "temperature_degF",
  pressure: "dome_pressure_60F_psig",
};

function readBody(input: Reader): ValveBody {
  const kind = input.oneOf("kind", ["injection-operated", "production-operated"]);
  const springPressure =
    input.number("spring_pressure_psi", { ...rules.notNegative, fallback: 0 }) * PA_PER_PSI;
  return { kind, areaRatio: readAreaRatio(input), springPressure };
}

/** How far a ratio written with four digits may be from that of the areas. */
const RATIO_DIGITS = 5e-4;

/** R as given, or from the two areas; both are welcome when they agree. */
function readAreaRatio(input: Reader): number {
  const given = input.optionalNumber("area_ratio", {
    allowed: "0 or more and below 1",
    accepts: (r) => r >= 0 && r < 1,
  });
  if (given !== undefined && !input.has("port_area_in2")) {
    input.optionalNumber("bellows_area_in2", rules.positive);
    return given;
  }
  if (!input.has("port_area_in2") && !input.has("bellows_area_in2")) {
    throw new InputError(
      "area_ratio",
      undefined,
      "there, or bellows_area_in2 and port_area_in2 in its place",
    );
  }
  const fromAreas = areaRatio(
    input.number("port_area_in2", rules.notNegative),
    input.number("bellows_area_in2", rules.positive),
  );
  if (given !== undefined && Math.abs(given - fromAreas) > RATIO_DIGITS) {
    throw new InputError(
      "area_ratio",
      given,
      `left out, or the same as port_area_in2 / bellows_area_in2 (${fromAreas.toFixed(4)})`,
    );
  }
  return fromAreas;
}

function readPressures(
  input: Reader,
  atmosphere: ReturnType<typeof readAtmosphere>,
): PressuresAtValve {
  return {
    injection: readPsig(input, "injection_pressure_psig", atmosphere),
    production: readPsig(input, "production_pressure_psig", atmosphere),
  };
}

export const valveStateOperation: Operation = {
  name: "valve-state",
  keys: VALVE_KEYS,
  run(input) {
    const atmosphere = readAtmosphere(input);
    const body = readBody(input);
    const chargeKey = input.eitherOf("dome_pressure_60F_psig", "test_rack_opening_psig");
    const charge = readPsig(input, chargeKey, atmosphere);
    const dome60 =
      chargeKey === "dome_pressure_60F_psig" ? charge : domeFromTestRack(body, charge, atmosphere);
    if (dome60 <= 0) {
      throw new InputError(
        chargeKey,
        input.given(chargeKey),
        "high enough for the spring: what is left for the dome is below a vacuum",
      );
    }
    const state = valveState(
      body,
      dome60,
      readDegF(input, "temperature_degF"),
      readPressures(input, atmosphere),
    );
    return answer(
      {
        area_ratio: body.areaRatio,
        dome_pressure_60F_psig: toPsig(dome60, atmosphere),
        dome_pressure_at_temperature_psig: toPsig(state.dome, atmosphere),
        opening_pressure_psig: toPsig(state.opening, atmosphere),
        closing_pressure_psig: toPsig(state.closing, atmosphere),
        spread_psi: state.spread / PA_PER_PSI,
        effect_factor: state.effectFactor,
        opens: state.opens,
      },
      { ...valveMethod, source: `${valveMethod.source}; ${domeMethod.source}` },
      state.warnings,
    );
  },
};

export const valveSetOperation: Operation = {
  name: "valve-set",
  keys: { ...VALVE_KEYS, opening_pressure: "opening_pressure_psig" },
  run(input) {
    const atmosphere = readAtmosphere(input);
    const body = readBody(input);
    const opening = readPsig(input, "opening_pressure_psig", atmosphere);
    // Only the pressure on the seat matters for the setting; the acting one is the opening wanted.
    const seatKey =
      body.kind === "injection-operated" ? "production_pressure_psig" : "injection_pressure_psig";
    const seat = readPsig(input, seatKey, atmosphere);
    const { other } = actingPressures(body.kind, { injection: seat, production: seat });
    const actingKey =
      body.kind === "injection-operated" ? "injection_pressure_psig" : "production_pressure_psig";
    if (input.has(actingKey)) readPsig(input, actingKey, atmosphere);
    const set = valveSet(body, opening, other, readDegF(input, "temperature_degF"), atmosphere);
    return answer(
      {
        dome_pressure_at_temperature_psig: toPsig(set.dome, atmosphere),
        dome_pressure_60F_psig: toPsig(set.dome60, atmosphere),
        test_rack_opening_psig: toPsig(set.testRack, atmosphere),
      },
      valveSetMethod,
      set.warnings,
    );
  },
};
