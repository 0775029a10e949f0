import { day, quantity, recordBase, text, z } from "../schema.ts";

/** A gas-lift valve by its serial, in stock or in a pocket. */
export const valve = z.strictObject({
  ...recordBase,
  serial: text,
  kind: z.enum(["injection-operated", "production-operated", "orifice", "dummy"]),
  size: z.enum(["1 in", "1-1/2 in"]),
  latch: text.optional(),
  bellowsArea: quantity("area").optional(),
  /** Seat seal area: what the ball seals on, not the bore. Worked out from port and seat when absent. */
  seatArea: quantity("area").optional(),
  port: quantity("diameter").optional(),
  seat: z.enum(["sharp-edged", "lapped"]).optional(),
  /** of a lapped seat */
  sealDiameter: quantity("diameter").optional(),
  /** of a choke upstream of the port */
  choke: quantity("diameter").optional(),
  dischargeCoefficient: quantity("ratio").optional(),
  /** Bellows-assembly load rate and ball, which the shop measures: they give the throttled flow. */
  loadRate: quantity("load rate").optional(),
  ballDiameter: quantity("diameter").optional(),
  springPressure: quantity("pressure difference").optional(),
  length: quantity("length").optional(),
  weight: quantity("weight").optional(),
  /** The shop's card. */
  card: z
    .strictObject({
      testRackOpening60F: quantity("pressure"),
      /** of the shop, that its gauge counts from; standard when absent */
      atmosphere: quantity("pressure").optional(),
      day,
      by: text.optional(),
    })
    .optional(),
  /** Openings read one after the other on the test rack, each at the valve's temperature then. */
  bench: z
    .strictObject({
      day,
      by: text.optional(),
      readings: z
        .array(
          z.strictObject({
            opening: quantity("pressure"),
            temperature: quantity("temperature"),
          }),
        )
        .min(1)
        .max(20),
    })
    .optional(),
  remarks: z.string().max(4000).optional(),
});
export type Valve = z.infer<typeof valve>;
