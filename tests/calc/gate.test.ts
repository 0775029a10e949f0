import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gateState } from "../../src/calc/gate.ts";
import { InputError } from "../../src/calc/inputError.ts";
import { absolutePa, fromPsia, PA_PER_PSI } from "../../src/calc/units.ts";
import { closingPressure, openingPressure, type ValveBody } from "../../src/calc/valve.ts";

const state = (acting: number, opening: number, closing: number) => {
  const { gate, toChange } = gateState(fromPsia(acting), fromPsia(opening), fromPsia(closing));
  return { gate, toChange: Math.round((toChange / PA_PER_PSI) * 1e6) / 1e6 };
};

describe("a valve that opens at 900 and closes at 850 psia", () => {
  it.each([
    [950, "open", 100],
    [900, "open", 50],
    [899, "as it was", 1],
    [875, "as it was", 25],
    [860, "as it was", 10],
    [850, "shut", 50],
    [800, "shut", 100],
  ])("at %d psia is %s, %d psi from changing", (acting, gate, toChange) => {
    expect(state(acting, 900, 850)).toEqual({ gate, toChange });
  });
});

describe("a valve whose seat pressure stands above its closing pressure: opens at 780, closes at 800 psia", () => {
  it("has that order by the force balance", () => {
    // R 0.1, dome 800, seat 980: (800 - 98)/0.9 = 780.
    const body: ValveBody = { kind: "injection-operated", areaRatio: 0.1, springPressure: 0 };
    const opening = openingPressure(body, fromPsia(800), fromPsia(980));
    expect(opening / PA_PER_PSI).toBeCloseTo(780, 9);
    expect(closingPressure(body, fromPsia(800)) / PA_PER_PSI).toBeCloseTo(800, 9);
  });

  it.each([
    [850, "open", 70],
    [790, "open", 10],
    [780, "open", 0],
    [779, "shut", 1],
    [700, "shut", 80],
  ])("at %d psia is %s, %d psi from changing", (acting, gate, toChange) => {
    expect(state(acting, 780, 800)).toEqual({ gate, toChange });
  });
});

const pressure = fc.double({ min: 0, max: 3000, noNaN: true });

describe("any valve", () => {
  it("has no band in between when both pressures are one: open from there up", () => {
    expect(state(800, 800, 800)).toEqual({ gate: "open", toChange: 0 });
    expect(state(799, 800, 800)).toEqual({ gate: "shut", toChange: 1 });
  });

  it("is never further open at a lower pressure", () => {
    const order = { shut: 0, "as it was": 1, open: 2 };
    fc.assert(
      fc.property(pressure, pressure, pressure, pressure, (opening, closing, one, other) => {
        const low = state(Math.min(one, other), opening, closing);
        const high = state(Math.max(one, other), opening, closing);
        expect(order[high.gate]).toBeGreaterThanOrEqual(order[low.gate]);
      }),
    );
  });

  it("is at the edge once the pressure has gone by what it says", () => {
    fc.assert(
      fc.property(pressure, pressure, pressure, (acting, opening, closing) => {
        const [p, o, c] = [fromPsia(acting), fromPsia(opening), fromPsia(closing)];
        const { gate, toChange } = gateState(p, o, c);
        expect(toChange).toBeGreaterThanOrEqual(0);
        // Rounding of the sum: one part in 1e9 of the largest pressure here, 20 MPa.
        const near = (edge: number, there: number) => Math.abs(edge - there) < 0.02;
        const ends = [p + toChange, p - toChange];
        if (gate === "shut") expect(near(o, p + toChange)).toBe(true);
        if (gate === "open") expect(near(Math.min(o, c), p - toChange)).toBe(true);
        if (gate === "as it was")
          expect(ends.some((end) => near(o, end) || near(c, end))).toBe(true);
      }),
    );
  });

  it.each([
    ["acting", Number.NaN, 1, 1],
    ["opening", 1, Number.NaN, 1],
    ["closing", 1, 1, Number.POSITIVE_INFINITY],
  ])("refuses %s pressure that is not a number", (name, acting, opening, closing) => {
    const act = () => gateState(absolutePa(acting), absolutePa(opening), absolutePa(closing));
    expect(act).toThrow(InputError);
    expect(act).toThrow(`${name}_pressure`);
  });
});
