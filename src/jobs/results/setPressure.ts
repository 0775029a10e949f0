import { domeMethod, domePressure } from "../../calc/nitrogen.ts";
import { type AbsolutePa, absolutePa, kelvin, STANDARD_ATMOSPHERE } from "../../calc/units.ts";
import {
  areaRatio,
  domeForOpening,
  domeFromTestRack,
  TEST_RACK_TEMPERATURE,
  type ValveBody,
  type ValveState,
  valveMethod,
  valveSet,
  valveSetMethod,
  valveState,
} from "../../calc/valve.ts";
import { toSI } from "../quantity.ts";
import { type Context, measuredOr, recorded } from "./context.ts";
import { type Definitions, from, type Get, type Given, type Traced, trace } from "./traced.ts";

/**
 * The set sheet of the replacement: from the wanted opening at the mandrel to the test-rack figure,
 * and from the card back to what the valve will do. A valve without a bellows has none of it.
 */
export function hasBellows({ programme }: Context): boolean {
  const kind = programme.replacement?.kind;
  return kind !== "orifice" && kind !== "dummy";
}

function bodyGivens(context: Context): { bellows: Given; seat: Given; spring: Given } {
  const valve = context.programme.replacement;
  const where = valve ? `valve ${valve.serial}` : "replacement valve";
  const stated = recorded(
    context,
    "Ps",
    "Spring pressure effect",
    "pressure difference",
    valve?.springPressure,
    where,
  );
  const spring: Given =
    valve && !valve.springPressure
      ? {
          ...stated,
          si: 0,
          origin: { kind: "assumed", why: "no spring: none on the valve's record" },
        }
      : stated;
  return {
    bellows: recorded(context, "Ab", "Bellows area", "area", valve?.bellowsArea, where),
    seat: recorded(context, "As", "Seat seal area", "area", valve?.seatArea, where),
    spring,
  };
}

interface BodyValues {
  readonly bellows: number;
  readonly seat: number;
  readonly spring: number;
}

function body(context: Context, { bellows, seat, spring }: BodyValues): ValveBody {
  const kind = context.programme.replacement?.kind;
  return {
    kind: kind === "production-operated" ? kind : "injection-operated",
    areaRatio: areaRatio(seat, bellows),
    springPressure: spring,
  };
}

/** What the design asks for at the mandrel. */
function designGivens(context: Context) {
  const { job, replacement } = context.programme;
  const byProduction = replacement?.kind === "production-operated";
  return {
    ...bodyGivens(context),
    opening: recorded(
      context,
      "Po",
      "Opening pressure wanted at the mandrel",
      "pressure",
      job.design.openingAtMandrel,
      "job design",
    ),
    other: recorded(
      context,
      byProduction ? "Pi" : "Pt",
      `${byProduction ? "Injection" : "Tubing"} pressure at the mandrel when it opens`,
      "pressure",
      byProduction ? job.design.injectionAtMandrel : job.design.productionAtMandrel,
      "job design",
    ),
  };
}

/** The air in the shop, which the test rack's gauge counts from: not the air at the well. */
function shopAtmosphere({ programme }: Context): AbsolutePa {
  const stated = programme.replacement?.card?.atmosphere;
  return stated ? absolutePa(toSI("pressure", stated)) : STANDARD_ATMOSPHERE;
}

function shopGiven(context: Context): Given {
  const valve = context.programme.replacement;
  return {
    symbol: "patm",
    name: "Atmosphere in the shop",
    dimension: "absolute pressure",
    si: shopAtmosphere(context),
    origin: valve?.card?.atmosphere
      ? { kind: "record", where: `card of valve ${valve.serial}` }
      : { kind: "assumed", why: "standard atmosphere" },
  };
}

/** What the card says is counted from the air in the shop, also where it is read again at the well. */
function cardGiven(context: Context): Given {
  const { replacement } = context.programme;
  const shop = shopAtmosphere(context);
  const card = replacement?.card?.testRackOpening60F;
  const read = context.measured["card set pressure"];
  const onRecord: Given = {
    symbol: "Ptro",
    name: "Test-rack opening pressure on the card",
    dimension: "pressure",
    si: card && toSI("pressure", card, shop) - shop + context.atmosphere,
    origin: {
      kind: "record",
      where: replacement ? `card of valve ${replacement.serial}` : "replacement valve",
    },
  };
  return measuredOr(read, onRecord);
}

