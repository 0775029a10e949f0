import { shearForce, shearPinsMethod } from "../../calc/shearPins.ts";
import { pinStrengths } from "../catalog/pinStrengths.ts";
import { toSI } from "../quantity.ts";
import { type Context, recorded } from "./context.ts";
import { type Definitions, from, type Given, trace } from "./traced.ts";

/** The running tool's pins: what shears them, and whether the line could do it by a steady pull. */

function strengthGiven(context: Context): Given {
  const { pins } = context.programme.job;
  const stated = recorded(
    context,
    "τ",
    "Shear strength of the pins",
    "pressure difference",
    pins?.strength,
    "job: batch certificate",
  );
  if (pins?.strength || !pins || pins.material === "not known") return stated;
  // The word says little: temper moves the strength of brass by 40 percent.
  const { value, source } = pinStrengths[pins.material];
  return {
    ...stated,
    si: toSI("pressure difference", value),
    origin: { kind: "assumed", why: `${source}; the batch's certificate counts` },
  };
}

const counted = (symbol: string, name: string, of: number | undefined): Given => ({
  symbol,
  name,
  dimension: "ratio",
  si: of,
  ...(of !== undefined && { shown: String(of) }),
  origin: { kind: "record", where: "job: running-tool pins" },
});

export const pinResults = {
  "pin-shear": (context) => {
    const { pins } = context.programme.job;
    return trace({
      id: "pin-shear",
      label: "Steady pull that shears the running tool's pins",
      dimension: "force",
      method: shearPinsMethod,
      givens: {
        strength: strengthGiven(context),
        diameter: recorded(context, "d", "Diameter of a pin", "diameter", pins?.diameter, "job"),
        count: counted("n", "Pins", pins?.count),
        planes: counted("m", "Planes each", pins?.planes),
      },
      work: (v) => ({ si: shearForce(v.diameter, v.count, v.planes, v.strength) }),
    });
  },
  "pin-over-line": (_, get) =>
    trace({
      id: "pin-over-line",
      label: "Pins over what the line can bring to the running tool",
      dimension: "ratio",
      method: {
        name: "Pins against the line",
        formula: "shear force / overpull available",
        source:
          "arithmetic; above 1 the line cannot shear them by a steady pull and the jars have to, below 1 a hard pull shears them before they should",
        validity: [],
      },
      givens: {
        shear: from("F", get("pin-shear")),
        overpull: from("ΔT", get("overpull-set")),
      },
      work: (v) => ({ si: v.shear / v.overpull }),
    }),
  "pin-over-blow": (context, get) => {
    const jars = context.programme.strings.set?.tools.find(({ kind }) => kind === "jars");
    return trace({
      id: "pin-over-blow",
      label: "Pins over the blow of the jars",
      dimension: "ratio",
      method: {
        name: "Pins against the jars",
        formula: "shear force / blow",
        source: "arithmetic on the maker's blow; above 1 the jars cannot shear the pins",
        validity: [],
      },
      givens: {
        shear: from("F", get("pin-shear")),
        blow: recorded(
          context,
          "Fj",
          "Blow of the jars",
          "force",
          jars?.blow,
          jars?.name ?? "jars",
        ),
      },
      work: (v) => ({ si: v.shear / v.blow }),
    });
  },
  "pin-over-latch": (context, get) => {
    const { replacement } = context.programme;
    return trace({
      id: "pin-over-latch",
      label: "Pins over what the latch holds",
      dimension: "ratio",
      method: {
        name: "Pins against the latch",
        formula: "shear force / upward pull that the latch holds",
        source: "arithmetic on the maker's figure; above 1 the latch gives before the pins do",
        validity: [],
      },
      givens: {
        shear: from("F", get("pin-shear")),
        latch: recorded(
          context,
          "Fl",
          "Upward pull that the latch holds",
          "force",
          replacement?.latchHolds,
          replacement ? `valve ${replacement.serial}` : "replacement valve",
        ),
      },
      work: (v) => ({ si: v.shear / v.latch }),
    });
  },
} satisfies Definitions;
