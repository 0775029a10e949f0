import {
  elasticStretch,
  hangingStretchMethod,
  lineStretchMethod,
  profileStretch,
  thermalStretch,
} from "../../calc/lineStretch.ts";
import { lineTension } from "../../calc/lineTension.ts";
import { alongHoleM, verticalM } from "../../calc/units.ts";
import { type Context, ready, recorded } from "./context.ts";
import { diameterGiven, holeOf, lineGivens, lineName } from "./lineInHole.ts";
import { type Definitions, from, type Given, trace } from "./traced.ts";
import { profileGiven } from "./wellGivens.ts";

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
        depth: from("L", get("target-depth")),
      },
      work: (v) => {
        const { profile, warnings } = lineTension(holeOf(context, v), alongHoleM(v.depth));
        const line = { diameter: v.diameter, modulus: v.modulus };
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
        tvd: from("h", get("mandrel-tvd")),
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
        const at = (share: number) => temperatures.at(verticalM(share * v.tvd));
        // Straight between few points: Simpson's rule takes the mean warmth of the line over what the counter saw.
        const rise = (at(0) + 4 * at(0.5) + at(1)) / 6 - at(0);
        return { si: thermalStretch(v.depth, rise, v.expansion) };
      },
    }),
  "stretch-at-limit": (context, get) =>
    trace({
      id: "stretch-at-limit",
      label: "Counter moves before the tool does, up to the largest permitted pull",
      dimension: "length",
      method: lineStretchMethod,
      givens: {
        depth: from("L", get("target-depth")),
        diameter: diameterGiven(context),
        modulus: modulusGiven(context),
        overpull: from("ΔT", get("overpull-pull")),
      },
      work: (v) => ({
        si: elasticStretch({ diameter: v.diameter, modulus: v.modulus }, v.depth, v.overpull),
      }),
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
    trace({
      id: "counter-at-mandrel",
      label: "Counter should read at the mandrel",
      dimension: "length",
      method: {
        name: "Corrected counter",
        formula: "depth along hole + correction at the known point",
        source: "arithmetic; the correction is taken to be the same at the mandrel",
        validity: [],
      },
      givens: {
        depth: from("L", get("target-depth")),
        correction: from("ΔL", get("counter-correction")),
      },
      work: (v) => ({ si: v.depth + v.correction }),
    }),
} satisfies Definitions;
