import { minimumCurvatureMethod } from "../../calc/path.ts";
import { alongHoleM } from "../../calc/units.ts";
import type { FiguresOf } from "./atMandrel.ts";
import { ready, recorded } from "./context.ts";
import { injectionAt } from "./onLift.ts";
import { productionAt } from "./productionOnLift.ts";
import { trace } from "./traced.ts";
import { pathGiven, temperatureAt } from "./wellGivens.ts";

/** Where a mandrel is, and what stands there on lift. */
export const mandrelPressures: FiguresOf<"tvd" | "temperature" | "injection" | "production"> = {
  tvd(at) {
    const { context, mandrel } = at;
    return trace({
      id: at.id("tvd"),
      label: at.label("True vertical depth"),
      dimension: "length",
      method: minimumCurvatureMethod,
      givens: {
        depth: recorded(
          context,
          "L",
          "Depth along hole",
          "length",
          mandrel.depthAlongHole,
          `mandrel ${mandrel.number}`,
        ),
        path: pathGiven(context),
      },
      work: ({ depth }) => ({ si: ready(context.path).at(alongHoleM(depth)).vertical }),
    });
  },
  temperature: (at) =>
    temperatureAt(
      at.context,
      at.id("temperature"),
      at.label("Temperature on lift"),
      "flowing",
      at.other("tvd"),
    ),
  injection: (at) =>
    injectionAt(
      at.context,
      at.id("injection"),
      at.label("Injection pressure on lift"),
      at.other("tvd"),
    ),
  production: (at) =>
    productionAt(
      at.context,
      at.id("production"),
      at.label("Production pressure on lift"),
      at.other("tvd"),
    ),
};
