import { domeMethod, domePressure } from "../../calc/nitrogen.ts";
import { chartFactor, chartFactorMethod } from "../../calc/nitrogenCorrection.ts";
import { seatMethod } from "../../calc/seat.ts";
import { absolutePa, kelvin } from "../../calc/units.ts";
import {
  areaRatio,
  domeForOpening,
  domeFromTestRack,
  TEST_RACK_TEMPERATURE,
  type ValveState,
  valveSet,
  valveSetMethod,
  valveState,
} from "../../calc/valve.ts";
import { type Context, productionSide, recorded } from "./context.ts";
import { byItsSpring, springRack, springSetResult } from "./springSetResults.ts";
import { type Definitions, from, type Get, type Traced, trace } from "./traced.ts";
import {
  balance,
  bodyGivens,
  bodyOf,
  cardGiven,
  fromShop,
  isBellows,
  OPENS,
  SHUTS,
  shopAtmosphere,
  shopGiven,
  toShop,
} from "./valveGivens.ts";

/**
 * The set sheet of the replacement: from the wanted opening at the mandrel to the test-rack figure,
 * and from the card back to what the valve will do. A valve without a bellows has none of it.
 */
export function hasBellows({ programme: { replacement } }: Context): boolean {
  return !replacement || isBellows(replacement);
}

const replacementOf = ({ programme }: Context) => programme.replacement;

/** What the design asks for at the mandrel. */
function designGivens(context: Context) {
  const { job, replacement } = context.programme;
  const byProduction = replacement?.kind === "production-operated";
  const side = productionSide(context.programme);
  return {
    ...bodyGivens(context, replacement),
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
      `${byProduction ? "Injection" : side === "tubing" ? "Tubing" : "Annulus"} pressure at the mandrel when it opens`,
      "pressure",
      byProduction ? job.design.injectionAtMandrel : job.design.productionAtMandrel,
      "job design",
    ),
  };
}

/** What the valve does at the mandrel when it is set as its card says. */
function byItsCard(
  context: Context,
  get: Get,
  id: "replacement-opening" | "replacement-closing",
  label: string,
  formula: string,
  pick: (state: ValveState) => number,
): Traced {
  const valve = replacementOf(context);
  return trace({
    id,
    label,
    dimension: "pressure",
    method: balance(formula),
    givens: {
      ...bodyGivens(context, valve),
      card: cardGiven(context, replacementOf(context)),
      other: designGivens(context).other,
      temperature: from("T", get("temperature-flowing")),
      shop: shopGiven(valve),
    },
    work: (v) => {
      const body = bodyOf(valve, v);
      const dome60 = domeFromTestRack(body, toShop(context, valve, v.card), shopAtmosphere(valve));
      const pressures = { injection: absolutePa(v.other), production: absolutePa(v.other) };
      const state = valveState(body, dome60, kelvin(v.temperature), pressures);
      return { si: pick(state), warnings: state.warnings };
    },
  });
}

export const setPressureResults = {
  "area-ratio": (context) => {
    const { bellows, seat } = bodyGivens(context, replacementOf(context));
    return trace({
      id: "area-ratio",
      label: "Area ratio R of the replacement",
      dimension: "area ratio",
      method: {
        name: "Area ratio of the valve",
        formula: `R = As / Ab; ${seatMethod.formula}`,
        source: seatMethod.source,
        validity: [],
      },
      givens: { bellows, seat },
      work: (v) => ({ si: areaRatio(v.seat, v.bellows) }),
    });
  },
  "dome-at-temperature": (context, get) => {
    const label = "Dome pressure at the valve's temperature";
    if (byItsSpring(context)) {
      const design = designGivens(context);
      return springSetResult(context, get, "dome-at-temperature", label, design, (set) => set.dome);
    }
    return trace({
      id: "dome-at-temperature",
      label,
      dimension: "pressure",
      method: balance("Pd = (Po − Ps)(1 − R) + R Pother, R = As/Ab"),
      givens: designGivens(context),
      work: (v) => ({
        si: domeForOpening(
          bodyOf(replacementOf(context), v),
          absolutePa(v.opening),
          absolutePa(v.other),
        ),
      }),
    });
  },
  "dome-60": ({ atmosphere }, get) =>
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
        return {
          si: charge.pressure,
          warnings: charge.warnings,
          beside: () => [
            {
              label: chartFactorMethod.name,
              si: atmosphere + chartFactor(kelvin(v.temperature)) * (v.dome - atmosphere),
              formula: chartFactorMethod.formula,
              source: chartFactorMethod.source,
            },
          ],
        };
      },
    }),
  "test-rack-needed": (context, get) => {
    const valve = replacementOf(context);
    const label = "Test-rack opening pressure needed at 60 °F";
    if (byItsSpring(context)) {
      const design = designGivens(context);
      return springSetResult(context, get, "test-rack-needed", label, design, springRack(context));
    }
    return trace({
      id: "test-rack-needed",
      label,
      dimension: "pressure",
      method: valveSetMethod,
      givens: {
        ...designGivens(context),
        temperature: from("T", get("temperature-flowing")),
        shop: shopGiven(valve),
      },
      work: (v) => {
        const set = valveSet(
          bodyOf(valve, v),
          absolutePa(v.opening),
          absolutePa(v.other),
          kelvin(v.temperature),
          shopAtmosphere(valve),
        );
        // Shown as the shop's gauge reads it, although gauges here count from the site's air.
        return { si: fromShop(context, valve, set.testRack), warnings: set.warnings };
      },
    });
  },
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
      givens: {
        card: cardGiven(context, replacementOf(context)),
        needed: from("needed", get("test-rack-needed")),
      },
      work: (v) => ({ si: v.card - v.needed }),
    }),
  "effect-factor": (_, get) =>
    trace({
      id: "effect-factor",
      label: "Effect factor of the pressure on the seat",
      dimension: "area ratio",
      method: balance("R / (1 − R): how far the opening falls for each psi more on the seat"),
      givens: { ratio: from("R", get("area-ratio")) },
      work: (v) => ({ si: v.ratio / (1 - v.ratio) }),
    }),
  "replacement-spread": (_, get) =>
    trace({
      id: "replacement-spread",
      label: "Spread of the replacement, opening less closing",
      dimension: "pressure difference",
      method: balance("Po − Pc"),
      givens: {
        opening: from("Po", get("replacement-opening")),
        closing: from("Pc", get("replacement-closing")),
      },
      work: (v) => ({ si: v.opening - v.closing }),
    }),
  "replacement-opening": (context, get) =>
    byItsCard(
      context,
      get,
      "replacement-opening",
      "Replacement opens at the mandrel, by its card",
      `Pd60 = (Ptro − Ps)(1 − R), brought to T; ${OPENS}`,
      (state) => state.opening,
    ),
  "replacement-closing": (context, get) =>
    byItsCard(
      context,
      get,
      "replacement-closing",
      "Replacement closes at the mandrel, by its card",
      `Pd60 = (Ptro − Ps)(1 − R), brought to T; ${SHUTS}`,
      (state) => state.closing,
    ),
} satisfies Definitions;
