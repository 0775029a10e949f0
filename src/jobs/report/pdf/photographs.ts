import type { Block } from "../document.ts";
import { columnOf, drawColumn, heightOf } from "./column.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { colours, types } from "./paper.ts";
import type { Shown } from "./pictures.ts";
import type { Measure } from "./prose.ts";
import type { Sheet } from "./sheet.ts";

export type Photograph = Extract<Block, { kind: "photograph" }>;

const GUTTER = 16;
const TALLEST = 250;
const INSET = 10;

const wordsFor = {
  "not here": "This photograph is not on this device. It is known by its SHA-256:",
  "not readable":
    "This photograph cannot be shown: its file is no JPEG that can be read. Its SHA-256:",
} as const;

/** Photographs two to a row, each with its caption. */
export function photographs(
  fonts: Fonts,
  all: readonly { readonly block: Photograph; readonly shown: Shown }[],
  { left, width }: Measure,
): Box[] {
  const wide = (width - GUTTER) / 2;
  const framed = all.map(({ block, shown }) => frame(fonts, block, shown, wide));
  const boxes: Box[] = [];
  for (let index = 0; index < framed.length; index += 2) {
    const row = framed.slice(index, index + 2);
    boxes.push({
      height: Math.max(...row.map(({ height }) => height)),
      before: 10,
      draw: (sheet, top) => {
        row.forEach(({ draw }, place) => {
          draw(sheet, left + place * (wide + GUTTER), top);
        });
      },
    });
  }
  return boxes;
}

interface Framed {
  readonly height: number;
  readonly draw: (sheet: Sheet, x: number, top: number) => void;
}

function frame(fonts: Fonts, block: Photograph, shown: Shown, width: number): Framed {
  const caption = columnOf(fonts, block.caption, types.small, width);
  const under = heightOf(caption) + 4;
  if (typeof shown === "string") {
    const said = columnOf(
      fonts,
      { text: wordsFor[shown], tone: "strong" },
      types.small,
      width - 2 * INSET,
    );
    const named = columnOf(fonts, block.picture, types.small, width - 2 * INSET);
    const height = heightOf(said) + heightOf(named) + 2 * INSET;
    return {
      height: height + under,
      draw: (sheet, x, top) => {
        const corners = [
          [x, top],
          [x + width, top],
          [x + width, top + height],
          [x, top + height],
          [x, top],
        ] as const;
        sheet.line(corners, { colour: colours.edge, width: 0.8, dash: [4, 3] });
        drawColumn(sheet, said, x + INSET, top + INSET);
        drawColumn(sheet, named, x + INSET, top + INSET + heightOf(said));
        drawColumn(sheet, caption, x, top + height + 4);
      },
    };
  }
  const scale = Math.min(width / shown.width, TALLEST / shown.height);
  const [wide, high] = [shown.width * scale, shown.height * scale];
  return {
    height: high + under,
    draw: (sheet, x, top) => {
      sheet.image(shown, x, top, wide, high);
      drawColumn(sheet, caption, x, top + high + 4);
    },
  };
}
