import Papa from "papaparse";
import readWorkbook from "read-excel-file/universal";
import { unpackedZip, zipProblem } from "../files/zipGuard.ts";
import type { Cell, Row, Sheet } from "./cell.ts";
import { faultsOf, type WorkbookFault } from "./workbookFaults.ts";

/** The sheets of a file, or why it cannot be read and what to do. */
export type Opened =
  | { readonly ok: true; readonly sheets: readonly Sheet[] }
  | { readonly ok: false; readonly why: string };

/** More rows or columns than this are no list of an office's wells. */
export const MOST_ROWS = 200_000;
export const MOST_COLUMNS = 400;
/** bytes of a text file */
const MOST_BYTES = 50e6;

const refused = (why: string): Opened => ({ ok: false, why });

/** Text with commas, tabs or semicolons between the cells, which one is told from the text. */
export function openText(text: string, name: string): Opened {
  const plain = text.replace(/^\ufeff/, "");
  if (plain.trim() === "")
    return refused("There is nothing in it. Choose another file, or paste the table.");
  if (plain.includes("\0")) {
    return refused(
      "This is not a table of text. Save it as CSV or as a workbook (.xlsx), then choose it again.",
    );
  }
  const { data, errors } = Papa.parse<string[]>(plain, {
    delimiter: delimiterOf(plain),
    skipEmptyLines: false,
  });
  const quote = errors.find(({ type }) => type === "Quotes");
  if (quote) {
    return refused(
      `A quotation mark near row ${(quote.row ?? 0) + 1} is opened and not closed, so the rows below it cannot be told apart. Close it or take it out, then choose the file again.`,
    );
  }
  const rows = data.map((row) => row.map((cell): Cell => (cell.trim() === "" ? null : cell)));
  return sized([{ name, rows }]);
}

/**
 * The mark between cells: the one that cuts most rows into the same count of cells, more than one. Marks inside
 * quotation marks are not counted.
 */
function delimiterOf(text: string): string {
  const lines = text
    .slice(0, 200_000)
    .replace(/"[^"]*"/g, '""')
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== "")
    .slice(0, 60);
  const scored = ["\t", ";", ",", "|"].map((mark) => {
    const counts = lines.map((line) => line.split(mark).length - 1).filter((count) => count > 0);
    const usual = counts.toSorted((a, b) => a - b)[Math.floor(counts.length / 2)] ?? 0;
    const alike = counts.filter((count) => count === usual).length;
    return { mark, score: usual === 0 ? 0 : alike / lines.length + Math.min(usual, 20) / 100 };
  });
  // A comma may also stand in the numbers: at the same score the rarer mark wins, which stands first.
  const best = scored.reduce((a, b) => (b.score > a.score + 1e-9 ? b : a));
  return best.score > 0 ? best.mark : ",";
}

/** The text of a file of bytes: by its mark, else UTF-8, else as older spreadsheets write it. */
export function textOf(bytes: Uint8Array): string {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (a === 0xfe && b === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

const isZip = (bytes: Uint8Array) => bytes[0] === 0x50 && bytes[1] === 0x4b;
const isOldWorkbook = (bytes: Uint8Array) => bytes[0] === 0xd0 && bytes[1] === 0xcf;

/** A file's sheets, by what is in it and not by its name. */
export async function openBytes(bytes: Uint8Array, name: string): Promise<Opened> {
  if (bytes.length === 0) return refused("The file is empty. Choose another one.");
  if (isOldWorkbook(bytes)) {
    return refused(
      "This is a workbook of the old kind (.xls), or one with a password. Open it in its own program, save it as .xlsx or CSV without a password, then choose it again.",
    );
  }
  if (isZip(bytes)) return openWorkbook(bytes);
  if (bytes.length > MOST_BYTES) {
    return refused(
      "The file is larger than 50 MB. Save only the sheet that is wanted, as CSV, and choose that.",
    );
  }
  return openText(textOf(bytes), name);
}

async function openWorkbook(bytes: Uint8Array): Promise<Opened> {
  const problem = zipProblem(bytes);
  if (problem) return refused(problem);
  try {
    const read = await readWorkbook(unpackedZip(bytes).buffer, { trim: false });
    const faults = faultsOf(bytes);
    return sized(
      read.map(({ sheet, data }) => ({
        name: sheet,
        rows: withFaults(
          (data as unknown as unknown[][]).map((row) => row.map(cellOf)),
          faults.get(sheet) ?? [],
        ),
      })),
    );
  } catch (error) {
    return refused(
      `The workbook cannot be read (${error instanceof Error ? error.message : String(error)}). Open it in its own program and save it again as .xlsx, or save the sheet as CSV.`,
    );
  }
}

function cellOf(value: unknown): Cell {
  if (value instanceof Date) {
    if (Number.isNaN(value.getTime())) return { fault: "not a date" };
    // A spreadsheet counts in days: half past nine comes out a thousandth of a second off.
    const [day = "", time = ""] = new Date(Math.round(value.getTime() / 1000) * 1000)
      .toISOString()
      .replace("Z", "")
      .split("T");
    return time === "00:00:00.000" ? { day } : { day, time };
  }
  if (typeof value === "string") return value.trim() === "" ? null : value;
  if (typeof value === "number" || typeof value === "boolean") return value;
  return null;
}

function withFaults(rows: Cell[][], faults: readonly WorkbookFault[]) {
  for (const { row, column, fault } of faults) {
    // A table with a row as far down is refused; it need not be filled up first.
    if (row > MOST_ROWS) continue;
    while (rows.length <= row) rows.push([]);
    const cells = rows[row] as Cell[];
    while (cells.length <= column) cells.push(null);
    cells[column] = { fault };
  }
  return rows;
}

function sized(sheets: readonly Sheet[]): Opened {
  for (const { name, rows } of sheets) {
    const columns = rows.reduce((most, row: Row) => Math.max(most, row.length), 0);
    if (rows.length > MOST_ROWS || columns > MOST_COLUMNS) {
      return refused(
        `"${name.slice(0, 60)}" has ${rows.length.toLocaleString("en-US")} rows and ${columns} columns; at most ${MOST_ROWS.toLocaleString("en-US")} and ${MOST_COLUMNS} are read. Save only what is wanted in a file of its own.`,
      );
    }
  }
  const filled = sheets.filter(({ rows }) => rows.some((row) => row.some((cell) => cell !== null)));
  return filled.length === 0
    ? refused("There is nothing in it. Choose another file, or paste the table.")
    : { ok: true, sheets: filled };
}
