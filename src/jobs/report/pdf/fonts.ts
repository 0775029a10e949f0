import * as fontkitModule from "@cantoo/fontkit";
import type { PDFDocument, PDFFont } from "@cantoo/pdf-lib";
import { isRightToLeft, REPLACEMENT } from "./characters.ts";

/** A font's file, as the page or a test has it: TrueType, as it is or packed as WOFF. */
export interface FontFile {
  readonly bytes: Uint8Array;
  /** size of this font beside the others, so that their letters are equally high */
  readonly scale?: number;
}

/** For each weight the fonts in order: a character is set in the first that has it. */
export interface FontFiles {
  readonly regular: readonly FontFile[];
  readonly bold: readonly FontFile[];
}

export type Weight = keyof FontFiles;

export interface Face {
  /** as the pages' resources name it */
  readonly name: string;
  readonly font: PDFFont;
  readonly scale: number;
  readonly covers: ReadonlySet<number>;
  /** of single characters, as they were met */
  readonly glyphs: Map<string, Glyphs>;
}

interface Glyphs {
  /** as the page's content has them */
  readonly glyphs: string;
  /** at size 1 */
  readonly width: number;
}

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

// The package is one of both kinds: bundlers and Node hand out its default differently.
const fontkit = "default" in fontkitModule ? fontkitModule.default : fontkitModule;

/** Figures of one width, so that columns stand; letters one by one, so that they are found again by a search. */
const FEATURES = { tnum: true, liga: false, clig: false, dlig: false, frac: false };

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
    pdf.registerFontkit(fontkit as Parameters<PDFDocument["registerFontkit"]>[0]);
    const faces = new Map<FontFile, Face>();
    for (const file of [...files.regular, ...files.bold]) {
      if (faces.has(file)) continue;
      const font = await pdf.embedFont(file.bytes, { subset: true, features: FEATURES });
      faces.set(file, {
        name: `F${faces.size + 1}`,
        font,
        scale: file.scale ?? 1,
        covers: new Set(font.getCharacterSet()),
        glyphs: new Map(),
      });
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
      ...glyphsOf(face, part),
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

/** Characters that look the same whatever stands beside them. */
const PLAIN = /^[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}]+$/u;

/**
 * Glyphs of a text and their width at size 1. Plain text is put together from its characters, each looked up once:
 * thousands of hashes and times would each have to be laid out otherwise.
 */
function glyphsOf(face: Face, text: string): Glyphs {
  const known = face.glyphs.get(text);
  if (known) return known;
  const characters = [...text];
  if (characters.length > 1 && PLAIN.test(text)) {
    const each = characters.map((character) => glyphsOf(face, character));
    return {
      glyphs: each.map(({ glyphs }) => glyphs).join(""),
      width: each.reduce((sum, { width }) => sum + width, 0),
    };
  }
  const laidOut: Glyphs = {
    glyphs: face.font.encodeText(text).asString(),
    width: face.font.widthOfTextAtSize(text, 1) * face.scale,
  };
  if (characters.length === 1) face.glyphs.set(text, laidOut);
  return laidOut;
}

const codePoint = (character: string) => character.codePointAt(0) ?? 0;
