import fc from "fast-check";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { fromFeetVertical, fromPsig, STANDARD_ATMOSPHERE } from "../../src/calc/units.ts";
import { writer } from "../../src/jobs/display.ts";
import { plotAxis, withAir } from "../../src/ui/DepthPlot/axes.ts";
import { DepthPlot } from "../../src/ui/DepthPlot/DepthPlot.tsx";
import type { PlotLine, PlotMark } from "../../src/ui/DepthPlot/plot.ts";
import { moved, nearestStop, reachOf, stopsOf, valueAt } from "../../src/ui/DepthPlot/reading.ts";

const field = writer("field", STANDARD_ATMOSPHERE);
const point = (feet: number, psig: number) => ({
  depth: fromFeetVertical(feet),
  si: fromPsig(psig, STANDARD_ATMOSPHERE),
});

describe("a line read at a depth", () => {
  const line = [
    { depth: 0, si: 100 },
    { depth: 1000, si: 300 },
    { depth: 1000, si: 500 },
    { depth: 2000, si: 700 },
  ];

  it.each([
    { depth: 0, reads: 100 },
    { depth: 250, reads: 150 },
    { depth: 1500, reads: 600 },
    { depth: 2000, reads: 700 },
  ])("reads $reads at $depth", ({ depth, reads }) => {
    expect(valueAt(line, depth)).toBe(reads);
  });

  it("reads what holds below a jump at the depth of the jump", () => {
    expect(valueAt(line, 1000)).toBe(500);
  });

  it("reads nothing beyond its ends, and a single point at its own depth only", () => {
    expect(valueAt(line, -1)).toBeUndefined();
    expect(valueAt(line, 2001)).toBeUndefined();
    expect(valueAt([], 10)).toBeUndefined();
    expect(valueAt([{ depth: 10, si: 3 }], 10)).toBe(3);
    expect(valueAt([{ depth: 10, si: 3 }], 11)).toBeUndefined();
  });

  it("reads the same whether a survey was written going down or coming up", () => {
    const smooth = line.filter((_, index) => index !== 2);
    const depths = fc.double({ min: 0, max: 2000, noNaN: true });
    fc.assert(
      fc.property(depths, (depth) => {
        expect(valueAt([...smooth].reverse(), depth)).toBeCloseTo(valueAt(smooth, depth) ?? 0, 9);
      }),
    );
  });
});

const levels = [
  { depth: 573, label: "1" },
  { depth: 984, label: "2", name: "Upper packer" },
];
const mark = (depth: number, name: string): PlotMark => ({ depth, si: 7e6, name, shape: "ring" });

describe("stops of the reading line", () => {
  it("hold the marks of their level, and a mark between levels is a stop of its own", () => {
    const stops = stopsOf(levels, [mark(984.2, "opening"), mark(700, "crossing")]);
    expect(stops.map(({ name, marks }) => [name, marks.length])).toEqual([
      ["Mandrel 1", 0],
      [undefined, 1],
      ["Upper packer", 1],
    ]);
  });

  it("are found from the nearest depth", () => {
    const stops = stopsOf(levels, []);
    expect(nearestStop(stops, 700)?.name).toBe("Mandrel 1");
    expect(nearestStop(stops, 900)?.name).toBe("Upper packer");
    expect(nearestStop([], 900)).toBeUndefined();
  });

  const reach = reachOf([573, 984, 1500]);
  it.each([
    { key: "ArrowDown", from: 600, to: 630 },
    { key: "ArrowRight", from: 1490, to: 1500 },
    { key: "ArrowUp", from: 10, to: 0 },
    { key: "PageDown", from: 573, to: 984 },
    { key: "PageDown", from: 984, to: 1500 },
    { key: "PageUp", from: 984, to: 573 },
    { key: "PageUp", from: 573, to: 0 },
    { key: "Home", from: 984, to: 0 },
    { key: "End", from: 0, to: 1500 },
    { key: "a", from: 600, to: undefined },
  ])("$key moves it from $from to $to", ({ key, from, to }) => {
    expect(moved(key, from, reach, stopsOf(levels, []))).toBe(to);
  });
});

