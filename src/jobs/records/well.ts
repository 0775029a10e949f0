import { COMPONENT_NAMES } from "../../calc/aga8Constants.ts";
import { toSI } from "../quantity.ts";
import { day, id, quantity, recordBase, text, z } from "../schema.ts";

/** A side-pocket mandrel, or a conventional one that wireline cannot serve. */
export const mandrel = z.strictObject({
  id,
  /** Counted from the top, as the schematic does. */
  number: z.number().int().min(1),
  depthAlongHole: quantity("length"),
  construction: z.enum(["side pocket", "conventional"]),
  /** Nominal pocket. */
  pocket: z.enum(["1 in", "1-1/2 in", "not known"]),
  orientingSleeve: z.enum(["yes", "no", "not known"]),
  latchProfile: text.optional(),
  /** Seal bores of the two packing stacks, from the mandrel's drawing. */
  upperBore: quantity("diameter").optional(),
  lowerBore: quantity("diameter").optional(),
  /** Valve in the pocket, by its record; absent when empty or not known. */
  valve: id.optional(),
  pocketState: z.enum(["holds a valve", "empty", "not known"]),
});
export type Mandrel = z.infer<typeof mandrel>;

const temperaturePoint = z.strictObject({
  trueVerticalDepth: quantity("length"),
  temperature: quantity("temperature"),
});
export type TemperaturePoint = z.infer<typeof temperaturePoint>;

const station = z.strictObject({
  depthAlongHole: quantity("length"),
  inclination: quantity("angle"),
  azimuth: quantity("angle"),
});

/** Liquid standing in a space at rest. */
const standingLiquid = z.discriminatedUnion("state", [
  z.strictObject({ state: z.literal("none") }),
  z.strictObject({ state: z.literal("not known") }),
  z.strictObject({
    state: z.literal("standing"),
    topTrueVertical: quantity("length"),
    gradient: quantity("pressure gradient"),
  }),
]);

const byGravity = ["specificGravity", "co2", "h2s", "n2"] as const;

/** By an analysis of its components, or by gravity and impurities: one of the two. */
const gas = z
  .strictObject({
    specificGravity: quantity("ratio").optional(),
    co2: quantity("fraction").optional(),
    h2s: quantity("fraction").optional(),
    n2: quantity("fraction").optional(),
    analysis: z.partialRecord(z.enum(COMPONENT_NAMES), quantity("fraction")).optional(),
  })
  .superRefine((given, context) => {
    const complain = (key: string, message: string) =>
      context.addIssue({ code: "custom", message, path: [key] });
    if (!given.analysis) {
      const missing = byGravity.find((key) => given[key] === undefined);
      if (missing) complain(missing, "needed, unless the gas is given by an analysis");
      return;
    }
    for (const key of byGravity) {
      if (given[key]) complain(key, "leave it empty: the gas is given by an analysis");
    }
    const fractions = Object.values(given.analysis).map((y) => toSI("fraction", y));
    const sum = fractions.reduce((all, y) => all + y, 0);
    // A fraction that cannot be has its own complaint.
    if (fractions.every((y) => y >= 0) && Math.abs(sum - 1) > 0.001) {
      complain("analysis", `the fractions add up to ${(100 * sum).toFixed(2)} mol %, not to 100`);
    }
  });
export type GasRecord = z.infer<typeof gas>;

const pressurePoint = z.strictObject({
  trueVerticalDepth: quantity("length"),
  pressure: quantity("pressure"),
});

