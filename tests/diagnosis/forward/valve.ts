import { chargeAt } from "./nitrogen.ts";
import { fromFahrenheit } from "./units.ts";

/**
 * A valve in its pocket: the force on its stem written out, a stem that follows the force in time, and the gas that passes.
 * Pressures Pa absolute, lengths m, areas m2.
 */
export interface ValveTruth {
  readonly kind: "injection-operated" | "production-operated" | "orifice" | "dummy";
  readonly port: number;
  /** area of the seal on the seat over that of the bellows */
  readonly ratio: number;
  /** charge at 60 degF; 0 without one */
  readonly charge60: number;
  /** what a spring adds on the bellows, as a pressure */
  readonly spring: number;
  /** rise of pressure on the bellows for a metre of travel, Pa/m */
  readonly loadRate: number;
  readonly dischargeCoefficient: number;
  /** share of the port that stays open whatever the stem does: 0 tight, 1 held open */
  readonly heldOpen: number;
  /** share of the port that is left: 1 clear, 0 blocked */
  readonly clear: number;
  /** area that passes beside the valve, through latch or packing */
  readonly beside: number;
}

/** stem travel up to which the pressure under the ball changes over from downstream to upstream */
const CHANGES_OVER = 0.00025;
const STEM_TIME = 12;

/** Pressure that holds the stem shut, at the valve's temperature. */
export function closingForce(valve: ValveTruth, temperature: number): number {
  const charge = valve.charge60 > 0 ? chargeAt(valve.charge60, fromFahrenheit(60), temperature) : 0;
  return charge + valve.spring * (1 - valve.ratio);
}

/**
 * Where the stem wants to be, and how far it gets there in a step:
 *
 *   on the bellows  p_act (1 - R) + p_under R - p_close = load rate × travel
 *
 * p_under goes from the pressure beyond the seat (shut) to the acting pressure (open) as the ball lifts off, which
 * makes the snap and the spread between opening and closing.
 */
export function moveStem(
  valve: ValveTruth,
  closing: number,
  travel: number,
  casing: number,
  tubing: number,
  step: number,
): number {
  const acting = valve.kind === "production-operated" ? tubing : casing;
  const other = valve.kind === "production-operated" ? casing : tubing;
  const under = other + (acting - other) * Math.min(1, travel / CHANGES_OVER);
  const force = acting * (1 - valve.ratio) + under * valve.ratio - closing;
  const wanted = Math.max(0, Math.min(valve.port / 2, force / valve.loadRate));
  return travel + (wanted - travel) * (1 - Math.exp(-step / STEM_TIME));
}

/** Open area at a travel: the ring between ball and seat, at most the bore. */
export function openArea(valve: ValveTruth, travel: number): number {
  if (valve.kind === "dummy") return valve.beside;
  const bore = (Math.PI / 4) * valve.port ** 2;
  const byStem =
    valve.kind === "orifice" ? bore : Math.min(bore, Math.PI * valve.port * travel * 0.8);
  return bore * Math.max(valve.heldOpen, byStem / bore) * valve.clear + valve.beside;
}

/** cp/cv of a light natural gas, and the pressure drop ratio at which a short nozzle chokes */
const HEAT_RATIO = 1.27;
const CHOKES_AT = 0.64;
/** what makes the choked flow that of a discharge coefficient as the trade defines it (isentropic nozzle): 0.6618/0.7184 */
const SAME_WHEN_CHOKED = 0.9212;

/**
 * Mass of gas through an area, kg/s, by the expansion factor of IEC 60534-2-1 (2011), section 7:
 *
 *   m = C A Y sqrt(2 x p1 rho1),  Y = 1 - x/(3 Fk xT),  x at most Fk xT,  Fk = k/1.4
 */
export function gasThrough(
  area: number,
  coefficient: number,
  upstream: number,
  downstream: number,
  density: number,
): number {
  if (upstream <= downstream) return 0;
  const most = (HEAT_RATIO / 1.4) * CHOKES_AT;
  const x = Math.min((upstream - downstream) / upstream, most);
  return (
    SAME_WHEN_CHOKED *
    coefficient *
    area *
    (1 - x / (3 * most)) *
    Math.sqrt(2 * x * upstream * density)
  );
}

/** Volume of liquid through an area, m3/s, by Torricelli. */
export function liquidThrough(area: number, over: number, density: number): number {
  return over <= 0 ? 0 : 0.62 * area * Math.sqrt((2 * over) / density);
}
