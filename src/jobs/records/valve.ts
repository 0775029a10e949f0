import { pulledConditions } from "../pulledConditions.ts";
import { toSI } from "../quantity.ts";
import { day, quantity, recordBase, text, z } from "../schema.ts";

/** A gas-lift valve by its serial, in stock or in a pocket. */
export const valve = z
  .strictObject({
    ...recordBase,
    serial: text,
    kind: z.enum(["injection-operated", "production-operated", "orifice", "dummy"]),
    size: z.enum(["1 in", "1-1/2 in"]),
    latch: text.optional(),
    /** Upward pull that the latch holds in its profile, by its maker. */
    latchHolds: quantity("force").optional(),
    bellowsArea: quantity("area").optional(),
    /** Nitrogen in the dome, or none: the spring alone then holds the valve. Nitrogen when not said. */
    charge: z.enum(["nitrogen", "none"]).optional(),
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
    /** Where it is when it is in no pocket. In stock when not said; a valve in a pocket is known by its well. */
    state: z.enum(["in stock", "pulled", "scrapped"]).optional(),
    /** What befell it, oldest first. */
    history: z
      .array(
        z.strictObject({
          day,
          what: z.enum(["set", "pulled", "tested", "repaired", "scrapped", "note"]),
          /** well and mandrel as they were called then */
          where: text.optional(),
          /** of a valve that was pulled: how it was found */
          condition: z.enum(pulledConditions).optional(),
          /** of a valve that was set: opening on the test rack at 60 degF */
          setPressure: quantity("pressure").optional(),
          words: z.string().max(4000).optional(),
        }),
      )
      .max(500)
      .optional(),
    remarks: z.string().max(4000).optional(),
  })
  .superRefine((valve, context) => {
    const complain = (path: string, message: string) =>
      context.addIssue({ code: "custom", message, path: [path] });
    const { port, seat, sealDiameter, seatArea, bellowsArea, ballDiameter, springPressure } = valve;
    const bore = port && toSI("diameter", port);
    const seal = sealDiameter && toSI("diameter", sealDiameter);
    const bellows = bellowsArea && toSI("area", bellowsArea);
    if (bore === 0) complain("port", "above 0");
    if (bellows === 0) complain("bellowsArea", "above 0");
    if (springPressure && springPressure.value < 0) complain("springPressure", "0 or more");
    if (seat === "lapped" && bore !== undefined && seal !== undefined && seal < bore) {
      complain("sealDiameter", "at least the port: the ball seals outside the bore");
    }
    const area = seatArea ? toSI("area", seatArea) : bore && (Math.PI / 4) * bore ** 2;
    if (bellows !== undefined && area !== undefined && area >= bellows) {
      complain(
        seatArea ? "seatArea" : "port",
        "smaller than the bellows: the seat takes its area from it",
      );
    }
    if (bore !== undefined && ballDiameter && toSI("diameter", ballDiameter) <= bore) {
      complain("ballDiameter", "larger than the port, or it goes through the seat");
    }
  });
export type Valve = z.infer<typeof valve>;
