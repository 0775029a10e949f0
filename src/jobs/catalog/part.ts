import type { Line, Tool } from "../records/equipment.ts";

/** A name is no figure, and a kind needs no source. */
type FigureOf<T> = Exclude<keyof T, "name" | "kind" | "strengthFrom">;

/** A tool before it has a place in a string. */
export type ToolPart = Omit<Tool, "id">;
/** A line before somebody keeps it. */
export type LinePart = Omit<Line, "id" | "revision">;

/** A part in a generic size: figures to plan with, and where each comes from. */
export interface CatalogPart<P extends ToolPart | LinePart> {
  readonly part: P;
  readonly sources: { readonly [K in FigureOf<P>]?: string };
}

/** A part whose every figure has a source: one without does not compile. */
export const tool = <T extends ToolPart>(
  part: T,
  sources: Readonly<Record<FigureOf<T>, string>>,
): CatalogPart<ToolPart> => ({ part, sources });

/** The same for a line. */
export const line = <T extends LinePart>(
  part: T,
  sources: Readonly<Record<FigureOf<T>, string>>,
): CatalogPart<LinePart> => ({ part, sources });
