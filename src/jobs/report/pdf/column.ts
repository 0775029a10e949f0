import type { Cell, Words } from "../document.ts";
import type { Fonts, Weight } from "./fonts.ts";
import { type Line, linesOf } from "./lines.ts";
import { type Colour, colours, type Type } from "./paper.ts";
import type { Sheet } from "./sheet.ts";

/** Width of the bar beside a problem, and of the white between the two. */
const BAR = { width: 2, gap: 4 } as const;

/** Lines of one text in a column of its own. */
export interface Column {
  readonly lines: readonly Line[];
  readonly type: Type;
  readonly colour: Colour;
  /** a problem has a bar beside it, so that it shows without colours too */
  readonly barred: boolean;
  readonly right: boolean;
  readonly width: number;
}

/** How a tone looks: a problem by weight and bar, what was calculated by the steel of the screens. */
export function lookOf({ tone }: Words): { readonly weight: Weight; readonly colour: Colour } {
  switch (tone) {
    case "soft":
      return { weight: "regular", colour: colours.soft };
    case "strong":
      return { weight: "bold", colour: colours.ink };
    case "problem":
      return { weight: "bold", colour: colours.ember };
    case "calculated":
      return { weight: "regular", colour: colours.steel };
    default:
      return { weight: "regular", colour: colours.ink };
  }
}

export const asWords = (cell: Cell): Words => (typeof cell === "string" ? { text: cell } : cell);

export function columnOf(
  fonts: Fonts,
  cell: Cell,
  type: Type,
  width: number,
  align: "left" | "right" = "left",
): Column {
  const words = asWords(cell);
  const { weight, colour } = lookOf(words);
  const barred = words.tone === "problem";
  const free = Math.max(1, width - (barred ? BAR.width + BAR.gap : 0));
  return {
    lines: linesOf(fonts, words.text, weight, free / type.size),
    type,
    colour,
    barred,
    right: align === "right",
    width,
  };
}

export const heightOf = ({ lines, type }: Column) => lines.length * type.leading;

export function drawColumn(sheet: Sheet, column: Column, x: number, top: number): void {
  const { lines, type, colour, barred, right, width } = column;
  const shift = barred ? BAR.width + BAR.gap : 0;
  const widest = Math.max(0, ...lines.map((line) => line.width)) * type.size;
  if (barred) {
    const at = right ? x + width - widest - shift : x;
    sheet.rectangle(at, top + 1, BAR.width, heightOf(column) - 2, colour);
  }
  lines.forEach((line, index) => {
    const from = right ? x + width - line.width * type.size : x + shift;
    sheet.text(line, type, colour, from, top + index * type.leading);
  });
}

/** The first lines of a column that fit into a height, and the others. */
export function splitColumn(column: Column, room: number): readonly [Column, Column] {
  const count = Math.max(0, Math.floor(room / column.type.leading));
  return [
    { ...column, lines: column.lines.slice(0, count) },
    { ...column, lines: column.lines.slice(count) },
  ];
}
