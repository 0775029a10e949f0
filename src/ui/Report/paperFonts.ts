import regularUrl from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff?url";
import boldUrl from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff?url";
import moreRegularUrl from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff?url";
import moreBoldUrl from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff?url";
import restUrl from "dejavu-fonts-ttf/ttf/DejaVuSans.ttf?url";
import type { FontFiles } from "../../jobs/report/pdf/fonts.ts";

/**
 * The fonts of a report on paper, from what the tablet keeps: the text face of the screens, and for every character
 * that it lacks one with nearly six thousand, made smaller so that their letters are equally high.
 */
export async function paperFonts(): Promise<FontFiles> {
  const urls = [regularUrl, moreRegularUrl, boldUrl, moreBoldUrl, restUrl];
  const [regular, moreRegular, bold, moreBold, rest] = await Promise.all(urls.map(bytesAt));
  if (!regular || !moreRegular || !bold || !moreBold || !rest) throw new Error("a font is missing");
  const others = { bytes: rest, scale: 0.92 };
  return {
    regular: [{ bytes: regular }, { bytes: moreRegular }, others],
    bold: [{ bytes: bold }, { bytes: moreBold }, others],
  };
}

async function bytesAt(url: string): Promise<Uint8Array> {
  const answer = await fetch(url).catch(() => undefined);
  if (!answer?.ok) {
    throw new Error(
      "A font of the report is not on this tablet. Open Latchline once with network, then make the PDF again.",
    );
  }
  return new Uint8Array(await answer.arrayBuffer());
}
