import type { EventBody } from "../log/event.ts";
import { picturesOf } from "../log/pictures.ts";
import { fromBase64, inBase64 } from "../photographs.ts";
import { sha256, z } from "../schema.ts";
import { MOST_PICTURE_BYTES, type Picture, pictureProblem } from "../store/picture.ts";

/** A picture as it stands in a pack. */
export const packedPicture = z.strictObject({
  sha256,
  type: z.literal("image/jpeg"),
  base64: z.string().max(4 * Math.ceil(MOST_PICTURE_BYTES / 3), "larger than a picture may be"),
});
export type PackedPicture = z.infer<typeof packedPicture>;

export function pack({ sha256, type, bytes }: Picture): PackedPicture {
  return { sha256, type, base64: inBase64(bytes) };
}

/** @throws DOMException when it is not written in base64 */
export function unpack({ base64, ...picture }: PackedPicture): Picture {
  return { ...picture, bytes: fromBase64(base64) };
}

/** The first picture of a pack that cannot be used, by its name, and why; undefined when all can. */
export function badPicture(
  pictures: readonly PackedPicture[],
  events: readonly { readonly body: EventBody }[],
): string | undefined {
  const wanted = picturesOf(events);
  for (const packed of pictures) {
    const name = `Picture ${packed.sha256.slice(0, 12)} of the pack`;
    if (!wanted.has(packed.sha256)) return `${name} belongs to no event in it.`;
    let picture: Picture;
    try {
      picture = unpack(packed);
    } catch {
      return `${name} is damaged: it is not written in base64.`;
    }
    const problem = pictureProblem(picture);
    if (problem) return `${name} cannot be used: ${problem}.`;
  }
  return undefined;
}
