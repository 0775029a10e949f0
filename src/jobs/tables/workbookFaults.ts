import { strFromU8, unzipSync } from "fflate";

/** A cell in which a formula failed; rows and columns counted from 0. */
export interface WorkbookFault {
  readonly row: number;
  readonly column: number;
  /** e.g. #N/A */
  readonly fault: string;
}

/**
 * The failed formulas of a workbook, by the sheet's name. The reader of workbooks gives them as empty cells, and a
 * figure that failed is not a figure that is absent.
 */
export function faultsOf(bytes: Uint8Array): ReadonlyMap<string, readonly WorkbookFault[]> {
  const parts = unzipSync(bytes, {
    filter: ({ name }) =>
      name === "xl/workbook.xml" ||
      name === "xl/_rels/workbook.xml.rels" ||
      /^xl\/worksheets\/[^/]+\.xml$/.test(name),
  });
  const text = (name: string) => (parts[name] ? strFromU8(parts[name]) : "");
  const targets = new Map(
    [...text("xl/_rels/workbook.xml.rels").matchAll(/<Relationship\b[^>]*>/g)].map(([tag]) => [
      attribute(tag, "Id"),
      attribute(tag, "Target").replace(/^\/?(xl\/)?/, "xl/"),
    ]),
  );
  const faults = new Map<string, WorkbookFault[]>();
  for (const [tag] of text("xl/workbook.xml").matchAll(/<sheet\b[^>]*>/g)) {
    const sheet = text(targets.get(attribute(tag, "r:id")) ?? "");
    faults.set(unescaped(attribute(tag, "name")), failedCells(sheet));
  }
  return faults;
}

function failedCells(sheet: string): WorkbookFault[] {
  // Up to the next cell and no further: one that is never closed would be looked for to the end of the sheet.
  return [...sheet.matchAll(/<c\s([^<>]*)>((?:[^<]|<(?!\/?c\b))*)<\/c>/g)].flatMap(
    ([, attributes = "", inside = ""]) => {
      if (attribute(` ${attributes}`, "t") !== "e" || attributes.endsWith("/")) return [];
      const [, letters = "", digits = ""] =
        /^([A-Z]{1,3})([0-9]{1,7})$/.exec(attribute(` ${attributes}`, "r")) ?? [];
      const fault = /<v>([^<]*)<\/v>/.exec(inside)?.[1] ?? "#ERROR";
      return letters ? [{ row: Number(digits) - 1, column: columnNumber(letters), fault }] : [];
    },
  );
}

const attribute = (tag: string, name: string) =>
  new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1] ?? "";

const columnNumber = (letters: string) =>
  [...letters].reduce((number, letter) => number * 26 + letter.charCodeAt(0) - 64, 0) - 1;

const unescaped = (text: string) =>
  text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replaceAll("&amp;", "&");
