import {
  gasPassage,
  gasPassageMethod,
  passageInSeries,
  seriesPassageMethod,
  standardRate,
} from "../../calc/gasPassage.ts";
import { InputError } from "../../calc/inputError.ts";
import { circle } from "../../calc/seat.ts";
import { throttledPassage, throttledPassageMethod } from "../../calc/throttledPassage.ts";
import { absolutePa, kelvin } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { AtMandrel, FiguresOf } from "./atMandrel.ts";
import { ready, recorded } from "./context.ts";
import { type Given, trace } from "./traced.ts";
import { bodyGivens, bodyOf } from "./valveGivens.ts";

/** Ideal-gas ratio of heat capacities of a lift gas, and the coefficient of a gas-lift port on its chart. */
const HEAT_CAPACITY_RATIO = 1.27;
const DISCHARGE_COEFFICIENT = 0.865;

const whereOf = ({ valve }: AtMandrel) => (valve ? `valve ${valve.serial}` : "valve");

/** What a passage through a valve needs to know. */
function passageGivens(
  at: AtMandrel,
): Readonly<
  Record<
    "injection" | "production" | "temperature" | "port" | "coefficient" | "heatCapacityRatio",
    Given
  >
> {
  const { context, valve } = at;
  const where = whereOf(at);
  const stated = recorded(
    context,
    "Cd",
    "Discharge coefficient of the port",
    "ratio",
    valve?.dischargeCoefficient,
    where,
  );
  return {
    injection: at.given("p1", "injection"),
    production: at.given("p2", "production"),
    temperature: at.given("T1", "temperature"),
    port: recorded(context, "d", "Port, bore", "diameter", valve?.port, where),
    coefficient: valve?.dischargeCoefficient
      ? stated
      : {
          ...stated,
          si: DISCHARGE_COEFFICIENT,
          origin: {
            kind: "assumed",
            why: "0.865, of the chart for gas-lift ports (Takacs, Gas Lift Manual, appendix C)",
          },
        },
    heatCapacityRatio: {
      symbol: "k",
      name: "Heat capacity ratio of the gas",
      dimension: "ratio",
      si: HEAT_CAPACITY_RATIO,
      origin: { kind: "assumed", why: "1.27, usual for lift gas (from memory)" },
    },
  };
}

/** The gas a valve can pass: fully open, which is an upper bound, and throttled by its stem. */
export const mandrelPassage: FiguresOf<"most-gas" | "throttled-gas"> = {
  "most-gas"(at) {
    const { context, valve } = at;
    const choke = valve?.choke;
    return trace({
      id: at.id("most-gas"),
      label: at.label("Gas it passes fully open"),
      dimension: "gas rate",
      method: choke ? seriesPassageMethod : gasPassageMethod,
      givens: {
        ...passageGivens(at),
        choke: {
          symbol: "dch",
          name: "Choke upstream, bore",
          dimension: "diameter",
          si: choke ? toSI("diameter", choke) : 0,
          ...(!choke && { shown: "none" }),
          origin: { kind: "record", where: whereOf(at) },
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
        const si = standardRate(passage.rate);
        const z = ready(context.gas).z({ pressure: ends[0], temperature });
        return {
          si,
          warnings: [...passage.warnings, ...(valve?.kind === "orifice" ? [] : [upperBound])],
          beside: () => [
            {
              label: `With the gas's compressibility, z ${z.toFixed(3)}`,
              si: si / Math.sqrt(z),
              formula: "rate / √z: the form has no compressibility in it",
              source: "first order, from the density upstream",
            },
          ],
        };
      },
    });
  },
  "throttled-gas"(at) {
    const { context, valve } = at;
    const where = whereOf(at);
    return trace({
      id: at.id("throttled-gas"),
      label: at.label("Gas it passes throttled by its stem"),
      dimension: "gas rate",
      method: throttledPassageMethod,
      givens: {
        ...bodyGivens(context, valve),
        ...passageGivens(at),
        dome: at.given("Pd", "dome"),
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
        if (valve?.choke) {
          throw new InputError(
            "choke",
            valve.choke,
            "none: the model takes the injection pressure at the ball, and a choke upstream lowers it",
          );
        }
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
          closed: "starting shut, the stem is down: nothing passes",
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
  },
};

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
