import { signatureFrame } from "../../signature.ts";
import type { Block } from "../document.ts";
import { columnOf, drawColumn, heightOf } from "./column.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { colours, types } from "./paper.ts";
import type { Measure } from "./prose.ts";
import type { Point, Sheet } from "./sheet.ts";

type Signature = Extract<Block, { kind: "signature" }>;

const GUTTER = 30;
const WIDE = 165;
const HIGH = (WIDE * signatureFrame.height) / signatureFrame.width;
const pen = { colour: colours.ink, width: 1.1, round: true } as const;

/** Signatures two to a row: what was drawn, on a line, and below it who, as what, when and for what. */
export function signatures(
  fonts: Fonts,
  all: readonly Signature[],
  { left, width }: Measure,
): Box[] {
  const wide = (width - GUTTER) / 2;
  const signed = all.map((each) => {
    const said = [
      { text: each.name, tone: "strong" },
      each.role,
      each.at,
      each.of,
      ...(each.strokes ? [] : [{ text: "Given by name, nothing drawn.", tone: "soft" } as const]),
    ] as const;
    const columns = said.map((cell) => columnOf(fonts, cell, types.table, wide));
    return { ...each, columns };
  });
  const boxes: Box[] = [];
  for (let index = 0; index < signed.length; index += 2) {
    const row = signed.slice(index, index + 2);
    const drawn = row.some(({ strokes }) => strokes) ? HIGH : 16;
    const heights = row.map(({ columns }) =>
      columns.reduce((sum, each) => sum + heightOf(each), 0),
    );
    boxes.push({
      height: drawn + 4 + Math.max(...heights),
      before: 14,
      draw: (sheet, top) => {
        row.forEach(({ strokes = [], columns }, place) => {
          const x = left + place * (wide + GUTTER);
          drawStrokes(sheet, strokes, x, top + drawn - HIGH);
          sheet.line(
            [
              [x, top + drawn],
              [x + wide, top + drawn],
            ],
            { colour: colours.ink, width: 0.7 },
          );
          let at = top + drawn + 4;
          for (const column of columns) {
            drawColumn(sheet, column, x, at);
            at += heightOf(column);
          }
        });
      },
    });
  }
  return boxes;
}

function drawStrokes(
  sheet: Sheet,
  strokes: NonNullable<Signature["strokes"]>,
  x: number,
  top: number,
): void {
  const scale = WIDE / signatureFrame.width;
  for (const stroke of strokes) {
    const places = stroke.map(([sx, sy]): Point => [x + sx * scale, top + sy * scale]);
    const [only, second] = places;
    // A dot is a line of no length, which a round end makes visible.
    sheet.line(only && !second ? [only, only] : places, pen);
  }
}
