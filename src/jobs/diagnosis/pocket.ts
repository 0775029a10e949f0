import { InputError } from "../../calc/inputError.ts";
import { domePressure } from "../../calc/nitrogen.ts";
import { circle } from "../../calc/seat.ts";
import { travelToFullPort } from "../../calc/throttledPassage.ts";
import { absolutePa, kelvin } from "../../calc/units.ts";
import { domeFromTestRack, TEST_RACK_TEMPERATURE, type ValveBody } from "../../calc/valve.ts";
import { toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel } from "../records/well.ts";
import type { Context } from "../results/context.ts";
import {
  bodyGivens,
  bodyOf,
  cardGiven,
  isBellows,
  shopAtmosphere,
  toShop,
} from "../results/valveGivens.ts";

/** A bellows as its card sets it, brought to its depth. */
export interface SetBellows {
  readonly operatedBy: "injection" | "production";
  readonly body: ValveBody;
  /** Pd at the temperature of the well on lift, absolute, Pa */
  readonly dome: number;
  /** of Pd at 60 degF, Pa for a Pa of the test-rack opening, and Pd for a Pa of that */
  readonly domePerRack: number;
  /** d ln Pd / dT, 1/K */
  readonly domePerKelvin: number;
  /** rise above the closing pressure to the full port, Pa, where the load rate gives it */
  readonly span: number | undefined;
  /** the closing pressure is a guess: there is no card */
  readonly isGuess: boolean;
  /** on the card, absolute, Pa */
  readonly rack: number | undefined;
}

/** A mandrel with what sits in it, as far as gas is concerned. */
export interface Pocket {
  readonly number: number;
  readonly alongHole: number;
  /** true vertical, m */
  readonly depth: number;
  /** on lift, K */
  readonly temperature: number;
  readonly holds: "bellows" | "orifice" | "blank" | "nothing";
  readonly bellows: SetBellows | undefined;
  /** Cd A of the port, m2; 0 of a dummy */
  readonly size: number;
  readonly serial: string | undefined;
}

/** Coefficient of a gas-lift port on its chart. */
const DISCHARGE_COEFFICIENT = 0.865;

/** Pressures of the planned lift at a mandrel, absolute, Pa. */
interface There {
  readonly injectionThere: number;
  readonly productionThere: number;
}

/** What a pocket holds, with its bellows brought to depth. */
export function contents(
  context: Context,
  { valve: id, pocketState, number }: Mandrel,
  valves: readonly Valve[],
  { temperature }: { readonly temperature: number },
  on: There,
  assumed: string[],
): Pick<Pocket, "holds" | "bellows" | "size" | "serial"> {
  const valve = pocketState === "empty" ? undefined : valves.find((each) => each.id === id);
  if (!valve) {
    assumed.push(`Mandrel ${number} is empty: gas passes its pocket.`);
    return {
      holds: "nothing",
      bellows: undefined,
      size: DISCHARGE_COEFFICIENT * circle(0.009),
      serial: undefined,
    };
  }
  const { serial } = valve;
  if (valve.kind === "dummy") return { holds: "blank", bellows: undefined, size: 0, serial };
  const bore = valve.port && toSI("diameter", valve.port);
  if (!bore) assumed.push(`Port of valve ${serial} is not on record: 3/16 in taken.`);
  const coefficient = valve.dischargeCoefficient?.value || DISCHARGE_COEFFICIENT;
  const port = circle(bore || 0.0047625);
  const choke = valve.choke && circle(toSI("diameter", valve.choke));
  // Two holes one after the other, to first order: their squares add like resistances.
  const size = Math.min(1, coefficient) * (choke ? 1 / Math.hypot(1 / port, 1 / choke) : port);
  if (!isBellows(valve)) return { holds: "orifice", bellows: undefined, size, serial };
  return {
    holds: "bellows",
    bellows: bellowsOf(context, valve, temperature, on, assumed),
    size,
    serial,
  };
}

function bellowsOf(
  context: Context,
  valve: Valve,
  temperature: number,
  { injectionThere, productionThere }: There,
  assumed: string[],
): SetBellows {
  const operatedBy = valve.kind === "production-operated" ? "production" : "injection";
  const givens = bodyGivens(context, valve);
  const card = cardGiven(context, valve).si;
  const { bellows, seat, spring } = givens;
  const guess = (why: string): SetBellows => {
    assumed.push(
      `Valve ${valve.serial}: ${why}. Its closing pressure is taken as the ${operatedBy} pressure there, give or take.`,
    );
    return {
      operatedBy,
      body: {
        kind: operatedBy === "injection" ? "injection-operated" : "production-operated",
        areaRatio: 0.1,
        springPressure: 0,
      },
      dome: operatedBy === "injection" ? injectionThere : productionThere,
      domePerRack: 1,
      domePerKelvin: 0.002,
      span: undefined,
      isGuess: true,
      rack: undefined,
    };
  };
  if (card === undefined) return guess("no test-rack opening on its card");
  if (bellows?.si === undefined || seat.si === undefined)
    return guess("bellows area or seat not on record");
  try {
    const body = bodyOf(valve, { bellows: bellows.si, seat: seat.si, spring: spring.si ?? 0 });
    const rack = toShop(context, valve, card);
    const shop = shopAtmosphere(valve);
    const at = (set: number, kelvins: number): number =>
      domePressure(
        domeFromTestRack(body, absolutePa(rack + set), shop),
        TEST_RACK_TEMPERATURE,
        kelvin(temperature + kelvins),
      ).pressure;
    const dome = at(0, 0);
    return {
      operatedBy,
      body,
      dome,
      domePerRack: (at(STEP, 0) - dome) / STEP,
      domePerKelvin: (at(0, 2) - at(0, -2)) / (4 * dome),
      span: spanOf(valve, seat.si),
      isGuess: false,
      rack,
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return guess(`its card does not go with its body (${error.key} must be ${error.allowed})`);
  }
}

const STEP = 50_000; // Pa

/** How far the bellows has to be pressed for the whole port, where load rate and ball are known. */
function spanOf(valve: Valve, seatArea: number): number | undefined {
  const { loadRate, ballDiameter, port } = valve;
  if (!loadRate || !ballDiameter || !port) return undefined;
  try {
    const travel = travelToFullPort({
      loadRate: toSI("load rate", loadRate),
      tipDiameter: toSI("diameter", ballDiameter),
      sealDiameter: Math.sqrt((4 * seatArea) / Math.PI),
      portDiameter: toSI("diameter", port),
      dischargeCoefficient: DISCHARGE_COEFFICIENT,
    });
    return travel * toSI("load rate", loadRate);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return undefined;
  }
}
