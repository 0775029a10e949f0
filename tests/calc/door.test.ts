import { describe, expect, it } from "vitest";
import { runOperation } from "../../src/calc/door/operation.ts";
import { operations } from "../../src/calc/door/operations.ts";
import { InputError } from "../../src/calc/inputError.ts";

const run = (name: string, input: unknown) => {
  const operation = operations.find((each) => each.name === name);
  if (!operation) throw new Error(`no operation ${name}`);
  return runOperation(operation, input);
};

const gas = { specific_gravity: 0.6573, co2: 0.01, h2s: 0, n2: 0.01 };
const temperatures = [
  { tvd_ft: 0, temperature_degF: 100 },
  { tvd_ft: 8000, temperature_degF: 200 },
];
const valve = {
  kind: "injection-operated",
  bellows_area_in2: 0.77,
  port_area_in2: 0.1134,
  temperature_degF: 170,
  production_pressure_psig: 600,
  injection_pressure_psig: 1300,
};
const string = {
  wire_diameter_in: 0.108,
  wellhead_pressure_psig: 1850,
  packing_friction_lbf: 30,
  string_weight_in_air_lbf: 150,
  string_mean_density_lb_ft3: 490,
  fluid_density_lb_ft3: 8,
};
const line = {
  diameter_in: 0.108,
  weight_lb_per_1000ft: 31.18,
  breaking_strength_lbf: 2109,
  modulus_psi: 29e6,
};

/** Keys that may be left out. */
const optional = ["at_md_ft", "band_psi", "annulus_liquid", "allowed_fraction"];

/** One good input an operation, with the keys its answer must carry. */
const good: Record<string, { input: Record<string, unknown>; keys: string[] }> = {
  "nitrogen-state": {
    input: { temperature_degF: 60, pressure_psia: 1500 },
    keys: ["density_kg_m3", "z"],
  },
  "dome-pressure": {
    input: { pressure_psig: 800, temperature_degF: 150, to_temperature_degF: 60 },
    keys: ["pressure_psig", "factor"],
  },
  "gas-z": {
    input: { pressure_psia: 1000, temperature_degF: 140, gas },
    keys: ["z", "pseudocritical_pressure_psia", "pseudocritical_temperature_degR"],
  },
  "gas-column": {
    input: { surface_pressure_psig: 1000, gas, temperatures, at_tvd_ft: [2000] },
    keys: ["pressures_psig"],
  },
  "valve-state": {
    input: { ...valve, dome_pressure_60F_psig: 900 },
    keys: [
      "area_ratio",
      "dome_pressure_60F_psig",
      "dome_pressure_at_temperature_psig",
      "opening_pressure_psig",
      "closing_pressure_psig",
      "spread_psi",
      "effect_factor",
      "opens",
    ],
  },
  "valve-set": {
    input: { ...valve, opening_pressure_psig: 1213.38 },
    keys: ["dome_pressure_at_temperature_psig", "dome_pressure_60F_psig", "test_rack_opening_psig"],
  },
  "gas-passage": {
    input: {
      upstream_pressure_psia: 1214.7,
      downstream_pressure_psia: 814.7,
      upstream_temperature_degF: 160,
      port_diameter_in: 0.25,
      specific_gravity: 0.65,
      heat_capacity_ratio: 1.27,
      discharge_coefficient: 0.865,
    },
    keys: ["rate_Mscf_per_day", "critical"],
  },
  trajectory: {
    input: {
      stations: [
        { md_ft: 0, inclination_deg: 0, azimuth_deg: 0 },
        { md_ft: 1000, inclination_deg: 10, azimuth_deg: 0 },
      ],
      at_md_ft: [500],
    },
    keys: ["stations", "at"],
  },
  "push-out": {
    input: string,
    keys: ["push_out_lbf", "net_downward_lbf", "weight_needed_lbf", "ratio"],
  },
  "line-tension": {
    input: {
      line,
      string_weight_in_air_lbf: 150,
      string_volume_in3: 529,
      fluid_density_lb_ft3: 3,
      friction_coefficient: 0.2,
      stations: [
        { md_ft: 0, inclination_deg: 30, azimuth_deg: 0 },
        { md_ft: 7000, inclination_deg: 30, azimuth_deg: 0 },
      ],
      tool_md_ft: 6000,
      wellhead_pressure_psig: 1000,
      packing_friction_lbf: 30,
      allowed_fraction: 0.5,
    },
    keys: [
      "running_in_lbf",
      "hanging_lbf",
      "pulling_out_lbf",
      "largest_tension_md_ft",
      "fraction_of_breaking",
      "overpull_available_lbf",
    ],
  },
  "weight-indicator": {
    input: { reading_lbf: 600, line_angle_deg: 110 },
    keys: ["line_tension_lbf", "pulley_load_lbf"],
  },
  "line-stretch": {
    input: { line, length_ft: 6000, extra_tension_lbf: 200 },
    keys: ["elastic_ft", "thermal_ft"],
  },
  "shear-pins": {
    input: { diameter_in: 0.125, count: 2, planes: 1, shear_strength_psi: 32000 },
    keys: ["force_lbf"],
  },
  "lubricator-fit": {
    input: {
      sections: [{ name: "lower section", usable_length_ft: 16 }],
      string_length_ft: 12.5,
      valve_length_ft: 2,
      margin_ft: 1,
    },
    keys: ["available_ft", "needed_ft", "spare_ft", "fits"],
  },
  equalise: {
    input: {
      gas,
      temperatures,
      valve_tvd_ft: 6000,
      tubing_pressure_at_valve_psig: 1000,
      band_psi: 50,
      annulus_liquid: { top_tvd_ft: 5500, gradient_psi_per_ft: 0.44 },
    },
    keys: [
      "casing_surface_pressure_psig",
      "lowest_casing_surface_pressure_psig",
      "highest_casing_surface_pressure_psig",
    ],
  },
  hydrate: {
    input: { pressure_psia: 1000, specific_gravity: 0.65 },
    keys: ["hydrate_temperature_degF"],
  },
};

