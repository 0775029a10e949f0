import * as fontkitModule from "@cantoo/fontkit";
import type { PDFDocument, PDFFont } from "@cantoo/pdf-lib";

/** A font's file, as the page or a test has it: TrueType, as it is or packed as WOFF. */
export interface FontFile {
  readonly bytes: Uint8Array;
  /** size of this font beside the others, so that their letters are equally high */
  readonly scale?: number;
}

/** Where one glyph stands, counted at size 1 from the beginning of its text; y upward. */
interface Place {
  readonly glyph: string;
  readonly x: number;
  readonly y: number;
}

/** A text as a page's content has it. */
export interface Glyphs {
  readonly glyphs: string;
  /** at size 1 */
  readonly width: number;
  /** where the glyphs do not just follow each other: marks stand over and under letters */
  readonly placed?: { readonly text: string; readonly places: readonly Place[] };
}

// The package is one of both kinds: bundlers and Node hand out its default differently.
const fontkit = "default" in fontkitModule ? fontkitModule.default : fontkitModule;

/** Figures of one width, so that columns stand; letters one by one, so that they are found again by a search. */
const FEATURES = { tnum: true, liga: false, clig: false, dlig: false, frac: false };

/** Characters that look the same whatever stands beside them. */
const PLAIN = /^[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}]+$/u;

/** Hexadecimal digits of one glyph. */
const DIGITS = 4;

/** One font in one file. */
export class Face {
  /** as the pages' resources name it */
  readonly name: string;
  readonly font: PDFFont;
  readonly scale: number;
  readonly covers: ReadonlySet<number>;
  private readonly bytes: Uint8Array;
  private readonly single = new Map<string, Glyphs>();
  private opened: ReturnType<typeof openFont> | undefined;

  private constructor(name: string, font: PDFFont, { bytes, scale = 1 }: FontFile) {
    this.name = name;
    this.font = font;
    this.scale = scale;
    this.bytes = bytes;
    this.covers = new Set(font.getCharacterSet());
  }

  static async of(pdf: PDFDocument, file: FontFile, name: string): Promise<Face> {
    pdf.registerFontkit(fontkit as Parameters<PDFDocument["registerFontkit"]>[0]);
    const font = await pdf.embedFont(file.bytes, { subset: true, features: FEATURES });
    return new Face(name, font, file);
  }

  /**
   * A text that this face has every character of. Plain text is put together from its characters, each looked up
   * once: thousands of hashes and times would each have to be laid out otherwise.
   */
  glyphsOf(text: string): Glyphs {
    const known = this.single.get(text);
    if (known) return known;
    const characters = [...text];
    if (characters.length === 1) {
      const alone = {
        glyphs: this.font.encodeText(text).asString(),
        width: this.font.widthOfTextAtSize(text, 1) * this.scale,
      };
      this.single.set(text, alone);
      return alone;
    }
    if (!PLAIN.test(text)) return this.laidOut(text);
    const each = characters.map((character) => this.glyphsOf(character));
    return {
      glyphs: each.map(({ glyphs }) => glyphs).join(""),
      width: each.reduce((sum, { width }) => sum + width, 0),
    };
  }

  /** With marks where the font puts them; the file's own font knows glyphs and no places. */
  private laidOut(text: string): Glyphs {
    const glyphs = this.font.encodeText(text).asString();
    this.opened ??= openFont(this.bytes);
    const positions = this.opened.layout(text, FEATURES).positions ?? [];
    if (positions.every(({ xOffset, yOffset }) => xOffset === 0 && yOffset === 0)) {
      return { glyphs, width: this.font.widthOfTextAtSize(text, 1) * this.scale };
    }
    const unit = this.scale / this.opened.unitsPerEm;
    const places: Place[] = [];
    let at = 0;
    for (const { xAdvance, xOffset, yOffset } of positions) {
      const index = places.length * DIGITS;
      const glyph = glyphs.slice(index, index + DIGITS);
      places.push({ glyph, x: (at + xOffset) * unit, y: yOffset * unit });
      at += xAdvance;
    }
    return { glyphs, width: at * unit, placed: { text, places } };
  }
}

function openFont(bytes: Uint8Array) {
  const opened = fontkit.create(bytes);
  if ("fonts" in opened) throw new Error("a font's file with several fonts in it");
  return opened;
}
