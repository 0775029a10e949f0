import { unitLabel } from "../../display.ts";
import { dimensions } from "../../quantity.ts";

/** Stands for a character that no font has. */
export const REPLACEMENT = "\uFFFD";

/** What has no look of its own in any font: joiners, marks of direction, soft hyphens. */
const INVISIBLE = /\p{Default_Ignorable_Code_Point}/gu;

/** Control characters and halves of a surrogate pair: nothing that could be shown, but something that was there. */
const UNSHOWABLE = /[\p{Cc}\p{Cs}]/gu;

/** Spaces of other widths where a line may break. U+2007 and U+202F join, as U+00A0 does. */
const SPACE = /[\t \u1680\u2000-\u2006\u2008\u200a\u205f\u3000]+/u;
/** U+2009 stands between thousands here. */
const JOINING_SPACE = /[\u00a0\u2007\u2009\u202f]/gu;

const units = Object.values(dimensions)
  .flatMap((each) => Object.keys(each.units))
  .filter((unit) => unit !== "")
  .flatMap((unit) => [unit, unitLabel(unit)]);

/** A figure and its unit stay on one line. */
const BEFORE_A_UNIT = new RegExp(`(?<=\\d) (?=(?:${units.join("|")})(?![\\p{L}\\p{N}]))`, "gu");

const LINE_END = /\r\n|[\n\v\f\r\u0085\u2028\u2029]/u;

/**
 * Text as words of lines: composed (NFC), with every character either one that can be shown or a visible replacement.
 *
 * @returns lines as the text has them, each the words between which it may be broken
 */
export function wordsOf(text: string): string[][] {
  return text
    .normalize("NFC")
    .split(LINE_END)
    .map((line) =>
      line
        .replace(BEFORE_A_UNIT, "\u00a0")
        .split(SPACE)
        .map((word) =>
          word.replace(INVISIBLE, "").replace(UNSHOWABLE, REPLACEMENT).replace(JOINING_SPACE, " "),
        )
        .filter((word) => word !== ""),
    );
}

/** Whether a word is written from right to left. */
export const isRightToLeft = (word: string) =>
  /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u.test(
    word,
  );
