import { describe, expect, it } from "vitest";
import { STANDARD_BASE } from "../../src/calc/gasPassage.ts";
import { tracerTimes } from "../../src/calc/tracerTime.ts";
import { GAS_CONSTANT, GRAVITY } from "../../src/calc/units.ts";

const well = {
  downArea: 0.015,
  upArea: 0.003,
  molarMass: 0.019,
  injection: 6.3e6,
  wellhead: 3.0e6,
  temperature: 320,
  liquidRate: 0.0006,
};
/** mol/s of a standard rate */
const molar = (rate: number) =>
  (rate * STANDARD_BASE.pressure) / (GAS_CONSTANT * STANDARD_BASE.temperature);
/** mol of gas at rest between two pressures of the injection side */
const content = (above: number, below: number) =>
  (well.downArea * (below - above)) / (well.molarMass * GRAVITY);
/** s over a length at one pressure, 3 MPa */
const upTime = (length: number, rate: number) => {
  const inSitu =
    (rate * STANDARD_BASE.pressure * well.temperature * 0.9) / (3.0e6 * STANDARD_BASE.temperature);
  return length / ((1.2 * (inSitu + well.liquidRate)) / well.upArea + 0.5);
};

describe("a slug of tracer", () => {
  it("takes the time of the gas that it pushes before it, and of what flows up", () => {
    const [time] = tracerTimes(
      [{ depth: 1500, alongHole: 1500, injection: 7.0e6, production: 3.0e6, rate: 0.3 }],
      well,
    );
    expect(time).toBeCloseTo(content(6.3e6, 7.0e6) / molar(0.3) + upTime(1500, 0.3), 6);
  });

  it("goes on to the deeper of two entries behind the gas that is left, and up with less gas until the upper one", () => {
    const times = tracerTimes(
      [
        { depth: 600, alongHole: 600, injection: 6.6e6, production: 3.0e6, rate: 0.2 },
        { depth: 1500, alongHole: 1500, injection: 7.0e6, production: 3.0e6, rate: 0.1 },
      ],
      well,
    );
    const first = content(6.3e6, 6.6e6) / molar(0.3);
    const second = first + content(6.6e6, 7.0e6) / molar(0.1);
    expect(times[0]).toBeCloseTo(first + upTime(600, 0.3), 6);
    expect(times[1]).toBeCloseTo(second + upTime(900, 0.1) + upTime(600, 0.3), 6);
  });

  it("finds more gas before it where the hole slants, and a longer way up", () => {
    const at = { depth: 1500, injection: 7.0e6, production: 3.0e6, rate: 0.3 };
    const [time] = tracerTimes([{ ...at, alongHole: 1800 }], well);
    expect(time).toBeCloseTo((1.2 * content(6.3e6, 7.0e6)) / molar(0.3) + upTime(1800, 0.3), 6);
  });

  it("does not come back from below where no gas goes on", () => {
    const entry = { production: 3.0e6, rate: 0.3 };
    const times = tracerTimes(
      [
        { ...entry, depth: 600, alongHole: 600, injection: 6.6e6 },
        { ...entry, depth: 1500, alongHole: 1500, injection: 7.0e6, rate: 0 },
      ],
      well,
    );
    expect(times[1]).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("a slug that cannot be timed", () => {
  const entry = { depth: 1500, alongHole: 1500, injection: 7.0e6, production: 3.0e6, rate: 0.3 };
  it.each([
    ["no area to go down", () => tracerTimes([entry], { ...well, downArea: 0 }), "down_area"],
    ["no area to come up", () => tracerTimes([entry], { ...well, upArea: 0 }), "up_area"],
    ["liquid that falls", () => tracerTimes([entry], { ...well, liquidRate: -1 }), "liquid_rate"],
    ["gas that comes out", () => tracerTimes([{ ...entry, rate: -0.1 }], well), "entries[0].rate"],
    [
      "entries from the bottom up",
      () => tracerTimes([entry, { ...entry, depth: 600 }], well),
      "entries[1].depth",
    ],
  ])("is refused by name: %s", (_, work, key) => {
    expect(work).toThrow(expect.objectContaining({ key }));
  });
});
