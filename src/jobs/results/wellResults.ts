import { minimumCurvatureMethod } from "../../calc/path.ts";
import type { TemperatureProfile } from "../../calc/temperatureProfile.ts";
import { alongHoleM, verticalM } from "../../calc/units.ts";
import { type Context, type Part, ready, recorded } from "./context.ts";
import { frictionAt, injectionAt } from "./onLift.ts";
import { type Definitions, from, type Given, type ResultId, type Traced, trace } from "./traced.ts";
import { pathGiven, profileGiven } from "./wellGivens.ts";

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
  "injection-at-mandrel": (context, get) =>
    injectionAt(
      context,
      "injection-at-mandrel",
      "Injection pressure at the mandrel, on lift",
      get("mandrel-tvd"),
    ),
  "injection-friction": (context, get) =>
    frictionAt(context, "injection-friction", get("mandrel-tvd"), mandrelDepth(context)),
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
