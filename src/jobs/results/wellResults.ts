import { doglegSeverity, minimumCurvatureMethod } from "../../calc/path.ts";
import { alongHoleM } from "../../calc/units.ts";
import { type Context, ready, recorded, wellName } from "./context.ts";
import { frictionAt, injectionAt } from "./onLift.ts";
import { type Definitions, type Given, trace } from "./traced.ts";
import { pathGiven, temperatureAt } from "./wellGivens.ts";

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
  "mandrel-dogleg": (context) =>
    trace({
      id: "mandrel-dogleg",
      label: "Dogleg severity at the mandrel",
      dimension: "dogleg severity",
      method: minimumCurvatureMethod,
      givens: { depth: mandrelDepth(context), path: pathGiven(context) },
      work: ({ depth }) => ({ si: doglegSeverity(ready(context.path), alongHoleM(depth)) }),
    }),
  "temperature-shut-in": (context, get) =>
    temperatureAt(
      context,
      "temperature-shut-in",
      "Temperature at the mandrel, shut in",
      "shutIn",
      get("mandrel-tvd"),
    ),
  "temperature-flowing": (context, get) =>
    temperatureAt(
      context,
      "temperature-flowing",
      "Temperature at the mandrel, flowing",
      "flowing",
      get("mandrel-tvd"),
    ),
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
