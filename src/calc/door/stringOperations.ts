import { lubricatorFit, lubricatorFitMethod } from "../lubricatorFit.ts";
import type { Warning } from "../method.ts";
import {
  minimumCurvatureMethod,
  type PathPoint,
  type Station,
  type WellPath,
  wellPath,
} from "../path.ts";
import { pushOutBalance, pushOutForce, pushOutMethod } from "../pushOut.ts";
import {
  type AlongHoleM,
  fromFeetAlongHole,
  fromInches,
  KG_M3_PER_LB_FT3,
  M_PER_FT,
  N_PER_LBF,
  RAD_PER_DEG,
} from "../units.ts";
import type { Operation } from "./operation.ts";
import { type Reader, rules } from "./reader.ts";
import { answer, readAtmosphere, readPsig } from "./units.ts";

/** Mean density of a string from the one of two keys that is given. */
function readStringDensity(input: Reader, weightLbf: number): number {
  const key = input.eitherOf("string_mean_density_lb_ft3", "string_volume_in3");
  const given = input.number(key, rules.positive);
  if (key === "string_mean_density_lb_ft3") return given * KG_M3_PER_LB_FT3;
  return (weightLbf / (given / 12 ** 3)) * KG_M3_PER_LB_FT3;
}

export const pushOutOperation: Operation = {
  name: "push-out",
  keys: {
    wire_diameter: "wire_diameter_in",
    pressure: "wellhead_pressure_psig",
    packing_friction: "packing_friction_lbf",
    string_weight_in_air: "string_weight_in_air_lbf",
    string_mean_density: "string_mean_density_lb_ft3",
    fluid_density: "fluid_density_lb_ft3",
    inclination: "inclination_deg",
  },
  run(input) {
    const atmosphere = readAtmosphere(input);
    const force = pushOutForce(
      readPsig(input, "wellhead_pressure_psig", atmosphere),
      atmosphere,
      fromInches(input.number("wire_diameter_in", rules.positive)),
    );
    const weight = input.number("string_weight_in_air_lbf", rules.positive);
    const balance = pushOutBalance(
      force,
      input.number("packing_friction_lbf", rules.notNegative) * N_PER_LBF,
      { inAir: weight * N_PER_LBF, meanDensity: readStringDensity(input, weight) },
      input.number("fluid_density_lb_ft3", rules.notNegative) * KG_M3_PER_LB_FT3,
      input.number("inclination_deg", {
        fallback: 0,
        allowed: "0 or more and below 90",
        accepts: (angle) => angle >= 0 && angle < 90,
      }) * RAD_PER_DEG,
    );
    return answer(
      {
        push_out_lbf: balance.pushOut / N_PER_LBF,
        net_downward_lbf: balance.netDownward / N_PER_LBF,
        weight_needed_lbf: balance.weightNeeded / N_PER_LBF,
        ratio: balance.ratio ?? null,
      },
      pushOutMethod,
      balance.netDownward < 0
        ? [{ kind: "note", text: "net downward force is negative: the string does not go down" }]
        : [],
    );
  },
};

export const lubricatorFitOperation: Operation = {
  name: "lubricator-fit",
  keys: {
    string_length: "string_length_ft",
    valve_length: "valve_length_ft",
    margin: "margin_ft",
  },
  run(input) {
    const usable = input.objects("sections", 1).map((section) => {
      section.optionalText("name");
      return section.number("usable_length_ft", rules.notNegative) * M_PER_FT;
    });
    const fit = lubricatorFit(
      usable,
      input.number("string_length_ft", rules.positive) * M_PER_FT,
      input.number("valve_length_ft", rules.notNegative) * M_PER_FT,
      input.number("margin_ft", rules.notNegative) * M_PER_FT,
    );
    return answer(
      {
        available_ft: fit.available / M_PER_FT,
        needed_ft: fit.needed / M_PER_FT,
        spare_ft: fit.spare / M_PER_FT,
        fits: fit.fits,
      },
      lubricatorFitMethod,
    );
  },
};

export function readStation(station: Reader): Station {
  return {
    depth: fromFeetAlongHole(station.number("md_ft", rules.notNegative)),
    inclination:
      station.number("inclination_deg", {
        allowed: "between 0 and 180",
        accepts: (angle) => angle >= 0 && angle <= 180,
      }) * RAD_PER_DEG,
    azimuth:
      station.number("azimuth_deg", {
        allowed: "between -360 and 360",
        accepts: (angle) => angle >= -360 && angle <= 360,
      }) * RAD_PER_DEG,
  };
}

/** Below the last station nobody has measured where the hole goes. */
export function beyondStations(
  { points }: WellPath,
  depths: readonly AlongHoleM[],
  key: string,
): Warning[] {
  const last = points.at(-1)?.depth;
  const deepest = Math.max(...depths);
  if (last === undefined || !(deepest > last)) return [];
  const [feet, end] = [deepest, last].map((depth) => Number((depth / M_PER_FT).toFixed(2)));
  return [
    {
      kind: "note",
      text: `${key} ${feet} lies below the last station at ${end} ft: the hole is taken to go straight on`,
    },
  ];
}

function writePoint(point: PathPoint, courseLength: number): Record<string, number> {
  const dogleg = point.dogleg / RAD_PER_DEG;
  return {
    md_ft: point.depth / M_PER_FT,
    tvd_ft: point.vertical / M_PER_FT,
    north_ft: point.north / M_PER_FT,
    east_ft: point.east / M_PER_FT,
    dogleg_deg: dogleg,
    dogleg_severity_deg_per_100ft:
      courseLength > 0 ? (dogleg * 100) / (courseLength / M_PER_FT) : 0,
  };
}

export const trajectoryOperation: Operation = {
  name: "trajectory",
  keys: {
    "[].depth": "md_ft",
    "[].inclination": "inclination_deg",
    "depth along hole": "at_md_ft",
  },
  run(input) {
    const path = wellPath(input.objects("stations", 1).map(readStation));
    const wanted = input.has("at_md_ft") ? input.numbers("at_md_ft", 1, rules.notNegative) : [];
    const depths = wanted.map(fromFeetAlongHole);
    const at = depths.map((depth) => {
      const point = path.at(depth);
      const above = path.points.filter((station) => station.depth < point.depth).at(-1);
      return writePoint(point, above ? point.depth - above.depth : 0);
    });
    return answer(
      {
        stations: path.points.map((point, i) =>
          writePoint(point, point.depth - (path.points[i - 1]?.depth ?? point.depth)),
        ),
        ...(wanted.length > 0 && { at }),
      },
      minimumCurvatureMethod,
      beyondStations(path, depths, "at_md_ft"),
    );
  },
};
