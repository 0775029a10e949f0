import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/calc/inputError.ts";
import {
  absolutePa,
  fromDegF,
  fromPsia,
  fromPsig,
  PA_PER_PSI,
  toPsig,
} from "../../src/calc/units.ts";
import {
  areaRatio,
  closingPressure,
  domeFromTestRack,
  openingPressure,
  testRackOpening,
  type ValveBody,
  valveSet,
  valveState,
} from "../../src/calc/valve.ts";

const AIR = fromPsia(14.696);
const psig = (gauge: number) => fromPsig(gauge, AIR);
const gauge = (pressure: ReturnType<typeof psig>) => toPsig(pressure, AIR);

describe("force balance of a bellows valve", () => {
  it("opens at 722 and closes at 700 psig in the classic example", () => {
    // Classic gas-lift manual example (Winkler and Smith, 1962), from memory: Pd 700, Pt 500, R 0.1;
    // (700 - 0.1 x 500)/0.9 = 722.2, printed as 722; effect factor 0.111, spread 22.
    const body: ValveBody = { kind: "injection-operated", areaRatio: 0.1, springPressure: 0 };
    const opening = openingPressure(body, psig(700), psig(500));
    expect(Math.round(gauge(opening))).toBe(722);
    expect(gauge(closingPressure(body, psig(700)))).toBeCloseTo(700, 9);
  });

  // Force balance with nitrogen by CoolProp's Span equation, computed for this project's table of check values, not
  // published. Tolerance: its last digit.
  it.each([
    {
      dome60: 900,
      degF: 170,
      tubing: 600,
      bellows: 0.77,
      port: 0.1134,
      rack: 1055.44,
      dome: 1123.04,
      opening: 1213.38,
      spread: 90.334,
      effect: 0.17271,
    },
    {
      dome60: 700,
      degF: 130,
      tubing: 300,
      bellows: 0.31,
      port: 0.0291,
      rack: 772.517,
      dome: 807.884,
      opening: 860.499,
      spread: 52.615,
      effect: 0.1036,
    },
    {
      dome60: 850,
      degF: 160,
      tubing: 500,
      bellows: 0.31,
      port: 0.0511,
      rack: 1017.77,
      dome: 1040.4,
      opening: 1147.06,
      spread: 106.66,
      effect: 0.19737,
    },
  ])("a charge of $dome60 psig at $degF degF opens at $opening psig", (c) => {
    const body: ValveBody = {
      kind: "injection-operated",
      areaRatio: areaRatio(c.port, c.bellows),
      springPressure: 0,
    };
    const pressures = { injection: psig(c.opening + 1), production: psig(c.tubing) };
    const state = valveState(body, psig(c.dome60), fromDegF(c.degF), pressures);
    expect(gauge(state.dome)).toBeCloseTo(c.dome, 1);
    expect(gauge(state.opening)).toBeCloseTo(c.opening, 1);
    expect(gauge(state.closing)).toBeCloseTo(c.dome, 1);
    expect(state.spread / PA_PER_PSI).toBeCloseTo(c.spread, 1);
    expect(state.effectFactor).toBeCloseTo(c.effect, 4);
    expect(gauge(testRackOpening(body, psig(c.dome60), AIR))).toBeCloseTo(c.rack, 1);
    expect(state.opens).toBe(true);
    const short = { ...pressures, injection: psig(c.opening - 1) };
    expect(valveState(body, psig(c.dome60), fromDegF(c.degF), short).opens).toBe(false);
  });

  it("works out the seat that a sharp edge seals on", () => {
    // Seat areas of trade and SPE handbook tables, from memory: bore + 0.005 in, 3/16 in on 0.31 in2 bellows: R 0.094.
    const seat = (Math.PI / 4) * (3 / 16 + 0.005) ** 2;
    expect(areaRatio(seat, 0.31)).toBeCloseTo(0.094, 3);
  });

  it("with a spring closes where the dome and the spring's share say, whatever the dome", () => {
    const body: ValveBody = {
      kind: "injection-operated",
      areaRatio: 0.2,
      springPressure: 100 * PA_PER_PSI,
    };
    // Contract: closes at Pd + Ps (1 - R); opens at [Pd + Ps (1 - R) - R Pt] / (1 - R).
    expect(gauge(closingPressure(body, psig(600)))).toBeCloseTo(680, 9);
    expect(gauge(openingPressure(body, psig(600), psig(400)))).toBeCloseTo((680 - 80) / 0.8, 9);
    expect(gauge(testRackOpening(body, psig(600), AIR))).toBeCloseTo(600 / 0.8 + 100, 9);
  });
});

const anyBody = fc.record({
  kind: fc.constantFrom("injection-operated" as const, "production-operated" as const),
  areaRatio: fc.double({ min: 0, max: 0.6, noNaN: true }),
  springPressure: fc.double({ min: 0, max: 300 * PA_PER_PSI, noNaN: true }),
});

describe("setting a valve", () => {
  it("gives the wanted opening pressure back at depth", () => {
    fc.assert(
      fc.property(
        anyBody,
        fc.double({ min: 600, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 60, max: 300, noNaN: true }),
        (body, opening, other, degF) => {
          const temperature = fromDegF(degF);
          const set = valveSet(body, psig(opening), psig(other), temperature, AIR);
          const pressures =
            body.kind === "injection-operated"
              ? { injection: psig(opening), production: psig(other) }
              : { injection: psig(other), production: psig(opening) };
          const state = valveState(body, set.dome60, temperature, pressures);
          expect(gauge(state.opening)).toBeCloseTo(opening, 5);
          expect(gauge(domeFromTestRack(body, set.testRack, AIR))).toBeCloseTo(
            gauge(set.dome60),
            6,
          );
        },
      ),
    );
  });

  it("opens earlier the higher the other pressure", () => {
    fc.assert(
      fc.property(anyBody, fc.double({ min: 0, max: 900, noNaN: true }), (body, other) => {
        fc.pre(body.areaRatio > 1e-6);
        const low = openingPressure(body, psig(1000), psig(other));
        const high = openingPressure(body, psig(1000), psig(other + 50));
        expect(high).toBeLessThan(low);
      }),
    );
  });

  it("says so when the wanted opening needs no charge", () => {
    const body: ValveBody = {
      kind: "injection-operated",
      areaRatio: 0.1,
      springPressure: 800 * PA_PER_PSI,
    };
    expect(() => valveSet(body, psig(500), psig(0), fromDegF(150), AIR)).toThrow(InputError);
  });

  it.each([
    ["a seat as large as the bellows", () => areaRatio(0.31, 0.31)],
    ["a negative seat", () => areaRatio(-0.1, 0.31)],
    ["no bellows", () => areaRatio(0.1, 0)],
    [
      "a ratio of 1",
      () =>
        openingPressure(
          { kind: "injection-operated", areaRatio: 1, springPressure: 0 },
          psig(700),
          psig(0),
        ),
    ],
    [
      "a spring that pulls",
      () =>
        closingPressure(
          { kind: "injection-operated", areaRatio: 0.1, springPressure: -1 },
          absolutePa(1),
        ),
    ],
  ])("refuses %s", (_, act) => {
    expect(act).toThrow(InputError);
  });
});
