import { InputError, requireNumber } from "./inputError.ts";
import type { Method, Warning } from "./method.ts";
import { domeMethod, domePressure } from "./nitrogen.ts";
import { type AbsolutePa, absolutePa, fromDegF, type Kelvin } from "./units.ts";

/** Which pressure acts on the bellows; the other acts on the seat. */
export type ValveKind = "injection-operated" | "production-operated";

/** What does not change with depth. */
export interface ValveBody {
  readonly kind: ValveKind;
  /** R = seat seal area / bellows area, dimensionless, 0 <= R < 1 */
  readonly areaRatio: number;
  /** Ps, spring pressure effect as read on the tester with the port side open, Pa (a difference), 0 without a spring */
  readonly springPressure: number;
}

/** The temperature at which a valve is set in the shop. */
export const TEST_RACK_TEMPERATURE = fromDegF(60);

export const valveMethod: Method = {
  name: "Force balance of a bellows valve",
  formula:
    "opens at [Pd + Ps (1 − R) − R Pother] / (1 − R); closes at Pd + Ps (1 − R); on the test rack at 60 degF opens at (Pd60 − R patm) / (1 − R) + Ps; all absolute but Ps",
  source:
    "force balance of a single-element unbalanced bellows valve: statics; the form is that of the gas-lift literature (Winkler and Smith, 1962, from memory)",
  validity: [],
};

/** R from areas in the same unit. @throws InputError when the seat is not smaller than the bellows */
export function areaRatio(seatSealArea: number, bellowsArea: number): number {
  requireNumber("bellows_area", bellowsArea, "above 0", (a) => a > 0);
  requireNumber("port_area", seatSealArea, "0 or more", (a) => a >= 0);
  if (seatSealArea >= bellowsArea) {
    throw new InputError(
      "port_area",
      seatSealArea,
      `smaller than the bellows area (${bellowsArea})`,
    );
  }
  return seatSealArea / bellowsArea;
}

function requireBody(body: ValveBody): void {
  requireNumber("area_ratio", body.areaRatio, "0 or more and below 1", (r) => r >= 0 && r < 1);
  requireNumber("spring_pressure", body.springPressure, "0 or more", (p) => p >= 0);
}

/**
 * Pressure on the bellows that opens the valve from closed.
 *
 * @param dome  Pd, at the valve's temperature, absolute, Pa
 * @param other the pressure on the seat (production for an injection-operated valve), absolute, Pa
 * @returns absolute, Pa
 */
export function openingPressure(body: ValveBody, dome: AbsolutePa, other: AbsolutePa): AbsolutePa {
  requireBody(body);
  const r = body.areaRatio;
  return absolutePa((dome - r * other) / (1 - r) + body.springPressure);
}

/** Pressure on the bellows at which an open valve closes, absolute, Pa: both pressures are then the same at the port. */
export function closingPressure(body: ValveBody, dome: AbsolutePa): AbsolutePa {
  requireBody(body);
  return absolutePa(dome + body.springPressure * (1 - body.areaRatio));
}

/** Pd at the valve's temperature for a wanted opening pressure: openingPressure turned round. */
export function domeForOpening(
  body: ValveBody,
  opening: AbsolutePa,
  other: AbsolutePa,
): AbsolutePa {
  requireBody(body);
  const r = body.areaRatio;
  return absolutePa((opening - body.springPressure) * (1 - r) + r * other);
}

/** Opening pressure on the test rack at 60 degF, port side open to the air, absolute, Pa. */
export function testRackOpening(
  body: ValveBody,
  dome60: AbsolutePa,
  atmosphere: AbsolutePa,
): AbsolutePa {
  return openingPressure(body, dome60, atmosphere);
}

/** Pd at 60 degF from what the test rack read: testRackOpening turned round. */
export function domeFromTestRack(
  body: ValveBody,
  opening: AbsolutePa,
  atmosphere: AbsolutePa,
): AbsolutePa {
  return domeForOpening(body, opening, atmosphere);
}

export interface ValveState {
  /** Pd at the valve's temperature, absolute, Pa */
  readonly dome: AbsolutePa;
  /** of the pressure on the bellows, absolute, Pa */
  readonly opening: AbsolutePa;
  readonly closing: AbsolutePa;
  /** opening less closing, Pa */
  readonly spread: number;
  /** R / (1 - R), dimensionless: how far the opening pressure falls for each unit of the other pressure */
  readonly effectFactor: number;
  /** whether the acting pressure reaches the opening pressure, starting closed */
  readonly opens: boolean;
  readonly warnings: readonly Warning[];
}

/** Pressures that stand at the valve, absolute, Pa. */
export interface PressuresAtValve {
  readonly injection: AbsolutePa;
  readonly production: AbsolutePa;
}

/** The pressure on the bellows and the one on the seat, by the kind of valve. */
export function actingPressures(
  kind: ValveKind,
  { injection, production }: PressuresAtValve,
): { readonly acting: AbsolutePa; readonly other: AbsolutePa } {
  return kind === "injection-operated"
    ? { acting: injection, other: production }
    : { acting: production, other: injection };
}

