import { extractText, getDocumentProxy } from "unpdf";

/** What a PDF says, page by page, as a reader's search finds it. */
export async function pagesOf(bytes: Uint8Array): Promise<string[]> {
  const proxy = await getDocumentProxy(bytes.slice());
  try {
    const { text } = await extractText(proxy);
    return text;
  } finally {
    await proxy.destroy();
  }
}

/** Without white, which lines and columns put elsewhere, and with composed letters and their look-alikes made one. */
export const bare = (text: string) => text.normalize("NFKC").replace(/\s+/gu, "");

/** The first of these words that does not come after the one before it; undefined where all do. */
export function firstMissing(words: readonly string[], text: string): string | undefined {
  const whole = bare(text);
  let from = 0;
  for (const word of words) {
    const at = whole.indexOf(bare(word), from);
    if (at < 0) return word;
    from = at + bare(word).length;
  }
  return undefined;
}
