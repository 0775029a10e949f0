import { describe, expect, it } from "vitest";
import {
  catalogKinds,
  catalogPartOf,
  catalogTools,
  sourcesOf,
} from "../../src/jobs/catalog/catalog.ts";
import { catalogLines } from "../../src/jobs/catalog/lines.ts";
import { pinStrengths } from "../../src/jobs/catalog/pinStrengths.ts";
import { line, tool } from "../../src/jobs/records/equipment.ts";

const figures = (part: object) =>
  Object.keys(part).filter((key) => !["name", "kind", "strengthFrom"].includes(key));
const partOf = (name: string) => {
  const found = catalogTools.find(({ part }) => part.name === name);
  if (!found) throw new Error(`no ${name} in the catalog`);
  return found;
};

describe("the catalog", () => {
  it.each([...catalogTools, ...catalogLines])(
    "has a source for every figure of $part.name",
    (of) => {
      for (const figure of figures(of.part)) {
        const source = of.sources[figure as keyof typeof of.sources];
        expect(source, figure).toMatch(
          /geometry|common practice|from memory, unverified|API|by its name/,
        );
      }
    },
  );

  it("holds records that could be kept as they are", () => {
    for (const { part } of catalogTools) {
      expect(tool.parse({ ...part, id: "one" }), part.name).toEqual({ ...part, id: "one" });
    }
    for (const { part } of catalogLines) {
      const kept = { ...part, id: "one", revision: 1 };
      expect(line.parse(kept), part.name).toEqual(kept);
    }
  });

  it("names no part twice, and offers another of its kind for every kind", () => {
    const names = catalogTools.map(({ part }) => part.name);
    expect(new Set(names).size).toBe(names.length);
    for (const kind of catalogKinds) {
      expect(catalogTools.filter(({ part }) => part.kind === kind).length, kind).toBeGreaterThan(1);
    }
  });

  it("shows each source once, with every figure that it stands for", () => {
    for (const of of catalogTools) {
      const said = sourcesOf(of);
      expect(said.flatMap((each) => each.figures).sort()).toEqual(figures(of.part).sort());
      expect(new Set(said.map(({ source }) => source)).size).toBe(said.length);
    }
  });

  it("knows its own part again until one figure was entered for it", () => {
    const { part } = partOf("Mechanical jars 1-1/2 in, 20 in stroke");
    const kept = { ...part, id: "jars" };
    expect(catalogPartOf(kept)?.part).toBe(part);
    expect(catalogPartOf({ ...kept, length: { value: 4.1, unit: "ft" } })).toBeUndefined();
    expect(catalogPartOf({ ...kept, strength: { value: 9000, unit: "lbf" } })).toBeUndefined();
  });

  it("says of what it cannot know that it does not: no pin has a material", () => {
    const pins = catalogTools.flatMap(({ part }) => part.shear ?? []);
    expect(pins.length).toBeGreaterThan(0);
    expect(pins.every(({ material }) => material === "not known")).toBe(true);
  });
});

describe("weights by geometry", () => {
  // Steel at 0.2836 lb/in3 by hand: 1-1/2 in 6.01 lb/ft, 1-1/4 in 4.18 lb/ft. Tolerance: the tenth that is kept.
  it.each([
    ["Stem 1-1/4 in x 3 ft", 3 * 4.176],
    ["Stem 1-1/4 in x 5 ft", 5 * 4.176],
    ["Stem 1-1/2 in x 3 ft", 3 * 6.014],
    ["Stem 1-1/2 in x 5 ft", 5 * 6.014],
  ])("%s", (name, pounds) => {
    expect(Math.abs(partOf(name).part.weight.value - pounds)).toBeLessThan(0.06);
  });

  // Wire: π/4 d² × 12,000 in × 0.2836 lb/in3, the well-known 22.6, 31.2 and 41.8 lb per 1,000 ft.
  it.each([
    [0.092, 22.62, 1547],
    [0.108, 31.18, 2109],
    [0.125, 41.76, 2794],
  ])(
    "wire of %d in weighs %d lb per 1,000 ft; its strength stays unverified",
    (inches, weight, lbf) => {
      const of = catalogLines.find(({ part }) => part.diameter.value === inches);
      expect(of?.part.massPerLength).toEqual({ value: weight, unit: "lb/1000 ft" });
      expect(of?.part.breakingStrength).toEqual({ value: lbf, unit: "lbf" });
      expect(of?.part.strengthFrom).toBe("from memory, unverified");
      expect(of?.sources.breakingStrength).toMatch(/^from memory, unverified/);
    },
  );
});

describe("gauge cutters", () => {
  // API Spec 5CT drift as tabulated in a pipe maker's public chart (chinaapipipes.com).
  it.each([
    ["2-3/8 in 4.6 lb/ft", 1.901],
    ["2-7/8 in 6.4 lb/ft", 2.347],
    ["3-1/2 in 9.2 lb/ft", 2.867],
    ["3-1/2 in 10.2 lb/ft", 2.797],
    ["4 in 9.5 lb/ft", 3.423],
    ["4-1/2 in 12.6 lb/ft", 3.833],
  ])("for %s are its drift, %d in", (tubing, drift) => {
    const { part } = partOf(`Gauge cutter for ${tubing}`);
    expect(part.outsideDiameter).toEqual({ value: drift, unit: "in" });
  });
});

describe("shear strengths of pins", () => {
  // makeitfrom.com: C36000 H02 220 MPa and H04 310 MPa, SAE 1020 280 MPa; pailininfo.com: 6061-T6 207 MPa. 1 ksi = 6.895 MPa.
  it.each([
    ["brass", 220, 310],
    ["steel", 280, 280],
    ["aluminium", 207, 207],
  ] as const)("%s is %d to %d MPa to the ksi that is quoted", (material, low, high) => {
    const { least, most, source } = pinStrengths[material];
    expect(Math.abs(least.value * 0.006895 - low)).toBeLessThan(0.7);
    expect(Math.abs(most.value * 0.006895 - high)).toBeLessThan(0.7);
    expect(source).toContain(`${low} MPa`);
    expect(source).toContain(`${high} MPa`);
  });
});

describe("what stands on the screen as a source", () => {
  it("is a standard, a table or common practice, no seller's address", () => {
    const sources = [
      ...catalogTools.flatMap((of) => sourcesOf(of).map(({ source }) => source)),
      ...Object.values(pinStrengths).map(({ source }) => source),
    ];
    expect(sources.length).toBeGreaterThan(10);
    expect(sources.filter((source) => /\.(com|org|net)\b/.test(String(source)))).toEqual([]);
  });
});
