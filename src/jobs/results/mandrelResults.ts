import {
  gasPassage,
  gasPassageMethod,
  passageInSeries,
  seriesPassageMethod,
  standardRate,
} from "../../calc/gasPassage.ts";
import { domeMethod, domePressure } from "../../calc/nitrogen.ts";
import { openingBand, openingBandMethod, sampledOpeningBand } from "../../calc/openingBand.ts";
import { minimumCurvatureMethod } from "../../calc/path.ts";
import { pseudoRandom } from "../../calc/pseudoRandom.ts";
import { circle } from "../../calc/seat.ts";
import { throttledPassage, throttledPassageMethod } from "../../calc/throttledPassage.ts";
import { absolutePa, alongHoleM, kelvin, verticalM } from "../../calc/units.ts";
import {
  closingPressure,
  domeFromTestRack,
  openingPressure,
  TEST_RACK_TEMPERATURE,
} from "../../calc/valve.ts";
import { toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel } from "../records/well.ts";
import { type Context, ready, recorded } from "./context.ts";
import { injectionAt, productionAt } from "./onLift.ts";
import {
  from,
  type Get,
  type Given,
  type MandrelFigure,
  type MandrelResultId,
  mandrelFigures,
  type Traced,
  trace,
} from "./traced.ts";
import {
  balance,
  bodyGivens,
  bodyOf,
  cardGiven,
  OPENS,
  SHUTS,
  shopAtmosphere,
  shopGiven,
  toShop,
} from "./valveGivens.ts";
import { pathGiven, profileGiven } from "./wellGivens.ts";

/** What is known of every mandrel while the well is on lift, with the valve that the scenario puts there. */

export const mandrelResultId = (figure: MandrelFigure, mandrel: number): MandrelResultId =>
  `${figure} of mandrel ${mandrel}`;

/** Takes a result's id apart; undefined when it is not one of a mandrel. */
export function mandrelFigureOf(
  id: string,
): { readonly figure: MandrelFigure; readonly number: number } | undefined {
  const [figure, number] = id.split(" of mandrel ");
  const known = mandrelFigures.find((each) => each === figure);
  return known && number !== undefined ? { figure: known, number: Number(number) } : undefined;
}

/** The valve in a mandrel's pocket, the replacement in the one at work where the scenario says so. */
export function valveIn({ programme, scenario }: Context, mandrel: Mandrel): Valve | undefined {
  const { installed, replacement, job } = programme;
  if (scenario.pocket === "with the replacement" && mandrel.id === job.mandrel) return replacement;
  return mandrel.pocketState === "holds a valve"
    ? installed.find((valve) => valve.id === mandrel.valve)
    : undefined;
}

/** One figure of one mandrel. */
export function mandrelResult(
  context: Context,
  get: Get,
  figure: MandrelFigure,
  mandrel: Mandrel,
): Traced {
  return new AtMandrel(context, get, mandrel)[figure]();
}

/** Ideal-gas ratio of heat capacities of a lift gas, and the coefficient of a gas-lift port on its chart. */
const HEAT_CAPACITY_RATIO = 1.27;
const DISCHARGE_COEFFICIENT = 0.865;
const DRAWS = 1000;

class AtMandrel implements Record<MandrelFigure, () => Traced> {
  private readonly context: Context;
  private readonly get: Get;
  private readonly mandrel: Mandrel;
  private readonly valve: Valve | undefined;

  constructor(context: Context, get: Get, mandrel: Mandrel) {
    this.context = context;
    this.get = get;
    this.mandrel = mandrel;
    this.valve = valveIn(context, mandrel);
  }

  private id(figure: MandrelFigure): MandrelResultId {
    return mandrelResultId(figure, this.mandrel.number);
  }

  private label(words: string): string {
    return `${words}, mandrel ${this.mandrel.number}`;
  }

  private other(figure: MandrelFigure): Traced {
    return this.get(this.id(figure));
  }

  private given(symbol: string, figure: MandrelFigure): Given {
    return from(symbol, this.other(figure));
  }

  /** The pressure on the seat, by the kind of valve. */
  private seatPressure(): Given {
    return this.valve?.kind === "production-operated"
      ? this.given("Pi", "injection")
      : this.given("Pt", "production");
  }

