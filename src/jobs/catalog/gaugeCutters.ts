import { driftDiameter } from "../../calc/tubingDrift.ts";
import { fromInches, M_PER_IN } from "../../calc/units.ts";
import { type CatalogPart, type ToolPart, tool } from "./part.ts";
import { TO_MEASURE } from "./sources.ts";

/** Tubing by its wall: the bore hangs on it, and one weight has other bores with other ends. */
interface Tubing {
  readonly name: string;
  /** in */
  readonly outside: number;
  readonly inside: number;
}

/** Source: API Spec 5CT as tabulated in a pipe maker's public chart (chinaapipipes.com). */
const tubings: readonly Tubing[] = [
  { name: "2-3/8 in 4.6 lb/ft", outside: 2.375, inside: 1.995 },
  { name: "2-7/8 in 6.4 lb/ft", outside: 2.875, inside: 2.441 },
  { name: "3-1/2 in 9.2 lb/ft", outside: 3.5, inside: 2.992 },
  { name: "3-1/2 in 10.2 lb/ft", outside: 3.5, inside: 2.922 },
  { name: "4 in 9.5 lb/ft", outside: 4, inside: 3.548 },
  { name: "4-1/2 in 12.6 lb/ft", outside: 4.5, inside: 3.958 },
];

const driftSource =
  "drift of the tubing by API Spec 5CT: inside diameter less 3/32 in to 2-7/8 in, less 1/8 in from 3-1/2 in; inside diameters as tabulated for it";

const cutter = (name: string, inches: number, diameterSource: string) => {
  const isSmall = inches < 2;
  return tool(
    {
      name,
      kind: "gauge cutter",
      length: { value: isSmall ? 1.2 : 1.5, unit: "ft" },
      outsideDiameter: { value: inches, unit: "in" },
      fishingNeck: { value: isSmall ? 1.187 : 1.375, unit: "in" },
      // An open sleeve on a thin body: a few pounds.
      weight: { value: Math.round(2 * inches), unit: "lb" },
    },
    {
      length: `${TO_MEASURE}; a short gauge proves no long stiff string`,
      outsideDiameter: diameterSource,
      fishingNeck: TO_MEASURE,
      weight: TO_MEASURE,
    },
  );
};

const forTubing = ({ name, outside, inside }: Tubing) => {
  const drift = driftDiameter(fromInches(outside), fromInches(inside)) / M_PER_IN;
  return cutter(`Gauge cutter for ${name}`, Number(drift.toFixed(3)), driftSource);
};

/** Nipples are narrower than the drift of their tubing: a gauge of the full drift does not pass them. */
const belowNipple = (inches: number, nipple: number) =>
  cutter(
    `Gauge cutter ${inches} in`,
    inches,
    `chosen by Latchline, no source: to pass a nipple of ${nipple} in, a usual bore (from memory, unverified)`,
  );

export const gaugeCutters: readonly CatalogPart<ToolPart>[] = [
  ...tubings.map(forTubing),
  belowNipple(1.86, 1.875),
  belowNipple(2.3, 2.313),
  belowNipple(2.74, 2.75),
];
