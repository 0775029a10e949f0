import { deflateSync, inflateSync } from "fflate";

/**
 * Text made small. By the same library on every tablet and not by the browser's own: the same text then makes the same
 * codes wherever and whenever they are shown.
 */

/** Bytes of text, at most, that codes may stand for; one that claims more is not unpacked. */
export const MOST_TEXT_BYTES = 4_000_000;

const LENGTH_BYTES = 4;

/** The length of the text (4 bytes, high byte first), then the text in UTF-8, deflated (RFC 1951). */
export function squeeze(text: string): Uint8Array {
  const bytes = new TextEncoder().encode(text);
  const deflated = deflateSync(bytes, { level: 9 });
  const squeezed = new Uint8Array(LENGTH_BYTES + deflated.length);
  new DataView(squeezed.buffer).setUint32(0, bytes.length);
  squeezed.set(deflated, LENGTH_BYTES);
  return squeezed;
}

/**
 * The text again. Never more memory than `MOST_TEXT_BYTES` and one more byte, whatever was squeezed.
 *
 * @throws RangeError when it is longer than it says or than may be, TypeError when it is no UTF-8, Error when it is
 *   damaged
 */
export function unsqueeze(squeezed: Uint8Array): string {
  if (squeezed.length <= LENGTH_BYTES) throw new RangeError("there is nothing in it");
  const view = new DataView(squeezed.buffer, squeezed.byteOffset);
  const length = view.getUint32(0);
  if (length > MOST_TEXT_BYTES) throw new RangeError(`it says that it unpacks to ${length} bytes`);
  // One more than it says: what is longer fills that one, too, and shows.
  const out = new Uint8Array(length + 1);
  const bytes = inflateSync(squeezed.subarray(LENGTH_BYTES), { out });
  if (bytes.length !== length) throw new RangeError("it is not as long as it says");
  return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
}