/** A gauge pressure counted at the site, as the same gauge reading counted in the shop; and back. */
const toShop = (context: Context, si: number) =>
  absolutePa(si - context.atmosphere + shopAtmosphere(context));
const fromShop = (context: Context, si: number) =>
  si - shopAtmosphere(context) + context.atmosphere;

/** What the valve does at the mandrel when it is set as its card says. */
function byItsCard(
  context: Context,
  get: Get,
  id: "replacement-opening" | "replacement-closing",
  label: string,
  pick: (state: ValveState) => number,
): Traced {
  return trace({
    id,
    label,
    dimension: "pressure",
    method: valveMethod,
    givens: {
      ...bodyGivens(context),
      card: cardGiven(context),
      other: designGivens(context).other,
      temperature: from("T", get("temperature-flowing")),
      shop: shopGiven(context),
    },
    work: (v) => {
      const valve = body(context, v);
      const dome60 = domeFromTestRack(valve, toShop(context, v.card), shopAtmosphere(context));
      const pressures = { injection: absolutePa(v.other), production: absolutePa(v.other) };
      const state = valveState(valve, dome60, kelvin(v.temperature), pressures);
      return { si: pick(state), warnings: state.warnings };
    },
  });
}

export const setPressureResults = {
  "dome-at-temperature": (context) =>
    trace({
      id: "dome-at-temperature",
      label: "Dome pressure at the valve's temperature",
      dimension: "pressure",
      method: valveMethod,
      givens: designGivens(context),
      work: (v) => ({
        si: domeForOpening(body(context, v), absolutePa(v.opening), absolutePa(v.other)),
      }),
    }),
  "dome-60": (_, get) =>
    trace({
      id: "dome-60",
      label: "Dome pressure at 60 °F",
      dimension: "pressure",
      method: domeMethod,
      givens: {
        dome: from("Pd", get("dome-at-temperature")),
        temperature: from("T", get("temperature-flowing")),
      },
      work: (v) => {
        const charge = domePressure(
          absolutePa(v.dome),
          kelvin(v.temperature),
          TEST_RACK_TEMPERATURE,
        );
        return { si: charge.pressure, warnings: charge.warnings };
      },
    }),
  "test-rack-needed": (context, get) =>
    trace({
      id: "test-rack-needed",
      label: "Test-rack opening pressure needed at 60 °F",
      dimension: "pressure",
      method: valveSetMethod,
      givens: {
        ...designGivens(context),
        temperature: from("T", get("temperature-flowing")),
        shop: shopGiven(context),
      },
      work: (v) => {
        const set = valveSet(
          body(context, v),
          absolutePa(v.opening),
          absolutePa(v.other),
          kelvin(v.temperature),
          shopAtmosphere(context),
        );
        // Shown as the shop's gauge reads it, although gauges here count from the site's air.
        return { si: fromShop(context, set.testRack), warnings: set.warnings };
      },
    }),
  "card-difference": (context, get) =>
    trace({
      id: "card-difference",
      label: "Card less what is needed",
      dimension: "pressure difference",
      method: {
        name: "Difference",
        formula: "card − needed",
        source: "arithmetic",
        validity: [],
      },
      givens: { card: cardGiven(context), needed: from("needed", get("test-rack-needed")) },
      work: (v) => ({ si: v.card - v.needed }),
    }),
  "replacement-opening": (context, get) =>
    byItsCard(
      context,
      get,
      "replacement-opening",
      "Replacement opens at the mandrel, by its card",
      (state) => state.opening,
    ),
  "replacement-closing": (context, get) =>
    byItsCard(
      context,
      get,
      "replacement-closing",
      "Replacement closes at the mandrel, by its card",
      (state) => state.closing,
    ),
} satisfies Definitions;
