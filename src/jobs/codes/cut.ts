import { frameText, MOST_FRAMES, pieceBytes, transferOf } from "./frame.ts";
import { MOST_TEXT_BYTES, squeeze } from "./squeezed.ts";

/**
 * How fine a code is. Both correct errors of 15 % (level M): a screen is neither torn nor stained, but it shines.
 *
 * - fine: version 18, 89 modules a side. On a 10 in tablet a module is some 1.2 mm, and a code that fills 70 % of a
 *   picture of 720 lines has 5 px for each. In simulated pictures (blur of 1 px, noise, tilted a little) the library
 *   read every code from 3.5 px on at 640 x 480 and 5 px on at 1280 x 720; of version 25 some were missed in both.
 * - coarse: version 10, 57 modules, for a camera or a screen with which the fine ones do not read: every code was read
 *   at 3.8 px, half of a picture of 480 lines.
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