/**
 * What a charged valve does at depth.
 *
 * @param body        kind, R, Ps
 * @param dome60      charge at 60 degF, absolute, Pa
 * @param temperature at the valve, K
 * @param pressures   at the valve
 * @throws InputError for an impossible body or a temperature outside the nitrogen equation
 * Source: valveMethod; the charge follows nitrogen at constant volume (domeMethod). R is taken as
 * constant; measured R grows with pressure and wear (Decker, SPE 186110), which the tolerance has to carry.
 */
export function valveState(
  body: ValveBody,
  dome60: AbsolutePa,
  temperature: Kelvin,
  pressures: PressuresAtValve,
): ValveState {
  const { acting, other } = actingPressures(body.kind, pressures);
  const charge = domePressure(dome60, TEST_RACK_TEMPERATURE, temperature);
  const opening = openingPressure(body, charge.pressure, other);
  const closing = closingPressure(body, charge.pressure);
  return {
    dome: charge.pressure,
    opening,
    closing,
    spread: opening - closing,
    effectFactor: body.areaRatio / (1 - body.areaRatio),
    opens: acting >= opening,
    warnings:
      opening > 0
        ? charge.warnings
        : [
            ...charge.warnings,
            {
              kind: "note",
              text: "the pressure on the seat alone holds the valve open: no pressure on the bellows is low enough to be its opening pressure",
            },
          ],
  };
}

export interface ValveSet {
  /** Pd at the valve's temperature, absolute, Pa */
  readonly dome: AbsolutePa;
  /** Pd at 60 degF, absolute, Pa */
  readonly dome60: AbsolutePa;
  /** opening pressure on the test rack at 60 degF, absolute, Pa */
  readonly testRack: AbsolutePa;
  readonly warnings: readonly Warning[];
}

/**
 * How a valve has to be set in the shop to open at a wanted pressure in the well.
 *
 * @param opening     wanted at depth, of the pressure on the bellows, absolute, Pa
 * @param other       the pressure on the seat at that moment, absolute, Pa
 * @param temperature at the valve, K
 * @param atmosphere  of the shop, absolute, Pa
 * @throws InputError when the wanted opening needs no charge at all, or an impossible body
 * Source: as valveState.
 */
export function valveSet(
  body: ValveBody,
  opening: AbsolutePa,
  other: AbsolutePa,
  temperature: Kelvin,
  atmosphere: AbsolutePa,
): ValveSet {
  const dome = domeForOpening(body, opening, other);
  if (dome <= atmosphere) {
    throw new InputError(
      "opening_pressure",
      opening,
      "high enough to need a charge: with this spring and this pressure on the seat the dome would be at or below atmosphere",
    );
  }
  const charge = domePressure(dome, temperature, TEST_RACK_TEMPERATURE);
  return {
    dome,
    dome60: charge.pressure,
    testRack: testRackOpening(body, charge.pressure, atmosphere),
    warnings: charge.warnings,
  };
}

export const valveSetMethod: Method = {
  name: "Set pressure of a bellows valve",
  formula:
    "Pd = (Popen − Ps)(1 − R) + R Pother at the valve's temperature; the nitrogen charge brought to 60 degF; Ptro = (Pd60 − R patm) / (1 − R) + Ps; all absolute but Ps",
  source: `${valveMethod.source}; ${domeMethod.source}`,
  validity: domeMethod.validity,
};

export interface SpringSet {
  /** in the bellows at the valve's temperature, absolute, Pa */
  readonly dome: AbsolutePa;
  /** Ps that the spring has to give, Pa */
  readonly springPressure: number;
  /** opening pressure on the test rack at 60 degF, absolute, Pa */
  readonly testRack: AbsolutePa;
  readonly warnings: readonly Warning[];
}

export const springSetMethod: Method = {
  name: "Set pressure of a valve held by its spring alone",
  formula:
    "Ps = Popen − (Pd − R Pother) / (1 − R), Pd the air of the shop at 60 degF brought to the valve's temperature; Ptro = Ps + the air of the shop",
  source: `${valveMethod.source}; the bellows is taken to hold the shop's air, as nitrogen (common practice; it is some 15 psi)`,
  validity: domeMethod.validity,
};

/**
 * How the spring of a valve without a charge has to be set to open at a wanted pressure in the well.
 *
 * @param body        kind and R; its spring pressure is what is asked for, and is not used
 * @param opening     wanted at depth, of the pressure on the bellows, absolute, Pa
 * @param other       the pressure on the seat at that moment, absolute, Pa
 * @param temperature at the valve, K
 * @param atmosphere  of the shop, absolute, Pa
 * @throws InputError when the pressure on the seat alone opens it at less than no spring at all
 * Source: springSetMethod. Temperature hardly moves such a valve: there is next to no gas in it.
 */
export function springSet(
  body: Omit<ValveBody, "springPressure">,
  opening: AbsolutePa,
  other: AbsolutePa,
  temperature: Kelvin,
  atmosphere: AbsolutePa,
): SpringSet {
  const inside = domePressure(atmosphere, TEST_RACK_TEMPERATURE, temperature);
  const bare = openingPressure({ ...body, springPressure: 0 }, inside.pressure, other);
  const springPressure = opening - bare;
  if (springPressure < 0) {
    throw new InputError("opening_pressure", opening, "high enough to need a spring");
  }
  return {
    dome: inside.pressure,
    springPressure,
    testRack: testRackOpening({ ...body, springPressure }, atmosphere, atmosphere),
    warnings: inside.warnings,
  };
}
