import type { Cell, Words } from "../document.ts";
import { type Column, columnOf, drawColumn } from "./column.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { linesOf } from "./lines.ts";
import { colours, looks, types } from "./paper.ts";
import { rowOf } from "./row.ts";
import type { Sheet } from "./sheet.ts";

/** Where text stands between the margins. */
export interface Measure {
  readonly left: number;
  readonly width: number;
  /** smaller and closer; as usual where nothing is said */
  readonly dense?: boolean | undefined;
}

/** How words and tables look there. */
export const lookIn = ({ dense }: Pick<Measure, "dense">) => (dense ? looks.dense : looks.usual);

/** Lines of this many or fewer stay on one page. */
const FEW = 3;

/** A column as one box a line: the first two lines stay together, and so do the last two. */
function boxesOf(column: Column, x: number, before: number): Box[] {
  const count = column.lines.length;
  return column.lines.map((line, index) => ({
    height: column.type.leading,
    before: index === 0 ? before : 0,
    keep: index < count - 1 && (count <= FEW || index === 0 || index === count - 2),
    draw: (sheet: Sheet, top: number) => drawColumn(sheet, { ...column, lines: [line] }, x, top),
  }));
}

export function words(
  fonts: Fonts,
  block: Words & { readonly keep?: boolean },
  { left, width, dense }: Measure,
): Box[] {
  const { body, before } = lookIn({ dense });
  const boxes = boxesOf(columnOf(fonts, block, body, width), left, before.words);
  const last = boxes.at(-1);
  return block.keep && last ? [...boxes.slice(0, -1), { ...last, keep: true }] : boxes;
}

/** Large words above what they are the title of. */
export function heading(
  fonts: Fonts,
  text: string,
  level: "part" | "heading",
  { left, width, dense }: Measure,
): Box {
  const look = lookIn({ dense });
  const type = level === "part" ? types.part : look.heading;
  const column: Column = {
    lines: linesOf(fonts, text, "bold", width / type.size),
    type,
    colour: colours.ink,
    barred: false,
    right: false,
    width,
  };
  const isPart = level === "part";
  const row = rowOf(
    [{ column, x: left }],
    {
      padding: isPart ? 4 : 2,
      ...(isPart && {
        rule: (sheet, top, height) =>
          sheet.line(
            [
              [left, top + height],
              [left + width, top + height],
            ],
            { colour: colours.ink, width: 1 },
          ),
      }),
    },
    { before: isPart ? 24 : look.before.heading, keep: true },
  );
  return row;
}

/** Title and subtitle on the first page. */
export function titleOf(
  fonts: Fonts,
  { title, subtitle }: { readonly title: string; readonly subtitle: string },
  { left, width }: Measure,
): Box[] {
  const column = (text: string, level: "title" | "subtitle"): Column => {
    const bold = level === "title";
    return {
      lines: linesOf(fonts, text, bold ? "bold" : "regular", width / types[level].size),
      type: types[level],
      colour: bold ? colours.ink : colours.soft,
      barred: false,
      right: false,
      width,
    };
  };
  return [
    ...boxesOf(column(title, "title"), left, 0),
    ...boxesOf(column(subtitle, "subtitle"), left, 2),
  ];
}

const INDENT = 14;

export function list(fonts: Fonts, items: readonly Cell[], { left, width, dense }: Measure): Box[] {
  const { body, before } = lookIn({ dense });
  return items.flatMap((item, index) => {
    const dot = columnOf(fonts, "•", body, INDENT);
    const boxes = boxesOf(
      columnOf(fonts, item, body, width - INDENT),
      left + INDENT,
      index === 0 ? before.words : 3,
    );
    return boxes.map((box, line) =>
      line > 0
        ? box
        : {
            ...box,
            draw: (sheet: Sheet, top: number) => {
              drawColumn(sheet, dot, left + 2, top);
              box.draw(sheet, top);
            },
          },
    );
  });
}
