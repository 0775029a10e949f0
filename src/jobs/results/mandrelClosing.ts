import {
  type ClosingSetting,
  closingAtSurfaceMethod,
  closingBand,
  closingBandMethod,
} from "../../calc/closingBand.ts";
import { gasColumn } from "../../calc/gasColumn.ts";
import { absolutePa, verticalM } from "../../calc/units.ts";
import type { AtMandrel, FiguresOf } from "./atMandrel.ts";
import { ready } from "./context.ts";
import { type Given, trace } from "./traced.ts";
import {
  bandGivens,
  bodyGivens,
  bodyOf,
  cardGiven,
  shopAtmosphere,
  toShop,
} from "./valveGivens.ts";
import { gasGiven, profileGiven } from "./wellGivens.ts";

/** Injection that is shut in and bleeds down stops where the valves shut that pass it: seen at surface. */
export const mandrelClosing: FiguresOf<"closing-at-surface" | "closing-band"> = {
  "closing-at-surface"(at) {
    const { context } = at;
    return trace({
      id: at.id("closing-at-surface"),
      label: at.label("Shuts at, seen at surface"),
      dimension: "pressure",
      method: closingAtSurfaceMethod,
      givens: {
        closing: closedByInjection(at),
        depth: at.given("h", "tvd"),
        gas: gasGiven(context),
        profile: profileGiven(context, "flowing"),
      },
      work: ({ closing, depth }) => {
        const { pressures, warnings } = gasColumn(
          absolutePa(closing),
          verticalM(depth),
          [verticalM(0)],
          ready(context.gas),
          ready(context.flowing),
        );
        return { si: pressures[0] as number, warnings };
      },
    });
  },
  "closing-band"(at) {
    const { context, valve } = at;
    return trace({
      id: at.id("closing-band"),
      label: at.label("That may differ by, at the widest"),
      dimension: "pressure difference",
      method: closingBandMethod,
      givens: {
        ...bodyGivens(context, valve),
        closing: closedByInjection(at),
        card: cardGiven(context, valve),
        depth: at.given("h", "tvd"),
        gas: gasGiven(context),
        profile: profileGiven(context, "flowing"),
        ...bandGivens(context, valve),
      },
      work: (v) => {
        const setting: ClosingSetting = {
          body: bodyOf(valve, v),
          testRack: toShop(context, valve, v.card),
          shopAtmosphere: shopAtmosphere(valve),
          setTolerance: v.setTolerance,
          temperatureUncertainty: v.uncertainty,
          depth: verticalM(v.depth),
          gas: ready(context.gas),
          temperatures: ready(context.flowing),
        };
        const { widest, warnings } = closingBand(setting);
        return { si: widest, warnings };
      },
    });
  },
};

/** A valve that the production pressure shuts says nothing of the injection at surface. */
function closedByInjection(at: AtMandrel): Given {
  const given = at.given("pc", "closing");
  if (at.valve?.kind !== "production-operated") return given;
  return { ...given, si: undefined, needs: ["a valve that the injection pressure shuts"] };
}
