import Papa from "papaparse";
import { writeWorkbook } from "./xlsx.ts";

/** What stands in a cell. A number stays a number; words are never run as a formula. */
export type Cell = string | number | undefined;

/** A table that leaves the program: its name, its columns, and a cell for each column in each row. */
export interface Table {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** What a cell holds at most in the spreadsheet programs. */
const LONGEST = 32_767;

/** First signs that make a spreadsheet take words for a formula, plain and as East Asian keyboards write them. */
const FORMULA = /^([\t\r\n]|\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/u;

/** Words that are a number anyway do no harm and stay what they are. */
const PLAIN_NUMBER = /^\s*[+-]?\d+([.,]\d+)?\s*$/;

/** Signs that no letter is: XML does not take them, and nobody sees them. */
const NOT_WRITTEN = /(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu;

/**
 * A cell as it may leave the program: words that a spreadsheet would run as a formula get an apostrophe ahead of them.
 *
 * A workbook keeps words apart from formulas by itself; they get it there too, since a workbook is soon saved as CSV.
 *
 * @example neutral('=HYPERLINK("http://…")')  // '\'=HYPERLINK("http://…")'
 */
export function neutral(cell: Cell): string | number {
  if (cell === undefined) return "";
  if (typeof cell === "number") return Number.isFinite(cell) ? cell : "";
  const words = cell.slice(0, LONGEST - 1).replace(NOT_WRITTEN, "");
  return FORMULA.test(words) && !PLAIN_NUMBER.test(words) ? `'${words}` : words;
}

const neutralRows = ({ columns, rows }: Table) => [columns, ...rows].map((row) => row.map(neutral));

/** As CSV in UTF-8; its mark ahead, without which spreadsheet programs take it for an older encoding. */
export function csvOf(table: Table): string {
  return `\ufeff${Papa.unparse(neutralRows(table), { newline: "\r\n" })}\r\n`;
}

/** As a workbook, a sheet for each table. */
export function xlsxOf(...tables: readonly [Table, ...Table[]]): Uint8Array<ArrayBuffer> {
  return writeWorkbook(tables.map((table) => ({ name: table.name, rows: neutralRows(table) })));
}
