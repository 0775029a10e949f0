import type { PDFDocument } from "@cantoo/pdf-lib";
import { isRightToLeft, REPLACEMENT } from "./characters.ts";
import { Face, type FontFile, type Glyphs } from "./face.ts";

/** For each weight the fonts in order: a character is set in the first that has it. */
export interface FontFiles {
  readonly regular: readonly FontFile[];
  readonly bold: readonly FontFile[];
}

export type Weight = keyof FontFiles;

/** Characters of one face in a row. */
export interface Run extends Glyphs {
  readonly face: Face;
  /** drawn with its outline thickened, where bold is asked for and the face has none */
  readonly thickened: boolean;
}

export interface Word {
  readonly text: string;
  readonly runs: readonly Run[];
  readonly width: number;
  readonly rightToLeft: boolean;
}

const MARK = /\p{M}/u;

/** The fonts of a document: which of them has a character, how wide a word is, and its glyphs. */
export class Fonts {
  /** characters that no font has, as they were met */
  readonly missing = new Set<string>();
  private readonly words: Record<Weight, Map<string, Word>> = {
    regular: new Map(),
    bold: new Map(),
  };
  private readonly faces: Readonly<Record<Weight, readonly Face[]>>;

  private constructor(faces: Readonly<Record<Weight, readonly Face[]>>) {
    this.faces = faces;
  }

  static async of(pdf: PDFDocument, files: FontFiles): Promise<Fonts> {
    const faces = new Map<FontFile, Face>();
    for (const file of [...files.regular, ...files.bold]) {
      if (!faces.has(file)) faces.set(file, await Face.of(pdf, file, `F${faces.size + 1}`));
    }
    const inOrder = (of: readonly FontFile[]) =>
      of.flatMap((file) => {
        const face = faces.get(file);
        return face ? [face] : [];
      });
    return new Fonts({ regular: inOrder(files.regular), bold: inOrder(files.bold) });
  }

  /** A word, or anything else without a line's end in it. */
  word(text: string, weight: Weight): Word {
    const known = this.words[weight].get(text);
    if (known) return known;
    const runs = this.runsOf(text, weight);
    const word: Word = {
      text,
      runs,
      width: runs.reduce((sum, { width }) => sum + width, 0),
      rightToLeft: isRightToLeft(text),
    };
    this.words[weight].set(text, word);
    return word;
  }

  private runsOf(text: string, weight: Weight): Run[] {
    const parts: { face: Face; text: string }[] = [];
    for (const character of text) {
      const last = parts.at(-1);
      // A mark stays with the letter it stands on where that letter's face has it.
      const stays = MARK.test(character) && last?.face.covers.has(codePoint(character));
      const face = stays ? last?.face : this.faceFor(character, weight);
      if (!face) {
        this.missing.add(character);
        const stand = this.standIn(weight);
        if (last?.face === stand.face) last.text += stand.text;
        else parts.push(stand);
      } else if (last?.face === face) last.text += character;
      else parts.push({ face, text: character });
    }
    return parts.map(({ face, text: part }) => ({
      face,
      ...face.glyphsOf(part),
      thickened: weight === "bold" && this.faces.regular.includes(face),
    }));
  }

  private faceFor(character: string, weight: Weight): Face | undefined {
    const point = codePoint(character);
    return this.faces[weight].find(({ covers }) => covers.has(point));
  }

  private standIn(weight: Weight): { face: Face; text: string } {
    for (const text of [REPLACEMENT, "?"]) {
      const face = this.faceFor(text, weight);
      if (face) return { face, text };
    }
    throw new Error("none of the fonts has a question mark");
  }
}

const codePoint = (character: string) => character.codePointAt(0) ?? 0;