  tvd(): Traced {
    const { context, mandrel } = this;
    return trace({
      id: this.id("tvd"),
      label: this.label("True vertical depth"),
      dimension: "length",
      method: minimumCurvatureMethod,
      givens: {
        depth: recorded(
          context,
          "L",
          "Depth along hole",
          "length",
          mandrel.depthAlongHole,
          `mandrel ${mandrel.number}`,
        ),
        path: pathGiven(context),
      },
      work: ({ depth }) => ({ si: ready(context.path).at(alongHoleM(depth)).vertical }),
    });
  }

  temperature(): Traced {
    const { context } = this;
    const { flowing } = context;
    return trace({
      id: this.id("temperature"),
      label: this.label("Temperature on lift"),
      dimension: "temperature",
      method: flowing.ok
        ? flowing.value.method
        : { name: "Flowing temperatures", formula: "", source: "", validity: [] },
      givens: { depth: this.given("h", "tvd"), profile: profileGiven(context, "flowing") },
      work: ({ depth }) => {
        const temperatures = ready(flowing);
        const at = verticalM(depth);
        return { si: temperatures.at(at), warnings: temperatures.warningsAt(at) };
      },
    });
  }

  injection(): Traced {
    const label = this.label("Injection pressure on lift");
    return injectionAt(this.context, this.id("injection"), label, this.other("tvd"));
  }

  production(): Traced {
    const label = this.label("Production pressure on lift");
    return productionAt(this.context, this.id("production"), label, this.other("tvd"));
  }

  dome(): Traced {
    const { context, valve } = this;
    return trace({
      id: this.id("dome"),
      label: this.label("Dome pressure at the valve's temperature"),
      dimension: "pressure",
      method: domeMethod,
      givens: {
        ...bodyGivens(context, valve),
        card: cardGiven(context, valve),
        temperature: this.given("T", "temperature"),
        shop: shopGiven(valve),
      },
      work: (v) => {
        const rack = toShop(context, valve, v.card);
        const dome60 = domeFromTestRack(bodyOf(valve, v), rack, shopAtmosphere(valve));
        const there = domePressure(dome60, TEST_RACK_TEMPERATURE, kelvin(v.temperature));
        return { si: there.pressure, warnings: there.warnings };
      },
    });
  }

  opening(): Traced {
    const { context, valve } = this;
    return trace({
      id: this.id("opening"),
      label: this.label(
        `Opening pressure${this.valve?.kind === "production-operated" ? " of the production pressure" : ""}`,
      ),
      dimension: "pressure",
      method: balance(OPENS),
      givens: {
        ...bodyGivens(context, valve),
        dome: this.given("Pd", "dome"),
        other: this.seatPressure(),
      },
      work: (v) => ({
        si: openingPressure(bodyOf(valve, v), absolutePa(v.dome), absolutePa(v.other)),
      }),
    });
  }

  closing(): Traced {
    const { context, valve } = this;
    return trace({
      id: this.id("closing"),
      label: this.label("Closing pressure"),
      dimension: "pressure",
      method: balance(SHUTS),
      givens: { ...bodyGivens(context, valve), dome: this.given("Pd", "dome") },
      work: (v) => ({ si: closingPressure(bodyOf(valve, v), absolutePa(v.dome)) }),
    });
  }

