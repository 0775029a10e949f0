import { gasPassage, gasPassageMethod, type PassageGas } from "./gasPassage.ts";
import { requireNumber } from "./inputError.ts";
import type { Method, Warning } from "./method.ts";
import type { AbsolutePa, Kelvin } from "./units.ts";
import {
  actingPressures,
  openingPressure,
  type PressuresAtValve,
  type ValveBody,
} from "./valve.ts";

export const throttledPassageMethod: Method = {
  name: "Throttled flow through a bellows valve by stem travel",
  formula:
    "x = [p (1 − R) + R pother − Pd − Ps (1 − R)] / Blr; D = √(rp² + (√(rb² − rp²) + x)²), rtf = rp rb / D, s = D − rb; Ape = π (rp + rtf) s, at most the area of the bore; gas through Ape by the Thornhill-Craver form",
  source: `simplified mathematical gas lift performance model, PetroWiki (SPE): its steps, limits and nomenclature; the stem travel written out from statics, the frustum from geometry, as the printed equations were not at hand; ${gasPassageMethod.source}`,
  validity: gasPassageMethod.validity,
};

/** The moving parts of a bellows valve with a ball on a sharp-edged seat. */
export interface StemAndSeat {
  /** Blr, bellows-assembly load rate: pressure over the whole bellows for a unit of stem travel, Pa/m */
  readonly loadRate: number;
  /** 2 rb, of the ball on the stem, m */
  readonly tipDiameter: number;
  /** 2 rp, of the line on which ball and seat touch, m */
  readonly sealDiameter: number;
  /** of the bore, m, at most the seal's */
  readonly portDiameter: number;
  /** Cd of the port, dimensionless, above 0, at most 1 */
  readonly dischargeCoefficient: number;
}

function requireStemAndSeat(parts: StemAndSeat): void {
  requireNumber("load_rate", parts.loadRate, "above 0", (b) => b > 0);
  requireNumber("port_diameter", parts.portDiameter, "above 0", (d) => d > 0);
  requireNumber(
    "seal_diameter",
    parts.sealDiameter,
    "at least the port's",
    (d) => d >= parts.portDiameter,
  );
  requireNumber(
    "tip_diameter",
    parts.tipDiameter,
    "larger than the seal's, or it goes through the seat",
    (d) => d > parts.sealDiameter,
  );
}

/** Area of the bore, m2: no more is ever open to flow. */
const portArea = ({ portDiameter }: StemAndSeat): number => (Math.PI * portDiameter ** 2) / 4;

/** How far the centre of a seated ball stands above the seal line, m. */
const seatedHeight = (rb: number, rp: number): number => Math.sqrt((rb - rp) * (rb + rp));

/**
 * Area open to gas between ball and seat: the lateral area of the frustum of a right circular cone
 * whose sides stand at right angles to the ball.
 *
 *   Ape = π (rp + rtf) s = π rp (D² - rb²) / D
 *
 * D is the distance from the seal line to the centre of the ball, s = D - rb the frustum's slant height, rtf = rp rb / D
 * its radius at the ball, rb and rp the radii of ball and seal line.
 *
 * @param travel x, of the stem from where the ball sits, m
 * @returns m2, at most the bore's; 0 at 0 or less travel
 * @throws InputError for parts that do not fit together
 * Source: geometry; names and limit from PetroWiki, see throttledPassageMethod. PetroWiki limits it to the area
 * inside the seal line; the bore's, which is what the full port passes, is smaller by 5 percent on a 3/16 in port.
 */
export function equivalentPortArea(parts: StemAndSeat, travel: number): number {
  requireStemAndSeat(parts);
  requireNumber("travel", travel, "a finite length");
  if (travel <= 0) return 0;
  const rb = parts.tipDiameter / 2;
  const rp = parts.sealDiameter / 2;
  const seated = seatedHeight(rb, rp);
  // D² - rb² in the form that has no difference of nearly equal squares in it.
  const gap = travel * (2 * seated + travel);
  return Math.min((Math.PI * rp * gap) / Math.hypot(rp, seated + travel), portArea(parts));
}

