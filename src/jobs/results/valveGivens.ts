import type { Method } from "../../calc/method.ts";
import { type Seat, seatSealArea } from "../../calc/seat.ts";
import { type AbsolutePa, absolutePa, STANDARD_ATMOSPHERE } from "../../calc/units.ts";
import { areaRatio, type ValveBody, valveMethod } from "../../calc/valve.ts";
import { toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import { type Context, measuredOr, part, policyGiven, recorded } from "./context.ts";
import type { Given } from "./traced.ts";

/** What a valve's record says of it, as givens of a calculation. */

/** Whether a valve has a bellows, and so a charge, an opening and a closing pressure. */
export const isBellows = (valve: Valve | undefined): boolean =>
  valve?.kind === "injection-operated" || valve?.kind === "production-operated";

const whereOf = (valve: Valve | undefined) =>
  valve ? `valve ${valve.serial}` : "replacement valve";

/** Bellows area, seat seal area and spring. */
export function bodyGivens(context: Context, valve: Valve | undefined) {
  const where = whereOf(valve);
  return {
    bellows: recorded(context, "Ab", "Bellows area", "area", valve?.bellowsArea, where),
    seat: seatGiven(context, valve),
    spring: springGiven(context, valve),
  };
}

/** A valve without a charge opens on the test rack by its spring alone: its card is its spring. */
function springGiven(context: Context, valve: Valve | undefined): Given {
  const where = whereOf(valve);
  const stated = recorded(
    context,
    "Ps",
    "Spring pressure effect",
    "pressure difference",
    valve?.springPressure,
    where,
  );
  if (valve?.charge === "none") {
    const card = cardGiven(context, valve);
    return {
      ...stated,
      si: card.si === undefined ? undefined : card.si - context.atmosphere,
      origin: {
        kind: "record",
        where: `card of valve ${valve.serial}: no charge, the spring alone`,
      },
      needs: [card.name],
    };
  }
  return valve && !valve.springPressure
    ? {
        ...stated,
        si: 0,
        origin: { kind: "assumed", why: "no spring: none on the valve's record" },
      }
    : stated;
}

/** The stated seal area, or the one that port and seat give. */
function seatGiven(context: Context, valve: Valve | undefined): Given {
  const where = whereOf(valve);
  const stated = recorded(context, "As", "Seat seal area", "area", valve?.seatArea, where);
  const seat = valve && seatOf(valve);
  if (stated.si !== undefined || !seat) return stated;
  const how =
    seat.kind === "sharp-edged"
      ? "from the port, sharp-edged: bore + 0.005 in (from memory)"
      : "from the seal diameter of the lapped seat";
  const area = part("Seat seal area", () => seatSealArea(seat));
  return {
    ...stated,
    ...(area.ok ? { si: area.value } : { needs: [area.missing] }),
    origin: { kind: "record", where: `${where}, ${how}` },
  };
}

function seatOf({ port, seat, sealDiameter }: Valve): Seat | undefined {
  if (!port || !seat) return undefined;
  const bore = toSI("diameter", port);
  if (seat === "sharp-edged") return { kind: seat, bore };
  return sealDiameter && { kind: seat, bore, sealDiameter: toSI("diameter", sealDiameter) };
}

/** The force balance, told for one of its figures. */
export const balance = (formula: string): Method => ({ ...valveMethod, formula });
export const OPENS = "Po = (Pd − R Pother) / (1 − R) + Ps, R = As/Ab";
export const SHUTS = "Pc = Pd + Ps (1 − R), R = As/Ab";

interface BodyValues {
  readonly bellows: number;
  readonly seat: number;
  readonly spring: number;
}

export function bodyOf(valve: Valve | undefined, { bellows, seat, spring }: BodyValues): ValveBody {
  return {
    kind: valve?.kind === "production-operated" ? valve.kind : "injection-operated",
    areaRatio: areaRatio(seat, bellows),
    springPressure: spring,
  };
}

/** The air in the shop, which the test rack's gauge counts from: not the air at the well. */
export function shopAtmosphere(valve: Valve | undefined): AbsolutePa {
  const stated = valve?.card?.atmosphere;
  return stated ? absolutePa(toSI("pressure", stated)) : STANDARD_ATMOSPHERE;
}

export function shopGiven(valve: Valve | undefined): Given {
  return {
    symbol: "patm",
    name: "Atmosphere in the shop",
    dimension: "absolute pressure",
    si: shopAtmosphere(valve),
    origin: valve?.card?.atmosphere
      ? { kind: "record", where: `card of valve ${valve.serial}` }
      : { kind: "assumed", why: "standard atmosphere" },
  };
}

/** How far set pressure and temperature may be off, and the air that the shop set the valve in. */
export function bandGivens(context: Context, valve: Valve | undefined) {
  return {
    setTolerance: policyGiven(
      context,
      "a",
      "Set pressure may differ by",
      "pressure difference",
      "setPressureTolerance",
    ),
    uncertainty: policyGiven(
      context,
      "u",
      "Temperature may differ by",
      "temperature difference",
      "temperatureUncertainty",
    ),
    shop: shopGiven(valve),
  };
}

/** What the card says, as read again on location where that was done; counted from the air in the shop. */
export function cardGiven(context: Context, valve: Valve | undefined): Given {
  const { atmosphere, programme, measured, scenario } = context;
  const read = valve && scenario.cards?.[valve.id];
  const shop = shopAtmosphere(valve);
  const card = valve?.card?.testRackOpening60F;
  const onRecord: Given = {
    symbol: "Ptro",
    name: "Test-rack opening pressure on the card",
    dimension: "pressure",
    si: card && toSI("pressure", card, shop) - shop + atmosphere,
    origin: read
      ? { kind: "measured", ...read }
      : {
          kind: "record",
          where: valve ? `card of valve ${valve.serial}` : "replacement valve",
        },
  };
  return valve === programme.replacement
    ? measuredOr(measured["card set pressure"], onRecord)
    : onRecord;
}

/** A gauge pressure counted at the site, as the same gauge reading counted in the shop; and back. */
export const toShop = ({ atmosphere }: Context, valve: Valve | undefined, si: number) =>
  absolutePa(si - atmosphere + shopAtmosphere(valve));
export const fromShop = ({ atmosphere }: Context, valve: Valve | undefined, si: number) =>
  si - shopAtmosphere(valve) + atmosphere;
