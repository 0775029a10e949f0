import { type Column, drawColumn, heightOf, splitColumn } from "./column.ts";
import type { Box } from "./flow.ts";
import type { Sheet } from "./sheet.ts";

/** A column of a row, and where it stands. */
export interface Placed {
  readonly column: Column;
  readonly x: number;
}

interface RowLook {
  /** white above and below the text */
  readonly padding: number;
  /** drawn with it, under or over the text */
  readonly rule?: (sheet: Sheet, top: number, height: number) => void;
}

/** Columns beside each other. One that is taller than a page goes on, column by column, on the next. */
export function rowOf(
  columns: readonly Placed[],
  look: RowLook,
  more: Pick<Box, "before" | "keep" | "over"> = {},
): Box {
  const { padding, rule } = look;
  const height = Math.max(0, ...columns.map(({ column }) => heightOf(column))) + 2 * padding;
  return {
    ...more,
    height,
    draw: (sheet, top) => {
      rule?.(sheet, top, height);
      for (const { column, x } of columns) drawColumn(sheet, column, x, top + padding);
    },
    split: (room) => {
      const halves = columns.map(({ column, x }) => {
        const [first, rest] = splitColumn(column, room - 2 * padding);
        return [
          { column: first, x },
          { column: rest, x },
        ] as const;
      });
      if (halves.every(([first]) => first.column.lines.length === 0)) return undefined;
      return [
        rowOf(
          halves.map(([first]) => first),
          look,
          more,
        ),
        rowOf(
          halves.map(([, rest]) => rest),
          look,
          more,
        ),
      ];
    },
  };
}
