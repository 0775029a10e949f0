/** Bytes that go into one call: `String.fromCharCode` takes its arguments from the stack. */
const AT_ONCE = 0x8000;

/** Bytes in base64 (RFC 4648), without line breaks. */
export function toBase64(bytes: Uint8Array): string {
  let characters = "";
  for (let at = 0; at < bytes.length; at += AT_ONCE) {
    characters += String.fromCharCode(...bytes.subarray(at, at + AT_ONCE));
  }
  return btoa(characters);
}

/** @throws DOMException when it is not base64 */
export function fromBase64(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}
