import { day, quantity, recordBase, text, z } from "../schema.ts";

/** A gas-lift valve by its serial, in stock or in a pocket. */
export const valve = z.strictObject({
  ...recordBase,
  serial: text,
  kind: z.enum(["injection-operated", "production-operated", "orifice", "dummy"]),
  size: z.enum(["1 in", "1-1/2 in"]),
  latch: text.optional(),
  bellowsArea: quantity("area").optional(),
  /** Seat seal area: what the ball seals on, not the bore. */
  seatArea: quantity("area").optional(),
  port: quantity("diameter").optional(),
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
  remarks: z.string().max(4000).optional(),
});
export type Valve = z.infer<typeof valve>;
