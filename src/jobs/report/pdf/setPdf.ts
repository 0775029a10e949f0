import { PDFDocument } from "@cantoo/pdf-lib";
import type { ReportDocument } from "../document.ts";
import { boxesOf, gathered, weightOfAll } from "./blocks.ts";
import { REPLACEMENT } from "./characters.ts";
import { Flow } from "./flow.ts";
import { type FontFiles, Fonts } from "./fonts.ts";
import { HeadAndFoot } from "./headAndFoot.ts";
import { addPages, type Beginning, describe } from "./pages.ts";
import { margins, type Paper, paperSizes } from "./paper.ts";
import { type BytesOf, Pictures } from "./pictures.ts";
import { heading, type Measure, titleOf, words } from "./prose.ts";

export interface Progress {
  /** set so far */
  readonly pages: number;
  /** of the whole work, from 0 to 1 */
  readonly share: number;
}

export interface Setting {
  readonly paper: Paper;
  readonly pictures: BytesOf;
  readonly fonts: FontFiles;
  readonly onProgress?: (progress: Progress) => void;
  /** looked at between blocks, and within one after each page */
  readonly signal?: AbortSignal;
}

/** Share of the work that is left when all pages are set: the file is written. */
const WRITING = 0.2;

/** Characters without a font are listed up to this number. */
const MOST_LISTED = 60;

/**
 * Sets a report on paper. The same document, paper, pictures and fonts give the same bytes: nothing of the clock and
 * nothing of chance is in it.
 *
 * @returns bytes of a PDF
 * @throws the signal's reason, where that was given up
 */
export async function setPdf(
  document: ReportDocument,
  setting: Setting,
): Promise<Uint8Array<ArrayBuffer>> {
  const { paper, signal, onProgress } = setting;
  const [width, height] = paperSizes[paper];
  const pdf = await PDFDocument.create({ updateMetadata: false });
  describe(pdf, document);
  const fonts = await Fonts.of(pdf, setting.fonts);
  const pictures = new Pictures(pdf, setting.pictures);
  const measure: Measure = { left: margins.side, width: width - 2 * margins.side };
  const around = new HeadAndFoot(fonts, document, measure, height);
  const flow = new Flow({ width, height, top: margins.top, bottom: around.bottom });
  const beginnings: Beginning[] = [];

  const all = document.parts.reduce((sum, { blocks }) => sum + 1 + weightOfAll(blocks), 0);
  const say = (done: number) => {
    signal?.throwIfAborted();
    onProgress?.({ pages: flow.sheets.length, share: (1 - WRITING) * (done / all) });
  };
  let done = 0;
  flow.add(...titleOf(fonts, document, measure));
  for (const part of document.parts) {
    const title = heading(fonts, part.title, "part", measure);
    flow.add({
      ...title,
      newPage: part.newPage ?? false,
      draw: (sheet, top) => {
        beginnings.push({ title: part.title, sheet, top });
        title.draw(sheet, top);
      },
    });
    done += 1;
    const within: Measure = part.dense ? { ...measure, dense: true } : measure;
    for (const together of gathered(part.blocks)) {
      const weight = weightOfAll(together);
      let pages = flow.sheets.length;
      let boxes = 0;
      for (const box of await boxesOf(together, fonts, within, pictures)) {
        flow.add(box);
        boxes += 1;
        if (flow.sheets.length === pages) continue;
        pages = flow.sheets.length;
        say(done + Math.min(boxes, weight));
      }
      done += weight;
      say(done);
    }
  }
  if (fonts.missing.size > 0) {
    flow.add(...words(fonts, { text: missingInWords(fonts.missing), tone: "soft" }, measure));
  }
  flow.end();
  flow.sheets.forEach((sheet, index) => {
    around.draw(sheet, index + 1, flow.sheets.length);
  });
  addPages(pdf, flow.sheets, beginnings);
  signal?.throwIfAborted();
  const bytes = await pdf.save({ addDefaultPage: false, updateFieldAppearances: false });
  signal?.throwIfAborted();
  onProgress?.({ pages: flow.sheets.length, share: 1 });
  // The file's writer makes its own array: no memory that is shared.
  return bytes as Uint8Array<ArrayBuffer>;
}

function missingInWords(missing: ReadonlySet<string>): string {
  const named = [...missing].slice(0, MOST_LISTED).map((character) => {
    const point = character.codePointAt(0) ?? 0;
    return `U+${point.toString(16).toUpperCase().padStart(4, "0")}`;
  });
  const more = missing.size > MOST_LISTED ? ` and ${missing.size - MOST_LISTED} more` : "";
  return `${REPLACEMENT} stands for characters that the fonts of this paper do not have: ${named.join(" ")}${more}.`;
}
