import type { Axis, Chart } from "../document.ts";
import {
  type Drawn,
  drawMarks,
  drawSeries,
  drawSymbol,
  type Frame,
  inLayers,
  isWithin,
  placeIn,
  SYMBOL,
  withTurns,
} from "./chartSeries.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { type Line, linesOf } from "./lines.ts";
import { type Colour, colours, types } from "./paper.ts";
import type { Measure } from "./prose.ts";
import { hairline, type Pen } from "./sheet.ts";

const type = types.small;
const TICK = 3;
/** Beyond these a plot is a line or does not fit a page with its title and key. */
const PLOT = { least: 60, most: 430 } as const;
const axisPen: Pen = { colour: colours.ink, width: 0.9 };

/**
 * A picture of axes and series as lines and shapes. `x.from` is at the left end and `y.from` at the upper, so that a
 * depth whose axis begins with the smaller figure grows downward.
 */
export function chart(fonts: Fonts, of: Chart, { left, width }: Measure): Box {
  const lines = (text: string, weight: "regular" | "bold", wide: number) =>
    linesOf(fonts, text, weight, wide / type.size);
  const title = linesOf(fonts, of.title, "bold", width / types.body.size);
  const drawn = withTurns(of.series);
  const key = keyOf(drawn, (name, wide) => lines(name, "regular", wide), width);
  const yLabel = lines(of.y.label, "regular", width);
  const xLabel = lines(of.x.label, "regular", width);
  const ticksOf = (axis: Axis) =>
    axis.ticks
      .filter(({ at }) => isWithin(at, axis))
      .map(({ at, label }) => ({ at, line: lines(label, "regular", width / 5) }));
  const [xTicks, yTicks] = [ticksOf(of.x), ticksOf(of.y)];
  const widest = Math.max(
    0,
    ...yTicks.flatMap(({ line }) => line.map((each) => each.width * type.size)),
  );
  const highest = Math.max(1, ...xTicks.map(({ line }) => line.length)) * type.leading;
  const inset = widest + TICK + 5;
  const ratio = of.ratio !== undefined && of.ratio > 0 ? of.ratio : 0.6;
  const titleHeight = title.length * types.body.leading + 3;
  const keyHeight = key.height + (key.height > 0 ? 4 : 0);
  const yLabelHeight = yLabel.length * type.leading + 4;
  const below = TICK + 3 + highest + xLabel.length * type.leading;
  const around = titleHeight + keyHeight + yLabelHeight + below;
  const plot = Math.min(PLOT.most, Math.max(PLOT.least, ratio * width - around));
  return {
    height: around + plot,
    before: 12,
    draw: (sheet, top) => {
      const frame: Frame = {
        x: left + inset,
        y: top + titleHeight + keyHeight + yLabelHeight,
        width: width - inset - 8,
        height: plot,
      };
      const say = (
        all: readonly Line[],
        x: number,
        y: number,
        align = 0,
        colour: Colour = colours.ink,
      ) =>
        all.forEach((line, index) => {
          sheet.text(
            line,
            type,
            colour,
            x - line.width * type.size * align,
            y + index * type.leading,
          );
        });
      title.forEach((line, index) => {
        sheet.text(line, types.body, colours.ink, left, top + index * types.body.leading);
      });
      for (const entry of key.entries) {
        const [x, y] = [left + entry.x, top + titleHeight + entry.y];
        drawSymbol(sheet, entry.drawn, x, y + type.leading / 2);
        say(entry.lines, x + SYMBOL + 5, y);
      }
      say(yLabel, left, frame.y - yLabelHeight, 0, colours.soft);
      for (const { at, line } of yTicks) {
        const y = placeIn(at, of.y, frame.y, frame.height);
        sheet.line(
          [
            [frame.x, y],
            [frame.x + frame.width, y],
          ],
          hairline,
        );
        sheet.line(
          [
            [frame.x - TICK, y],
            [frame.x, y],
          ],
          axisPen,
        );
        say(line, frame.x - TICK - 3, y - (line.length * type.leading) / 2, 1);
      }
      for (const { at, line } of xTicks) {
        const x = placeIn(at, of.x, frame.x, frame.width);
        const bottom = frame.y + frame.height;
        sheet.line(
          [
            [x, frame.y],
            [x, bottom],
          ],
          hairline,
        );
        sheet.line(
          [
            [x, bottom],
            [x, bottom + TICK],
          ],
          axisPen,
        );
        const wide = Math.max(...line.map((each) => each.width)) * type.size;
        // A label at the plot's end stays on the paper.
        const align = x + wide / 2 > left + width ? 1 : 0.5;
        say(line, align === 1 ? left + width : x, bottom + TICK + 2, align);
      }
      sheet.within(frame.x, frame.y, frame.width, frame.height, () => {
        for (const each of inLayers(drawn)) drawSeries(sheet, each, of, frame);
      });
      sheet.line(
        [
          [frame.x, frame.y],
          [frame.x, frame.y + frame.height],
          [frame.x + frame.width, frame.y + frame.height],
        ],
        axisPen,
      );
      // Marks are whole where they lie on the frame.
      for (const each of inLayers(drawn)) drawMarks(sheet, each, of, frame);
      say(
        xLabel,
        frame.x + frame.width,
        frame.y + frame.height + TICK + 3 + highest,
        1,
        colours.soft,
      );
    },
  };
}

/** Names of the series in rows, each after its symbol. */
function keyOf(
  drawn: readonly Drawn[],
  lines: (name: string, width: number) => Line[],
  width: number,
) {
  const entries: { drawn: Drawn; lines: Line[]; x: number; y: number }[] = [];
  let [x, y, high] = [0, 0, 0];
  for (const each of drawn) {
    const said = lines(each.series.name, width - SYMBOL - 5);
    const wide = SYMBOL + 5 + Math.max(...said.map((line) => line.width)) * type.size;
    if (x > 0 && x + wide > width) {
      y += high;
      [x, high] = [0, 0];
    }
    entries.push({ drawn: each, lines: said, x, y });
    high = Math.max(high, said.length * type.leading + 1);
    x += wide + 16;
  }
  return { entries, height: y + high };
}
