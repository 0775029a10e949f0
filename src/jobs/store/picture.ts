import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";

/** A picture that an event of a log names. It lies beside the log, so that a log stays quick to read. */
export interface Picture {
  /** of `bytes`, in hexadecimal: the picture's name */
  readonly sha256: string;
  readonly type: "image/jpeg";
  readonly bytes: Uint8Array;
}

/** Bytes of one picture, at most. */
export const MOST_PICTURE_BYTES = 4_000_000;

/** The name of a picture: the SHA-256 of its bytes, in hexadecimal. */
export function pictureHash(bytes: Uint8Array): string {
  return bytesToHex(digest(bytes));
}

/** What is wrong with a picture, in words; undefined when nothing is. */
export function pictureProblem({ sha256, bytes }: Picture): string | undefined {
  const megabytes = (count: number) => `${(count / 1e6).toFixed(1)} MB`;
  if (bytes.length > MOST_PICTURE_BYTES) {
    return `it has ${megabytes(bytes.length)}, and one picture has at most ${megabytes(MOST_PICTURE_BYTES)}`;
  }
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8 || bytes[2] !== 0xff) {
    return "it does not begin as a JPEG does";
  }
  if (pictureHash(bytes) !== sha256) return "its bytes were changed or damaged";
  return undefined;
}
