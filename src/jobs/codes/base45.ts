/**
 * Bytes as text of the 45 characters that QR codes hold in their alphanumeric mode. Any reader gives such text back
 * as it was; of bytes, readers make text in ways of their own.
 *
 * Source: RFC 9285, section 4.
 */
const characters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/** Three characters for two bytes, two for a last one. */
export function inBase45(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += 2) {
    const [first = 0, second] = bytes.subarray(at, at + 2);
    text +=
      second === undefined
        ? `${characters[first % 45]}${characters[Math.floor(first / 45)]}`
        : threeFor(first * 256 + second);
  }
  return text;
}

const threeFor = (pair: number) =>
  `${characters[pair % 45]}${characters[Math.floor(pair / 45) % 45]}${characters[Math.floor(pair / 2025)]}`;

/** @returns the bytes, or undefined when it is no base45 */
export function fromBase45(text: string): Uint8Array | undefined {
  if (text.length % 3 === 1) return undefined;
  const bytes = new Uint8Array(Math.floor((text.length * 2) / 3));
  let filled = 0;
  for (let at = 0; at < text.length; at += 3) {
    const digits = [...text.slice(at, at + 3)].map((character) => characters.indexOf(character));
    if (digits.includes(-1)) return undefined;
    const [ones = 0, fortyFives = 0, rest] = digits;
    const value = ones + 45 * fortyFives + 2025 * (rest ?? 0);
    if (value > (rest === undefined ? 0xff : 0xffff)) return undefined;
    if (rest !== undefined) bytes[filled++] = value >> 8;
    bytes[filled++] = value & 0xff;
  }
  return bytes;
}
