import { thinned } from "./thinning.ts";

/**
 * A signature as it was drawn: strokes of whole points in a frame of its own, so that it is the same at any size and
 * the same on every tablet. The schema is apart (`records/signature.ts`), so that a screen that draws does not load it.
 */

/** One stroke: points from where the finger came down to where it left, x to the right, y down. A dot has one. */
export type Stroke = readonly (readonly [number, number])[];
export type Strokes = readonly (readonly [number, number])[][];

/** Units of the frame that points are counted in; 0 and the full size belong to it. */
export const signatureFrame = { width: 600, height: 200 } as const;

/** of all strokes together */
export const mostPoints = 1500;

export const mostStrokes = 100;

/** Units of the frame that a drawn line may stray by for having fewer points: less than the line is thick. */
const TOLERANCE = 0.75;

/** What makes strokes a signature, as numbers; `signatureRule` says it in words. */
const LEAST_LINE = signatureFrame.width / 5;
const LEAST_TURNING = 1.3;

/** What a signature is here, in words for whoever draws it. */
export const signatureRule =
  "A signature is a line at least a fifth as long as the pad is wide, and more than one straight stroke.";

const distance = ([ax, ay]: readonly [number, number], [bx, by]: readonly [number, number]) =>
  Math.hypot(bx - ax, by - ay);

const lengthOf = (stroke: Stroke) =>
  stroke.slice(1).reduce((sum, point, index) => sum + distance(stroke[index] ?? point, point), 0);

/**
 * Whether strokes are more than a slip of the finger. Their line is at least 120 units long in all, and at least 1.3
 * times as long as the box it fills is across, corner to corner: a wipe over the pad goes straight, a dot has no
 * length, and a cross or two letters pass.
 */
export function isSignature(strokes: Strokes): boolean {
  const line = strokes.reduce((sum, stroke) => sum + lengthOf(stroke), 0);
  const points = strokes.flat();
  const across = (axis: 0 | 1) => {
    const along = points.map((point) => point[axis]);
    return Math.max(...along) - Math.min(...along);
  };
  return line >= LEAST_LINE && line >= LEAST_TURNING * Math.hypot(across(0), across(1));
}

/** The strokes as data of an SVG path in the frame, for round line ends: a dot is a line of no length. */
export function pathOf(strokes: Strokes): string {
  return strokes
    .map((stroke) => {
      const [first, ...rest] = stroke.map(([x, y]) => `${x} ${y}`);
      if (first === undefined) return "";
      return `M${first}${rest.length === 0 ? "h0" : `L${rest.join(" ")}`}`;
    })
    .join("");
}

const within = (value: number, most: number) => Math.min(Math.max(Math.round(value), 0), most);

/** A place on the frame as a point of a stroke: whole, and on the edge when it lies beyond. */
export const pointAt = (x: number, y: number): [number, number] => [
  within(x, signatureFrame.width),
  within(y, signatureFrame.height),
];

/**
 * Strokes with one more, thinned: within 0.75 units of what was drawn, and further only as far as it takes to stay
 * within the most points. Where no stroke fits any more they come back as they are.
 */
export function withStroke(strokes: Strokes, drawn: Stroke): Strokes {
  if (drawn.length === 0 || strokes.length >= mostStrokes) return strokes;
  let all: Strokes = [...strokes, thinned(drawn, TOLERANCE)];
  // It ends: a stroke without its bends has two points, and there are not that many strokes.
  for (let tolerance = TOLERANCE * 1.5; countOf(all) > mostPoints; tolerance *= 1.5) {
    const wider = tolerance;
    all = all.map((stroke) => thinned(stroke, wider));
  }
  return all;
}

const countOf = (strokes: Strokes) => strokes.reduce((sum, { length }) => sum + length, 0);
