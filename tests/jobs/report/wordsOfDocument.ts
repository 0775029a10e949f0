import type { Block, Cell, ReportDocument } from "../../../src/jobs/report/document.ts";

const said = (cell: Cell) => (typeof cell === "string" ? cell : cell.text);

/** Texts of a block in the order in which they are read. */
function textsOf(block: Block): string[] {
  switch (block.kind) {
    case "heading":
    case "words":
      return [block.text];
    case "facts":
      return block.rows.flatMap(([name, value]) => [name, said(value)]);
    case "table":
      return [
        block.caption ?? "",
        ...block.columns.map(({ title }) => title),
        ...block.rows.flatMap((row) => row.map(said)),
      ];
    case "list":
      return block.items.map(said);
    case "chart": {
      const { title, series, x, y } = block.chart;
      return [
        title,
        ...series.map(({ name }) => name),
        y.label,
        ...y.ticks.map(({ label }) => label),
        ...x.ticks.map(({ label }) => label),
        x.label,
      ];
    }
    case "photograph":
      return [block.caption];
    case "signature":
      return [block.name, block.role, block.at, block.of];
  }
}

/** Every word of a document in the order in which it stands on paper. */
export const wordsOfDocument = ({ title, subtitle, parts }: ReportDocument): string[] =>
  [title, subtitle, ...parts.flatMap((part) => [part.title, ...part.blocks.flatMap(textsOf)])]
    .flatMap((text) => text.split(/\s+/u))
    .filter((word) => word !== "");
