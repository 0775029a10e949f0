import {
  hangingStretchMethod,
  lineStretchMethod,
  profileStretch,
  thermalStretch,
} from "../../calc/lineStretch.ts";
import { lineTension } from "../../calc/lineTension.ts";
import { alongHoleM, verticalM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import { type Context, ready, recorded } from "./context.ts";
import { holeOf, lineGivens, lineName } from "./lineInHole.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";
import { pathGiven, profileGiven } from "./wellGivens.ts";

/** How far the counter is from the tool: stretch of the line, and what a tagged depth says. */

const modulusGiven = (context: Context): Given =>
  recorded(
    context,
    "E",
    "Modulus of the line",
    "modulus",
    context.programme.line?.modulus,
    lineName(context),
  );

/** Metal that stretches: where wire is worn there is less of it. */
function sectionGiven(context: Context): Given {
  const { line } = context.programme;
  const worn = line?.wornDiameter;
  const isThinner = line && worn && toSI("diameter", worn) < toSI("diameter", line.diameter);
  return recorded(
    context,
    "ds",
    isThinner ? "Line diameter, as worn" : "Line diameter",
    "diameter",
    isThinner ? worn : line?.diameter,
    lineName(context),
  );
}

/** 1/K, of carbon steel: 6.5e-6 per degF, from memory. */
const EXPANSION = 6.5e-6 * 1.8;

/** Something measured by the crew, or not yet. */
function tagged(
  context: Context,
  symbol: string,
  name: string,
  channel: "known depth" | "known counter",
): Given {
  const read = context.measured[channel];
  return {
    symbol,
    name,
    dimension: "length",
    si: read?.si,
    origin: read
      ? { kind: "measured", at: read.at, by: read.by }
      : { kind: "record", where: "to be read on location" },
  };
}

/** Parts of the way down in whose middles the temperature is looked at. */
const PARTS = 200;

function counterAt(get: Get, id: ResultId, label: string, depth: ResultId): Traced {
  return trace({
    id,
    label,
    dimension: "length",
    method: {
      name: "Corrected counter",
      formula: "depth along hole + correction at the known point",
      source: "arithmetic; the correction is taken to be the same at the mandrel",
      validity: [],
    },
    givens: {
      depth: from("L", get(depth)),
      correction: from("ΔL", get("counter-correction")),
    },
    work: (v) => ({ si: v.depth + v.correction }),
  });
}

export const stretchResults = {
  "stretch-hanging": (context, get) =>
    trace({
      id: "stretch-hanging",
      label: "Elastic stretch with the pull string hanging at the mandrel",
      dimension: "length",
      method: hangingStretchMethod,
      givens: {
        ...lineGivens(context, get, context.programme.strings.pull),
        modulus: modulusGiven(context),
        section: sectionGiven(context),
        depth: from("L", get("target-depth")),
      },
      work: (v) => {
        const { profile, warnings } = lineTension(holeOf(context, v), alongHoleM(v.depth));
        const line = { diameter: v.section, modulus: v.modulus };
        const points = profile.map(({ depth, hanging }) => ({ depth, tension: hanging }));
        return { si: profileStretch(line, points), warnings };
      },
    }),
  "stretch-thermal": (context, get) =>
    trace({
      id: "stretch-thermal",
      label: "Thermal stretch down to the mandrel, line at the well's temperature",
      dimension: "length",
      method: lineStretchMethod,
      givens: {
        depth: from("L", get("target-depth")),
        path: pathGiven(context),
        profile: profileGiven(context, "shutIn"),
        expansion: {
          symbol: "α",
          name: "Thermal expansion of the line, 6.5e-6 per °F",
          dimension: "ratio",
          si: EXPANSION,
          shown: "6.5e-6 per °F",
          origin: { kind: "assumed", why: "carbon steel, from memory" },
        },
      },
      work: (v) => {
        const temperatures = ready(context.shutIn);
        const path = ready(context.path);
        const [first] = path.points;
        const at = (depth: number) => {
          // Above the first station the hole is vertical.
          const isAbove = first !== undefined && depth < first.depth;
          return temperatures.at(isAbove ? verticalM(depth) : path.at(alongHoleM(depth)).vertical);
        };
        // The mean warmth of the line over what the counter saw: a flat hole is warm for long.
        const middles = Array.from({ length: PARTS }, (_, i) => at(((i + 0.5) / PARTS) * v.depth));
        const rise = middles.reduce((sum, kelvins) => sum + kelvins, 0) / PARTS - at(0);
        return { si: thermalStretch(v.depth, rise, v.expansion) };
      },
    }),
  "stretch-at-limit": (context, get) =>
    trace({
      id: "stretch-at-limit",
      label: "Counter moves before the tool does, from hanging to the largest permitted pull",
      dimension: "length",
      method: {
        ...hangingStretchMethod,
        formula:
          "ΔL = ∫ (T pulling out with ΔT at the tool − T hanging) ds / (A E), over both tension profiles",
      },
      givens: {
        ...lineGivens(context, get, context.programme.strings.pull),
        modulus: modulusGiven(context),
        section: sectionGiven(context),
        depth: from("L", get("target-depth")),
        overpull: from("ΔT", get("overpull-pull")),
      },
      work: (v) => {
        const line = { diameter: v.section, modulus: v.modulus };
        const { profile, warnings } = lineTension(
          holeOf(context, v),
          alongHoleM(v.depth),
          Math.max(0, v.overpull),
        );
        const points = profile.map(({ depth, pullingOut, hanging }) => ({
          depth,
          tension: pullingOut - hanging,
        }));
        return { si: profileStretch(line, points), warnings };
      },
    }),
  "counter-correction": (context) =>
    trace({
      id: "counter-correction",
      label: "Counter less schematic, at the known point",
      dimension: "length",
      method: {
        name: "Correction on a tagged depth",
        formula: "tagged − known, both along hole from the same reference",
        source: "arithmetic; common practice",
        validity: [],
      },
      givens: {
        tagged: tagged(context, "Lc", "Counter at the known point", "known counter"),
        known: tagged(context, "Lk", "Its depth on the schematic", "known depth"),
      },
      work: (v) => ({ si: v.tagged - v.known }),
    }),
  "counter-at-mandrel": (_, get) =>
    counterAt(get, "counter-at-mandrel", "Counter should read at the mandrel", "target-depth"),
  "counter-above": (_, get) =>
    counterAt(get, "counter-above", "Counter should read at the mandrel above", "mandrel-above"),
  "counter-below": (_, get) =>
    counterAt(get, "counter-below", "Counter should read at the mandrel below", "mandrel-below"),
} satisfies Definitions;
