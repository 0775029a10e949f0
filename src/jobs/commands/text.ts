import { isSignature, type Strokes, signatureRule } from "../signature.ts";

/** What the log takes of a text: the same limits as its schema. */
export const MOST_WORDS = 400;
export const MOST_LONG = 4000;

/** Halves of letters, which no file can carry: left by a keyboard that was interrupted. */
const LONE_SURROGATE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** A text as it goes into the log: without blanks around it, with whole letters only. */
export function tidy(text: string): string {
  return text.replace(LONE_SURROGATE, "\ufffd").trim();
}

/** Why a tidy text cannot go into the log, or undefined. */
export function tooLong(label: string, text: string, most: number): string | undefined {
  return text.length > most ? `${label}: ${text.length} characters; at most ${most}.` : undefined;
}

/** The same person, however the name is written. */
export const samePerson = (a: string, b: string) =>
  a.replace(/[\s.]/g, "").toLowerCase() === b.replace(/[\s.]/g, "").toLowerCase();

/** Why what somebody drew is no signature, or undefined; a name that is typed alone counts. */
export function notSigned(drawn: Strokes | undefined, name: string): string | undefined {
  if (!drawn || isSignature(drawn)) return undefined;
  return `What ${name} drew is not a signature yet. ${signatureRule} Draw on, or clear the pad.`;
}
