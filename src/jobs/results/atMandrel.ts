import type { Valve } from "../records/valve.ts";
import type { Mandrel } from "../records/well.ts";
import type { Context } from "./context.ts";
import {
  from,
  type Get,
  type Given,
  type MandrelFigure,
  type MandrelResultId,
  mandrelFigures,
  type Traced,
} from "./traced.ts";

/** What a figure of one mandrel is made from: the well, the valve that the scenario puts there, the other figures. */
export interface AtMandrel {
  readonly context: Context;
  readonly mandrel: Mandrel;
  readonly valve: Valve | undefined;
  readonly id: (figure: MandrelFigure) => MandrelResultId;
  /** words with the mandrel's number */
  readonly label: (words: string) => string;
  readonly other: (figure: MandrelFigure) => Traced;
  readonly given: (symbol: string, figure: MandrelFigure) => Given;
}

export type FiguresOf<F extends MandrelFigure> = Readonly<Record<F, (at: AtMandrel) => Traced>>;

export const mandrelResultId = (figure: MandrelFigure, mandrel: number): MandrelResultId =>
  `${figure} of mandrel ${mandrel}`;

/** Takes a result's id apart; undefined when it is not one of a mandrel. */
export function mandrelFigureOf(
  id: string,
): { readonly figure: MandrelFigure; readonly number: number } | undefined {
  const [figure, number] = id.split(" of mandrel ");
  const known = mandrelFigures.find((each) => each === figure);
  return known && number !== undefined ? { figure: known, number: Number(number) } : undefined;
}

/** The valve in a mandrel's pocket, the replacement in the one at work where the scenario says so. */
export function valveIn({ programme, scenario }: Context, mandrel: Mandrel): Valve | undefined {
  const { installed, replacement, job } = programme;
  if (scenario.pocket === "with the replacement" && mandrel.id === job.mandrel) return replacement;
  return mandrel.pocketState === "holds a valve"
    ? installed.find((valve) => valve.id === mandrel.valve)
    : undefined;
}

export function atMandrel(context: Context, get: Get, mandrel: Mandrel): AtMandrel {
  const id = (figure: MandrelFigure) => mandrelResultId(figure, mandrel.number);
  const other = (figure: MandrelFigure) => get(id(figure));
  return {
    context,
    mandrel,
    valve: valveIn(context, mandrel),
    id,
    label: (words) => `${words}, mandrel ${mandrel.number}`,
    other,
    given: (symbol, figure) => from(symbol, other(figure)),
  };
}
