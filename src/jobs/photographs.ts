/**
 * What photographs may take up, and how their bytes travel as text; apart from the schemas, so that a screen knows
 * the limits without loading those.
 */

/** A picture as it was taken or chosen here: made small enough, upright, with nothing but the picture in it. */
export interface TakenPicture {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: "image/jpeg";
  /** px */
  readonly width: number;
  /** px */
  readonly height: number;
}

/** Of a picture taken here: a worn thread or a stamped serial can still be told on it, and many of them travel in a pack. */
export const largestPicture = {
  /** px on the longer side */
  side: 1600,
  bytes: 400_000,
} as const;

/** of one string */
export const mostPhotographs = 6;

/** Characters of a JPEG in base64 in a string's record, some 525 kB. */
export const longestJpeg = 700_000;

/** More arguments than this at once and some browsers run out of stack. */
const PIECE = 0x8000;

/** Bytes as base64. */
export function inBase64(bytes: Uint8Array): string {
  let characters = "";
  for (let from = 0; from < bytes.length; from += PIECE) {
    characters += String.fromCharCode(...bytes.subarray(from, from + PIECE));
  }
  return btoa(characters);
}

/**
 * The bytes that base64 stands for.
 *
 * @throws DOMException when it is no base64
 */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const characters = atob(text);
  const bytes = new Uint8Array(characters.length);
  for (let at = 0; at < bytes.length; at += 1) bytes[at] = characters.charCodeAt(at);
  return bytes;
}
