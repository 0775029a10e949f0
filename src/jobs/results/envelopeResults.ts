import { lubricatorFit, lubricatorFitMethod } from "../../calc/lubricatorFit.ts";
import { expectedMaximum, testPressure, testPressureMethod } from "../../calc/pressureEnvelope.ts";
import { tubingDriftMethod } from "../../calc/tubingDrift.ts";
import { absolutePa } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import { boresOnRecord } from "./boresOnTheWay.ts";
import { atmosphereGiven, type Context, policyGiven, recorded, wellName } from "./context.ts";
import { lengthsOpen, stringLength, usableLengths, valveOn } from "./stringInStack.ts";
import { type Definitions, from, type Given, type Traced, trace } from "./traced.ts";

/** Largest outside diameter of a string, m. */
export function largestDiameter(string: ToolString): number {
  return Math.max(...string.tools.map((tool) => toSI("diameter", tool.outsideDiameter)));
}

/** The stack above the tree: whether the string fits in it, what it is rated for, what it is tested to. */
const strings = ({ programme }: Context) =>
  Object.values(programme.strings).filter((string) => string !== undefined);

const stackName = ({ programme }: Context) => programme.stack?.name ?? "pressure equipment";

/** The string that asks for most of the lubricator, by what is on record, and what is not. */
function longestWithValve(context: Context) {
  const asking = strings(context).map((string) => {
    const { valve, needs, serial } = valveOn(string, context.programme);
    return {
      string,
      length: stringLength(string),
      valve,
      serial,
      needs: [...lengthsOpen(string), ...needs].map((need) => `${need} (${string.name})`),
    };
  });
  const [longest] = [...asking].sort((a, b) => b.length + b.valve - a.length - a.valve);
  return { longest, needs: asking.flatMap(({ needs }) => needs) };
}

function lubricatorSpare(context: Context): Traced {
  const { stack, policy } = context.programme;
  const { longest, needs } = longestWithValve(context);
  const usable = usableLengths(stack);
  const available = usable.reduce((total, part) => total + part, 0);
  const margin = policy && toSI("length", policy.lubricatorMargin.value);
  // What is too long already is so whatever is not on record.
  const isTooLong =
    longest !== undefined &&
    margin !== undefined &&
    !lubricatorFit(usable, longest.length, longest.valve, margin).fits;
  const length = (symbol: string, name: string, si: number | undefined, where: string): Given => ({
    symbol,
    name,
    dimension: "length",
    si,
    origin: { kind: "record", where },
  });
  return trace({
    id: "lubricator-spare",
    label: "Lubricator length to spare",
    dimension: "length",
    method: lubricatorFitMethod,
    givens: {
      available: length(
        "available",
        "Usable length above the closed crown valve",
        usable.length > 0 ? available : undefined,
        stackName(context),
      ),
      string: {
        ...length(
          "string",
          "String, jars extended",
          needs.length === 0 || isTooLong ? longest?.length : undefined,
          longest?.string.name ?? "tool strings",
        ),
        ...(needs.length > 0 && {
          needs,
          warnings: [
            { kind: "note", text: `not all lengths are known: needs ${needs.join("; ")}` },
          ],
        }),
      },
      valve: length(
        "valve",
        "Valve on it",
        longest?.valve,
        longest?.serial ? `valve ${longest.serial}` : "no valve on record",
      ),
      margin: policyGiven(context, "margin", "Margin", "length", "lubricatorMargin"),
    },
    work: (v) => ({ si: lubricatorFit([v.available], v.string, v.valve, v.margin).spare }),
  });
}