describe("an axis", () => {
  const pressure = (least: number, most: number, ticks: number) =>
    plotAxis({
      dimension: "pressure",
      writer: field,
      ends: [fromPsig(least, STANDARD_ATMOSPHERE), fromPsig(most, STANDARD_ATMOSPHERE)],
      range: [0, 1100],
      ticks,
      loose: true,
    });

  it("has its ticks at round values of the unit shown, gauge from the site's own air", () => {
    const axis = pressure(120, 1040, 6);
    expect(axis.unit).toBe("psig");
    expect(axis.ticks.map(axis.format)).toEqual(["0", "200", "400", "600", "800", "1000"]);
    expect(axis.at(fromPsig(500, STANDARD_ATMOSPHERE))).toBeCloseTo(500, 6);
  });

  it("has fewer where there is less room, and digits where they are close", () => {
    expect(pressure(120, 1040, 3).ticks).toEqual([0, 500, 1000]);
    const close = pressure(10, 11, 3);
    expect(close.ticks.map(close.format)).toEqual(["10.0", "10.5", "11.0"]);
  });

  it("keeps zero as zero, and opens where everything is one value", () => {
    expect(withAir(0, 100)).toEqual([0, 104]);
    expect(withAir(-10, 90)).toEqual([-14, 94]);
    expect(withAir(50, 50)).toEqual([48, 52]);
    expect(withAir(0, 0)).toEqual([0, 0.04]);
  });
});

describe("the plot on the page", () => {
  const lines: PlotLine[] = [
    { name: "Injection gas", ink: "calculated", points: [point(0, 890), point(5800, 1020)] },
    { name: "Survey", ink: "measured", points: [point(0, 130), point(4000, 450)] },
  ];
  const opening: PlotMark = {
    ...point(4283, 992),
    name: "Opening pressure",
    shape: "ring",
    emphasis: true,
    band: [fromPsig(970, STANDARD_ATMOSPHERE), fromPsig(1014, STANDARD_ATMOSPHERE)],
  };
  const page = renderToStaticMarkup(
    <DepthPlot
      title="Pressures over depth"
      dimension="pressure"
      writer={field}
      lines={lines}
      marks={[opening]}
      levels={[{ depth: fromFeetVertical(4283), label: "3" }]}
    />,
  );

  it("opens at the mark to look at, and the slider says what stands there", () => {
    expect(page).toContain('aria-valuenow="4283"');
    expect(page).toContain(
      'aria-valuetext="4283 ft; Injection gas 986 psig; Survey has no value here; nearest Mandrel 3, 4283 ft, Opening pressure 992 psig, 970 to 1014 psig"',
    );
  });

  it("tells the whole picture in words", () => {
    expect(page).toContain(
      "Injection gas, calculated: 890 psig at 0.0 ft and 1020 psig at 5800 ft.",
    );
  });

  it("says how its depths are counted: true vertical, or along hole when it is told so", () => {
    expect(page).toContain("ft true vertical</text>");
    expect(page).toContain("True vertical depth runs down, from 0.0 ft to 5800 ft.");
    const along = renderToStaticMarkup(
      <DepthPlot
        title="Line pull"
        dimension="force"
        writer={field}
        lines={[
          { name: "At most", ink: "limit", points: [point(0, 0), point(6000, 0)] },
          { name: "Hanging", ink: "calculated", points: [point(0, 0), point(6000, 0)] },
        ]}
        marks={[]}
        levels={[]}
        count="along hole"
      />,
    );
    expect(along).toContain("ft along hole</text>");
    expect(along).toContain("Depth along hole runs down, from 0.0 ft to 6000 ft.");
    expect(along).not.toMatch(/true vertical/i);
  });

  it("draws a limit as a line of its own kind", () => {
    const limit: PlotLine = { name: "At most", ink: "limit", points: [point(0, 9), point(10, 9)] };
    const drawn = renderToStaticMarkup(
      <DepthPlot
        title="Line pull"
        dimension="pressure"
        writer={field}
        lines={[limit]}
        marks={[]}
        levels={[]}
      />,
    );
    expect(drawn).toContain('class="visx-linepath depth-line limit"');
    expect(drawn).toContain("At most, limit: 9 psig at 0.0 ft and 9 psig at 10.0 ft.");
  });

  it("brings no style sheet of its own, which the page's policy would refuse", () => {
    expect(page).not.toContain("<style");
  });

  it("says so when there is nothing to draw", () => {
    const empty = renderToStaticMarkup(
      <DepthPlot
        title="Pressures over depth"
        dimension="pressure"
        writer={field}
        lines={[]}
        marks={[]}
        levels={levels}
      />,
    );
    expect(empty).toContain("Nothing is known yet");
  });
});
