import type { Warning } from "../../calc/method.ts";
import { type PocketForce, pocketForce, pocketForceMethod } from "../../calc/pocketForce.ts";
import { type Context, productionSide, recorded } from "./context.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";

/** What is left of a pressure difference pushes on the seated valve. */

function bore(
  context: Context,
  symbol: string,
  name: string,
  key: "upperBore" | "lowerBore",
): Given {
  const { mandrel } = context;
  return recorded(
    context,
    symbol,
    name,
    "diameter",
    mandrel?.[key],
    `mandrel ${mandrel?.number ?? "not chosen"}`,
  );
}

/** Statics here are of a pocket whose ports look at the annulus; gas that goes down the tubing may leave by another way. */
function portedToAnnulus({ programme }: Context): Given {
  const usual = productionSide(programme) === "tubing";
  return {
    symbol: "ports",
    name: "Ports of the pocket",
    dimension: "ratio",
    si: usual ? 0 : undefined,
    shown: "to the annulus, between the packings",
    origin: { kind: "assumed", why: "the usual side-pocket mandrel, gas down the annulus" },
    needs: ["how the mandrel is ported, with injection down the tubing"],
  };
}

/** What is left of the difference pushes on the valve: up and out is positive. */
function forceOnValve(
  context: Context,
  get: Get,
  id: ResultId,
  label: string,
  pick: keyof PocketForce,
): Traced {
  return trace({
    id,
    label,
    dimension: "force",
    method: pocketForceMethod,
    givens: {
      difference: from("Δp", get("difference-at-mandrel")),
      upper: bore(context, "du", "Upper seal bore of the pocket", "upperBore"),
      lower: bore(context, "dl", "Lower seal bore of the pocket", "lowerBore"),
      ported: portedToAnnulus(context),
    },
    work: (v) => ({ si: pocketForce(v.difference, v.upper, v.lower)[pick], warnings: [rush] }),
  });
}

const rush: Warning = {
  kind: "note",
  text: "gas that rushes past the string when a packing stack clears its bore drags on it as well, and is not in this figure",
};

export const pocketForceResults = {
  "force-seated": (context, get) =>
    forceOnValve(
      context,
      get,
      "force-seated",
      "Force on the valve while both packings seal, up and out",
      "seated",
    ),
  "force-clear": (context, get) =>
    forceOnValve(
      context,
      get,
      "force-clear",
      "Force on it once the lower packing is clear, up and out",
      "lowerStackClear",
    ),
} satisfies Definitions;