export const envelopeResults = {
  "lubricator-spare": lubricatorSpare,
  "lowest-rating": (context) => {
    const { stack } = context.programme;
    const ratings = stack?.items.map((item) => toSI("pressure", item.rating, context.atmosphere));
    return trace({
      id: "lowest-rating",
      label: "Lowest pressure rating in the stack",
      dimension: "pressure",
      method: {
        name: "Lowest rating",
        formula: "smallest of the ratings, hose and gauge included",
        source: "the lowest rating in the stack rules (common practice)",
        validity: [],
      },
      givens: {
        ratings: {
          symbol: "ratings",
          name: "Ratings of the stack",
          dimension: "pressure",
          si: ratings && Math.min(...ratings),
          shown:
            stack?.items
              .map((item) => `${item.name} ${item.rating.value} ${item.rating.unit}`)
              .join("; ") ?? "",
          origin: { kind: "record", where: stackName(context) },
        },
      },
      work: (v) => ({ si: v.ratings }),
    });
  },
  "expected-maximum": (context) => {
    const { well } = context.programme;
    const where = wellName(context);
    return trace({
      id: "expected-maximum",
      label: "Largest pressure expected at surface",
      dimension: "pressure",
      method: {
        name: "Expected maximum",
        formula: "larger of maximum shut-in wellhead and full injection pressure",
        source: testPressureMethod.source,
        validity: [],
      },
      givens: {
        shutIn: recorded(
          context,
          "pmax",
          "Maximum shut-in wellhead pressure",
          "pressure",
          well?.pressures.maximumShutInWellhead,
          where,
        ),
        injection: recorded(
          context,
          "pinj",
          "Full injection pressure at surface",
          "pressure",
          well?.pressures.fullInjectionAtSurface,
          where,
        ),
      },
      work: (v) => ({ si: expectedMaximum(absolutePa(v.shutIn), absolutePa(v.injection)) }),
    });
  },
  "test-pressure": (context, get) => {
    const { policy } = context.programme;
    return trace({
      id: "test-pressure",
      label: "Test pressure of the stack",
      dimension: "pressure",
      method: testPressureMethod,
      givens: {
        maximum: from("pmax", get("expected-maximum")),
        atmosphere: atmosphereGiven(context),
        factor: {
          symbol: "k",
          name: "Test factor",
          dimension: "ratio",
          si: policy?.highTestFactor.value,
          origin: policy
            ? { kind: "policy", basis: policy.highTestFactor.basis }
            : { kind: "record", where: "policy" },
        },
      },
      work: (v) => ({ si: testPressure(absolutePa(v.maximum), context.atmosphere, v.factor) }),
    });
  },
  "drift-clearance": (context) => driftClearance(context),
} satisfies Definitions;

/** The narrowest bore that a string has to pass, stack and well, against the largest tool of any string. */
function driftClearance(context: Context): Traced {
  const { bores, needs } = boresOnRecord(context);
  const [narrowest] = [...bores].sort((a, b) => a.bore - b.bore);
  const [largest] = strings(context).sort((a, b) => largestDiameter(b) - largestDiameter(a));
  // What is too narrow already is so whatever the bores that nobody stated.
  const isTooNarrow =
    narrowest !== undefined && largest !== undefined && narrowest.bore <= largestDiameter(largest);
  return trace({
    id: "drift-clearance",
    label: "Narrowest bore on the way less largest tool",
    dimension: "diameter",
    method: {
      name: "Drift",
      formula: "clearance = narrowest bore − largest outside diameter",
      source: `arithmetic; drift of tubing: ${tubingDriftMethod.formula} (${tubingDriftMethod.source})`,
      validity: [],
    },
    givens: {
      bore: {
        symbol: "bore",
        name: `Narrowest bore, stack and well${narrowest ? `: ${narrowest.restriction}` : ""}`,
        dimension: "diameter",
        si: needs.length === 0 || isTooNarrow ? narrowest?.bore : undefined,
        origin: { kind: "record", where: wellName(context) },
        ...(needs.length > 0 && {
          needs,
          warnings: [{ kind: "note", text: `not all bores are known: needs ${needs.join("; ")}` }],
        }),
      },
      tool: {
        symbol: "tool",
        name: "Largest outside diameter of any string",
        dimension: "diameter",
        si: largest && largestDiameter(largest),
        origin: { kind: "record", where: largest?.name ?? "tool strings" },
      },
    },
    work: (v) => ({ si: v.bore - v.tool }),
  });
}
