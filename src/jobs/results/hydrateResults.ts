import type { Gas } from "../../calc/gas.ts";
import { hydrateMethod, hydrateTemperature } from "../../calc/hydrate.ts";
import { AIR_MOLAR_MASS, absolutePa } from "../../calc/units.ts";
import type { GasRecord } from "../records/well.ts";
import { type Context, measuredOr, type Part, productionSide, ready } from "./context.ts";
import { wellheadGiven } from "./levelling.ts";
import { injectionAtSurface, liftWellhead } from "./onLift.ts";
import { hydrogenSulfide } from "./sourResults.ts";
import { type Definitions, type Given, type ResultId, type Traced, trace } from "./traced.ts";
import { spaceGasGiven } from "./wellGivens.ts";

/** Temperatures below which hydrates can form at surface: a caution, where gas is let in or bled. */

function hydrate(
  context: Context,
  id: ResultId,
  label: string,
  space: "annulus" | "tubing",
  pressure: Given,
): Traced {
  const gas: Part<Gas> = space === "annulus" ? context.annulusGas : context.tubingGas;
  return trace({
    id,
    label,
    dimension: "temperature",
    method: hydrateMethod,
    givens: { pressure, gas: spaceGasGiven(context, space) },
    work: (v) => {
      const found = hydrateTemperature(
        absolutePa(v.pressure),
        ready(gas).molarMass / AIR_MOLAR_MASS,
        hydrogenSulfide(gasRecord(context, space)) ?? 0,
      );
      return {
        si: found.temperature,
        warnings: found.warnings,
        beside: () => [
          {
            label: "By Hammerschmidt (1934), which knows no gravity",
            si: found.secondOpinion,
            formula: "T = 8.9 P^0.285, degF and psia",
            source: "from memory",
          },
        ],
      };
    },
  });
}

function gasRecord({ programme }: Context, space: "annulus" | "tubing"): GasRecord | undefined {
  const { well } = programme;
  return space === productionSide(programme)
    ? (well?.tubingGas ?? well?.injectionGas)
    : well?.injectionGas;
}

export const hydrateResults = {
  "hydrate-wellhead": (context) =>
    hydrate(
      context,
      "hydrate-wellhead",
      "Hydrates can form in the stack below",
      "tubing",
      wellheadGiven(context),
    ),
  "hydrate-casing": (context) =>
    hydrate(
      context,
      "hydrate-casing",
      "Hydrates can form upstream of the bleed below (downstream it is far colder)",
      "annulus",
      measuredOr(
        context.measured["casing pressure"],
        productionSide(context.programme) === "tubing"
          ? injectionAtSurface(context)
          : liftWellhead(context),
      ),
    ),
} satisfies Definitions;
