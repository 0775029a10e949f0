import { domeMethod, domePressure } from "../../calc/nitrogen.ts";
import { openingBand, openingBandMethod, sampledOpeningBand } from "../../calc/openingBand.ts";
import { pseudoRandom } from "../../calc/pseudoRandom.ts";
import { absolutePa, kelvin } from "../../calc/units.ts";
import {
  closingPressure,
  domeFromTestRack,
  openingPressure,
  TEST_RACK_TEMPERATURE,
} from "../../calc/valve.ts";
import type { AtMandrel, FiguresOf } from "./atMandrel.ts";
import { type Given, trace } from "./traced.ts";
import {
  balance,
  bandGivens,
  bodyGivens,
  bodyOf,
  cardGiven,
  OPENS,
  SHUTS,
  shopAtmosphere,
  shopGiven,
  toShop,
} from "./valveGivens.ts";

const DRAWS = 1000;

/** The pressure on the seat, by the kind of valve. */
function seatPressure({ valve, given }: AtMandrel): Given {
  return valve?.kind === "production-operated"
    ? given("Pi", "injection")
    : given("Pt", "production");
}

/** What a valve by its card does at a mandrel. */
export const mandrelValve: FiguresOf<"dome" | "opening" | "closing" | "opening-band"> = {
  dome(at) {
    const { context, valve } = at;
    return trace({
      id: at.id("dome"),
      label: at.label("Dome pressure at the valve's temperature"),
      dimension: "pressure",
      method: domeMethod,
      givens: {
        ...bodyGivens(context, valve),
        card: cardGiven(context, valve),
        temperature: at.given("T", "temperature"),
        shop: shopGiven(valve),
      },
      work: (v) => {
        const rack = toShop(context, valve, v.card);
        const dome60 = domeFromTestRack(bodyOf(valve, v), rack, shopAtmosphere(valve));
        const there = domePressure(dome60, TEST_RACK_TEMPERATURE, kelvin(v.temperature));
        return { si: there.pressure, warnings: there.warnings };
      },
    });
  },
  opening(at) {
    const { context, valve } = at;
    return trace({
      id: at.id("opening"),
      label: at.label(
        `Opening pressure${valve?.kind === "production-operated" ? " of the production pressure" : ""}`,
      ),
      dimension: "pressure",
      method: balance(OPENS),
      givens: {
        ...bodyGivens(context, valve),
        dome: at.given("Pd", "dome"),
        other: seatPressure(at),
      },
      work: (v) => ({
        si: openingPressure(bodyOf(valve, v), absolutePa(v.dome), absolutePa(v.other)),
      }),
    });
  },
  closing(at) {
    const { context, valve } = at;
    return trace({
      id: at.id("closing"),
      label: at.label("Closing pressure"),
      dimension: "pressure",
      method: balance(SHUTS),
      givens: { ...bodyGivens(context, valve), dome: at.given("Pd", "dome") },
      work: (v) => ({ si: closingPressure(bodyOf(valve, v), absolutePa(v.dome)) }),
    });
  },
  "opening-band"(at) {
    const { context, valve } = at;
    return trace({
      id: at.id("opening-band"),
      label: at.label("Opening pressure may differ by, at the widest"),
      dimension: "pressure difference",
      method: openingBandMethod,
      givens: {
        ...bodyGivens(context, valve),
        card: cardGiven(context, valve),
        temperature: at.given("T", "temperature"),
        other: seatPressure(at),
        ...bandGivens(context, valve),
      },
      work: (v) => {
        const setting = {
          body: bodyOf(valve, v),
          testRack: toShop(context, valve, v.card),
          shopAtmosphere: shopAtmosphere(valve),
          setTolerance: v.setTolerance,
          temperature: kelvin(v.temperature),
          temperatureUncertainty: v.uncertainty,
          other: absolutePa(v.other),
        };
        const band = openingBand(setting);
        return {
          si: band.widest,
          warnings: band.warnings,
          beside: () => {
            const sampled = sampledOpeningBand(setting, DRAWS, pseudoRandom(1));
            return [
              {
                label: "Standard uncertainty, first order",
                si: band.standard,
                formula: "s",
                source: openingBandMethod.source,
              },
              {
                label: `Standard deviation of ${DRAWS} draws`,
                si: sampled.standard,
                formula: "set pressure and temperature drawn evenly between their limits",
                source: "JCGM 101:2008",
              },
              {
                label: "95 in 100 draws lie within ±",
                si: (sampled.high - sampled.low) / 2,
                formula: "half the width between the 2.5 and the 97.5 percent point",
                source: "JCGM 101:2008",
              },
            ];
          },
        };
      },
    });
  },
};
