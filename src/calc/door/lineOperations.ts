import { elasticStretch, lineStretchMethod, thermalStretch } from "../lineStretch.ts";
import {
  fractionOfBreaking,
  lineTension,
  lineTensionMethod,
  oneFluid,
  overpullAvailable,
} from "../lineTension.ts";
import type { Warning } from "../method.ts";
import { verticalPath, wellPath } from "../path.ts";
import { pushOutForce } from "../pushOut.ts";
import { shearForce, shearPinsMethod } from "../shearPins.ts";
import {
  fromFeetAlongHole,
  fromInches,
  KG_M3_PER_LB_FT3,
  KG_PER_LB,
  M_PER_FT,
  N_PER_LBF,
  PA_PER_PSI,
  RAD_PER_DEG,
} from "../units.ts";
import { pulleyLoad, tensionFromReading, weightIndicatorMethod } from "../weightIndicator.ts";
import type { Operation } from "./operation.ts";
import { type Reader, rules } from "./reader.ts";
import { beyondStations, readStation } from "./stringOperations.ts";
import { answer, readAtmosphere, readPsig } from "./units.ts";

/** Share of the breaking strength that is taken when none is given. */
const DEFAULT_FRACTION = 0.5;

const lineKeys = {
  wire_diameter: "line.diameter_in",
  linear_mass: "line.weight_lb_per_1000ft",
  breaking_strength: "line.breaking_strength_lbf",
  modulus: "line.modulus_psi",
};

/** A line by the four figures that every operation asks of it, used or not: one line is one object. */
function readLine(input: Reader) {
  const line = input.object("line");
  return {
    diameter: fromInches(line.number("diameter_in", rules.positive)),
    linearMass:
      (line.number("weight_lb_per_1000ft", rules.positive) * KG_PER_LB) / (1000 * M_PER_FT),
    breakingStrength: line.number("breaking_strength_lbf", rules.positive) * N_PER_LBF,
    modulus: line.number("modulus_psi", rules.positive) * PA_PER_PSI,
  };
}

const note = (text: string): Warning => ({ kind: "note", text });

export const lineTensionOperation: Operation = {
  name: "line-tension",
  keys: {
    ...lineKeys,
    string_weight_in_air: "string_weight_in_air_lbf",
    string_mean_density: "string_volume_in3",
    fluid_density: "fluid_density_lb_ft3",
    friction_coefficient: "friction_coefficient",
    "[].depth": "md_ft",
    "[].inclination": "inclination_deg",
    tool_depth: "tool_md_ft",
    pressure: "wellhead_pressure_psig",
    packing_friction: "packing_friction_lbf",
    overpull_at_tool: "overpull_at_tool_lbf",
    allowed_fraction: "allowed_fraction",
    rope_socket_strength: "rope_socket_strength_lbf",
  },
  run(input) {
    const line = readLine(input);
    const atmosphere = readAtmosphere(input);
    const weight = input.number("string_weight_in_air_lbf", rules.positive);
    const volume = input.number("string_volume_in3", rules.positive) / 12 ** 3;
    const density = input.number("fluid_density_lb_ft3", rules.notNegative) * KG_M3_PER_LB_FT3;
    const stations = input.objects("stations", 0).map(readStation);
    const hole = {
      line,
      string: { inAir: weight * N_PER_LBF, meanDensity: (weight / volume) * KG_M3_PER_LB_FT3 },
      fluids: oneFluid(density),
      path: stations.length > 0 ? wellPath(stations) : verticalPath(),
      friction: input.number("friction_coefficient"),
      pushOut: pushOutForce(
        readPsig(input, "wellhead_pressure_psig", atmosphere),
        atmosphere,
        line.diameter,
      ),
      packingFriction: input.number("packing_friction_lbf", rules.notNegative) * N_PER_LBF,
    };
    const tool = fromFeetAlongHole(
      input.number("tool_md_ft", {
        allowed: "0 or more and at most 100,000",
        accepts: (feet) => feet >= 0 && feet <= 100_000,
      }),
    );
    const overpull =
      input.number("overpull_at_tool_lbf", { ...rules.notNegative, fallback: 0 }) * N_PER_LBF;
    const given = input.optionalNumber("allowed_fraction");
    const fraction = given ?? DEFAULT_FRACTION;
    const socket = input.optionalNumber("rope_socket_strength_lbf", rules.positive);
    const tension = lineTension(hole, tool, overpull);
    const available = overpullAvailable(hole, tool, {
      breakingStrength: line.breakingStrength,
      fraction,
      ropeSocketStrength: socket === undefined ? undefined : socket * N_PER_LBF,
    });
    return answer(
      {
        running_in_lbf: tension.runningIn / N_PER_LBF,
        hanging_lbf: tension.hanging / N_PER_LBF,
        pulling_out_lbf: tension.pullingOut / N_PER_LBF,
        largest_tension_md_ft: tension.largest.depth / M_PER_FT,
        fraction_of_breaking: fractionOfBreaking(tension.largest.tension, line.breakingStrength),
        overpull_available_lbf: available.overpull / N_PER_LBF,
      },
      lineTensionMethod,
      [
        ...tension.warnings,
        ...(stations.length > 0 ? beyondStations(hole.path, [tool], "tool_md_ft") : []),
        ...(given === undefined
          ? [note(`allowed_fraction not given: ${DEFAULT_FRACTION} of the breaking strength taken`)]
          : []),
        ...(tension.slack !== undefined
          ? [
              note(
                `running in, the line would have to push at ${(tension.slack / M_PER_FT).toFixed(0)} ft along hole: the string does not go down by its weight`,
              ),
            ]
          : []),
        ...(tension.slack === undefined && tension.runningIn < 0
          ? [note("running in is negative: push-out and packing friction hold the string up")]
          : []),
        ...(available.overpull < 0
          ? [note("no overpull is available: pulling out alone passes what is allowed")]
          : []),
      ],
    );
  },
};

