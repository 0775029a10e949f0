import type { PDFDocument, PDFImage } from "@cantoo/pdf-lib";

/** Bytes of the JPEG of a hash, where it is here. */
export type BytesOf = (hash: string) => Promise<Uint8Array | undefined>;

/** A picture of the store as the file has it, or why it is not in it. */
export type Shown = PDFImage | "not here" | "not readable";

/** Pictures by their hashes, each put into the file once and as it is. */
export class Pictures {
  private readonly pdf: PDFDocument;
  private readonly bytesOf: BytesOf;
  private readonly known = new Map<string, Shown>();

  constructor(pdf: PDFDocument, bytesOf: BytesOf) {
    this.pdf = pdf;
    this.bytesOf = bytesOf;
  }

  async shown(hash: string): Promise<Shown> {
    const known = this.known.get(hash) ?? (await this.embedded(hash));
    this.known.set(hash, known);
    return known;
  }

  private async embedded(hash: string): Promise<Shown> {
    const bytes = await this.bytesOf(hash);
    if (!bytes) return "not here";
    try {
      const image = await this.pdf.embedJpg(bytes);
      return image.width > 0 && image.height > 0 ? image : "not readable";
    } catch {
      return "not readable";
    }
  }
}
