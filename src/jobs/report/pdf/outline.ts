import {
  type PDFDocument,
  PDFHexString,
  PDFName,
  type PDFPage,
  type PDFRef,
} from "@cantoo/pdf-lib";

export interface Bookmark {
  readonly title: string;
  readonly page: PDFPage;
  /** from the page's foot, as PDF counts */
  readonly y: number;
}

/** Puts bookmarks beside the pages, one below the other. */
export function setOutline(pdf: PDFDocument, bookmarks: readonly Bookmark[]): void {
  if (bookmarks.length === 0) return;
  const { context } = pdf;
  const root = context.nextRef();
  const refs = bookmarks.map(() => context.nextRef());
  const at = (index: number): Record<string, PDFRef> | undefined => {
    const ref = refs[index];
    return ref && { ref };
  };
  bookmarks.forEach(({ title, page, y }, index) => {
    const [self, before, after] = [refs[index], at(index - 1), at(index + 1)];
    if (!self) return;
    context.assign(
      self,
      context.obj({
        Title: PDFHexString.fromText(title),
        Parent: root,
        Dest: [page.ref, "XYZ", null, y, null],
        ...(before && { Prev: before.ref }),
        ...(after && { Next: after.ref }),
      }),
    );
  });
  const [first, last] = [refs[0], refs.at(-1)];
  if (!first || !last) return;
  context.assign(
    root,
    context.obj({ Type: "Outlines", First: first, Last: last, Count: bookmarks.length }),
  );
  pdf.catalog.set(PDFName.of("Outlines"), root);
}
