import type { Block } from "../document.ts";
import { chart } from "./chart.ts";
import { facts } from "./facts.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { type Photograph, photographs } from "./photographs.ts";
import type { Pictures, Shown } from "./pictures.ts";
import { heading, list, type Measure, words } from "./prose.ts";
import { signatures } from "./signatures.ts";
import { table } from "./table.ts";

/** Photographs and signatures that follow each other share rows. */
export function gathered(blocks: readonly Block[]): Block[][] {
  const groups: Block[][] = [];
  for (const block of blocks) {
    const last = groups.at(-1);
    const shares = block.kind === "photograph" || block.kind === "signature";
    if (shares && last?.[0]?.kind === block.kind) last.push(block);
    else groups.push([block]);
  }
  return groups;
}

export const weightOfAll = (blocks: readonly Block[]) =>
  blocks.reduce((sum, block) => sum + weightOf(block), 0);

/** What setting a block takes, beside that of others. */
function weightOf(block: Block): number {
  if (block.kind === "table" || block.kind === "facts") return 1 + block.rows.length;
  return block.kind === "list" ? block.items.length : 1;
}

/** The boxes of a block, or of several that share rows. */
export async function boxesOf(
  together: readonly Block[],
  fonts: Fonts,
  measure: Measure,
  pictures: Pictures,
): Promise<Iterable<Box>> {
  const [block] = together;
  switch (block?.kind) {
    case "heading":
      return [heading(fonts, block.text, "heading", measure)];
    case "words":
      return words(fonts, block, measure);
    case "facts":
      return facts(fonts, block.rows, measure);
    case "table":
      return table(fonts, block, measure);
    case "list":
      return list(fonts, block.items, measure);
    case "chart":
      return [chart(fonts, block.chart, measure)];
    case "photograph": {
      const all: { block: Photograph; shown: Shown }[] = [];
      for (const each of together) {
        if (each.kind !== "photograph") continue;
        all.push({ block: each, shown: await pictures.shown(each.picture) });
      }
      return photographs(fonts, all, measure);
    }
    case "signature":
      return signatures(
        fonts,
        together.filter((each) => each.kind === "signature"),
        measure,
      );
    case undefined:
      return [];
  }
}
