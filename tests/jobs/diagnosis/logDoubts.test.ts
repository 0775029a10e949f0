import { describe, expect, it } from "vitest";
import { surveyDoubts, trendDoubts } from "../../../src/jobs/diagnosis/logDoubts.ts";
import { writer } from "../../../src/jobs/display.ts";
import { feet, psig, soundValves, wellWith } from "./liftWell.ts";

const write = writer("field");
const well = wellWith(soundValves);

describe("what looks wrong with two pens", () => {
  const points = (casing: number, tubing: number, rows = 4) =>
    Array.from({ length: rows }, (_, hour) => ({
      at: `2026-11-20T0${hour}:00:00.000Z`,
      casing: psig(casing + hour),
      tubing: psig(tubing),
    }));

  it("is nothing where the injection side stands above the other near what is on record", () => {
    expect(trendDoubts(points(880, 120), well, write)).toEqual([]);
  });

  it("is the wrong way round of two columns, by the side the gas goes down", () => {
    const [doubt, ...others] = trendDoubts(points(120, 880), well, write);
    expect(others).toEqual([]);
    expect(doubt?.exchanged).toBe(true);
    expect(doubt?.says).toMatch(/^The casing stands below the tubing in 4 of 4 rows\./);
    const upside = { ...well, injectionDown: "tubing" as const };
    expect(trendDoubts(points(120, 880), upside, write)).toEqual([]);
    expect(trendDoubts(points(880, 120), upside, write)[0]?.says).toMatch(
      /^The tubing stands below the casing/,
    );
  });

  it("is a unit, where the figures are off as one unit is of another", () => {
    // 890 psig are 61.4 barg and 6,136 kPag.
    for (const casing of [60, 6000]) {
      const [doubt] = trendDoubts(points(casing, 8), well, write);
      expect(doubt?.says).toMatch(/on record this well has 890 psig there.*unit of the column/);
    }
    expect(trendDoubts(points(450, 8), well, write)).toEqual([]);
  });

  it("is one moment for all rows", () => {
    const at = "2026-11-20T00:00:00.000Z";
    const [doubt] = trendDoubts(
      points(880, 120).map((point) => ({ ...point, at })),
      well,
      write,
    );
    expect(doubt?.says).toMatch(/^All rows are of one moment/);
  });
});

describe("what looks wrong with a survey", () => {
  const stops = (...all: readonly (readonly [number, number])[]) =>
    all.map(([depth, pressure]) => ({ depthAlongHole: feet(depth), pressure: psig(pressure) }));

  it("is nothing of a well, lifted or dead", () => {
    expect(surveyDoubts(stops([0, 120], [3000, 420], [5200, 1200]), write)).toEqual([]);
    expect(surveyDoubts(stops([0, 0], [6000, 3000]), write)).toEqual([]);
  });

  it("is depth and pressure exchanged, and a pressure that does not rise", () => {
    expect(surveyDoubts(stops([120, 0], [420, 3000], [1200, 5200]), write)[0]?.says).toMatch(
      /faster with depth than under any liquid/,
    );
    expect(surveyDoubts(stops([0, 900], [5000, 120]), write)[0]?.says).toMatch(
      /does not rise with depth/,
    );
  });
});
