import type { Cell } from "../document.ts";
import { asWords, columnOf, lookOf } from "./column.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { linesOf } from "./lines.ts";
import { colours, types } from "./paper.ts";
import type { Measure } from "./prose.ts";
import { type Placed, rowOf } from "./row.ts";
import { hairline } from "./sheet.ts";

type Fact = readonly [name: string, value: Cell];

const GUTTER = 22;
/** share of a pair that its name takes */
const NAME = 0.44;
const GAP = 8;

/** A pair is set in half the width where neither side of it takes more lines than this. */
const LINES = 2;

/** Names with their values, two pairs beside each other where both are short. Read line by line. */
export function facts(fonts: Fonts, rows: readonly Fact[], { left, width }: Measure): Box[] {
  const half = (width - GUTTER) / 2;
  const isShort = ([name, value]: Fact) => {
    const words = asWords(value);
    const high = (text: string, weight: "regular" | "bold", wide: number) =>
      linesOf(fonts, text, weight, wide / types.body.size).length;
    return (
      high(name, "regular", half * NAME) <= LINES &&
      high(words.text, lookOf(words).weight, half * (1 - NAME) - GAP) <= LINES
    );
  };
  const pair = ([name, value]: Fact, x: number, wide: number): Placed[] => {
    // The names of pairs that take the whole width stand under those that take half of it.
    const named = half * NAME;
    return [
      { column: columnOf(fonts, { text: name, tone: "soft" }, types.body, named), x },
      {
        column: columnOf(fonts, value, types.body, wide - named - GAP),
        x: x + named + GAP,
      },
    ];
  };
  const boxes: Box[] = [];
  for (let index = 0; index < rows.length; ) {
    const [first, second] = rows.slice(index, index + 2);
    if (!first) break;
    const beside = second && isShort(first) && isShort(second) ? second : undefined;
    const last = index + (beside ? 2 : 1) >= rows.length;
    const own = beside || isShort(first) ? half : width;
    const columns = [
      ...pair(first, left, own),
      ...(beside ? pair(beside, left + half + GUTTER, half) : []),
    ];
    boxes.push(
      rowOf(
        columns,
        {
          padding: 2,
          rule: (sheet, top, height) => {
            for (const from of beside ? [left, left + half + GUTTER] : [left]) {
              const to = from + (beside ? half : own);
              sheet.line(
                [
                  [from, top + height],
                  [to, top + height],
                ],
                { ...hairline, colour: colours.hair },
              );
            }
          },
        },
        { before: index === 0 ? 5 : 0, keep: !last && index === 0 },
      ),
    );
    index += beside ? 2 : 1;
  }
  return boxes;
}
