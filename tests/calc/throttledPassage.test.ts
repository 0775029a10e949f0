import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gasPassage, type PassageGas } from "../../src/calc/gasPassage.ts";
import { InputError } from "../../src/calc/inputError.ts";
import {
  equivalentPortArea,
  type StemAndSeat,
  throttledPassage,
  travelToFullPort,
} from "../../src/calc/throttledPassage.ts";
import {
  AIR_MOLAR_MASS,
  fromDegF,
  fromInches,
  fromPsig,
  M_PER_IN,
  PA_PER_PSI,
  STANDARD_ATMOSPHERE,
} from "../../src/calc/units.ts";
import { areaRatio, openingPressure, type ValveBody } from "../../src/calc/valve.ts";

const psig = (gauge: number) => fromPsig(gauge, STANDARD_ATMOSPHERE);
const gas: PassageGas = { molarMass: 0.65 * AIR_MOLAR_MASS, heatCapacityRatio: 1.26 };
const temperature = fromDegF(150);

/** A 1 1/2 in valve with a 1/4 in port; load rate and ball invented, the size of those met. */
const parts: StemAndSeat = {
  loadRate: (400 * PA_PER_PSI) / M_PER_IN,
  tipDiameter: fromInches(3 / 8),
  sealDiameter: fromInches(0.255),
  portDiameter: fromInches(0.25),
  dischargeCoefficient: 0.865,
};
const bore = (Math.PI * parts.portDiameter ** 2) / 4;
const body: ValveBody = {
  kind: "injection-operated",
  areaRatio: areaRatio((Math.PI / 4) * 0.255 ** 2, 0.77),
  springPressure: 0,
};
const dome = psig(800);
const passage = (injection: number, production: number, valve = body, stem = parts) =>
  throttledPassage(
    valve,
    stem,
    dome,
    { injection: psig(injection), production: psig(production) },
    temperature,
    gas,
  );

describe("area between ball and seat", () => {
  it("is the frustum's of a drawing with round numbers", () => {
    // Geometry: rb 5, rp 3, so the centre sits 4 above the seal line, 5 from it. Raised until it is 5.5 from it:
    // s = 0.5, rtf = 3 x 5/5.5, area π (3 + rtf) s, below that of the bore.
    const drawn = { ...parts, tipDiameter: 10, sealDiameter: 6, portDiameter: 6 };
    const travel = Math.sqrt(5.5 ** 2 - 9) - 4;
    expect(equivalentPortArea(drawn, travel)).toBeCloseTo(Math.PI * (3 + 15 / 5.5) * 0.5, 12);
  });

  it("is nothing at no travel and the bore from full travel on", () => {
    const full = travelToFullPort(parts);
    expect(equivalentPortArea(parts, 0)).toBe(0);
    expect(equivalentPortArea(parts, -1e-3)).toBe(0);
    expect(equivalentPortArea(parts, full * (1 - 1e-9)) / bore).toBeCloseTo(1, 8);
    expect(equivalentPortArea(parts, full * (1 - 1e-9))).toBeLessThan(bore);
    expect(equivalentPortArea(parts, full * 1.001)).toBe(bore);
    expect(equivalentPortArea(parts, 1)).toBe(bore);
  });

  it("grows with travel, and in proportion to it where the ball has just left", () => {
    // Geometry: dA/dx at 0 is 2 π rp cos of the seat angle, √(rb² - rp²) / rb.
    const rb = parts.tipDiameter / 2;
    const rp = parts.sealDiameter / 2;
    const slope = (2 * Math.PI * rp * Math.sqrt(rb ** 2 - rp ** 2)) / rb;
    expect(equivalentPortArea(parts, 1e-9) / 1e-9 / slope).toBeCloseTo(1, 6);
    const travel = fc.double({ min: 0, max: 0.01, noNaN: true });
    fc.assert(
      fc.property(travel, travel, (a, b) => {
        const [less, more] = a < b ? [a, b] : [b, a];
        expect(equivalentPortArea(parts, less)).toBeLessThanOrEqual(
          equivalentPortArea(parts, more),
        );
      }),
    );
  });

  it.each([
    ["load_rate", { ...parts, loadRate: 0 }],
    ["port_diameter", { ...parts, portDiameter: 0 }],
    ["seal_diameter", { ...parts, sealDiameter: fromInches(0.24) }],
    ["tip_diameter", { ...parts, tipDiameter: parts.sealDiameter }],
  ])("refuses parts whose %s does not fit", (key, wrong) => {
    expect(() => travelToFullPort(wrong)).toThrow(InputError);
    expect(() => travelToFullPort(wrong)).toThrow(key);
    expect(() => equivalentPortArea(wrong, 1e-3)).toThrow(key);
  });
});

