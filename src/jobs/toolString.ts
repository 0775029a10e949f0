import { toSI } from "./quantity.ts";
import type { Tool, ToolString } from "./records/equipment.ts";
import { stringWeight } from "./results/lineInHole.ts";
import { lengthsOpen, stringLength } from "./results/stringInStack.ts";

/** A tool string while it is put together: its order and its figures. Pure. */

type Tools = readonly Tool[];

/** A place up or down; at either end it stays where it is. */
export function moved(tools: Tools, index: number, by: -1 | 1): Tools {
  const tool = tools[index];
  const to = index + by;
  if (!tool || to < 0 || to >= tools.length) return tools;
  return tools.toSpliced(index, 1).toSpliced(to, 0, tool);
}

/** Another tool in the place of one. */
export function swapped(tools: Tools, index: number, tool: Tool): Tools {
  return tools[index] ? tools.with(index, tool) : tools;
}

/** A tool at a place, those from there on one further down. */
export function inserted(tools: Tools, index: number, tool: Tool): Tools {
  return tools.toSpliced(index, 0, tool);
}

export function takenOut(tools: Tools, index: number): Tools {
  return tools.toSpliced(index, 1);
}

/** What a string comes to, SI. */
export interface StringFigures {
  /** m, jars closed */
  readonly closed: number;
  /** m, every tool in its longest state, as far as it is on record */
  readonly extended: number;
  /** what keeps that from being known, by name */
  readonly lengthsOpen: readonly string[];
  /** N, in air */
  readonly weight: number;
  /** undefined of a string without tools */
  readonly largest: { readonly tool: Tool; readonly diameter: number } | undefined;
}

export function figuresOf(string: ToolString): StringFigures {
  const largest = string.tools
    .map((tool) => ({ tool, diameter: toSI("diameter", tool.outsideDiameter) }))
    // Of equal ones the upper: it is the first to stop.
    .reduce<StringFigures["largest"]>(
      (most, each) => (most && most.diameter >= each.diameter ? most : each),
      undefined,
    );
  return {
    closed: string.tools.reduce((sum, tool) => sum + toSI("length", tool.length), 0),
    extended: stringLength(string),
    lengthsOpen: lengthsOpen(string),
    weight: stringWeight(string),
    largest,
  };
}
