import type { Axis, Chart, Series } from "../document.ts";
import type { Box } from "./flow.ts";
import type { Fonts } from "./fonts.ts";
import { type Line, linesOf } from "./lines.ts";
import { type Colour, colours, types } from "./paper.ts";
import type { Measure } from "./prose.ts";
import { hairline, type Pen, type Point, type Sheet } from "./sheet.ts";

const type = types.small;
const TICK = 3;
const RADIUS = 2.4;
const BAR = 3;
/** half of a limit's bar that stands at one point */
const ARM = 8;
const SYMBOL = 18;
/** Beyond these a plot is a line or does not fit a page with its title and key. */
const PLOT = { least: 60, most: 430 } as const;

/** Further series of one kind are told apart by the dashes of their lines and the shapes of their marks. */
const DASHES: readonly (readonly number[])[] = [[], [7, 2.5], [1.5, 2], [8, 2.5, 1.5, 2.5]];
const DASHED: readonly (readonly number[])[] = [
  [4, 3],
  [2, 2],
  [9, 4],
  [1, 3],
];
const SHAPES = ["round", "square", "triangle", "diamond"] as const;

const colourOf: Readonly<Record<Series["of"], Colour>> = {
  measured: colours.ink,
  calculated: colours.steel,
  limit: colours.ember,
};

interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What is said of a series in the key, and how it is drawn. */
interface Drawn {
  readonly series: Series;
  /** how many of its kind came before */
  readonly turn: number;
}

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

const axisPen: Pen = { colour: colours.ink, width: 0.9 };

const isWithin = (value: number, { from, to }: Axis) =>
  value >= Math.min(from, to) && value <= Math.max(from, to);

/** Where a value of an axis stands on paper; far beyond its ends all is equally far. */
function placeIn(value: number, { from, to }: Axis, start: number, length: number): number {
  const share = from === to ? 0.5 : (value - from) / (to - from);
  return start + Math.min(Math.max(share, -50), 51) * length;
}

function withTurns(all: readonly Series[]): Drawn[] {
  const before = new Map<string, number>();
  return all.map((series) => {
    const kind = `${series.shape} ${series.of}`;
    const turn = before.get(kind) ?? 0;
    before.set(kind, turn + 1);
    return { series, turn };
  });
}

/** Areas lie under lines, and both under marks. */
function inLayers(all: readonly Drawn[]): Drawn[] {
  const layer = ({ series: { shape } }: Drawn) => (shape === "band" ? 0 : 1);
  return [...all].sort((a, b) => layer(a) - layer(b));
}

function penFor({ series, turn }: Drawn): Pen {
  const colour = colourOf[series.of];
  if (series.shape === "bar") return { colour, width: BAR };
  const dashes = series.shape === "dashed line" ? DASHED : DASHES;
  const dash = dashes[turn % dashes.length] ?? [];
  return { colour, width: series.of === "limit" ? 2 : 1.3, dash };
}

/** Points of a series on paper, without those that are no numbers. */
function placesOf({ points }: Series, { x, y }: Chart, frame: Frame, of = 1): Point[] {
  return points.flatMap((point) => {
    const [at, value] = [point[0], point[of]];
    if (at === undefined || value === undefined) return [];
    if (!Number.isFinite(at) || !Number.isFinite(value)) return [];
    return [
      [placeIn(at, x, frame.x, frame.width), placeIn(value, y, frame.y, frame.height)] as const,
    ];
  });
}

function drawSeries(sheet: Sheet, drawn: Drawn, of: Chart, frame: Frame): void {
  const { series } = drawn;
  const places = placesOf(series, of, frame);
  switch (series.shape) {
    case "band":
      sheet.area([...places, ...placesOf(series, of, frame, 2).reverse()], colours.steelWash);
      return;
    case "steps":
      sheet.line(stepsOf(places), penFor(drawn));
      return;
    case "line":
    case "dashed line":
      sheet.line(places, { ...penFor(drawn), round: series.shape === "line" && drawn.turn === 0 });
      return;
    case "bar":
      sheet.line(barOf(places), penFor(drawn));
      return;
  }
}

/** Each value holds until the next begins. */
const stepsOf = (places: readonly Point[]): Point[] =>
  places.flatMap((place, index) => {
    const before = places[index - 1];
    return before ? [[place[0], before[1]] as const, place] : [place];
  });

/** A limit at one place is an upright bar across it. */
function barOf(places: readonly Point[]): readonly Point[] {
  const [only, second] = places;
  if (!only || second) return places;
  return [
    [only[0], only[1] - ARM],
    [only[0], only[1] + ARM],
  ];
}

function drawMarks(sheet: Sheet, drawn: Drawn, of: Chart, frame: Frame): void {
  if (drawn.series.shape !== "dots" && drawn.series.shape !== "rings") return;
  const inside = drawn.series.points.filter(
    ([x, y]) => isWithin(x ?? Number.NaN, of.x) && isWithin(y ?? Number.NaN, of.y),
  );
  for (const place of placesOf({ ...drawn.series, points: inside }, of, frame)) {
    drawMark(sheet, drawn, place);
  }
}

function drawMark(sheet: Sheet, { series, turn }: Drawn, [x, y]: Point): void {
  const colour = colourOf[series.of];
  const pen: Pen = { colour, width: 1.1 };
  const fill = series.shape === "dots" ? colour : colours.white;
  const r = RADIUS;
  switch (SHAPES[turn % SHAPES.length]) {
    case "square":
      sheet.outlined(
        [
          [x - r, y - r],
          [x + r, y - r],
          [x + r, y + r],
          [x - r, y + r],
        ],
        pen,
        fill,
      );
      return;
    case "triangle":
      sheet.outlined(
        [
          [x, y - r * 1.3],
          [x + r * 1.2, y + r],
          [x - r * 1.2, y + r],
        ],
        pen,
        fill,
      );
      return;
    case "diamond":
      sheet.outlined(
        [
          [x, y - r * 1.4],
          [x + r * 1.4, y],
          [x, y + r * 1.4],
          [x - r * 1.4, y],
        ],
        pen,
        fill,
      );
      return;
    default:
      sheet.circle([x, y], r, pen, fill);
  }
}

function drawSymbol(sheet: Sheet, drawn: Drawn, x: number, y: number): void {
  const ends: readonly Point[] = [
    [x, y],
    [x + SYMBOL, y],
  ];
  switch (drawn.series.shape) {
    case "band":
      sheet.rectangle(x, y - 4, SYMBOL, 8, colours.steelWash);
      return;
    case "dots":
    case "rings":
      drawMark(sheet, drawn, [x + SYMBOL / 2, y]);
      return;
    case "steps":
      sheet.line(
        [
          [x, y + 3],
          [x + SYMBOL / 2, y + 3],
          [x + SYMBOL / 2, y - 3],
          [x + SYMBOL, y - 3],
        ],
        penFor(drawn),
      );
      return;
    default:
      sheet.line(ends, penFor(drawn));
  }
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
