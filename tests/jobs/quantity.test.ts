import fc from "fast-check";
import { unit } from "mathjs";
import { describe, expect, it } from "vitest";
import {
  fromPsia,
  M_PER_FT,
  N_PER_LBF,
  PA_PER_PSI,
  STANDARD_ATMOSPHERE,
} from "../../src/calc/units.ts";
import { parseNumber } from "../../src/jobs/commands/entry.ts";
import { asEntered, formatNumber, writer } from "../../src/jobs/display.ts";
import { convert } from "../../src/jobs/numberUnits.ts";
import {
  type Dimension,
  dimensions,
  fromSI,
  impossible,
  type Quantity,
  toSI,
  unitsOf,
} from "../../src/jobs/quantity.ts";
import { quantity } from "../../src/jobs/schema.ts";

describe("quantities in SI", () => {
  it.each([
    // The core's exact constants (NIST SP 811) against the units library's.
    ["pressure difference", { value: 1, unit: "psi" }, PA_PER_PSI],
    ["length", { value: 1, unit: "ft" }, M_PER_FT],
    ["force", { value: 1, unit: "lbf" }, N_PER_LBF],
    ["weight", { value: 1, unit: "lb" }, N_PER_LBF],
    // NIST SP 811, B.8: 1 lb/ft3 = 16.018 46 kg/m3; degF: T/K = (t + 459.67)/1.8.
    ["density", { value: 1, unit: "lb/ft3" }, 16.01846337],
    ["temperature", { value: 60, unit: "degF" }, 288.70555555],
    ["temperature", { value: 0, unit: "degC" }, 273.15],
    ["force", { value: 2, unit: "daN" }, 20],
    ["absolute pressure", { value: 14.695948775, unit: "psia" }, STANDARD_ATMOSPHERE],
    ["fraction", { value: 1.5, unit: "mol %" }, 0.015],
    ["duration", { value: 2, unit: "h" }, 7200],
    // NIST SP 811, B.8: 1 lb/ft = 1.488 164 kg/m.
    ["mass per length", { value: 1000, unit: "lb/1000 ft" }, 1.488164],
  ] as const)("%s %o", (dimension, given, si) => {
    const got = toSI(dimension, given as Quantity);
    expect(Math.abs(got / si - 1)).toBeLessThan(1e-6);
  });

  it("converts as the full units library does, in every unit there is", () => {
    for (const { si, units } of Object.values(dimensions)) {
      for (const { mathjs } of Object.values<{ mathjs: string }>(units)) {
        if (mathjs === "") continue;
        const full = unit(1234.5, mathjs).toNumber(si);
        expect(Math.abs(convert(1234.5, mathjs, si) / full - 1), mathjs).toBeLessThan(1e-12);
      }
    }
  });

  it("tells gauge from absolute by the atmosphere that is given", () => {
    const site = fromPsia(12.2);
    const gauge = toSI("pressure", { value: 100, unit: "psig" }, site);
    const absolute = toSI("pressure", { value: 100, unit: "psia" }, site);
    expect(gauge - absolute).toBeCloseTo(site, 6);
    expect(toSI("pressure", { value: 0, unit: "barg" })).toBe(STANDARD_ATMOSPHERE);
  });

  it("comes back to the value entered, in every unit", () => {
    const pairs = Object.keys(dimensions).flatMap((dimension) =>
      unitsOf(dimension as Dimension).map((unit) => [dimension as Dimension, unit] as const),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        ([dimension, unit], value) => {
          const si = toSI(dimension, { value, unit } as Quantity);
          expect(Math.abs(fromSI(dimension, si, unit) - value)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it("names the bounds of what can be, in the unit that was typed", () => {
    expect(impossible("pressure", { value: 60000, unit: "psig" })).toBe(
      "a pressure lies between -14.7 and 50,000 psig",
    );
    expect(impossible("pressure", { value: -15, unit: "psig" })).toBeDefined();
    expect(impossible("pressure", { value: -14, unit: "psig" })).toBeUndefined();
    expect(impossible("length", { value: 60000, unit: "ft" })).toBeDefined();
    expect(quantity("pressure").safeParse({ value: 1e9, unit: "psig" }).success).toBe(false);
    expect(quantity("pressure").safeParse({ value: 1, unit: "psi" }).success).toBe(false);
  });
});

describe("numbers as people write them", () => {
  it.each([
    ["1150", 1150],
    ["1 150", 1150],
    ["1\u2009150.5", 1150.5],
    ["0,5", 0.5],
    [".5", 0.5],
    ["-3", -3],
    ["\u22123", -3],
    ["1,150.5", undefined],
    ["1,150", undefined],
    ["12,345,678", undefined],
    ["11o5", undefined],
    ["", undefined],
    ["1e5", undefined],
    ["--3", undefined],
    ["Infinity", undefined],
    ["0x10", undefined],
  ])("%s is %s", (text, value) => {
    expect(parseNumber(text)).toBe(value);
  });

  it("are shown with the gauge's digits, grouped, with a true minus", () => {
    expect(formatNumber(12345.678, 1)).toBe("12\u2009345.7");
    expect(formatNumber(1150, 0)).toBe("1150");
    expect(formatNumber(-3.2, 0)).toBe("\u22123");
    expect(formatNumber(-0.2, 0)).toBe("0");
    expect(asEntered({ value: 1150, unit: "psig" })).toBe("1150 psig");
  });

  it("change unit system without losing anything", () => {
    const si = toSI("pressure", { value: 1150, unit: "psig" });
    expect(writer("field").write("pressure", si)).toBe("1150 psig");
    expect(writer("metric").write("pressure", si)).toBe("79.3 barg");
    expect(writer("metric").write("force", N_PER_LBF * 1000)).toBe("445 daN");
  });

  it("show a depth to the foot and a tool to a tenth", () => {
    expect(writer("field").write("length", M_PER_FT * 4380.04)).toBe("4380 ft");
    expect(writer("field").write("length", M_PER_FT * 6.04)).toBe("6.0 ft");
  });

  it.each([
    // As printed; worked from 0.187 in, two pins of 32 ksi would shear at 1,758 lbf in place of 1,767.
    [0.1875, "0.1875 in", "4.76 mm"],
    [0.108, "0.108 in", "2.74 mm"],
    [0.013, "0.013 in", "0.33 mm"],
    [2.3125, "2.313 in", "58.7 mm"],
  ])("keeps the digits of a small diameter, %s in", (inches, field, metric) => {
    const si = inches * 0.0254;
    expect(writer("field").write("diameter", si)).toBe(field);
    expect(writer("metric").write("diameter", si)).toBe(metric);
  });

  it.each([
    // A coefficient as its source has it; what is worked out has two digits.
    { si: 0.865, says: "0.865" },
    { si: 1.27, says: "1.27" },
    { si: 0.65, says: "0.65" },
    { si: 3, says: "3.00" },
    { si: 1.37249, says: "1.37" },
  ])("writes the ratio $si as $says", ({ si, says }) => {
    expect(writer("field").write("ratio", si)).toBe(says);
  });
});
