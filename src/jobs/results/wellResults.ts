import type { Gas } from "../../calc/gas.ts";
import { gasColumn, gasColumnMethod } from "../../calc/gasColumn.ts";
import { minimumCurvatureMethod } from "../../calc/path.ts";
import type { TemperatureProfile } from "../../calc/temperatureProfile.ts";
import { absolutePa, alongHoleM, verticalM } from "../../calc/units.ts";
import type { GasRecord } from "../records/well.ts";
import { type Context, type Part, partGiven, ready, recorded } from "./context.ts";
import { type Definitions, from, type Given, type ResultId, type Traced, trace } from "./traced.ts";

const wellName = ({ programme }: Context) => programme.well?.name ?? "well";

/** The mandrel's depth along hole as the schematic has it. */
function mandrelDepth(context: Context): Given {
  return recorded(
    context,
    "L",
    "Depth of the mandrel along hole",
    "length",
    context.mandrel?.depthAlongHole,
    `${wellName(context)}, mandrel ${context.mandrel?.number ?? "not chosen"}`,
  );
}

/** The survey, in words. */
export function pathGiven(context: Context): Given {
  const path = context.programme.well?.path;
  const shown =
    path?.kind === "surveyed" ? `${path.stations.length} survey stations` : "vertical well";
  return partGiven("path", "Well path", context.path, shown, wellName(context));
}

function gasInWords(gas: GasRecord | undefined): string {
  if (!gas) return "";
  const { specificGravity, co2, h2s, n2 } = gas;
  return `gravity ${specificGravity.value}, CO2 ${co2.value} ${co2.unit}, H2S ${h2s.value} ${h2s.unit}, N2 ${n2.value} ${n2.unit}`;
}

export function gasGiven(context: Context): Given {
  const words = gasInWords(context.programme.well?.injectionGas);
  return partGiven("gas", "Injection gas", context.gas, words, wellName(context));
}

/** The gas above the liquid in the shut-in tubing; where nobody said which, the injection gas, as an assumption. */
export function tubingGasGiven(context: Context): Given {
  const { well } = context.programme;
  const words = gasInWords(well?.tubingGas ?? well?.injectionGas);
  const given = partGiven("gas", "Gas in the tubing", context.tubingGas, words, wellName(context));
  return well?.tubingGas
    ? given
    : { ...given, origin: { kind: "assumed", why: "the injection gas" } };
}

export function profileGiven(context: Context, condition: "shutIn" | "flowing"): Given {
  const points = context.programme.well?.temperatures[condition] ?? [];
  const name = condition === "shutIn" ? "Shut-in temperatures" : "Flowing temperatures";
  return partGiven("T(h)", name, context[condition], `${points.length} points`, wellName(context));
}

const at = (context: Context, alongHole: number) => ready(context.path).at(alongHoleM(alongHole));

export const wellResults = {
  "mandrel-tvd": (context) =>
    trace({
      id: "mandrel-tvd",
      label: "True vertical depth of the mandrel",
      dimension: "length",
      method: minimumCurvatureMethod,
      givens: { depth: mandrelDepth(context), path: pathGiven(context) },
      work: ({ depth }) => ({ si: at(context, depth).vertical }),
    }),
  "mandrel-inclination": (context) =>
    trace({
      id: "mandrel-inclination",
      label: "Inclination at the mandrel",
      dimension: "angle",
      method: minimumCurvatureMethod,
      givens: { depth: mandrelDepth(context), path: pathGiven(context) },
      work: ({ depth }) => ({ si: at(context, depth).inclination }),
    }),
  "temperature-shut-in": (context, get) =>
    temperature(context, "temperature-shut-in", "shutIn", get("mandrel-tvd")),
  "temperature-flowing": (context, get) =>
    temperature(context, "temperature-flowing", "flowing", get("mandrel-tvd")),
  "injection-at-mandrel": (context, get) => injectionAtMandrel(context, get("mandrel-tvd")),
} satisfies Definitions;

function temperature(
  context: Context,
  id: ResultId,
  condition: "shutIn" | "flowing",
  tvd: Traced,
): Traced {
  const profile: Part<TemperatureProfile> = context[condition];
  return trace({
    id,
    label: `Temperature at the mandrel, ${condition === "shutIn" ? "shut in" : "flowing"}`,
    dimension: "temperature",
    method: {
      name: "Temperature, straight lines between points",
      formula: "T = T1 + (h − h1)(T2 − T1)/(h2 − h1)",
      source: "the points given; beyond them the end slope is carried on",
      validity: [],
    },
    givens: { depth: from("h", tvd), profile: profileGiven(context, condition) },
    work: ({ depth }) => {
      const temperatures = ready(profile);
      return {
        si: temperatures.at(verticalM(depth)),
        warnings: temperatures.warningsAt(verticalM(depth)),
      };
    },
  });
}

/** What stands in the annulus at the mandrel while the well is lifted: gas, moving slowly, taken as at rest. */
function injectionAtMandrel(context: Context, tvd: Traced): Traced {
  const gas: Part<Gas> = context.gas;
  return trace({
    id: "injection-at-mandrel",
    label: "Injection pressure at the mandrel, on lift",
    dimension: "pressure",
    method: gasColumnMethod,
    givens: {
      surface: recorded(
        context,
        "pi",
        "Operating injection pressure at surface",
        "pressure",
        context.programme.well?.pressures.operatingInjectionAtSurface,
        wellName(context),
      ),
      depth: from("h", tvd),
      gas: gasGiven(context),
      profile: profileGiven(context, "flowing"),
    },
    work: ({ surface, depth }) => {
      const { pressures, warnings } = gasColumn(
        absolutePa(surface),
        verticalM(0),
        [verticalM(depth)],
        ready(gas),
        ready(context.flowing),
      );
      return {
        si: pressures[0] as number,
        warnings: [
          ...warnings,
          { kind: "note", text: "friction of the gas moving down the annulus is not counted" },
        ],
      };
    },
  });
}
