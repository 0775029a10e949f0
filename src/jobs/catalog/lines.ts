import { type CatalogPart, type LinePart, line } from "./part.ts";
import { FROM_MEMORY, NOMINAL } from "./sources.ts";
import { wireWeight, wireWeightSource } from "./steel.ts";

/** Well-measuring wire of improved plow steel as it leaves the mill. */
const wire = (inches: number, breakingStrength: number): CatalogPart<LinePart> =>
  line(
    {
      name: `Wire ${inches} in, carbon steel`,
      diameter: { value: inches, unit: "in" },
      massPerLength: wireWeight(inches),
      breakingStrength: { value: breakingStrength, unit: "lbf" },
      strengthFrom: "from memory, unverified",
      modulus: { value: 29, unit: "Mpsi" },
    },
    {
      diameter: NOMINAL,
      massPerLength: wireWeightSource,
      breakingStrength: `${FROM_MEMORY}: improved plow steel, table of API Spec 9A; the mill's certificate counts`,
      modulus: `${FROM_MEMORY}: carbon steel wire`,
    },
  );

/** Solid wire in the sizes of the trade. */
export const catalogLines: readonly CatalogPart<LinePart>[] = [
  wire(0.092, 1547),
  wire(0.108, 2109),
  wire(0.125, 2794),
];