/**
 * Stem travel at which the frustum is as large as the bore.
 *
 * @returns m: equivalentPortArea turned round
 * @throws InputError for parts that do not fit together
 * Source: geometry.
 */
export function travelToFullPort(parts: StemAndSeat): number {
  requireStemAndSeat(parts);
  const rb = parts.tipDiameter / 2;
  const rp = parts.sealDiameter / 2;
  const c = portArea(parts) / (Math.PI * rp);
  const distance = (c + Math.sqrt(c * c + 4 * rb * rb)) / 2;
  return seatedHeight(distance, rp) - seatedHeight(rb, rp);
}

/** What holds the rate where it is: nothing flows in the first two. */
export type PassageLimit = "closed" | "no drop" | "stem" | "port";

export interface ThrottledPassage {
  /** of the stem, m, 0 when closed */
  readonly travel: number;
  /** travel from which on the port is the limit, m */
  readonly travelToFullPort: number;
  /** Ape, m2, at most the bore's */
  readonly area: number;
  /** mol/s, 0 or more, at most what the full port passes */
  readonly rate: number;
  readonly limitedBy: PassageLimit;
  /** whether a lower production pressure would leave the flow through this area as it is */
  readonly critical: boolean;
  readonly warnings: readonly Warning[];
}

/**
 * Gas that passes a bellows valve whose stem floats between closed and open.
 *
 *   x = [p (1 - R) + R pother - Pd - Ps (1 - R)] / Blr = (1 - R)(p - popen) / Blr
 *
 * p acts on the bellows, pother on the seat (see valve.ts); gas goes from injection to production whatever
 * kind the valve is of.
 *
 * @param body        kind, R, Ps; R may be the measured one, which can exceed that of the seal diameter
 * @param parts       load rate, ball, seal, bore, Cd
 * @param dome        Pd at the valve's temperature, stem down, absolute, Pa: its rise with travel is in the load rate
 * @param pressures   at the valve
 * @param temperature of the injection gas at the valve, K
 * @returns rate 0 and `closed` where the balance leaves no travel, 0 and `no drop` where production stands at or
 *          above injection
 * @throws InputError for parts that do not fit together, an impossible body, or as gasPassage
 * The pressure under the ball is taken as production pressure however far it is open, and a straight load rate.
 * The rate grows from 0 without a step as the valve opens. It rises with injection pressure. Of an injection-operated
 * valve it has a largest value over production pressure: below it less of the port is open, above it the drop is less.
 * Source: see throttledPassageMethod.
 */
export function throttledPassage(
  body: ValveBody,
  parts: StemAndSeat,
  dome: AbsolutePa,
  pressures: PressuresAtValve,
  temperature: Kelvin,
  gas: PassageGas,
): ThrottledPassage {
  const { injection, production } = pressures;
  for (const [key, pressure] of Object.entries({ dome, injection, production })) {
    requireNumber(`${key}_pressure`, pressure, "above 0", (p) => p > 0);
  }
  const fullTravel = travelToFullPort(parts);
  const { acting, other } = actingPressures(body.kind, pressures);
  const beyondOpening = acting - openingPressure(body, dome, other);
  const travel = Math.max(0, ((1 - body.areaRatio) * beyondOpening) / parts.loadRate);
  const area = equivalentPortArea(parts, travel);
  const still = { travel, travelToFullPort: fullTravel, area, rate: 0, critical: false };
  if (travel === 0) return { ...still, limitedBy: "closed", warnings: [] };
  if (production >= injection) return { ...still, limitedBy: "no drop", warnings: [] };
  const passage = gasPassage(
    injection,
    production,
    temperature,
    { area, dischargeCoefficient: parts.dischargeCoefficient },
    gas,
  );
  return {
    ...still,
    rate: passage.rate,
    critical: passage.critical,
    limitedBy: travel < fullTravel ? "stem" : "port",
    warnings: passage.warnings,
  };
}
