import type { Mandrel } from "../records/well.ts";
import { atMandrel, type FiguresOf } from "./atMandrel.ts";
import type { Context } from "./context.ts";
import { mandrelPassage } from "./mandrelPassage.ts";
import { mandrelPressures } from "./mandrelPressures.ts";
import { mandrelValve } from "./mandrelValve.ts";
import type { Get, MandrelFigure, Traced } from "./traced.ts";

const figures: FiguresOf<MandrelFigure> = {
  ...mandrelPressures,
  ...mandrelValve,
  ...mandrelPassage,
};

/** One figure of one mandrel, while the well is on lift. */
export function mandrelResult(
  context: Context,
  get: Get,
  figure: MandrelFigure,
  mandrel: Mandrel,
): Traced {
  return figures[figure](atMandrel(context, get, mandrel));
}
