import { absolutePa, kelvin } from "../../calc/units.ts";
import { type SpringSet, springSet, springSetMethod } from "../../calc/valve.ts";
import type { Context } from "./context.ts";
import { type AnyResultId, from, type Get, type Given, type Traced, trace } from "./traced.ts";
import { bodyGivens, bodyOf, fromShop, shopAtmosphere, shopGiven } from "./valveGivens.ts";

/** The replacement has no charge: what the shop sets is its spring. */
export const byItsSpring = ({ programme }: Context): boolean =>
  programme.replacement?.charge === "none";

/** One figure of a spring's setting. */
export function springSetResult(
  context: Context,
  get: Get,
  id: AnyResultId,
  label: string,
  design: { readonly opening: Given; readonly other: Given },
  pick: (set: SpringSet) => number,
): Traced {
  const valve = context.programme.replacement;
  const { bellows, seat } = bodyGivens(context, valve);
  return trace({
    id,
    label,
    dimension: "pressure",
    method: springSetMethod,
    givens: {
      bellows,
      seat,
      opening: design.opening,
      other: design.other,
      temperature: from("T", get("temperature-flowing")),
      shop: shopGiven(valve),
    },
    work: (v) => {
      const set = springSet(
        bodyOf(valve, { ...v, spring: 0 }),
        absolutePa(v.opening),
        absolutePa(v.other),
        kelvin(v.temperature),
        shopAtmosphere(valve),
      );
      return { si: pick(set), warnings: set.warnings };
    },
  });
}

/** The test-rack figure, as the shop's gauge reads it. */
export const springRack =
  (context: Context) =>
  (set: SpringSet): number =>
    fromShop(context, context.programme.replacement, set.testRack);
