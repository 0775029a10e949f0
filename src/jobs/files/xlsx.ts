import { strToU8, zipSync } from "fflate";
import { columnLetters } from "./columnLetters.ts";

/**
 * A workbook, as plain as the form allows: Office Open XML, ECMA-376 part 1, with words in their cells.
 *
 * Written here, since the library for it packs what is above 160 kB in a worker that it makes out of a text, which the
 * page's content security policy forbids: a longer export would never come to its end.
 */
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const DOCUMENT = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

const LONGEST_SHEET_NAME = 31;
const WIDEST_COLUMN = 60;
/** The first row, in bold. */
const BOLD = 1;

interface Sheet {
  readonly name: string;
  /** the first names the columns and stays in sight */
  readonly rows: readonly (readonly (string | number)[])[];
}

/** @returns the bytes of an .xlsx, its sheets in the order given */
export function writeWorkbook(sheets: readonly Sheet[]): Uint8Array<ArrayBuffer> {
  const numbered = sheets.map((each, index) => ({ ...each, number: index + 1 }));
  const types = numbered.map(
    ({ number }) =>
      `<Override PartName="/xl/worksheets/sheet${number}.xml" ContentType="${TYPE}.worksheet+xml"/>`,
  );
  const named = numbered.map(
    ({ name, number }) =>
      `<sheet name="${escaped(sheetName(name))}" sheetId="${number}" r:id="rId${number}"/>`,
  );
  const parts: Record<string, string> = {
    "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/>${types.join("")}<Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/></Types>`,
    "_rels/.rels": relations(["officeDocument", "xl/workbook.xml"]),
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${DOCUMENT}"><sheets>${named.join("")}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": relations(
      ...numbered.map(({ number }) => ["worksheet", `worksheets/sheet${number}.xml`] as const),
      ["styles", "styles.xml"],
    ),
    "xl/styles.xml": `<styleSheet xmlns="${MAIN}"><fonts count="2"><font><sz val="11"/></font><font><b/><sz val="11"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/></cellXfs></styleSheet>`,
  };
  for (const { rows, number } of numbered) parts[`xl/worksheets/sheet${number}.xml`] = sheet(rows);
  const files = Object.entries(parts).map(([path, text]) => [path, strToU8(HEAD + text)] as const);
  return zipSync(Object.fromEntries(files));
}

const relations = (...targets: (readonly [type: string, target: string])[]) =>
  `<Relationships xmlns="${PACKAGE}/relationships">${targets
    .map(
      ([type, target], index) =>
        `<Relationship Id="rId${index + 1}" Type="${DOCUMENT}/${type}" Target="${target}"/>`,
    )
    .join("")}</Relationships>`;

/** Some signs are not for a sheet's name, and neither is an apostrophe at its ends. */
const sheetName = (name: string) =>
  name
    .replace(/[[\]:*?/\\]/g, " ")
    .slice(0, LONGEST_SHEET_NAME)
    .replace(/^['\s]+|['\s]+$/g, "") || "Sheet";

function sheet(rows: Sheet["rows"]): string {
  const cells = rows.map((row, index) => {
    const style = index === 0 ? ` s="${BOLD}"` : "";
    const written = row.map((value, column) =>
      cell(`${columnLetters(column)}${index + 1}`, value, style),
    );
    return `<row r="${index + 1}">${written.join("")}</row>`;
  });
  const widths = (rows[0] ?? []).map((_, column) => {
    const longest = rows.reduce((most, row) => Math.max(most, String(row[column] ?? "").length), 0);
    const width = Math.min(WIDEST_COLUMN, longest + 2);
    return `<col min="${column + 1}" max="${column + 1}" width="${width}" customWidth="1"/>`;
  });
  const frozen =
    '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>';
  return `<worksheet xmlns="${MAIN}">${frozen}<cols>${widths.join("")}</cols><sheetData>${cells.join("")}</sheetData></worksheet>`;
}

function cell(at: string, value: string | number, style: string): string {
  if (value === "") return "";
  if (typeof value === "number") return `<c r="${at}"${style}><v>${value}</v></c>`;
  return `<c r="${at}"${style} t="inlineStr"><is><t xml:space="preserve">${escaped(value)}</t></is></c>`;
}

const escaped = (text: string) =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    // A reader would turn a line's end into another one.
    .replaceAll("\r", "&#13;");