describe("throttled flow through a bellows valve", () => {
  it("is closed, and passes nothing, up to the opening pressure", () => {
    const opening = openingPressure(body, dome, psig(500));
    for (const injection of [opening, opening - 1e5]) {
      const closed = throttledPassage(
        body,
        parts,
        dome,
        { injection: injection as typeof opening, production: psig(500) },
        temperature,
        gas,
      );
      expect(closed).toMatchObject({ travel: 0, area: 0, rate: 0, limitedBy: "closed" });
    }
  });

  it("opens by the pressure beyond the balance over the load rate", () => {
    // Statics, by hand: 850 (1 - R) + 600 R - 800 = 33.42 psi with R 0.06633; over 400 psi/in 0.08355 in.
    const r = body.areaRatio;
    const { travel } = passage(850, 600);
    expect(travel / M_PER_IN).toBeCloseTo((850 * (1 - r) + 600 * r - 800) / 400, 9);
    expect(travel / M_PER_IN).toBeCloseTo(0.08355, 5);
  });

  it("takes the spring's share as the force balance of the valve does", () => {
    const sprung = { ...body, springPressure: 20 * PA_PER_PSI };
    const change = passage(850, 600).travel - passage(850, 600, sprung).travel;
    expect(change / M_PER_IN).toBeCloseTo((20 * (1 - body.areaRatio)) / 400, 9);
  });

  it("passes what the full port passes once the stem is clear of it", () => {
    const open = passage(1000, 900);
    expect(open.limitedBy).toBe("port");
    expect(open.area).toBe(bore);
    const port = { area: bore, dischargeCoefficient: parts.dischargeCoefficient };
    expect(open.rate).toBe(gasPassage(psig(1000), psig(900), temperature, port, gas).rate);
  });

  it("passes in proportion to the area where the stem is the limit", () => {
    const throttled = passage(830, 600);
    expect(throttled.limitedBy).toBe("stem");
    const port = { area: bore, dischargeCoefficient: parts.dischargeCoefficient };
    const full = gasPassage(psig(830), psig(600), temperature, port, gas).rate;
    expect(throttled.rate / full).toBeCloseTo(throttled.area / bore, 12);
    expect(throttled.rate).toBeLessThan(full);
  });

  it("grows from nothing without a step, and joins the full port without one", () => {
    const opening = (800 - body.areaRatio * 600) / (1 - body.areaRatio);
    const just = passage(opening + 1e-6, 600);
    expect(just.limitedBy).toBe("stem");
    expect(just.rate).toBeLessThan(1e-6 * passage(1000, 600).rate);
    const full = opening + ((travelToFullPort(parts) / M_PER_IN) * 400) / (1 - body.areaRatio);
    const [before, after] = [passage(full - 1e-6, 600), passage(full + 1e-6, 600)];
    expect([before.limitedBy, after.limitedBy]).toEqual(["stem", "port"]);
    expect(before.rate / after.rate).toBeCloseTo(1, 6);
  });

  it("passes nothing, though open, where production stands at or above injection", () => {
    for (const production of [900, 1100]) {
      const none = passage(900, production);
      expect(none).toMatchObject({ rate: 0, limitedBy: "no drop", critical: false });
      expect(none.travel).toBeGreaterThan(0);
    }
    expect(passage(900, 900 - 1e-6).rate).toBeLessThan(1e-3 * passage(900, 600).rate);
  });

  it("production-operated is moved by production and fed by injection", () => {
    const operated: ValveBody = { ...body, kind: "production-operated" };
    const r = body.areaRatio;
    const state = passage(1200, 790, operated);
    expect(state.travel / M_PER_IN).toBeCloseTo((790 * (1 - r) + 1200 * r - 800) / 400, 9);
    const through = { area: state.area, dischargeCoefficient: parts.dischargeCoefficient };
    expect(state.rate).toBe(gasPassage(psig(1200), psig(790), temperature, through, gas).rate);
    expect(passage(1200, 700, operated).limitedBy).toBe("closed");
  });

  const gauge = fc.double({ min: 10, max: 2500, noNaN: true });
  const kind = fc.constantFrom("injection-operated" as const, "production-operated" as const);

  it("never passes more than the full port, and rises with injection pressure", () => {
    fc.assert(
      fc.property(kind, gauge, gauge, gauge, (operated, one, other, production) => {
        const valve = { ...body, kind: operated };
        const [low, high] = one < other ? [one, other] : [other, one];
        const [less, more] = [passage(low, production, valve), passage(high, production, valve)];
        expect(more.travel).toBeGreaterThanOrEqual(less.travel);
        expect(more.area).toBeGreaterThanOrEqual(less.area);
        expect(more.rate).toBeGreaterThanOrEqual(less.rate);
        if (high > production) {
          const port = { area: bore, dischargeCoefficient: parts.dischargeCoefficient };
          const full = gasPassage(psig(high), psig(production), temperature, port, gas).rate;
          expect(more.rate).toBeLessThanOrEqual(full);
        } else {
          expect(more.rate).toBe(0);
        }
      }),
    );
  });

  it("passes less the stiffer the bellows and the higher the charge", () => {
    fc.assert(
      fc.property(
        gauge,
        gauge,
        fc.double({ min: 1, max: 10, noNaN: true }),
        (injection, production, times) => {
          const stiffer = { ...parts, loadRate: parts.loadRate * times };
          const soft = passage(injection, production);
          expect(passage(injection, production, body, stiffer).rate).toBeLessThanOrEqual(soft.rate);
          const charged = throttledPassage(
            body,
            parts,
            psig(800 * times),
            { injection: psig(injection), production: psig(production) },
            temperature,
            gas,
          );
          expect(charged.rate).toBeLessThanOrEqual(soft.rate);
        },
      ),
    );
  });

  it("has a largest rate over production pressure: the stem below it, the drop above it", () => {
    // The shape of measured performance curves: a throttling branch that falls to nothing at the closing
    // pressure, see Hepguler, Schmidt, Blais and Doty, "Dynamic Model of Gas-Lift Valve Performance".
    const rates = [150, 300, 450, 600, 750, 840].map((production) => passage(845, production).rate);
    const largest = rates.indexOf(Math.max(...rates));
    expect(largest).toBeGreaterThan(0);
    expect(largest).toBeLessThan(rates.length - 1);
    expect(passage(845, 10).limitedBy).toBe("closed");
  });
});
