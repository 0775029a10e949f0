import { z } from "../schema.ts";
import { mostPoints, mostStrokes, signatureFrame } from "../signature.ts";

const point = z
  .tuple([
    z.number().int().min(0).max(signatureFrame.width),
    z.number().int().min(0).max(signatureFrame.height),
  ])
  .readonly();

/** A signature as it was drawn; where there is none it is left out, and not kept as an empty one. */
export const strokesSchema = z
  .array(z.array(point).min(1).max(mostPoints))
  .min(1)
  .max(mostStrokes)
  .refine((strokes) => strokes.flat().length <= mostPoints, {
    message: `a signature has at most ${mostPoints} points`,
  })
  .readonly();
