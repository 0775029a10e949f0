import type { Block, Cell, Column as TableColumn } from "../document.ts";
import { asWords, columnOf, lookOf } from "./column.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { widestWord } from "./lines.ts";
import { colours, type Type, types } from "./paper.ts";
import { lookIn, type Measure } from "./prose.ts";
import { rowOf } from "./row.ts";
import { hairline } from "./sheet.ts";

type Table = Extract<Block, { kind: "table" }>;

/** between two columns */
const GAP = 10;

/** As many rows are looked at for the width that a column's words need. */
const SAMPLE = 200;
/** A word may claim this share of the table's width for its column; a longer one, as a hash, is broken. */
const MOST = 0.3;

/** A header that takes more than this is not repeated: too little of a page would be left. */
const TALLEST_HEADER = 160;

/** Caption, header and rows; the header stands above the rows on each page. */
export function* table(
  fonts: Fonts,
  block: Table,
  { left, width, dense }: Measure,
): Generator<Box> {
  const { table: type, padding, before } = lookIn({ dense });
  const count = block.rows.reduce((most, row) => Math.max(most, row.length), block.columns.length);
  if (count === 0) {
    if (block.caption) yield captionOf(fonts, block.caption, { left, width }, false);
    return;
  }
  // Cells beyond the last column get one without a title: nothing of a row is lost.
  const columns: TableColumn[] = Array.from(
    { length: count },
    (_, index) => block.columns[index] ?? { title: "" },
  );
  const gap = Math.min(GAP, width / count / 3);
  const sample = block.rows.slice(0, SAMPLE);
  const widths = widthsOf(fonts, columns, sample, width - gap * (count - 1), type);
  const starts = widths.map((_, index) =>
    widths.slice(0, index).reduce((x, wide) => x + wide + gap, left),
  );
  const placed = (cells: readonly Cell[]) =>
    cells.map((cell, index) => ({
      column: columnOf(fonts, cell, type, widths[index] ?? 0, columns[index]?.align),
      x: starts[index] ?? left,
    }));
  const rule = (colour: typeof hairline.colour, thickness: number) => ({
    padding,
    rule: (sheet: Parameters<Box["draw"]>[0], top: number, height: number) =>
      sheet.line(
        [
          [left, top + height],
          [left + width, top + height],
        ],
        { colour, width: thickness },
      ),
  });
  const header = rowOf(
    placed(columns.map(({ title }) => ({ text: title, tone: "strong" }))),
    rule(colours.ink, 0.9),
    { before: block.caption ? 0 : before.table, keep: block.rows.length > 0 },
  );
  if (block.caption) yield captionOf(fonts, block.caption, { left, width }, true);
  yield header;
  const over = header.height <= TALLEST_HEADER ? { over: header } : {};
  const look = rule(colours.hair, hairline.width);
  const last = block.rows.length - 1;
  for (const [index, row] of block.rows.entries()) {
    // Neither the first row stands alone on a page nor the last, nor a title below what it is not the title of.
    const isTitle = index < last && block.titles?.includes(index);
    const keep = index === last - 1 || (index === 0 && last > 0) || isTitle === true;
    yield rowOf(placed(row), look, { ...over, keep });
  }
}

const captionOf = (fonts: Fonts, caption: string, { left, width }: Measure, keep: boolean) =>
  rowOf(
    [{ column: columnOf(fonts, { text: caption, tone: "strong" }, types.body, width), x: left }],
    { padding: 1 },
    { before: 10, keep },
  );

/** Widths of columns: their shares, but for a column whose words would have to be broken. */
function widthsOf(
  fonts: Fonts,
  columns: readonly TableColumn[],
  rows: readonly (readonly Cell[])[],
  width: number,
  type: Type,
): number[] {
  const shares = columns.map(({ share = 1 }) => (Number.isFinite(share) && share > 0 ? share : 1));
  const least = columns.map(({ title }, index) => {
    const cells: Cell[] = [{ text: title, tone: "strong" }, ...rows.map((row) => row[index] ?? "")];
    const wide = cells.map((cell) => {
      const words = asWords(cell);
      const bar = words.tone === "problem" ? 6 : 0;
      return widestWord(fonts, words.text, lookOf(words).weight) * type.size + bar;
    });
    return Math.max(0, ...wide.filter((each) => each <= MOST * width));
  });
  const needed = least.reduce((sum, each) => sum + each, 0);
  // Where words alone are wider than the paper, what there is goes by their widths.
  if (needed >= width) return least.map((each) => (Math.max(each, 1) / needed) * width);
  let free = new Set(columns.keys());
  const widths = [...least];
  // Columns whose share is less than their words need keep to those; the others share what is left.
  for (;;) {
    const taken = widths.reduce((sum, each, index) => sum + (free.has(index) ? 0 : each), 0);
    const parts = [...free].reduce((sum, index) => sum + (shares[index] ?? 1), 0);
    const part = (index: number) => ((width - taken) * (shares[index] ?? 1)) / parts;
    const tight = [...free].filter((index) => part(index) < (least[index] ?? 0));
    if (tight.length === 0 || tight.length === free.size) {
      for (const index of free) widths[index] = part(index);
      return widths;
    }
    free = new Set([...free].filter((index) => !tight.includes(index)));
  }
}