export const well = z
  .strictObject({
    ...recordBase,
    name: text,
    field: text,
    depthReference: z.strictObject({ name: text, aboveWellheadZero: quantity("length") }),
    /** Of the site; standard atmosphere when absent. */
    atmosphere: quantity("pressure").optional(),
    injectionDown: z.enum(["annulus", "tubing"]),
    path: z.discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("vertical") }),
      z.strictObject({ kind: z.literal("surveyed"), stations: z.array(station).min(1) }),
    ]),
    tubing: z.array(
      z.strictObject({
        name: text,
        from: quantity("length"),
        to: quantity("length"),
        drift: quantity("diameter"),
      }),
    ),
    /** Everything that is narrower than the tubing: nipples, safety valve, hanger. Depth along hole. */
    restrictions: z.array(
      z.strictObject({
        name: text,
        kind: z.enum(["nipple", "safety valve", "hanger", "other"]),
        depthAlongHole: quantity("length"),
        bore: quantity("diameter"),
      }),
    ),
    mandrels: z.array(mandrel).min(1),
    /** Static and flowing are kept apart: a valve in a flowing well is hotter. */
    temperatures: z.strictObject({
      shutIn: z.array(temperaturePoint).min(2).optional(),
      flowing: z.array(temperaturePoint).min(2).optional(),
    }),
    /** What flows up on lift; it gives flowing temperatures by correlation where no points are known. */
    stream: z
      .strictObject({
        liquidRate: quantity("liquid rate"),
        liquidDensity: quantity("density"),
        oilApiGravity: quantity("ratio"),
        /** lift gas and the well's own */
        gasRate: quantity("gas rate"),
        gasGravity: quantity("ratio"),
        tubingInside: quantity("diameter"),
        /** where the well's fluids come in: the perforations, along hole */
        entersAlongHole: quantity("length"),
        /** liquid a unit of drawdown, at surface: it tells a well that would head from a steady one */
        productivityIndex: quantity("productivity index").optional(),
      })
      .optional(),
    injectionGas: gas.optional(),
    /**
     * Above the liquid on the side that produces, shut in; taken as the injection gas, and said so, when
     * absent. With injection down the tubing that side is the annulus.
     */
    tubingGas: gas.optional(),
    /** Where the gas goes down, for its friction. */
    annulus: z
      .strictObject({
        casingInside: quantity("diameter"),
        tubingOutside: quantity("diameter"),
        roughness: quantity("diameter").optional(),
      })
      .optional(),
    annulusLiquid: standingLiquid,
    /** Of the liquid below the fluid level in the shut-in tubing. */
    tubingLiquidGradient: quantity("pressure gradient").optional(),
    pressures: z.strictObject({
      maximumShutInWellhead: quantity("pressure").optional(),
      fullInjectionAtSurface: quantity("pressure").optional(),
      operatingInjectionAtSurface: quantity("pressure").optional(),
    }),
    /** The well on lift as it is meant to run. */
    onLift: z
      .strictObject({
        wellhead: quantity("pressure").optional(),
        /** above the point where gas enters */
        liftedGradient: quantity("pressure gradient").optional(),
        /** below it */
        gradientBelow: quantity("pressure gradient").optional(),
        /** of the liquid that fills the well before it is unloaded */
        loadGradient: quantity("pressure gradient").optional(),
        injectionRate: quantity("gas rate").optional(),
      })
      .optional(),
    /** The well on lift as it was last measured. */
    lastFound: z
      .strictObject({
        day,
        injectionAtSurface: quantity("pressure"),
        wellhead: quantity("pressure"),
        injectionRate: quantity("gas rate").optional(),
        survey: z.array(pressurePoint).min(2).optional(),
      })
      .optional(),
    crownValveTurns: z.number().int().min(1).optional(),
    remarks: z.string().max(4000).optional(),
  })
  .superRefine((well, context) => {
    const complain = (path: (string | number)[], message: string) =>
      context.addIssue({ code: "custom", message, path });
    well.mandrels.forEach(({ number, depthAlongHole }, index) => {
      const earlier = well.mandrels.slice(0, index);
      if (earlier.some((other) => other.number === number)) {
        complain(["mandrels", index, "number"], `there is a mandrel ${number} already`);
      }
      if (toSI("length", depthAlongHole) <= 0) {
        complain(["mandrels", index, "depthAlongHole"], "below the surface, above 0");
      }
    });
    const depths = (well.lastFound?.survey ?? []).map((stop) =>
      toSI("length", stop.trueVerticalDepth),
    );
    depths.forEach((depth, index) => {
      if (depths.indexOf(depth) < index) {
        complain(
          ["lastFound", "survey", index, "trueVerticalDepth"],
          "there is a stop at this depth already",
        );
      }
    });
  });
export type Well = z.infer<typeof well>;
