import { shownName } from "../jobs/pack/fileNames.ts";
import type { Source } from "../jobs/tables/session.ts";

/** Bytes of a file that are read at all: what is larger is no table that somebody keeps of wells or of a few days. */
const MOST_BYTES = 60e6;

export type TableFile =
  | { readonly ok: true; readonly source: Source }
  | { readonly ok: false; readonly why: string };

/**
 * A file that somebody chose or dropped, as the source of a table.
 *
 * @param smaller what makes it small enough, as a sentence
 */
export async function readTableFile(file: File, smaller: string): Promise<TableFile> {
  const name = shownName(file.name);
  if (file.size > MOST_BYTES) {
    const megabytes = Math.round(file.size / 1e6);
    return {
      ok: false,
      why: `${name} has ${megabytes} MB; at most ${MOST_BYTES / 1e6} MB are read. ${smaller}`,
    };
  }
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    return { ok: true, source: { is: "file", name: file.name, bytes } };
  } catch {
    return {
      ok: false,
      why: `${name} could not be read from the disk. Is it open in another program? Close it there, then choose it again.`,
    };
  }
}

/** What a source is called in words. */
export const sourceInWords = (source: Source): string =>
  source.is === "file" ? shownName(source.name) : "what was pasted";
