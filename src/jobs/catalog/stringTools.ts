import { type CatalogPart, type ToolPart, tool } from "./part.ts";
import { NOMINAL, TO_MEASURE } from "./sources.ts";
import { barWeight, barWeightSource } from "./steel.ts";

/** What every string has from the wire down to the knuckle, in the two sizes for small tubing. */

const sizes = [
  { name: "1-1/4 in", outside: 1.25, neck: 1.187 },
  { name: "1-1/2 in", outside: 1.5, neck: 1.375 },
] as const;
type Size = (typeof sizes)[number];

const body = ({ outside, neck }: Size) =>
  ({
    outsideDiameter: { value: outside, unit: "in" },
    fishingNeck: { value: neck, unit: "in" },
  }) as const;

const bodySources = { outsideDiameter: NOMINAL, fishingNeck: TO_MEASURE };

const ropeSocket = (size: Size, feet: number, pounds: number) =>
  tool(
    {
      name: `Rope socket ${size.name}`,
      kind: "rope socket",
      length: { value: feet, unit: "ft" },
      ...body(size),
      weight: { value: pounds, unit: "lb" },
    },
    { ...bodySources, length: TO_MEASURE, weight: TO_MEASURE },
  );

const stem = (size: Size, feet: number) =>
  tool(
    {
      name: `Stem ${size.name} x ${feet} ft`,
      kind: "stem",
      length: { value: feet, unit: "ft" },
      ...body(size),
      weight: barWeight(size.outside, feet),
    },
    { ...bodySources, length: NOMINAL, weight: barWeightSource },
  );

const jars = (size: Size, stroke: number, closed: number, pounds: number) =>
  tool(
    {
      name: `Mechanical jars ${size.name}, ${stroke} in stroke`,
      kind: "jars",
      length: { value: closed, unit: "ft" },
      lengthExtended: { value: Number((closed + stroke / 12).toFixed(2)), unit: "ft" },
      ...body(size),
      weight: { value: pounds, unit: "lb" },
    },
    {
      ...bodySources,
      length: TO_MEASURE,
      lengthExtended: `by geometry, the closed length and a stroke of ${stroke} in`,
      weight: TO_MEASURE,
    },
  );

const knuckle = (size: Size, feet: number, pounds: number) =>
  tool(
    {
      name: `Knuckle joint ${size.name}`,
      kind: "knuckle joint",
      length: { value: feet, unit: "ft" },
      ...body(size),
      weight: { value: pounds, unit: "lb" },
    },
    { ...bodySources, length: TO_MEASURE, weight: TO_MEASURE },
  );

const [small, large] = sizes;

export const stringTools: readonly CatalogPart<ToolPart>[] = [
  ropeSocket(small, 0.8, 2.5),
  ropeSocket(large, 0.9, 4),
  ...sizes.flatMap((size) => [stem(size, 3), stem(size, 5)]),
  jars(small, 20, 3.8, 13),
  jars(large, 20, 4, 20),
  jars(large, 30, 5, 26),
  knuckle(small, 0.8, 2.5),
  knuckle(large, 0.9, 4),
];
