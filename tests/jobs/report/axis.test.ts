import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PA_PER_PSI, STANDARD_ATMOSPHERE } from "../../../src/calc/units.ts";
import { writer } from "../../../src/jobs/display.ts";
import { quantityAxis, timeAxis } from "../../../src/jobs/report/axis.ts";

const field = writer("field", STANDARD_ATMOSPHERE);
const psig = (...values: number[]) =>
  values.map((value) => STANDARD_ATMOSPHERE + value * PA_PER_PSI);
const places = (ticks: readonly { readonly at: number }[]) => ticks.map(({ at }) => at);

describe("an axis of a quantity", () => {
  it.each([
    // A step is the first of 1, 2 and 5 times a power of ten that is not below a sixth of the span.
    { values: [0.2, 5.8], step: 1, from: 0, to: 6 },
    { values: [3, 13.5], step: 2, from: 2, to: 14 },
    { values: [730, 912], step: 50, from: 700, to: 950 },
    { values: [0, 601], step: 200, from: 0, to: 800 },
  ])("over $values psig goes from $from to $to by $step", ({ values, step, from, to }) => {
    const { axis } = quantityAxis("Pressure", "pressure", field, psig(...values));
    expect(axis.label).toBe("Pressure, psig");
    const ticks = places(axis.ticks);
    expect(ticks[0]).toBeCloseTo(from, 6);
    expect(ticks.at(-1)).toBeCloseTo(to, 6);
    expect((ticks[1] as number) - (ticks[0] as number)).toBeCloseTo(step, 6);
  });

  it("holds every value between its ends, with no more marks than a page has room for", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 10_000 }), { minLength: 1 }), (values) => {
        const { axis, shown } = quantityAxis("Depth", "length", field, values);
        for (const value of values) {
          expect(shown(value)).toBeGreaterThanOrEqual(axis.from - 1e-6);
          expect(shown(value)).toBeLessThanOrEqual(axis.to + 1e-6);
        }
        // Six intervals and one more at each end, since the ends are rounded outward.
        expect(axis.ticks.length).toBeLessThanOrEqual(9);
      }),
    );
  });
});

describe("an axis of time", () => {
  const at = (hours: number, minutes = 0) => new Date(2026, 10, 20, hours, minutes).toISOString();
  it.each([
    { to: at(9), minutes: 5 },
    { to: at(9, 45), minutes: 10 },
    { to: at(14), minutes: 30 },
    { to: at(33), minutes: 180 },
  ])("from eight to $to has a mark every $minutes minutes", ({ to, minutes }) => {
    const { axis } = timeAxis([at(8), to], (each) => each);
    const ticks = places(axis.ticks);
    expect((ticks[1] as number) - (ticks[0] as number)).toBe(minutes);
    expect(axis.ticks.length).toBeLessThanOrEqual(14);
    expect(axis.from).toBeLessThanOrEqual(8 * 60);
  });
  it("says at a mark the instant that stands there", () => {
    const { axis, place } = timeAxis([at(8), at(9)], (each) => each);
    for (const { at: stands, label } of axis.ticks) expect(place(label)).toBeCloseTo(stands, 9);
  });
});
