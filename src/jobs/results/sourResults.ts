import { sourService, sourServiceMethod } from "../../calc/sourService.ts";
import { absolutePa } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { GasRecord } from "../records/well.ts";
import type { Context } from "./context.ts";
import { type Definitions, from, type Given, trace } from "./traced.ts";

/** Hydrogen sulfide of a gas, mole fraction; undefined where the gas is not described. */
export function hydrogenSulfide(gas: GasRecord | undefined): number | undefined {
  if (!gas) return undefined;
  const h2s = gas.analysis ? gas.analysis.hydrogen_sulfide : gas.h2s;
  return h2s ? toSI("fraction", h2s) : 0;
}

/** The sourer of the gases that can come to the wire. */
function worstGas({ programme }: Context): Given {
  const { well } = programme;
  const fractions = [well?.injectionGas, well?.tubingGas]
    .map(hydrogenSulfide)
    .filter((y) => y !== undefined);
  return {
    symbol: "yH2S",
    name: "Hydrogen sulfide, the larger of the well's gases",
    dimension: "fraction",
    si: fractions.length > 0 ? Math.max(...fractions) : undefined,
    origin: { kind: "record", where: well?.name ?? "well" },
  };
}

export const sourResults = {
  "sour-partial-pressure": (context, get) =>
    trace({
      id: "sour-partial-pressure",
      label: "Partial pressure of hydrogen sulfide at the wire, at most",
      dimension: "partial pressure",
      method: sourServiceMethod,
      givens: { pressure: from("p", get("expected-maximum")), h2s: worstGas(context) },
      work: (v) => {
        const { partialPressure, atOrOver } = sourService(absolutePa(v.pressure), v.h2s);
        const text = atOrOver
          ? "at or over the standard's threshold: wire and elastomers have to be declared fit for it"
          : "below the standard's threshold, which is no clearance for wire: it is harder than the standard knows";
        return { si: partialPressure, warnings: v.h2s > 0 ? [{ kind: "note", text }] : [] };
      },
    }),
} satisfies Definitions;
