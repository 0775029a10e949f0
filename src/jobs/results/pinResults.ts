import { lineTension } from "../../calc/lineTension.ts";
import { shearForce, shearPinsMethod } from "../../calc/shearPins.ts";
import { alongHoleM } from "../../calc/units.ts";
import type { Tool } from "../records/equipment.ts";
import { type Context, recorded } from "./context.ts";
import { indicatorGiven } from "./indicatorResults.ts";
import { holeOf, lineGivens } from "./lineInHole.ts";
import { pinsOf, strengthOf, type ToolPins } from "./toolPins.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";

/** Pins of running and pulling tool: what shears them, and who could do it. */

const toolOf = ({ programme }: Context, purpose: "pull" | "set"): Tool | undefined =>
  programme.strings[purpose]?.tools.find(
    ({ kind }) => kind === (purpose === "pull" ? "pulling tool" : "running tool"),
  );

/**
 * The pins of pulling or running tool where a pull loads them: those that are jarred down bear nothing of it. A running
 * tool is sheared off by upward jarring unless its record says otherwise (common practice).
 */
export function pinsUnderPull(context: Context, purpose: "pull" | "set"): ToolPins | undefined {
  const tool = toolOf(context, purpose);
  const pins = tool && pinsOf(tool, context.programme.job);
  const direction = pins?.direction ?? (purpose === "set" ? "up" : undefined);
  return direction === "up" ? pins : undefined;
}

/** What shears pins, by the least or the most that their material may stand. */
function pinGivens(
  context: Context,
  pins: ToolPins | undefined,
  which: "least" | "most",
  where: string,
) {
  const strength = pins && strengthOf(pins);
  const counted = (symbol: string, name: string, of: number | undefined): Given => ({
    symbol,
    name,
    dimension: "ratio",
    si: of,
    ...(of !== undefined && { shown: String(of) }),
    origin: { kind: "record", where },
  });
  return {
    strength: {
      symbol: "τ",
      name: `Shear strength of the pins${strength?.isAssumed && strength.least < strength.most ? `, at ${which}` : ""}`,
      dimension: "pressure difference",
      si: strength?.[which],
      origin: strength?.isAssumed
        ? { kind: "assumed", why: `${strength.source}; the batch's certificate counts` }
        : { kind: "record", where: "job: batch certificate" },
    } as Given,
    diameter: recorded(context, "d", "Diameter of a pin", "diameter", pins?.diameter, where),
    count: counted("n", "Pins", pins?.count),
    planes: counted("m", "Planes each", pins?.planes),
  };
}

function pinShear(context: Context, id: ResultId, which: "least" | "most"): Traced {
  const pins = pinsOf(toolOf(context, "set"), context.programme.job);
  return trace({
    id,
    label: `Steady pull that shears the running tool's pins, at ${which}`,
    dimension: "force",
    method: shearPinsMethod,
    givens: pinGivens(context, pins, which, "job: running-tool pins"),
    work: (v) => ({ si: shearForce(v.diameter, v.count, v.planes, v.strength) }),
  });
}

/** What the line pulls at surface when it shears the pins of the tool at its end. */
function pinsAtSurface(context: Context, get: Get, purpose: "pull" | "set"): Traced {
  const name = purpose === "pull" ? "pulling tool" : "running tool";
  const tool = toolOf(context, purpose);
  return trace({
    id: purpose === "pull" ? "pulling-pins" : "running-pins",
    label: `Line pull at which the ${name}'s pins shear, at least`,
    dimension: "force",
    method: {
      ...shearPinsMethod,
      name: `Pins of the ${name}, pulled at by the line`,
      formula: `line pull at surface with F at the ${name}, times k; ${shearPinsMethod.formula}`,
    },
    givens: {
      ...pinGivens(
        context,
        pinsUnderPull(context, purpose),
        "least",
        tool?.name ?? `${purpose} string`,
      ),
      ...renamed(lineGivens(context, get, context.programme.strings[purpose])),
      depth: from("L", get("target-depth")),
      indicator: indicatorGiven(get),
    },
    work: (v) => {
      const force = shearForce(v.diameter, v.count, v.planes, v.strength);
      const hole = holeOf(context, { ...v, diameter: v.lineDiameter });
      const { pullingOut, warnings } = lineTension(hole, alongHoleM(v.depth), force);
      return { si: pullingOut * v.indicator, warnings };
    },
  });
}

export const pinResults = {
  "pin-shear": (context) => pinShear(context, "pin-shear", "least"),
  "pin-shear-most": (context) => pinShear(context, "pin-shear-most", "most"),
  "pulling-pins": (context, get) => pinsAtSurface(context, get, "pull"),
  "running-pins": (context, get) => pinsAtSurface(context, get, "set"),
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
        shear: from("F", get("pin-shear-most")),
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
        shear: from("F", get("pin-shear-most")),
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

/** Pins have a diameter, too. */
function renamed({ diameter, ...rest }: ReturnType<typeof lineGivens>) {
  return { ...rest, lineDiameter: diameter };
}
