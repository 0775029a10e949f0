import decodeQR from "qr/decode.js";

/** A picture's pixels, four bytes each: red, green, blue and one that says nothing here. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/** ms for looking again at a picture in which nothing was found at once; the next picture may be a better one. */
const PATIENCE = 60;

/** The text of a code in a picture; undefined when none can be read in it. */
export function codeIn(picture: Pixels): string | undefined {
  try {
    return decodeQR(picture, { effort: Number.POSITIVE_INFINITY, timeLimit: PATIENCE });
  } catch {
    return undefined;
  }
}
