import type { Tool } from "../records/equipment.ts";
import { gaugeCutters } from "./gaugeCutters.ts";
import type { CatalogPart, ToolPart } from "./part.ts";
import { stringTools } from "./stringTools.ts";
import { valveTools } from "./valveTools.ts";

export type CatalogTool = CatalogPart<ToolPart>;

/** Generic tools to plan a string with, every figure with its source. No part of any maker. */
export const catalogTools: readonly CatalogTool[] = [
  ...stringTools,
  ...valveTools,
  ...gaugeCutters,
];

/** The kinds that the catalog holds, top down as they stand in a string. */
export const catalogKinds: readonly Tool["kind"][] = [
  ...new Set(catalogTools.map(({ part }) => part.kind)),
];

/**
 * The catalog's part that a tool still is: same name, same figures. Once one figure is entered for the tool itself,
 * it is that tool and no longer the catalog's.
 */
export function catalogPartOf({ id: _, ...tool }: Tool): CatalogTool | undefined {
  const figures = Object.keys(tool);
  return catalogTools.find(
    ({ part }) =>
      part.name === tool.name &&
      Object.keys(part).length === figures.length &&
      Object.entries(part).every(
        ([key, figure]) => JSON.stringify(figure) === JSON.stringify(tool[key as keyof ToolPart]),
      ),
  );
}

/** Figures of a part that share a source. */
export interface SourcedFigures {
  readonly source: string;
  readonly figures: readonly (keyof ToolPart)[];
}

/** The sources of a part, each once, with the figures that it stands for. */
export function sourcesOf({ part, sources }: CatalogTool): SourcedFigures[] {
  const entries = (Object.keys(part) as (keyof ToolPart)[]).flatMap(
    (figure): [keyof ToolPart, string][] => {
      const source = sources[figure as keyof typeof sources];
      return source ? [[figure, source]] : [];
    },
  );
  return [...new Set(entries.map(([, source]) => source))].map((source) => ({
    source,
    figures: entries.filter(([, each]) => each === source).map(([figure]) => figure),
  }));
}
