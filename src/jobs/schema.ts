import * as z from "zod";
import { type Dimension, dimensions, impossible, type Quantity, unitsOf } from "./quantity.ts";
import { roles } from "./roles.ts";

// zod compiles its parsers with eval where it can; the page's content security policy forbids that.
z.config({ jitless: true });

export { z };

/** A quantity of one dimension: a finite, possible value in one of its units. */
export function quantity<D extends Dimension>(dimension: D) {
  return z
    .strictObject({
      value: z.number(),
      unit: z.enum(unitsOf(dimension) as [string, ...string[]]),
    })
    .superRefine((given, context) => {
      const problem = impossible(dimension, given);
      if (problem) context.addIssue({ code: "custom", message: problem, path: ["value"] });
    }) as unknown as z.ZodType<Quantity<D>>;
}

/** Any quantity whose dimension is named beside it. */
export const dimensionName = z.enum(Object.keys(dimensions) as [Dimension, ...Dimension[]]);

export const text = z
  .string()
  .trim()
  .min(1, "must not be empty")
  .max(400, "at most 400 characters");
export const longText = z.string().trim().min(1).max(4000, "at most 4,000 characters");
export const id = z.string().min(1).max(80);
/** A calendar day, e.g. 2026-11-25. */
export const day = z.iso.date("a day as YYYY-MM-DD");
/** An instant in UTC to the millisecond, as the log writes it. */
export const instant = z.iso.datetime({ precision: 3 });
export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, "a SHA-256 in hexadecimal");

/** What every record of the library carries. */
export const recordBase = {
  id,
  /** Counts up by one at every change. */
  revision: z.number().int().min(1),
  /** Made up for the demonstration. */
  invented: z.boolean().optional(),
};

/** Who signs an event. */
export const actor = z.strictObject({ name: text, role: z.enum(roles) });
