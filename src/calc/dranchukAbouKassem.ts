import { bracketedNewton } from "./bracketedNewton.ts";
import { InputError } from "./inputError.ts";
import type { Method } from "./method.ts";

/** A1 to A11. Source: Dranchuk and Abou-Kassem, J. Can. Pet. Tech. 14 (1975), doi 10.2118/75-03-03. */
const A1 = 0.3265;
const A2 = -1.07;
const A3 = -0.5339;
const A4 = 0.01569;
const A5 = -0.05165;
const A6 = 0.5475;
const A7 = -0.7361;
const A8 = 0.1844;
const A9 = 0.1056;
const A10 = 0.6134;
const A11 = 0.721;
/** Critical compressibility factor that the fit assumes. */
const ZC = 0.27;

export const dranchukAbouKassemMethod: Method = {
  name: "Compressibility factor, Dranchuk and Abou-Kassem (1975)",
  formula:
    "z = 1 + (A1+A2/T+A3/T³+A4/T⁴+A5/T⁵) r + (A6+A7/T+A8/T²) r² − A9 (A7/T+A8/T²) r⁵ + A10 (1+A11 r²)(r²/T³) exp(−A11 r²), r = 0.27 ppr/(z T), T = Tpr",
  source: "Dranchuk and Abou-Kassem, J. Can. Pet. Tech. 14 (1975), doi 10.2118/75-03-03",
  validity: [
    {
      quantity: "pseudo-reduced temperature",
      measure: "pure number",
      from: 1.05,
      to: 3,
      basis:
        "fitted from 1.0 to 3.0; weak near 1.0 (4.8 percent from the Standing-Katz chart at 1.1 and ppr 1.5: zFactor, R package, vignette)",
    },
    {
      quantity: "pseudo-reduced pressure",
      measure: "pure number",
      from: 0,
      to: 30,
      basis: "fitted from 0.2 to 30; below 0.2 it runs into the ideal gas, which is exact at 0",
    },
  ],
};

/**
 * Compressibility factor from pseudo-reduced pressure and temperature.
 *
 * Solved for the reduced density r by a bracketed Newton method, since iterating z = f(z) diverges in
 * places. The bracket runs from r = 0 to the density at which the equation's pressure exceeds the
 * one given; the gas root is the one reached from below.
 *
 * @param ppr p / ppc, dimensionless, 0 or more, at most 60
 * @param tpr T / Tpc, dimensionless, 1.0 to 6
 * @throws InputError outside these limits: below 1.0 the mixture can condense and the equation has no single answer
 * @example dranchukAbouKassem(2.5, 1.5)  // 0.7929993
 * Source: see dranchukAbouKassemMethod.
 */
export function dranchukAbouKassem(ppr: number, tpr: number): number {
  // The sentences are made only when they are needed: making them took as long as the rest of the answer.
  if (!(ppr >= 0 && ppr <= 60)) {
    throw new InputError(
      "pseudo-reduced pressure",
      ppr,
      `such that the pseudo-reduced pressure lies between 0 and 60 (here ${ppr.toFixed(1)})`,
    );
  }
  if (!(tpr >= 1 && tpr <= 6)) {
    throw new InputError(
      "pseudo-reduced temperature",
      tpr,
      `such that the pseudo-reduced temperature lies between 1.0 and 6 (here ${tpr.toFixed(3)}): a colder or heavier gas can condense, and no compressibility factor describes it`,
    );
  }
  // So thin that z is 1 to the last digit, and the reduced density may not even be representable.
  if (ppr < 1e-12) return 1;
  const c1 = A1 + A2 / tpr + A3 / tpr ** 3 + A4 / tpr ** 4 + A5 / tpr ** 5;
  const c2 = A6 + A7 / tpr + A8 / tpr ** 2;
  const c5 = -A9 * (A7 / tpr + A8 / tpr ** 2);
  const ce = A10 / tpr ** 3;
  /** z and dz/dr */
  const z = (r: number): readonly [number, number] => {
    const r2 = r * r;
    const decay = Math.exp(-A11 * r2);
    return [
      1 + c1 * r + c2 * r2 + c5 * r2 * r2 * r + ce * r2 * (1 + A11 * r2) * decay,
      c1 +
        2 * c2 * r +
        5 * c5 * r2 * r2 +
        2 * ce * r * (1 + A11 * r2 - A11 * A11 * r2 * r2) * decay,
    ];
  };
  const ideal = (ZC * ppr) / tpr;
  let high = ideal;
  while (z(high)[0] * high < ideal) high *= 1.3;
  const root = bracketedNewton(
    (r) => {
      const [value, slope] = z(r);
      return [value * r - ideal, value + r * slope];
    },
    0,
    high,
    ideal,
  );
  if (!root) {
    throw new InputError(
      "pseudo-reduced state",
      { ppr, tpr },
      "one for which the Dranchuk-Abou-Kassem equation has a single answer",
    );
  }
  return ideal / root.x;
}
