import { wordsOf } from "./characters.ts";
import type { Fonts, Run, Weight, Word } from "./fonts.ts";

/** One line of text, at any size: widths are those at size 1. */
export interface Line {
  readonly runs: readonly Run[];
  readonly width: number;
}

const EMPTY: Line = { runs: [], width: 0 };

/**
 * Text broken into lines. Breaks between words; a word that is wider than a line, as a hash may be, breaks within.
 *
 * @param width of a line, over the size of its type
 * @returns at least one line
 */
export function linesOf(fonts: Fonts, text: string, weight: Weight, width: number): Line[] {
  const space = fonts.word(" ", weight);
  // Only where a figure and its unit have no room on one line do they go on two.
  const parted = (whole: string) =>
    whole.includes(" ") && fonts.word(whole, weight).width > width ? whole.split(" ") : [whole];
  const lines = wordsOf(text).flatMap((joined) => {
    const words = joined.flatMap(parted);
    const broken: Line[] = [];
    let row: Word[] = [];
    let filled = 0;
    for (const whole of words) {
      let word = fonts.word(whole, weight);
      if (row.length > 0 && filled + space.width + word.width > width) {
        broken.push(lineOf(row, space));
        row = [];
      }
      if (row.length === 0) filled = 0;
      else filled += space.width;
      if (word.width > width) {
        const pieces = piecesOf(fonts, word, weight, width);
        for (const piece of pieces.slice(0, -1)) broken.push(lineOf([piece], space));
        word = pieces.at(-1) ?? word;
      }
      row.push(word);
      filled += word.width;
    }
    return row.length > 0 ? [...broken, lineOf(row, space)] : [EMPTY];
  });
  while (lines.length > 1 && lines.at(-1) === EMPTY) lines.pop();
  return lines;
}

/** A line that is cut where it would be too long, with a sign that it was. */
export function shortened(fonts: Fonts, text: string, weight: Weight, width: number): Line {
  const space = fonts.word(" ", weight);
  const set = (words: string) => lineOf([fonts.word(words, weight)], space);
  const whole = wordsOf(text).flat().join(" ");
  if (set(whole).width <= width) return set(whole);
  const characters = [...whole];
  const start = (count: number) => `${characters.slice(0, count).join("").trimEnd()}…`;
  let [fits, fitsNot] = [0, characters.length];
  while (fitsNot - fits > 1) {
    const middle = (fits + fitsNot) >> 1;
    if (set(start(middle)).width <= width) fits = middle;
    else fitsNot = middle;
  }
  return set(start(fits));
}

/** Width of the widest word of a text, at size 1. */
export const widestWord = (fonts: Fonts, text: string, weight: Weight) =>
  wordsOf(text)
    .flat()
    .reduce((widest, word) => Math.max(widest, fonts.word(word, weight).width), 0);

/** A word's characters, with the marks that stand on them, put together as far as a line goes; one at the least. */
function piecesOf(fonts: Fonts, word: Word, weight: Weight, width: number): Word[] {
  const characters = word.text.match(/\P{M}\p{M}*|\p{M}+/gu) ?? [word.text];
  const pieces: string[] = [];
  let piece = "";
  let filled = 0;
  for (const character of characters) {
    const wide = fonts.word(character, weight).width;
    if (piece !== "" && filled + wide > width) {
      pieces.push(piece);
      piece = "";
      filled = 0;
    }
    piece += character;
    filled += wide;
  }
  return [...pieces, piece].map((text) => fonts.word(text, weight));
}

/** Words in the order in which they stand on paper: those written from right to left turn round among themselves. */
function lineOf(words: readonly Word[], space: Word): Line {
  const ordered: Word[] = [];
  let turned: Word[] = [];
  for (const word of words) {
    if (word.rightToLeft) turned.unshift(word);
    else {
      ordered.push(...turned, word);
      turned = [];
    }
  }
  ordered.push(...turned);
  const runs: Run[] = [];
  ordered.forEach((word, index) => {
    for (const run of index > 0 ? [...space.runs, ...word.runs] : word.runs) {
      const last = runs.at(-1);
      const follows = last && !last.placed && !run.placed;
      if (follows && last.face === run.face && last.thickened === run.thickened) {
        runs[runs.length - 1] = {
          ...last,
          glyphs: last.glyphs + run.glyphs,
          width: last.width + run.width,
        };
      } else runs.push(run);
    }
  });
  return { runs, width: runs.reduce((sum, { width }) => sum + width, 0) };
}
