import type { Axis, Chart, Series } from "../document.ts";
import { type Colour, colours } from "./paper.ts";
import type { Pen, Point, Sheet } from "./sheet.ts";

const RADIUS = 2.4;
const BAR = 3;
/** half of a limit's bar that stands at one point */
const ARM = 8;
/** of a symbol in the key */
export const SYMBOL = 18;

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

/** Where the axes' rectangle stands on paper. */
export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A series with what tells it from others of its kind. */
export interface Drawn {
  readonly series: Series;
  /** how many of its kind came before */
  readonly turn: number;
}

export function withTurns(all: readonly Series[]): Drawn[] {
  const before = new Map<string, number>();
  return all.map((series) => {
    const kind = `${series.shape} ${series.of}`;
    const turn = before.get(kind) ?? 0;
    before.set(kind, turn + 1);
    return { series, turn };
  });
}

/** Areas lie under lines, and both under marks. */
export function inLayers(all: readonly Drawn[]): Drawn[] {
  const layer = ({ series: { shape } }: Drawn) => (shape === "band" ? 0 : 1);
  return [...all].sort((a, b) => layer(a) - layer(b));
}

export const isWithin = (value: number, { from, to }: Axis) =>
  value >= Math.min(from, to) && value <= Math.max(from, to);

/** Where a value of an axis stands on paper; far beyond its ends all is equally far. */
export function placeIn(value: number, { from, to }: Axis, start: number, length: number): number {
  const share = from === to ? 0.5 : (value - from) / (to - from);
  return start + Math.min(Math.max(share, -50), 51) * length;
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

export function drawSeries(sheet: Sheet, drawn: Drawn, of: Chart, frame: Frame): void {
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

export function drawMarks(sheet: Sheet, drawn: Drawn, of: Chart, frame: Frame): void {
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

export function drawSymbol(sheet: Sheet, drawn: Drawn, x: number, y: number): void {
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
