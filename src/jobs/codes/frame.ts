import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { fromBase45, inBase45 } from "./base45.ts";
import { joined } from "./joined.ts";

/** One piece of a pack as one code shows it. */
export interface Frame {
  /** the first eight bytes of the SHA-256 of all that is transferred, in hexadecimal */
  readonly transfer: string;
  /** from 0 */
  readonly index: number;
  readonly count: number;
  readonly piece: Uint8Array;
}

/** What was read off a code. */
export type FrameRead =
  | { readonly is: "frame"; readonly frame: Frame }
  /** `foreign`: not one of ours; `newer`: of a version that this one does not know */
  | { readonly is: "foreign" | "damaged" | "newer" };

/** Codes of one transfer, at most: some two minutes of showing at the usual rate. */
export const MOST_FRAMES = 400;

const MARK = "LATCHLINE";
const VERSION = 1;
const TRANSFER_BYTES = 8;
const HEAD_BYTES = TRANSFER_BYTES + 4;
const CHECK_BYTES = 4;

/** Bytes of a piece that fit into a code's characters. */
export function pieceBytes(charactersOfCode: number): number {
  const characters = charactersOfCode - `${MARK}${VERSION}:`.length;
  return Math.floor(characters / 3) * 2 - HEAD_BYTES - CHECK_BYTES;
}

/**
 * A frame as a code's text: `LATCHLINE1:` and in base45 the transfer (8 bytes), the index and the count (2 bytes each,
 * high byte first), the piece, and the first four bytes of the SHA-256 of all these.
 */
export function frameText({ transfer, index, count, piece }: Frame): string {
  const numbers = Uint8Array.of(index >> 8, index & 0xff, count >> 8, count & 0xff);
  const body = joined([fromHex(transfer), numbers, piece]);
  return `${MARK}${VERSION}:${inBase45(joined([body, checkOf(body)]))}`;
}

export function readFrame(text: string): FrameRead {
  const parts = new RegExp(`^${MARK}(\\d{1,4}):(.*)$`, "s").exec(text);
  if (!parts) return { is: "foreign" };
  const [, version, written = ""] = parts;
  if (Number(version) > VERSION) return { is: "newer" };
  const bytes = fromBase45(written);
  if (Number(version) !== VERSION || !bytes || bytes.length <= HEAD_BYTES + CHECK_BYTES) {
    return { is: "damaged" };
  }
  const body = bytes.subarray(0, -CHECK_BYTES);
  const check = bytes.subarray(-CHECK_BYTES);
  if (bytesToHex(checkOf(body)) !== bytesToHex(check)) return { is: "damaged" };
  const [a = 0, b = 0, c = 0, d = 0] = body.subarray(TRANSFER_BYTES, HEAD_BYTES);
  const frame = {
    transfer: bytesToHex(body.subarray(0, TRANSFER_BYTES)),
    index: a * 256 + b,
    count: c * 256 + d,
    piece: body.slice(HEAD_BYTES),
  };
  if (frame.index >= frame.count || frame.count > MOST_FRAMES) return { is: "damaged" };
  return { is: "frame", frame };
}

/** The name of a transfer that `Frame.transfer` carries. */
export const transferOf = (bytes: Uint8Array) =>
  bytesToHex(digest(bytes).subarray(0, TRANSFER_BYTES));

/** A transfer's name as both screens show it, to be compared. */
export const shortName = (transfer: string) => transfer.slice(0, 4).toUpperCase();

const fromHex = (text: string) =>
  Uint8Array.from(text.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
const checkOf = (body: Uint8Array) => digest(body).subarray(0, CHECK_BYTES);
