import { type PDFDocument, PDFName, type PDFRef } from "@cantoo/pdf-lib";
import type { ReportDocument } from "../document.ts";
import { setOutline } from "./outline.ts";
import type { Sheet } from "./sheet.ts";

/** Where a part begins. */
export interface Beginning {
  readonly title: string;
  readonly sheet: Sheet;
  readonly top: number;
}

/** What a reader's program says of the file, and the language that it reads it out in. */
export function describe(pdf: PDFDocument, { title, subtitle, asOf }: ReportDocument): void {
  pdf.setTitle(title, { showInWindowTitleBar: true });
  pdf.setSubject(subtitle);
  pdf.setLanguage("en");
  pdf.setProducer("Latchline");
  pdf.setCreator("Latchline");
  const instant = new Date(asOf);
  if (Number.isNaN(instant.getTime())) return;
  pdf.setCreationDate(instant);
  pdf.setModificationDate(instant);
}

/** Puts filled sheets into the file as its pages, with a bookmark for each part. */
export function addPages(
  pdf: PDFDocument,
  sheets: readonly Sheet[],
  beginnings: readonly Beginning[],
): void {
  const named = (all: Iterable<readonly [string, { readonly ref: PDFRef }]>) =>
    Object.fromEntries([...all].map(([name, { ref }]) => [name, ref]));
  const pages = new Map(
    sheets.map((sheet) => {
      const page = pdf.addPage([sheet.width, sheet.height]);
      const content = pdf.context.register(pdf.context.flateStream(sheet.content));
      const fonts = [...sheet.faces].map(({ name, font }) => [name, font] as const);
      page.node.set(PDFName.of("Contents"), content);
      page.node.set(
        PDFName.of("Resources"),
        pdf.context.obj({ Font: named(fonts), XObject: named(sheet.images) }),
      );
      return [sheet, page] as const;
    }),
  );
  const bookmarks = beginnings.flatMap(({ title, sheet, top }) => {
    const page = pages.get(sheet);
    return page ? [{ title, page, y: Math.round(sheet.height - top) }] : [];
  });
  setOutline(pdf, bookmarks);
}