  "opening-band"(): Traced {
    const { context, valve } = this;
    const { policy } = context.programme;
    const limit = (
      symbol: string,
      name: string,
      key: "setPressureTolerance" | "temperatureUncertainty",
    ): Given => {
      const dimension =
        key === "setPressureTolerance" ? "pressure difference" : "temperature difference";
      const stated = policy?.[key];
      const given = recorded(context, symbol, name, dimension, stated?.value as never, "policy");
      return stated ? { ...given, origin: { kind: "policy", basis: stated.basis } } : given;
    };
    return trace({
      id: this.id("opening-band"),
      label: this.label("Opening pressure may differ by, at the widest"),
      dimension: "pressure difference",
      method: openingBandMethod,
      givens: {
        ...bodyGivens(context, valve),
        card: cardGiven(context, valve),
        temperature: this.given("T", "temperature"),
        other: this.seatPressure(),
        setTolerance: limit("a", "Set pressure may differ by", "setPressureTolerance"),
        uncertainty: limit("u", "Temperature may differ by", "temperatureUncertainty"),
        shop: shopGiven(valve),
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
  }

  /** What a passage through this valve needs to know. */
  private passageGivens() {
    const { context, valve } = this;
    const where = valve ? `valve ${valve.serial}` : "valve";
    const stated = recorded(
      context,
      "Cd",
      "Discharge coefficient of the port",
      "ratio",
      valve?.dischargeCoefficient,
      where,
    );
    return {
      injection: this.given("p1", "injection"),
      production: this.given("p2", "production"),
      temperature: this.given("T1", "temperature"),
      port: recorded(context, "d", "Port, bore", "diameter", valve?.port, where),
      coefficient: (valve?.dischargeCoefficient
        ? stated
        : {
            ...stated,
            si: DISCHARGE_COEFFICIENT,
            origin: {
              kind: "assumed",
              why: "0.865, of the chart for gas-lift ports (Takacs, Gas Lift Manual, appendix C)",
            },
          }) satisfies Given as Given,
      heatCapacityRatio: {
        symbol: "k",
        name: "Heat capacity ratio of the gas",
        dimension: "ratio",
        si: HEAT_CAPACITY_RATIO,
        origin: { kind: "assumed", why: "1.27, usual for lift gas (from memory)" },
      } satisfies Given as Given,
    };
  }

  "most-gas"(): Traced {
    const { context, valve } = this;
    const choke = valve?.choke;
    return trace({
      id: this.id("most-gas"),
      label: this.label("Gas it passes fully open, at most"),
      dimension: "gas rate",
      method: choke ? seriesPassageMethod : gasPassageMethod,
      givens: {
        ...this.passageGivens(),
        choke: {
          symbol: "dch",
          name: "Choke upstream, bore",
          dimension: "diameter",
          si: choke ? toSI("diameter", choke) : 0,
          ...(!choke && { shown: "none" }),
          origin: { kind: "record", where: valve ? `valve ${valve.serial}` : "valve" },
        },
      },
      work: (v) => {
        if (v.production >= v.injection) return noDrop;
        const gas = {
          molarMass: ready(context.gas).molarMass,
          heatCapacityRatio: v.heatCapacityRatio,
        };
        const opening = (diameter: number) => ({
          area: circle(diameter),
          dischargeCoefficient: v.coefficient,
        });
        const ends = [absolutePa(v.injection), absolutePa(v.production)] as const;
        const temperature = kelvin(v.temperature);
        const passage =
          v.choke === 0
            ? gasPassage(...ends, temperature, opening(v.port), gas)
            : passageInSeries(...ends, temperature, opening(v.choke), opening(v.port), gas);
        return {
          si: standardRate(passage.rate),
          warnings: [...passage.warnings, ...(valve?.kind === "orifice" ? [] : [upperBound])],
        };
      },
    });
  }

  "throttled-gas"(): Traced {
    const { context, valve } = this;
    const where = valve ? `valve ${valve.serial}` : "valve";
    return trace({
      id: this.id("throttled-gas"),
      label: this.label("Gas it passes throttled by its stem"),
      dimension: "gas rate",
      method: throttledPassageMethod,
      givens: {
        ...bodyGivens(context, valve),
        ...this.passageGivens(),
        dome: this.given("Pd", "dome"),
        loadRate: recorded(
          context,
          "Blr",
          "Bellows-assembly load rate",
          "load rate",
          valve?.loadRate,
          where,
        ),
        ball: recorded(context, "2 rb", "Ball on the stem", "diameter", valve?.ballDiameter, where),
      },
      work: (v) => {
        const passage = throttledPassage(
          bodyOf(valve, v),
          {
            loadRate: v.loadRate,
            tipDiameter: v.ball,
            sealDiameter: Math.sqrt((4 * v.seat) / Math.PI),
            portDiameter: v.port,
            dischargeCoefficient: v.coefficient,
          },
          absolutePa(v.dome),
          { injection: absolutePa(v.injection), production: absolutePa(v.production) },
          kelvin(v.temperature),
          { molarMass: ready(context.gas).molarMass, heatCapacityRatio: v.heatCapacityRatio },
        );
        const limit = {
          closed: "the stem is down: nothing passes",
          "no drop": "production pressure is not below injection pressure: nothing passes",
          stem: "the stem holds it back, not the port",
          port: "the stem is far enough up for the whole port",
        }[passage.limitedBy];
        return {
          si: standardRate(passage.rate),
          warnings: [...passage.warnings, { kind: "note", text: limit }],
        };
      },
    });
  }
}

const noDrop = {
  si: 0,
  warnings: [
    {
      kind: "note" as const,
      text: "production pressure is not below injection pressure: the check stays shut and nothing passes",
    },
  ],
};

const upperBound = {
  kind: "note" as const,
  text: "an upper bound for a bellows valve: its stem throttles long before the port is open",
};
