import { sourService, sourServiceMethod } from "../../calc/sourService.ts";
import { pressureAtDepth, standingColumnMethod } from "../../calc/standingColumn.ts";
import { absolutePa, verticalM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { GasRecord } from "../records/well.ts";
import { type Context, productionSide, ready, wellName } from "./context.ts";
import { type Definitions, from, type Given, trace } from "./traced.ts";
import { profileGiven, spaceGasGiven } from "./wellGivens.ts";

/** Hydrogen sulfide of a gas, mole fraction; undefined where nobody said it. */
export function hydrogenSulfide(gas: GasRecord | undefined): number | undefined {
  if (!gas) return undefined;
  const { analysis, h2s } = gas;
  // A laboratory that did not look for it adds up to the whole without it.
  const stated = analysis ? analysis.hydrogen_sulfide : h2s;
  return stated && toSI("fraction", stated);
}

/** The gases that can come to the wire. One that nobody described is not taken to be as sweet as the other. */
export function gasesOf(context: Context): readonly [Given, Given] {
  const { well } = context.programme;
  const given = (symbol: string, whose: string, gas: GasRecord | undefined): Given => ({
    symbol,
    name: `Hydrogen sulfide of the ${whose}${gas?.analysis && !gas.analysis.hydrogen_sulfide ? ", which is not in its analysis" : ""}`,
    dimension: "fraction",
    si: hydrogenSulfide(gas),
    origin: { kind: "record", where: wellName(context) },
  });
  return [
    given("yi", "injection gas", well?.injectionGas),
    given("yp", `gas in the ${productionSide(context.programme)}`, well?.tubingGas),
  ];
}

export const sourResults = {
  "gas-at-mandrel-most": (context, get) =>
    trace({
      id: "gas-at-mandrel-most",
      label:
        "Gas at the mandrel, at most: the largest pressure at surface with gas all the way down",
      dimension: "pressure",
      method: {
        ...standingColumnMethod,
        name: "Gas at rest from surface to the mandrel",
        formula: "the larger of both gas columns under the largest pressure expected at surface",
      },
      givens: {
        surface: from("pmax", get("expected-maximum")),
        depth: from("h", get("mandrel-tvd")),
        annulus: spaceGasGiven(context, "annulus"),
        tubing: spaceGasGiven(context, "tubing"),
        profile: profileGiven(context, "shutIn"),
      },
      work: (v) => {
        const [annulus, tubing] = [context.annulusGas, context.tubingGas].map((gas) =>
          pressureAtDepth(
            absolutePa(v.surface),
            verticalM(v.depth),
            ready(gas),
            ready(context.shutIn),
          ),
        ) as [ReturnType<typeof pressureAtDepth>, ReturnType<typeof pressureAtDepth>];
        return annulus.pressure >= tubing.pressure
          ? { si: annulus.pressure, warnings: annulus.warnings }
          : { si: tubing.pressure, warnings: tubing.warnings };
      },
    }),
  "sour-partial-pressure": (context, get) => {
    const [injection, produced] = gasesOf(context);
    return trace({
      id: "sour-partial-pressure",
      label: "Partial pressure of hydrogen sulfide at the wire, at most",
      dimension: "partial pressure",
      method: {
        ...sourServiceMethod,
        formula: `${sourServiceMethod.formula}; p and mole fraction each the largest there is`,
      },
      givens: {
        gas: from("pg", get("gas-at-mandrel-most")),
        tubing: from("pt", get("tubing-at-mandrel")),
        injection,
        produced,
      },
      work: (v) => {
        const h2s = Math.max(v.injection, v.produced);
        const pressure = absolutePa(Math.max(v.gas, v.tubing));
        const { partialPressure, atOrOver } = sourService(pressure, h2s);
        const text = atOrOver
          ? "at or over the standard's threshold: wire and elastomers have to be declared fit for it"
          : "below the standard's threshold, which is no clearance for wire: it is harder than the standard knows";
        return { si: partialPressure, warnings: h2s > 0 ? [{ kind: "note", text }] : [] };
      },
    });
  },
} satisfies Definitions;