describe("the command-line door", () => {
  it("has a good input here for every operation", () => {
    expect(Object.keys(good).sort()).toEqual(operations.map((each) => each.name).sort());
  });

  it.each(Object.entries(good))(
    "%s answers with its keys, a method, a source and no warning",
    (name, { input, keys }) => {
      const answer = run(name, input);
      expect(Object.keys(answer)).toEqual([...keys, "method", "source", "warnings"]);
      expect(answer.method).toMatch(/\w/);
      expect(answer.source).toMatch(/\w/);
      expect(answer.warnings).toEqual([]);
      for (const key of keys) {
        if (typeof answer[key] === "number") expect(answer[key]).toSatisfy(Number.isFinite);
      }
    },
  );

  it.each(Object.entries(good))(
    "%s names a required key that is missing, and one that is no number",
    (name, { input }) => {
      for (const [key, value] of Object.entries(input)) {
        if (optional.includes(key)) continue;
        if (name === "valve-set" && key === "injection_pressure_psig") continue;
        const { [key]: _, ...rest } = input;
        expect(() => run(name, rest), key).toThrow(InputError);
        if (typeof value === "number") {
          expect(() => run(name, { ...input, [key]: String(value) }), key).toThrow(new RegExp(key));
          expect(() => run(name, { ...input, [key]: Number.NaN }), key).toThrow(new RegExp(key));
        }
      }
    },
  );

  it.each([
    ["gas-z", { ...good["gas-z"]?.input, gas: { ...gas, co2: 1.5 } }, "gas.co2", 1.5],
    [
      "gas-z",
      { ...good["gas-z"]?.input, gas: { ...gas, specific_gravity: 0.2 } },
      "gas.specific_gravity",
      0.2,
    ],
    [
      "gas-z",
      { ...good["gas-z"]?.input, temperature_degF: -95, gas: { specific_gravity: 0.75 } },
      "temperature_degF",
      -95,
    ],
    [
      "gas-column",
      { ...good["gas-column"]?.input, temperatures: [temperatures[1], temperatures[0]] },
      "temperatures[1].tvd_ft",
      0,
    ],
    [
      "trajectory",
      { stations: [{ md_ft: 10, inclination_deg: 187, azimuth_deg: 0 }] },
      "stations[0].inclination_deg",
      187,
    ],
    [
      "valve-state",
      { ...valve, dome_pressure_60F_psig: 900, test_rack_opening_psig: 1055 },
      "dome_pressure_60F_psig",
      900,
    ],
    ["valve-state", { ...valve, dome_pressure_60F_psig: 900, area_ratio: 0.3 }, "area_ratio", 0.3],
    ["valve-state", { ...valve, dome_pressure_60F_psig: -20 }, "dome_pressure_60F_psig", -20],
    [
      "valve-state",
      { ...valve, dome_pressure_60F_psig: 900, bellows_area_in2: null },
      "bellows_area_in2",
      undefined,
    ],
    ["nitrogen-state", { temperature_degF: 60, pressure_psia: 1e12 }, "pressure_psia", 1e12],
    ["nitrogen-state", { temperature_degF: -99.5, pressure_psia: 100 }, "temperature_degF", -99.5],
    ["push-out", { ...string, string_volume_in3: 500 }, "string_mean_density_lb_ft3", 490],
    ["gas-z", { ...good["gas-z"]?.input, gas: { ...gas, co2: 0.6, n2: 0.6 } }, "gas", undefined],
    ["equalise", { ...good.equalise?.input, valve_tvd_ft: 1e6 }, "valve_tvd_ft", 1e6],
    ["push-out", { ...string, fluid_density_lb_ft3: 600 }, "fluid_density_lb_ft3", 600],
    [
      "gas-passage",
      { ...good["gas-passage"]?.input, downstream_pressure_psia: 1300 },
      "downstream_pressure_psia",
      1300,
    ],
    [
      "gas-passage",
      { ...good["gas-passage"]?.input, discharge_coefficient: 1.5 },
      "discharge_coefficient",
      1.5,
    ],
    [
      "gas-passage",
      { ...good["gas-passage"]?.input, heat_capacity_ratio: 1 },
      "heat_capacity_ratio",
      1,
    ],
    [
      "gas-passage",
      { ...good["gas-passage"]?.input, specific_gravity: 0.01 },
      "specific_gravity",
      0.01,
    ],
    ["weight-indicator", { reading_lbf: 600, line_angle_deg: 180 }, "line_angle_deg", 180],
    ["weight-indicator", { reading_lbf: -1, line_angle_deg: 90 }, "reading_lbf", -1],
    [
      "weight-indicator",
      { reading_lbf: 600, line_angle_deg: 90, calibrated_angle_deg: -1 },
      "calibrated_angle_deg",
      -1,
    ],
    ["line-stretch", { ...good["line-stretch"]?.input, length_ft: -1 }, "length_ft", -1],
    [
      "line-stretch",
      { ...good["line-stretch"]?.input, line: { ...line, modulus_psi: 0 } },
      "line.modulus_psi",
      0,
    ],
    [
      "line-stretch",
      { ...good["line-stretch"]?.input, expansion_per_degF: -1e-6 },
      "expansion_per_degF",
      -1e-6,
    ],
    ["shear-pins", { ...good["shear-pins"]?.input, count: 1.5 }, "count", 1.5],
    ["shear-pins", { ...good["shear-pins"]?.input, planes: 3 }, "planes", 3],
    [
      "lubricator-fit",
      { ...good["lubricator-fit"]?.input, sections: [{ name: 7, usable_length_ft: 16 }] },
      "sections[0].name",
      7,
    ],
    ["hydrate", { ...good.hydrate?.input, h2s: 2 }, "h2s", 2],
    ["hydrate", { ...good.hydrate?.input, specific_gravity: 0.1 }, "specific_gravity", 0.1],
    [
      "equalise",
      {
        ...good.equalise?.input,
        annulus_liquid: { top_tvd_ft: 100, gradient_psi_per_ft: 0.44 },
      },
      "annulus_liquid",
      undefined,
    ],
  ])("%s names the door's key and the value as given: %#", (name, input, key, given) => {
    try {
      run(name, input);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).key).toBe(key);
      if (given !== undefined) expect((error as InputError).given).toBe(given);
      expect((error as InputError).message).not.toContain("\n");
    }
  });

  it("takes a ratio with the bellows area beside it, and one that agrees with both areas", () => {
    const { port_area_in2: _, ...withoutPort } = valve;
    const ratio = 0.1134 / 0.77;
    const both = run("valve-state", { ...valve, dome_pressure_60F_psig: 900 });
    const alone = run("valve-state", {
      ...withoutPort,
      area_ratio: ratio,
      dome_pressure_60F_psig: 900,
    });
    expect(alone.opening_pressure_psig).toBeCloseTo(both.opening_pressure_psig as number, 9);
    const rounded = { ...valve, area_ratio: 0.1473, dome_pressure_60F_psig: 900 };
    expect(run("valve-state", rounded).area_ratio).toBeCloseTo(ratio, 12);
  });

  it("says when the seat alone holds a valve open", () => {
    const answer = run("valve-state", {
      ...valve,
      dome_pressure_60F_psig: 60,
      production_pressure_psig: 3000,
    });
    expect((answer.warnings as string[]).join()).toContain("seat alone holds the valve open");
  });

  it("says which key it did not know", () => {
    const answer = run("equalise", { ...good.equalise?.input, band_psii: 30 });
    expect(answer.warnings).toEqual(["key not known to equalise, ignored: band_psii"]);
  });

  it("says that gas was taken all the way when the annulus liquid is not known", () => {
    const { annulus_liquid: _, ...input } = good.equalise?.input ?? {};
    expect((run("equalise", input).warnings as string[]).join()).toContain("annulus_liquid");
  });

  it.each([
    ["trajectory", { at_md_ft: [500] }, "at_md_ft 500 lies below the last station at 400 ft"],
    ["line-tension", { tool_md_ft: 6000 }, "tool_md_ft 6000 lies below the last station at 400 ft"],
  ])("%s says that nobody surveyed the hole below the last station", (name, more, text) => {
    const station = (md_ft: number) => ({ md_ft, inclination_deg: 0, azimuth_deg: 0 });
    const stations = [station(0), station(400)];
    const said = run(name, { ...good[name]?.input, stations, ...more }).warnings as string[];
    expect(said.join()).toContain(text);
    const deep = [station(0), station(7000)];
    const within = run(name, { ...good[name]?.input, stations: deep, ...more }).warnings;
    expect((within as string[]).join()).not.toContain("last station");
  });

  it("takes gauge pressure against the atmosphere given", () => {
    const at = (atmosphere_psia: number) =>
      run("dome-pressure", { ...good["dome-pressure"]?.input, atmosphere_psia }).pressure_psig;
    expect(at(12)).not.toBe(at(14.696));
  });

  it("writes warnings in the units of the door", () => {
    const answer = run("nitrogen-state", { temperature_degF: 450, pressure_psia: 100 });
    expect(answer.warnings).toEqual([
      expect.stringContaining("temperature 450 degF is outside 20 degF to 400 degF"),
    ]);
  });
});