const angleRule = {
  allowed: "0 or more and below 180",
  accepts: (angle: number) => angle >= 0 && angle < 180,
};

export const weightIndicatorOperation: Operation = {
  name: "weight-indicator",
  keys: {
    reading: "reading_lbf",
    line_angle: "line_angle_deg",
    calibrated_angle: "calibrated_angle_deg",
  },
  run(input) {
    const reading = input.number("reading_lbf", rules.notNegative) * N_PER_LBF;
    const angle = input.number("line_angle_deg", angleRule) * RAD_PER_DEG;
    const calibrated =
      input.number("calibrated_angle_deg", { ...angleRule, fallback: 90 }) * RAD_PER_DEG;
    const tension = tensionFromReading(reading, angle, calibrated);
    return answer(
      {
        line_tension_lbf: tension / N_PER_LBF,
        pulley_load_lbf: pulleyLoad(tension, angle) / N_PER_LBF,
      },
      weightIndicatorMethod,
    );
  },
};

export const lineStretchOperation: Operation = {
  name: "line-stretch",
  keys: {
    ...lineKeys,
    length: "length_ft",
    tension: "extra_tension_lbf",
    temperature_rise: "temperature_rise_degF",
    expansion: "expansion_per_degF",
  },
  run(input) {
    const line = readLine(input);
    const length = input.number("length_ft", rules.notNegative) * M_PER_FT;
    const tension =
      input.number("extra_tension_lbf", {
        allowed: "between -1e9 and 1e9",
        accepts: (force) => Math.abs(force) <= 1e9,
      }) * N_PER_LBF;
    const rise =
      input.number("temperature_rise_degF", {
        fallback: 0,
        allowed: "between -2000 and 2000",
        accepts: (degF) => Math.abs(degF) <= 2000,
      }) / 1.8;
    const expansion =
      input.number("expansion_per_degF", {
        fallback: 6.5e-6,
        allowed: "0 or more and at most 1e-3",
        accepts: (each) => each >= 0 && each <= 1e-3,
      }) * 1.8;
    return answer(
      {
        elastic_ft: elasticStretch(line, length, tension) / M_PER_FT,
        thermal_ft: thermalStretch(length, rise, expansion) / M_PER_FT,
      },
      lineStretchMethod,
    );
  },
};

export const shearPinsOperation: Operation = {
  name: "shear-pins",
  keys: {
    diameter: "diameter_in",
    count: "count",
    planes: "planes",
    shear_strength: "shear_strength_psi",
  },
  run(input) {
    const force = shearForce(
      fromInches(input.number("diameter_in", rules.positive)),
      input.number("count", {
        allowed: "a whole number from 1 to 1000",
        accepts: (n) => Number.isInteger(n) && n >= 1 && n <= 1000,
      }),
      input.number("planes", {
        allowed: "1 (single shear) or 2 (double shear)",
        accepts: (m) => m === 1 || m === 2,
      }),
      input.number("shear_strength_psi", rules.positive) * PA_PER_PSI,
    );
    return answer({ force_lbf: force / N_PER_LBF }, shearPinsMethod);
  },
};
