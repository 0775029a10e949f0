import { id, quantity, recordBase, text, z } from "../schema.ts";

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

const gas = z.strictObject({
  specificGravity: quantity("ratio"),
  co2: quantity("fraction"),
  h2s: quantity("fraction"),
  n2: quantity("fraction"),
});
export type GasRecord = z.infer<typeof gas>;

export const well = z.strictObject({
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
  injectionGas: gas.optional(),
  /** Above the liquid in the shut-in tubing; taken as the injection gas, and said so, when absent. */
  tubingGas: gas.optional(),
  annulusLiquid: standingLiquid,
  /** Of the liquid below the fluid level in the shut-in tubing. */
  tubingLiquidGradient: quantity("pressure gradient").optional(),
  pressures: z.strictObject({
    maximumShutInWellhead: quantity("pressure").optional(),
    fullInjectionAtSurface: quantity("pressure").optional(),
    operatingInjectionAtSurface: quantity("pressure").optional(),
  }),
  crownValveTurns: z.number().int().min(1).optional(),
  remarks: z.string().max(4000).optional(),
});
export type Well = z.infer<typeof well>;
