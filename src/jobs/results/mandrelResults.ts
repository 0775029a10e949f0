import type { Programme } from "../records/programme.ts";
import type { Mandrel } from "../records/well.ts";
import { atMandrel, type FiguresOf } from "./atMandrel.ts";
import type { Context, Scenario } from "./context.ts";
import { mandrelClosing } from "./mandrelClosing.ts";
import { mandrelPassage } from "./mandrelPassage.ts";
import { mandrelPressures } from "./mandrelPressures.ts";
import { mandrelValve } from "./mandrelValve.ts";
import { type Results, resultsOf } from "./results.ts";
import type { Get, MandrelFigure, Traced } from "./traced.ts";

const figures: FiguresOf<MandrelFigure> = {
  ...mandrelPressures,
  ...mandrelValve,
  ...mandrelClosing,
  ...mandrelPassage,
};

/** One figure of one mandrel, while the well is on lift. */
function mandrelResult(
  context: Context,
  get: Get,
  figure: MandrelFigure,
  mandrel: Mandrel,
): Traced {
  return figures[figure](atMandrel(context, get, mandrel));
}

/**
 * The results of a job with those of every mandrel of its well. They are for the screens that look at the whole
 * well; the run sheet does without, and its first load with it.
 */
export const wholeWellOf = (programme: Programme, scenario: Scenario): Results =>
  resultsOf(programme, {}, scenario, mandrelResult);
