import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { strokesSchema } from "../../src/jobs/records/signature.ts";
import {
  isSignature,
  mostPoints,
  mostStrokes,
  pathOf,
  pointAt,
  type Stroke,
  type Strokes,
  signatureFrame,
  withStroke,
} from "../../src/jobs/signature.ts";
import { fromStretch, thinned } from "../../src/jobs/thinning.ts";

const point = fc.tuple(
  fc.integer({ min: 0, max: signatureFrame.width }),
  fc.integer({ min: 0, max: signatureFrame.height }),
);
const line = (min: number, max: number) => fc.array(point, { minLength: min, maxLength: max });

/** How far a point lies from a line through others, at its nearest. */
const fromLine = ([x, y]: readonly [number, number], through: Stroke) =>
  Math.min(
    ...through
      .slice(1)
      .map((end, index) => fromStretch([x, y], through[index] ?? end, end))
      .concat(through.length === 1 ? through.map((only) => fromStretch([x, y], only, only)) : []),
  );

describe("a thinned line", () => {
  it("keeps its ends, its order, and every point within the tolerance", () => {
    fc.assert(
      fc.property(line(1, 60), fc.double({ min: 0, max: 80, noNaN: true }), (drawn, tolerance) => {
        const kept = thinned(drawn, tolerance);
        expect(kept[0]).toEqual(drawn[0]);
        expect(kept.at(-1)).toEqual(drawn.at(-1));
        let from = 0;
        for (const each of kept) {
          const at = drawn.findIndex(
            ([x, y], index) => index >= from && x === each[0] && y === each[1],
          );
          expect(at).toBeGreaterThanOrEqual(from);
          from = at + 1;
        }
        for (const each of drawn) {
          // rounding of the distance itself
          expect(fromLine(each, kept)).toBeLessThanOrEqual(tolerance + 1e-9);
        }
      }),
    );
  });

  it("drops what lies on the way and keeps a corner", () => {
    const corner: [number, number][] = [
      [0, 0],
      [10, 0],
      [20, 0],
      [20, 10],
      [20, 20],
    ];
    expect(thinned(corner, 0)).toEqual([
      [0, 0],
      [20, 0],
      [20, 20],
    ]);
  });

  it("keeps the turn of a line that comes back beyond its beginning", () => {
    const back: [number, number][] = [
      [50, 0],
      [100, 0],
      [0, 0],
      [40, 0],
    ];
    expect(thinned(back, 1)).toEqual(back);
  });
});

describe("strokes with one more", () => {
  it("stay within the limits that a signature is kept in, whatever is drawn", () => {
    fc.assert(
      fc.property(fc.array(line(1, 900), { minLength: 1, maxLength: 6 }), (drawn) => {
        const strokes = drawn.reduce<Strokes>(withStroke, []);
        expect(strokes).toHaveLength(drawn.length);
        expect(strokesSchema.safeParse(strokes).success).toBe(true);
        strokes.forEach((stroke, index) => {
          expect(stroke[0]).toEqual(drawn[index]?.[0]);
          expect(stroke.at(-1)).toEqual(drawn[index]?.at(-1));
        });
      }),
      { numRuns: 30 },
    );
  });

  it("look as they were drawn where they stay below the limit", () => {
    // A wave, drawn a unit at a time: 400 points in, all within three quarters of a unit.
    const wave: [number, number][] = Array.from({ length: 400 }, (_, index) =>
      pointAt(100 + index, 100 + 40 * Math.sin(index / 20)),
    );
    const [kept = []] = withStroke([], wave);
    expect(kept.length).toBeLessThan(200);
    for (const each of wave) expect(fromLine(each, kept)).toBeLessThanOrEqual(0.75);
  });

  it("take no stroke without a point, and none beyond the most", () => {
    const full: Strokes = Array.from({ length: mostStrokes }, () => [[1, 1]]);
    expect(withStroke(full, [[5, 5]])).toBe(full);
    expect(withStroke([], [])).toEqual([]);
  });
});

describe("a place on the pad", () => {
  it.each([
    { x: 10.4, y: 20.6, is: [10, 21] },
    { x: -30, y: 500, is: [0, 200] },
    { x: 600.4, y: -0.2, is: [600, 0] },
  ])("$x, $y is the point $is", ({ x, y, is }) => {
    expect(pointAt(x, y)).toEqual(is.map((each) => each + 0));
  });
});

describe("a path of strokes", () => {
  it("moves to each stroke and draws on; a dot is a line of no length", () => {
    const strokes: Strokes = [
      [
        [0, 0],
        [10, 20],
        [30, 5],
      ],
      [[7, 8]],
    ];
    expect(pathOf(strokes)).toBe("M0 0L10 20 30 5M7 8h0");
    expect(pathOf([])).toBe("");
  });
});

describe("what counts as a signature", () => {
  const cross: Strokes = [
    [
      [100, 60],
      [180, 140],
    ],
    [
      [180, 60],
      [100, 140],
    ],
  ];
  const cases: readonly { what: string; strokes: Strokes; counts: boolean }[] = [
    { what: "nothing", strokes: [], counts: false },
    { what: "a dot", strokes: [[[300, 100]]], counts: false },
    {
      what: "a wipe across the pad",
      strokes: [
        [
          [20, 100],
          [300, 90],
          [580, 104],
        ],
      ],
      counts: false,
    },
    { what: "a cross", strokes: cross, counts: true },
    {
      what: "a cross too small to tell, 113 units in all",
      strokes: cross.map((stroke) => stroke.map(([x, y]) => [x / 2, y / 2])),
      counts: false,
    },
    {
      what: "there and back, 120 units",
      strokes: [
        [
          [100, 100],
          [160, 100],
          [100, 100],
        ],
      ],
      counts: true,
    },
    {
      what: "there and back, 118 units",
      strokes: [
        [
          [100, 100],
          [159, 100],
          [100, 100],
        ],
      ],
      counts: false,
    },
  ];
  it.each(cases)("$what: $counts", ({ strokes, counts }) => {
    expect(isSignature(strokes)).toBe(counts);
  });
});

describe("a signature as it is kept", () => {
  const accepts = (strokes: unknown) => strokesSchema.safeParse(strokes).success;
  const dots = (count: number) => Array.from({ length: count }, () => [1, 1]);

  it.each([
    { what: "one dot", strokes: [[[0, 0]]], fits: true },
    { what: "the corner of the frame", strokes: [[[600, 200]]], fits: true },
    { what: "no stroke", strokes: [], fits: false },
    { what: "a stroke without points", strokes: [[]], fits: false },
    { what: "a point beyond the frame", strokes: [[[601, 10]]], fits: false },
    { what: "a point above it", strokes: [[[10, -1]]], fits: false },
    { what: "half a unit", strokes: [[[10.5, 10]]], fits: false },
    { what: "three numbers", strokes: [[[10, 10, 1]]], fits: false },
    { what: "as many points as there may be", strokes: [dots(1000), dots(500)], fits: true },
    { what: "one point more", strokes: [dots(1000), dots(501)], fits: false },
    { what: "a stroke too many", strokes: Array(mostStrokes + 1).fill([[1, 1]]), fits: false },
  ])("$what: $fits", ({ strokes, fits }) => {
    expect(accepts(strokes)).toBe(fits);
    if (fits) expect((strokes as Strokes).flat().length).toBeLessThanOrEqual(mostPoints);
  });
});
