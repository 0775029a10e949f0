import { frameText, MOST_FRAMES, pieceBytes, transferOf } from "./frame.ts";
import { MOST_TEXT_BYTES, squeeze } from "./squeezed.ts";

/**
 * How fine a code is. Both correct errors of 15 % (level M): a screen is neither torn nor stained, but it shines. How
 * fine it may be was measured: of ten pictures each, turned and tilted by some degrees, out of focus by 1 px (1.5 px at
 * 1080), with noise, so many were read by the library that comes along:
 *
 *     lines of the picture          480              720              1080
 *     part that the code fills      .5   .7   .9     .5   .7   .9     .5   .7   .9
 *     version 10                    10   10   10     10   10   10     10    9   10
 *     version 15                     5   10   10      7   10   10     10   10   10
 *     version 18                     3   10   10      7   10   10     10   10    9
 *     version 25                     0    4    9      1    6    9      6   10   10
 *
 * - fine: version 18, 89 modules a side, the finest that one picture reads as soon as it fills most of it. A 10 in
 *   tablet shows a module 1.2 mm large; at arm's length a camera of 1080 lines has 4 to 5 px for it.
 * - coarse: version 10, 57 modules, for a camera or a screen with which the fine ones do not read.
 */
export const grains = {
  fine: { version: 18, characters: 816 },
  coarse: { version: 10, characters: 311 },
} as const;
export type Grain = keyof typeof grains;

/** A pack's text as codes, or why it cannot be. */
export type Cut =
  | {
      readonly ok: true;
      readonly transfer: string;
      /** the texts of the codes, in order */
      readonly frames: readonly string[];
      /** of all the codes together, without what each needs for itself */
      readonly bytes: number;
    }
  | { readonly ok: false; readonly why: string };

export function cut(text: string, grain: Grain): Cut {
  const size = pieceBytes(grains[grain].characters);
  const tooLarge = (says: string): Cut => ({
    ok: false,
    why: `This job is too large for codes: ${says}. Save a pack and carry the file over instead.`,
  });
  if (text.length > MOST_TEXT_BYTES) {
    return tooLarge(`its pack has ${(text.length / 1e6).toFixed(1)} MB of text`);
  }
  const squeezed = squeeze(text);
  const count = Math.ceil(squeezed.length / size);
  if (count > MOST_FRAMES) return tooLarge(`it needs ${count} of them, and ${MOST_FRAMES} is most`);
  const transfer = transferOf(squeezed);
  const frames = Array.from({ length: count }, (_, index) =>
    frameText({
      transfer,
      index,
      count,
      piece: squeezed.subarray(index * size, (index + 1) * size),
    }),
  );
  return { ok: true, transfer, frames, bytes: squeezed.length };
}
